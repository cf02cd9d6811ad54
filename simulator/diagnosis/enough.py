"""When readings carry a finding, and what is still missing on the sheet before it."""

from simulator.calls.choice import NO_FAULT
from simulator.calls.events import Measured, Repaired
from simulator.calls.visit import Visit
from simulator.diagnosis.belief import Standing
from simulator.diagnosis.evidence import ENOUGH, evidence, weights
from simulator.diagnosis.next_reading import Worth, minutes_for
from simulator.faults._catalogue import discover
from simulator.instruments.measurements import MEASUREMENTS
from simulator.repairs import _catalogue as repairs

REVERSIBLE, COSTLY = 1.0, 1.5  # decimal logarithm of the odds that carry a repair [-]
FEWEST = 6  # numbers on the sheet before anything is declared [-]
WORTHLESS = 0.004  # bits a minute below which nothing more is to be learnt [-]
PRESSURES = ("suction_pressure", "liquid_pressure", "vapour_port_pressure", "standing_pressure")
BEFORE_PRESSURES = ("coil_airflow", "outdoor_temperature")
OFF_ONLY = (
    *("run_capacitor", "winding_resistance", "winding_insulation"),
    *("duct_leakage", "standing_pressure"),
)


def newest(visit: Visit, after: int = -1) -> dict[str, Measured]:
    """The newest reading of each measurement.

    Parameters
    ----------
    visit : Visit
        As it stands.
    after : int
        Only those after this event.

    Returns
    -------
    dict
        By measurement.
    """
    return {e.reading.measurement: e for e in visit.readings if e.seq > after}


def last_repair(visit: Visit) -> int:
    """Number of the last repair.

    Parameters
    ----------
    visit : Visit
        As it stands.

    Returns
    -------
    int
        -1 without one.
    """
    return visit.repairs[-1].seq if visit.repairs else -1


def is_done(visit: Visit, act: str, after: int) -> bool:
    """Whether a repair was carried out.

    Parameters
    ----------
    visit : Visit
        As it stands.
    act : str
        Code of the repair.
    after : int
        Only what came after this event counts.

    Returns
    -------
    bool
    """
    return any(event.repair == act and event.seq > after for event in visit.repairs)


def acts_for(causes: tuple[str, ...]) -> list[str]:
    """One act for each cause, none twice.

    Parameters
    ----------
    causes : tuple
        Codes.

    Returns
    -------
    list
        Codes of repairs.
    """
    found = [discover()[cause].repairs[0] for cause in causes if cause != NO_FAULT]
    return list(dict.fromkeys(found))


def is_enough(now: Standing, best: tuple[str, ...], visit: Visit) -> bool:
    """Whether what is on the sheet carries a finding and what it costs to act on it.

    Parameters
    ----------
    now : Standing
        What is believed.
    best : tuple
        Causes of the finding.
    visit : Visit
        With its readings.

    Returns
    -------
    bool
    """
    numbers = [event for event in visit.readings if event.reading.value is not None]
    dear = any(repairs.discover()[act].is_costly for act in acts_for(best))
    return now.belief.odds(best) >= (COSTLY if dear else REVERSIBLE) and len(numbers) >= FEWEST


def missing(causes: tuple[str, ...], visit: Visit) -> Worth | None:
    """What still belongs on the sheet before a finding.

    A number for each cause that must come right after the repair; then, cheapest first, what
    carries the finding before others.

    Parameters
    ----------
    causes : tuple
        Codes of the likeliest set.
    visit : Visit
        With its readings.

    Returns
    -------
    Worth or None
        None where nothing is missing, and after a repair.
    """
    if visit.repairs:
        return None
    taken = newest(visit)
    for cause in causes:
        bearing = weights().get(cause, {})
        number = telling_number(cause)
        if cause != NO_FAULT and number is not None and number not in taken:
            return Worth(number, number not in OFF_ONLY, 0.0, 1.0)
        carried = sum(weight for name, weight in bearing.items() if name in taken)
        open_ones = [name for name in bearing if name not in taken]
        if carried < ENOUGH and open_ones:
            cheapest = max(
                open_ones,
                key=lambda name: bearing[name] / minutes_for(name, visit, is_running=True),
            )
            return Worth(cheapest, cheapest not in OFF_ONLY, 0.0, 1.0)
    return None


def telling_number(cause: str) -> str | None:
    """The number that moves most with a cause while the system runs.

    Parameters
    ----------
    cause : str
        Its code.

    Returns
    -------
    str or None
        Measurement; none for a cause that only words show.
    """
    moving = {
        name: weight
        for name, (goes, weight) in evidence()[cause].items()
        if goes in ("up", "down", "moved")
        and MEASUREMENTS[name].has_number
        and name not in OFF_ONLY
    }
    return max(moving, key=lambda name: moving[name]) if moving else None


def air_first(worth: Worth, visit: Visit) -> Worth:
    """Air is proven before pressures.

    Parameters
    ----------
    worth : Worth
        What is worth taking.
    visit : Visit
        With its readings.

    Returns
    -------
    Worth
        Of what must be known first, where it is not.
    """
    if worth.measurement in PRESSURES and worth.is_running:
        for name in BEFORE_PRESSURES:
            if name not in newest(visit):
                return Worth(name, True, worth.bits, worth.minutes)
    return worth


def proofs(visit: Visit) -> list[str]:
    """Readings before the repair that bear on what was mended, running.

    Parameters
    ----------
    visit : Visit
        With a finding and repairs.

    Returns
    -------
    list
        Measurements, those that weigh most first, four of each cause at most.
    """
    if visit.finding is None:
        return []
    first = next((e.seq for e in visit.events if isinstance(e, Repaired)), 0)
    before = {e.reading.measurement for e in visit.readings if e.seq < first and e.is_running}
    found: list[str] = []
    for cause in visit.finding.causes:
        bearing = weights().get(cause, {})
        taken = [name for name in bearing if name in before and name not in OFF_ONLY]
        number = telling_number(cause)
        found += [number] if number in before and number is not None else []
        found += sorted(taken, key=lambda name: -bearing[name])[:3]
    return list(dict.fromkeys(found))
