"""Points for how it was found out: measuring, evidence, diagnosis, re-test."""

from simulator.calls.events import Measured
from simulator.calls.sealed import Key
from simulator.calls.visit import Visit
from simulator.diagnosis.causes import name_of
from simulator.diagnosis.evidence import ENOUGH, strongest, support
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.techniques import careful
from simulator.instruments.tools import TOOLS
from simulator.scoring.part import Because, Part, part
from simulator.scoring.safety import met_at
from simulator.scoring.truth import shares

SETTLED = 15.0  # after a start or a repair, California Title 24 RA3.2; in minutes
CARE = careful("").id
LUCK = 0.4  # a right answer without evidence keeps this share
FEW = 6  # fewer numbers than this cannot carry a diagnosis


def name(event: Measured) -> str:
    """A reading as people say it.

    Parameters
    ----------
    event : Measured
        Which.

    Returns
    -------
    str
    """
    return MEASUREMENTS[event.reading.measurement].name


def cited(visit: Visit) -> list[Measured]:
    """Readings the finding rests on.

    Parameters
    ----------
    visit : Visit
        Closed.

    Returns
    -------
    list
        Oldest first.
    """
    numbers = visit.finding.cited if visit.finding else ()
    return [event for event in visit.readings if event.seq in numbers]


def weakness(visit: Visit, event: Measured) -> str | None:
    """What is wrong with how a reading was taken.

    Parameters
    ----------
    visit : Visit
        Closed.
    event : Measured
        Which reading.

    Returns
    -------
    str or None
        A sentence.
    """
    item = MEASUREMENTS[event.reading.measurement]
    if event.reading.value is None:
        return None
    if event.reading.technique != CARE:
        way = {t.id: t.name for t in item.techniques}[event.reading.technique]
        return f"{item.name} at minute {event.minute:.0f} was taken carelessly ({way.lower()})."
    if TOOLS[item.tool_id] is TOOLS["manometer"]:
        zeroed = met_at(visit, "zero_manometer")
        if zeroed is None or zeroed.seq > event.seq:
            return f"{item.name} was read before the manometer was zeroed."
    if item.group in ("air", "low side", "high side") and event.settled < SETTLED:
        return (
            f"{item.name} at minute {event.minute:.0f} was read {event.settled:.0f} min after a "
            "change: it had not settled."
        )
    return None


def measuring(visit: Visit, key: Key) -> Part:
    """Readings taken in the right way, before and after.

    Parameters
    ----------
    visit : Visit
        Closed.
    key : Key
        Unused; all measuring is graded alike.

    Returns
    -------
    Part
        Of 15.
    """
    del key
    numbers = [event for event in visit.readings if event.reading.value is not None]
    because = []
    points = 15.0 * min(len(numbers) / FEW, 1.0)
    if len(numbers) < FEW:
        because.append(Because(f"Only {len(numbers)} readings with a number were taken."))
    used = {event.seq for event in cited(visit)}
    weak = {event.seq: weakness(visit, event) for event in numbers}
    for event in numbers:
        again = any(
            later.seq > event.seq and later.reading.measurement == event.reading.measurement
            and weak[later.seq] is None
            for later in numbers
        )  # fmt: skip
        said = weak[event.seq]
        if said and not again and (event.seq in used or event.reading.technique != CARE):
            points -= 2.0
            because.append(Because(said, event.seq))
    if "match_probes" in visit.prepared:
        because.append(Because("You compared your probes, so small differences count."))
    else:
        points -= 1.0
        because.append(Because("The probes were not compared: their small differences are doubt."))
    for event in visit.readings:
        if event.problems and event.seq in used:
            points -= 2.0
            because.append(
                Because(f"A charge reading was used that does not count: {name(event)}.")
            )
            break
    return part("Measuring", points, 15.0, because)


def worth(visit: Visit) -> dict[str, float]:
    """Worth of each cited measurement: half where it was taken badly.

    Parameters
    ----------
    visit : Visit
        Closed.

    Returns
    -------
    dict
        By measurement. [-]
    """
    return {
        event.reading.measurement: 0.5 if weakness(visit, event) else 1.0 for event in cited(visit)
    }


