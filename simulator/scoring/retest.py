"""Points for proving a repair: same point, steady, before and after what mended it.

Conditions must be comparable, or the pair corrected for them: what is left once what the weather
alone did to the unit is taken off must be more than two takes of the tool differ by.
"""

from math import sqrt

from simulator.calls.events import Measured
from simulator.calls.sealed import Key
from simulator.calls.visit import Visit
from simulator.diagnosis.causes import name_of
from simulator.diagnosis.tool_errors import error_of
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.settling import settles_after
from simulator.scoring.grounds import ALIKE, Grounds
from simulator.scoring.part import Because, Part, open_part, part
from simulator.scoring.truth import shares

POINTS = 7.0
SURE = 2.0  # standard deviations of the difference between two takes [-]
# What the weather hardly moves.
ANY_WEATHER = frozenset(
    {
        *("coil_airflow", "table_airflow", "plate_airflow", "register_sum", "blower_speed"),
        *("house_pressure", "duct_leakage", "air_handler_current", "strip_current", "voltage"),
        *("air_handler_power", "leg_2_voltage"),
        *("contactor_drop", "run_capacitor", "winding_resistance", "look_slot", "look_filter"),
    }
)


def verification(visit: Visit, key: Key, grounds: Grounds) -> Part:
    """The problem confirmed before the repair and its absence after it.

    Parameters
    ----------
    visit : Visit
        Closed.
    key : Key
        Names the proof of each cause.
    grounds : Grounds
        Gives the weather and what it did to the unit as found; the odds are not asked.

    Returns
    -------
    Part
        Of 7.
    """
    left = visit.events[-1].seq
    if not visit.repairs and not key.causes:
        said = [Because("Nothing was repaired, and nothing needed it.", left)]
        return part("Re-test", POINTS, POINTS, said)
    if not visit.repairs:
        said = [Because("Nothing was repaired, so nothing could be proven mended.", left)]
        return part("Re-test", 0.0, POINTS, said)
    if grounds.outdoor is None:
        return open_part("Re-test", POINTS)
    because, points = [], 0.0
    for cause, share in shares(key).items():
        is_proven, why = _proof(visit, key, cause, grounds)
        points += POINTS * share * is_proven
        because.append(why)
    return part("Re-test", points, POINTS, because)


def _proof(visit: Visit, key: Key, cause: str, grounds: Grounds) -> tuple[bool, Because]:
    """Whether a cause was shown before it was mended and its absence after, and by what."""
    tests, last = key.proof.get(cause, ()), visit.repairs[-1].seq
    acts = key.repairs.get(cause, ())
    if acts and not any(event.repair in acts for event in visit.repairs):
        text = f"Not mended, so no re-test could show that it was: {name_of(cause)}."
        return False, Because(text, last)
    mending = [event.seq for event in visit.repairs if not acts or event.repair in acts]
    taken = [one for test in tests for one in _pairs(visit, test, mending)]
    for before, after in taken:
        if _is_alike(before, after, grounds):
            return True, Because(f"Before and after, settled: {_name(after)}.", after.seq)
    for before, after in taken:
        if _is_left(before, after, grounds):
            text = "Before and after, settled, with what the weather did meanwhile taken off"
            return True, Because(f"{text}: {_name(after)}.", after.seq)
    if taken:
        _, after = taken[0]
        text = "Before and after in weather that was not alike, and without it hardly apart"
        return False, Because(f"{text}: {_name(after)}.", after.seq)
    names = " or ".join(MEASUREMENTS[test].said for test in tests) or "no repair at all"
    return False, Because(f"No pair that proves it; it takes {names}.", last)


def _name(event: Measured) -> str:
    return MEASUREMENTS[event.reading.measurement].name


def _pairs(visit: Visit, measurement: str, mending: list[int]) -> list[tuple[Measured, Measured]]:
    """The same measurement taken the same way, running and settled, around what mended."""
    start, end = mending[0], mending[-1]
    needed = settles_after(measurement)
    taken = [
        e
        for e in visit.readings
        if e.reading.measurement == measurement and e.is_running and e.settled >= needed
    ]
    return [
        (before, after)
        for before in taken
        for after in taken
        if before.seq < start
        and after.seq > end
        and before.reading.technique == after.reading.technique
    ]


def hangs_on_weather(event: Measured) -> bool:
    """Whether outdoor air moves a reading enough to spoil a pair.

    Parameters
    ----------
    event : Measured
        One of the two.

    Returns
    -------
    bool
    """
    item = MEASUREMENTS[event.reading.measurement]
    return item.id not in ANY_WEATHER and item.group != "static"


def _is_alike(before: Measured, after: Measured, grounds: Grounds) -> bool:
    outdoor = grounds.outdoor or {}
    if not hangs_on_weather(before):
        return True
    return abs(outdoor[before.seq] - outdoor[after.seq]) <= ALIKE


def _is_left(before: Measured, after: Measured, grounds: Grounds) -> bool:
    """Whether the two still differ once what the weather did to the unit as found is taken off."""
    known, values = grounds.untouched, (before.reading.value, after.reading.value)
    if None in values or before.seq not in known or after.seq not in known:
        return False
    moved = (values[1] or 0.0) - (values[0] or 0.0)
    moved -= known[after.seq] - known[before.seq]
    fresh = error_of(MEASUREMENTS[after.reading.measurement], frozenset()).fresh
    return abs(moved) > SURE * sqrt(2.0) * fresh
