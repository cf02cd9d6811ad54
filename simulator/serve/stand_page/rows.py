"""The readings of the stand, each beside its healthy ghost."""

from typing import Any

from simulator.plant.operating_point import OperatingPoint
from simulator.quantities.shown import from_display, show, to_display
from simulator.serve.bench_readings import HEATING_READINGS, READINGS, read
from simulator.serve.stand.gauges import GAUGE_FED, by_gauges
from simulator.serve.stand_page.scales import scales_of

NOTICEABLE = 0.012  # of the scale; less than this is within a tool's error
APART = {"temperature": "temperature_difference", "gauge_pressure": "pressure_difference"}


def rows_of(
    points: tuple[OperatingPoint, OperatingPoint], called: str, system: str, gauges: str | None
) -> list[dict[str, Any]]:
    """Every reading as it is and healthy.

    Parameters
    ----------
    points : tuple of OperatingPoint
        As it is, and healthy.
    called : str
        Mode that the thermostat calls for.
    system : str
        ``us`` or ``si``.
    gauges : str, optional
        Refrigerant that the gauges are set to; else the right one.

    Returns
    -------
    list
        Plain data.
    """
    return [
        _row(name, scale, points, (system, gauges)) for name, scale in scales_of(called).items()
    ]


def _value(name: str, point: OperatingPoint) -> tuple[float, str]:
    if name in ("temperature_split", "temperature_rise"):
        rise = point.supply_plenum_temperature - point.air_handler_return_temperature
        return float(rise if name.endswith("rise") else -rise), "temperature_difference"
    field, kind = READINGS.get(name) or HEATING_READINGS[name]
    return float(read(point, field, kind)), kind


def _row(
    name: str,
    scale: tuple[str, str, float, float],
    points: tuple[OperatingPoint, OperatingPoint],
    shown_as: tuple[str, str | None],
) -> dict[str, Any]:
    group, label, low, high = scale
    system, gauges = shown_as
    value, kind = _value(name, points[0])
    if gauges and name in GAUGE_FED:
        value = by_gauges(name, points[0], gauges)
    fine, _ = _value(name, points[1])
    shown, healthy = show(value, kind, system), show(fine, kind, system)
    ends = [float(from_display(end, kind, "us")) for end in (low, high)]
    difference = size_text = ""
    apart = APART.get(kind, kind)
    within = NOTICEABLE * (ends[1] - ends[0])
    if abs(value - fine) > within:
        size_text = str(show(abs(value - fine), apart, system))
        is_more = value > fine
        difference = f"{size_text} above healthy" if is_more else f"{size_text} below healthy"
    return {
        "name": name,
        "label": label,
        "group": group,
        "unit": shown.unit,
        "now": shown.text,
        "healthy": healthy.text,
        "now_number": float(to_display(value, kind, system)),
        "healthy_number": float(to_display(fine, kind, system)),
        "low": float(to_display(ends[0], kind, system)),
        "high": float(to_display(ends[1], kind, system)),
        "difference": difference,
        "goes": "same" if not difference else ("up" if value > fine else "down"),
        "size": size_text,
        "within": str(show(within, apart, system)),
    }
