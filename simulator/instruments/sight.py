"""What eyes, hand and smoke tell: words that follow from the plant, never from a fault's name.

All thresholds are common practice, no source.
"""

from collections.abc import Mapping

from simulator.instruments.measurement import Seen
from simulator.instruments.measurements import MEASUREMENTS
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint

RUNNING_AIR = 0.02  # below this airflow nothing blows [m³/s]
# Draws of one who does not wait for the room's draft: it hides a leak below, makes one above.
HIDDEN, MADE_UP = 0.35, 0.65
LED = "Yes, could be. Now that you say it: I suppose it was like that."


def words(
    measurement: str, installation: Installation, point: OperatingPoint, texts: Mapping[str, str]
) -> str:
    """What is seen, felt or said.

    Parameters
    ----------
    measurement : str
        One whose way is look, feel or ask.
    installation : Installation
        As it stands.
    point : OperatingPoint
        What it is doing.
    texts : mapping
        What the customer, the bill and the job history say, by measurement.

    Returns
    -------
    str
        Plain sentences.
    """
    if MEASUREMENTS[measurement].way == "ask":
        return texts.get(measurement, "Nothing more is known about that.")
    if MEASUREMENTS[measurement].told is not None or measurement in _SMOKED:
        return told(measurement, Seen(installation=installation, point=point), texts)
    if measurement == "look_thermostat":
        return texts.get(measurement, "Cooling, fan on automatic, setpoint below the room.")
    return _LOOKS[measurement](installation, point)


def told(measurement: str, seen: Seen, texts: Mapping[str, str]) -> str:
    """What is seen, felt or said, by the way it is looked at.

    Parameters
    ----------
    measurement : str
        One that gives words.
    seen : Seen
        Installation, state and technique.
    texts : mapping
        As for ``words``; a call's own text goes first.

    Returns
    -------
    str
        Plain sentences.
    """
    if MEASUREMENTS[measurement].way == "ask" and seen.technique != "careful":
        return LED
    own = MEASUREMENTS[measurement].told or _SMOKED.get(measurement)
    if own is None:
        return words(measurement, seen.installation, seen.point, texts)
    return texts.get(measurement) or own(seen)


def _number(value: object) -> float:
    return float(value)  # type: ignore[arg-type]


def _blows(point: OperatingPoint) -> bool:
    return _number(point.airflow) > RUNNING_AIR


def _filter(installation: Installation, point: OperatingPoint) -> str:
    del point
    loading = _number(installation.ducts.filter_loading)
    if loading < 1.4:
        return "Right size, arrow with the air, light through it, hardly any dust."
    if loading < 3.0:
        return "Right size, arrow with the air, an even grey coat; some light comes through."
    return "Thick grey felt on the inlet side, bowed inward; no light comes through."


def _slot(installation: Installation, point: OperatingPoint) -> str:
    inches = _number(installation.ducts.slot_area) / 0.0254**2
    leaking = _number(installation.ducts.return_leak) > 0.06
    if inches > 3.0:
        heard = " Air hisses in." if _blows(point) else ""
        return f"There is an opening of about {inches:.0f} square inches behind the filter.{heard}"
    if leaking:
        return (
            "The slot cover is on. The access panel sits loose, its gasket is gone, and dust "
            "streaks point inward along the joints below it."
        )
    return "Cover on, panels tight, gaskets whole."


def _drawn(seen: Seen, leak: object, bounds: tuple[float, float]) -> int:
    """How strongly smoke is moved: 0 to 2 by what leaks; a draft adds to it or hides it."""
    share = _number(leak) / _number(seen.point.airflow)
    level = sum(share >= bound for bound in bounds)
    if seen.technique == "careful" or HIDDEN <= seen.draw < MADE_UP:
        return level
    return max(level - 1, 0) if seen.draw < HIDDEN else min(level + 1, len(bounds))


def _smoke_return(seen: Seen) -> str:
    if not _blows(seen.point):
        return "Smoke hangs still; nothing blows."
    level = _drawn(seen, seen.point.return_leak_airflow, (0.03, 0.08))
    if level == 0:
        return "Smoke drifts past the joints; hardly a wisp is drawn in."
    if level == 1:
        return "At some joints a thin thread of smoke is drawn in."
    return "Smoke is snatched into the joints; a hand feels the pull."


def _blower(installation: Installation, point: OperatingPoint) -> str:
    if not _blows(point):
        return "The blower stands still; the wheel looks clean."
    left = _number(installation.unit.blower.torque_fraction)
    if left > 0.9:
        return "Wheel clean, motor smooth and steady."
    if left > 0.65:
        return "The wheel turns without a scrape, but the motor seems to labor."
    return "The motor sounds tired and the wheel turns noticeably slow."


def _ducts(installation: Installation, point: OperatingPoint) -> str:
    del point
    leak = _number(installation.ducts.supply_leak)
    if leak < 0.06:
        return "Joints sealed, insulation in place, nothing crushed."
    if leak < 0.12:
        return "Tape has let go at some boots; the rest looks in place."
    return "Insulation blown aside around one joint of the trunk; the collar there sits askew."


def _smoke_supply(seen: Seen) -> str:
    if not _blows(seen.point):
        return "Smoke hangs still; nothing blows."
    level = _drawn(seen, seen.point.supply_leak_airflow, (0.05, 0.12))
    if level == 0:
        return "Here and there a faint breath of cool air, no more."
    if level == 1:
        return "Smoke is pushed away at several joints."
    return "A strong cold jet blows the smoke across the space."


def _outdoor_coil(installation: Installation, point: OperatingPoint) -> str:
    blocked = _number(installation.unit.outdoor_coil.blocked_fraction)
    turning = (
        "The fan turns." if _number(point.outdoor_fan_power) > 0.0 else "The fan stands still."
    )
    if blocked < 0.1:
        return f"Fins clean, clearance all round. {turning}"
    if blocked < 0.35:
        return f"Lint and dust between the fins on the windward side. {turning}"
    return f"Matted all round, deep between the rows. {turning}"


_LOOKS = {
    "look_filter": _filter,
    "look_slot": _slot,
    "listen_blower": _blower,
    "look_ducts": _ducts,
    "look_outdoor_coil": _outdoor_coil,
}
_SMOKED = {"smoke_return": _smoke_return, "smoke_supply": _smoke_supply}