def evidence(visit: Visit, key: Key) -> Part:
    """Whether the cited readings carry what was declared and true.

    Parameters
    ----------
    visit : Visit
        Closed.
    key : Key
        What was true.

    Returns
    -------
    Part
        Of 20.
    """
    because, points = [], 0.0
    found = visit.finding.causes if visit.finding else ()
    if visit.finding is not None and not cited(visit):
        said = "A guess: the finding was stated without a single reading."
        because.append(Because(said, visit.finding.seq))
    for cause, share in shares(key).items():
        carried = support(cause, worth(visit)) if cause in found else 0.0
        points += 20.0 * carried * share
        if carried >= ENOUGH:
            because.append(Because(f"Your readings carry the finding: {name_of(cause)}."))
        elif carried > 0.0:
            best = MEASUREMENTS[strongest(cause)].said
            because.append(Because(f"Partly carried: {name_of(cause)}. It tells most: {best}."))
        elif cause in found:
            because.append(Because(f"Named without a reading that shows it: {name_of(cause)}."))
        else:
            best = MEASUREMENTS[strongest(cause)].said
            because.append(Because(f"Something was not found; it tells most: {best}."))
    wrong = [cause for cause in found if cause not in shares(key)]
    if wrong and points:
        # Naming everything singles out nothing: evidence is for the true set over its rivals.
        points *= 1.0 - len(wrong) / len(found)
        because.append(Because("Causes were named beside it that the readings do not single out."))
    return part("Evidence", points, 20.0, because)


def diagnosis(visit: Visit, key: Key) -> Part:
    """The right causes and no others; luck earns little.

    Parameters
    ----------
    visit : Visit
        Closed.
    key : Key
        What was true.

    Returns
    -------
    Part
        Of 15.
    """
    because, points = [], 0.0
    finding = visit.finding
    found = finding.causes if finding else ()
    seq = finding.seq if finding else None
    for cause, share in shares(key).items():
        if cause not in found:
            because.append(Because(f"Not found: {name_of(cause)}."))
            continue
        carried = support(cause, worth(visit))
        kept = LUCK + (1.0 - LUCK) * carried
        points += 15.0 * kept * share
        luck = "" if carried >= 0.5 else ", though little was there to know it by"
        because.append(Because(f"Found: {name_of(cause)}{luck}.", seq))
    for cause in found:
        if cause not in shares(key):
            points -= 4.0
            because.append(Because(f"Not so: {name_of(cause)}.", seq))
    return part("Diagnosis", points, 15.0, because)


def verification(visit: Visit, key: Key) -> Part:
    """Same point, settled, before and after the repair.

    Parameters
    ----------
    visit : Visit
        Closed.
    key : Key
        Names the proof of each cause.

    Returns
    -------
    Part
        Of 7.
    """
    if not visit.repairs and not key.causes:
        said = [Because("Nothing was repaired, and nothing needed it.")]
        return part("Re-test", 7.0, 7.0, said)
    if not visit.repairs:
        said = [Because("Nothing was repaired, so nothing could be proven mended.")]
        return part("Re-test", 0.0, 7.0, said)
    because, points = [], 0.0
    start, end = visit.repairs[0].seq, visit.repairs[-1].seq
    for cause, share in shares(key).items():
        pair = next((m for m in key.proof.get(cause, ()) if _is_paired(visit, m, start, end)), None)
        if pair is not None:
            points += 7.0 * share
            because.append(Because(f"Before and after, settled: {MEASUREMENTS[pair].name}."))
        else:
            names = " or ".join(MEASUREMENTS[m].said for m in key.proof.get(cause, ()))
            names = names or "no repair at all"
            because.append(Because(f"No pair that proves it; it takes {names}."))
    return part("Re-test", points, 7.0, because)


def _is_paired(visit: Visit, measurement: str, start: int, end: int) -> bool:
    """The same measurement taken the same way, running and settled, on both sides."""
    taken = [
        e
        for e in visit.readings
        if e.reading.measurement == measurement and e.is_running and e.settled >= SETTLED
    ]
    before = {e.reading.technique for e in taken if e.seq < start}
    after = {e.reading.technique for e in taken if e.seq > end}
    return bool(before & after)


def invalid_charge_tests(visit: Visit) -> list[str]:
    """Charge tests that do not count, and why.

    Parameters
    ----------
    visit : Visit
        Closed.

    Returns
    -------
    list
        A sentence each.
    """
    return [
        f"{name(event)} at minute {event.minute:.0f} cannot judge the charge. "
        + " ".join(event.problems)
        for event in visit.readings
        if event.problems
    ]
