"""Points for proving a repair: same point, comparable conditions, steady, before and after."""

from collections.abc import Mapping

from simulator.calls.events import Measured
from simulator.calls.sealed import Key
from simulator.calls.visit import Visit
from simulator.instruments.measurements import MEASUREMENTS
from simulator.scoring.grounds import Grounds
from simulator.scoring.part import Because, Part, open_part, part
from simulator.scoring.reasoning import SETTLED
from simulator.scoring.truth import shares

Outdoor = Mapping[int, float]
POINTS = 7.0
# Outdoor air may have moved no further between the two; the project's own bar. [K]
ALIKE = 3.0
# What the weather hardly moves.
ANY_WEATHER = frozenset(
    {
        *("coil_airflow", "table_airflow", "plate_airflow", "register_sum", "blower_speed"),
        *("house_pressure", "duct_leakage", "air_handler_current", "strip_current", "voltage"),
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
        Gives the weather; the odds are not asked.

    Returns
    -------
    Part
        Of 7.
    """
    if not visit.repairs and not key.causes:
        said = [Because("Nothing was repaired, and nothing needed it.")]
        return part("Re-test", POINTS, POINTS, said)
    if not visit.repairs:
        said = [Because("Nothing was repaired, so nothing could be proven mended.")]
        return part("Re-test", 0.0, POINTS, said)
    if grounds.outdoor is None:
        return open_part("Re-test", POINTS)
    because, points = [], 0.0
    for cause, share in shares(key).items():
        tests = key.proof.get(cause, ())
        pair = next((test for test in tests if _is_paired(visit, test, grounds.outdoor)), None)
        apart = next((test for test in tests if _is_paired(visit, test, None)), None)
        if pair is not None:
            points += POINTS * share
            because.append(Because(f"Before and after, settled: {MEASUREMENTS[pair].name}."))
        elif apart is not None:
            name = MEASUREMENTS[apart].name
            because.append(Because(f"Before and after in weather that was not alike: {name}."))
        else:
            names = " or ".join(MEASUREMENTS[test].said for test in tests)
            names = names or "no repair at all"
            because.append(Because(f"No pair that proves it; it takes {names}."))
    return part("Re-test", points, POINTS, because)


def _is_paired(visit: Visit, measurement: str, outdoor: Outdoor | None) -> bool:
    """The same measurement taken the same way, running and settled, on both sides."""
    start, end = visit.repairs[0].seq, visit.repairs[-1].seq
    taken = [
        e
        for e in visit.readings
        if e.reading.measurement == measurement and e.is_running and e.settled >= SETTLED
    ]
    return any(
        before.reading.technique == after.reading.technique and _is_alike(before, after, outdoor)
        for before in taken
        for after in taken
        if before.seq < start and after.seq > end
    )


def _is_alike(before: Measured, after: Measured, outdoor: Outdoor | None) -> bool:
    if outdoor is None or before.reading.measurement in ANY_WEATHER:
        return True
    if MEASUREMENTS[before.reading.measurement].group == "static":
        return True
    return abs(outdoor[before.seq] - outdoor[after.seq]) <= ALIKE
