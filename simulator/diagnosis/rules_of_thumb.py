"""Fixed limits that many people go by, whatever the weather; common practice, no source.

They are what the simulated trainees conclude from, and are meant to be no better than that.
"""

from collections.abc import Callable, Mapping

from simulator.calls.call_file import CallFile
from simulator.calls.choice import NO_FAULT
from simulator.instruments.reading import Reading
from simulator.instruments.worked_out import work_out
from simulator.plant import parameter_file

INCH = 249.09  # of water [Pa]
FAHRENHEIT = 1.0 / 1.8  # [K]
AMPERES_OF_STRIPS = 8.0  # no blower draws as much [A]


def _worked(values: Mapping[str, float], call: CallFile) -> Mapping[str, float]:
    """Superheat, subcooling and the rest, as the sheet works them out."""
    readings = [
        (place, Reading(measurement=name, technique="careful", kind="temperature", value=value))
        for place, (name, value) in enumerate(values.items())
    ]
    fluid = str(parameter_file.read("equipment", call.unit).table("plate").rows["refrigerant"])
    return {item.id: item.value for item in work_out(readings, call.metering, fluid)}


def by_gauges(
    values: Mapping[str, float], words: Mapping[str, str], call: CallFile
) -> tuple[str, ...]:
    """What plainly shows outdoors, else what superheat and subcooling are taken for.

    Parameters
    ----------
    values : mapping
        Newest value of each measurement, in SI. [-]
    words : mapping
        Newest words of each.
    call : CallFile
        For the metering device.

    Returns
    -------
    tuple
        One cause.
    """
    if "Matted" in words.get("look_outdoor_coil", ""):
        return ("dirty_outdoor_coil",)
    return by_charge(values, call) or (
        ("loaded_filter",) if "no light" in words.get("look_filter", "") else (NO_FAULT,)
    )


def by_charge(values: Mapping[str, float], call: CallFile) -> tuple[str, ...]:
    """What superheat and subcooling away from 10 degrees Fahrenheit are taken for.

    Parameters
    ----------
    values : mapping
        Newest value of each measurement, in SI. [-]
    call : CallFile
        For the metering device.

    Returns
    -------
    tuple
        One cause, or none.
    """
    worked = _worked(values, call)
    high = worked.get("superheat", 5.6) > 16.0 * FAHRENHEIT
    low = worked.get("superheat", 5.6) < 4.0 * FAHRENHEIT
    full = worked.get("subcooling", 5.6) > 14.0 * FAHRENHEIT
    empty = worked.get("subcooling", 5.6) < 7.0 * FAHRENHEIT
    if full and high:
        return ("liquid_line_restriction",)
    if full or (low and call.metering == "orifice"):
        return ("overcharge",)
    if empty or high:
        return ("undercharge",)
    return ()


def by_list(
    values: Mapping[str, float], words: Mapping[str, str], call: CallFile
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The first line of the list that is out of its limits.

    Parameters
    ----------
    values : mapping
        Newest value of each measurement, in SI. [-]
    words : mapping
        Newest words of each.
    call : CallFile
        For metering device and mode.

    Returns
    -------
    tuple
        One cause, and the measurements it is taken from.
    """
    for cause, names, is_out in _lines(values, words, call):
        if is_out:
            return (cause,), names
    return (NO_FAULT,), tuple(values)


def _said(words: Mapping[str, str]) -> Callable[[str, str], bool]:
    return lambda name, part: part in words.get(name, "")


def _lines(
    values: Mapping[str, float], words: Mapping[str, str], call: CallFile
) -> list[tuple[str, tuple[str, ...], bool]]:
    said = _said(words)

    def value(name: str, otherwise: float) -> float:
        return values.get(name, otherwise)

    warm = call.mode == "heating"
    split = value("return_dry_bulb", 297.0) - value("supply_dry_bulb", 286.5)
    gauges = by_charge(values, call)
    circuit = ("suction_pressure", "liquid_pressure", "suction_line_temperature",
               "liquid_line_temperature")  # fmt: skip
    return [
        ("blocked_drain", ("look_drain",), said("look_drain", "float is up")),
        ("loaded_filter", ("look_filter",), said("look_filter", "no light")),
        ("open_filter_slot", ("look_slot",), said("look_slot", "square inches")),
        ("iced_indoor_coil", ("look_indoor_coil",), said("look_indoor_coil", "ice")),
        ("dirty_indoor_coil", ("look_indoor_coil",), said("look_indoor_coil", "grey mat")),
        ("dirty_outdoor_coil", ("look_outdoor_coil",), said("look_outdoor_coil", "Matted")),
        ("no_defrost", ("look_frost",), said("look_frost", "block of ice")),
        (
            "strips_on",
            ("air_handler_current",),
            not warm and value("air_handler_current", 2.0) > AMPERES_OF_STRIPS,
        ),
        ("low_voltage", ("voltage",), value("voltage", 240.0) < 220.0),
        (
            "restricted_supply_duct",
            ("static_supply", "static_after_filter"),
            value("static_supply", 70.0) - value("static_after_filter", -60.0) > 0.9 * INCH,
        ),
        (
            gauges[0] if gauges else NO_FAULT,
            circuit,
            not warm and bool(gauges),
        ),
        (
            "undercharge",
            ("return_dry_bulb", "supply_dry_bulb"),
            not warm and split < 15.0 * FAHRENHEIT,
        ),
    ]
