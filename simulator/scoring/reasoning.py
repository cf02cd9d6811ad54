"""Points for measuring, and what the cited readings are worth."""

from simulator.calls.events import Measured
from simulator.calls.sealed import Key
from simulator.calls.visit import Visit
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.settling import settles_after
from simulator.instruments.steps import LONG_HOSES
from simulator.instruments.techniques import careful
from simulator.instruments.tools import TOOLS
from simulator.scoring.part import Because, Part, part
from simulator.scoring.safety import met_at

CARE = careful("").id
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
    if item.way == "measure" and event.reading.value is None:
        return None
    if event.reading.technique != CARE:
        name = {t.id: t.name for t in item.techniques}[event.reading.technique]
        way = name[:1].lower() + name[1:]
        return f"{item.name} at minute {event.minute:.0f} was taken carelessly ({way})."
    if event.reading.value is None:
        return None
    if TOOLS[item.tool_id] is TOOLS["manometer"]:
        zeroed = met_at(visit, "zero_manometer")
        if zeroed is None or zeroed.seq > event.seq:
            return f"{item.name} was read before the manometer was zeroed."
    if item.group in ("air", "low side", "high side") and event.settled < settles_after(item.id):
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
    left = (numbers or visit.events)[-1].seq
    text = f"Readings with a number: {len(numbers)}."
    if len(numbers) < FEW:
        text = f"Readings with a number: {len(numbers)}. Fewer than {FEW} are few to reason from."
    because.append(Because(text, left))
    used = {event.seq for event in cited(visit)}
    slips = _carelessness(visit, used)
    points -= 2.0 * len(slips)
    because += slips
    compared = met_at(visit, "match_probes")
    if compared is not None:
        text = "You compared your probes, so small differences count."
        because.append(Because(text, compared.seq))
    else:
        points -= 1.0
        text = "The probes were not compared: their small differences are doubt."
        because.append(Because(text, (numbers or visit.events)[0].seq))
    for event in visit.readings:
        if event.problems and event.seq in used:
            points -= 2.0
            because.append(
                Because(f"A charge reading was used that does not count: {name(event)}.", event.seq)
            )
            break
    return part("Measuring", points, 15.0, because)


def _carelessness(visit: Visit, used: set[int]) -> list[Because]:
    """What was taken carelessly and not again, and what the tools themselves took."""
    # What is asked is graded with the interview.
    judged = [e for e in visit.readings if MEASUREMENTS[e.reading.measurement].way != "ask"]
    weak = {event.seq: weakness(visit, event) for event in judged}
    found = []
    for event in judged:
        again = any(
            later.seq > event.seq and later.reading.measurement == event.reading.measurement
            and weak[later.seq] is None
            for later in judged
        )  # fmt: skip
        said = weak[event.seq]
        if said and not again and (event.seq in used or event.reading.technique != CARE):
            found.append(Because(said, event.seq))
    hoses = met_at(visit, LONG_HOSES)
    if hoses is not None:
        text = "Long hoses took 2 to 4 oz (57 to 113 g) of refrigerant out of the circuit."
        found.append(Because(text, hoses.seq))
    return found


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
