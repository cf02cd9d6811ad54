"""What each reading and repair was, by how it moved belief: told in the timeline in plain words."""

from collections.abc import Mapping

from simulator.calls.events import Measured, Repaired
from simulator.calls.sealed import Key
from simulator.calls.visit import Visit, along
from simulator.diagnosis.belief import Belief
from simulator.diagnosis.evidence import weights
from simulator.instruments.measurements import MEASUREMENTS
from simulator.scoring.economy import ALWAYS
from simulator.scoring.grounds import Grounds
from simulator.scoring.harm import wanted
from simulator.scoring.mending import is_proven
from simulator.scoring.safety import lock_outs, met_at

SPLITS, ONE_BY_ONE, CONFIRMS, AGAIN, BESIDE, REQUIRED, RE_TEST = (
    "space-splitting",
    "serial elimination",
    "confirmatory",
    "redundant",
    "irrelevant",
    "required",
    "re-test",
)
PROVEN, UNPROVEN, HARMFUL, UNSAFE = (
    "repair on proof",
    "remove-and-replace without proof",
    "harmful",
    "unsafe",
)
WORDS: Mapping[str, str] = {
    SPLITS: "It told many causes apart at once.",
    ONE_BY_ONE: "It spoke of one cause or two.",
    CONFIRMS: "It made firmer what stood first already.",
    AGAIN: "Taken before, and nothing had changed since: it could tell nothing new.",
    BESIDE: "It hardly bore on what was still open.",
    REQUIRED: "Required, whatever it tells.",
    RE_TEST: "Taken after the repair, to prove it.",
    PROVEN: "Mended once the readings carried it.",
    UNPROVEN: "Right, but mended before the readings carried it.",
    HARMFUL: "It mended nothing here.",
    UNSAFE: "Unsafe: a danger of this work had not been met before.",
}
STILL = 0.02  # of all belief that moves; less is no news [-]
MUCH = 0.2  # of all belief that moves at once [-]
ALIVE = 0.03  # belief in a cause below which it is not counted as ruled out [-]
MANY = 3  # causes ruled out by one reading that make it a splitting one
FIRST = 0.5  # belief in the likeliest set that only waits for confirmation [-]


def classes(visit: Visit, key: Key, grounds: Grounds) -> dict[int, str]:
    """The class of each reading and repair.

    Parameters
    ----------
    visit : Visit
        Closed.
    key : Key
        For harm and danger alone.
    grounds : Grounds
        Worked out.

    Returns
    -------
    dict
        By event; questions to people are left out.
    """
    unsafe = _unsafe(visit, key)
    found: dict[int, str] = {}
    for before, event in along(visit.events):
        if isinstance(event, Repaired):
            found[event.seq] = _of_repair(event, visit, key, grounds)
        elif isinstance(event, Measured) and MEASUREMENTS[event.reading.measurement].way != "ask":
            found[event.seq] = _of_reading(event, before, key, grounds)
    return {**found, **{seq: UNSAFE for seq in unsafe if seq in found}}


def told(visit: Visit, key: Key, grounds: Grounds) -> dict[str, str]:
    """The same in words.

    Parameters
    ----------
    visit : Visit
        Closed.
    key : Key
        For harm and danger alone.
    grounds : Grounds
        Worked out.

    Returns
    -------
    dict
        Sentences by number of the event, as text for the wire.
    """
    return {str(seq): WORDS[one] for seq, one in classes(visit, key, grounds).items()}


def _unsafe(visit: Visit, key: Key) -> set[int]:
    found = {one.event.seq for one in lock_outs(visit) if not one.is_met}
    for hazard in key.hazards:
        met = met_at(visit, hazard.step)
        for event in visit.events:
            is_exposed = (isinstance(event, Measured) and event.place in hazard.places) or (
                isinstance(event, Repaired) and event.repair in hazard.repairs
            )
            if is_exposed and (met is None or met.seq > event.seq):
                found.add(event.seq)
    return found


def _of_repair(event: Repaired, visit: Visit, key: Key, grounds: Grounds) -> str:
    if event.repair not in wanted(key):
        return HARMFUL
    return PROVEN if is_proven(event, visit, key, grounds) else UNPROVEN


def _of_reading(event: Measured, before: Visit, key: Key, grounds: Grounds) -> str:
    name = event.reading.measurement
    if _is_re_test(name, before, key):
        return RE_TEST
    if name in ALWAYS and _is_again(event, before) is False and _moved(event, grounds) < STILL:
        return REQUIRED
    if _is_again(event, before):
        return AGAIN
    return _by_belief(event, grounds)


def _is_re_test(name: str, before: Visit, key: Key) -> bool:
    """After a repair that mended nothing, what had not been taken is still looked for."""
    if any(event.repair in wanted(key) for event in before.repairs):
        return True
    last = before.repairs[-1].seq if before.repairs else -1
    return any(e.reading.measurement == name and e.seq < last for e in before.readings)


def _is_again(event: Measured, before: Visit) -> bool:
    """Taken before in the same way, or better, with nothing changed in between."""
    careful = MEASUREMENTS[event.reading.measurement].techniques[0].id
    return any(
        earlier.reading.measurement == event.reading.measurement
        and earlier.minute > before.changed_at
        and earlier.reading.technique in (event.reading.technique, careful)
        for earlier in before.readings
    )


def _pair(event: Measured, grounds: Grounds) -> tuple[Belief, Belief]:
    return grounds.before(event.seq), grounds.before(event.seq + 1)


def _moved(event: Measured, grounds: Grounds) -> float:
    """Share of all belief that went from some sets to others."""
    old, new = _pair(event, grounds)
    return 0.5 * sum(abs(share - old.sets.get(one, 0.0)) for one, share in new.sets.items())


def _by_belief(event: Measured, grounds: Grounds) -> str:
    old, new = _pair(event, grounds)
    moved = _moved(event, grounds)
    stood = old.sets[old.best]
    if stood >= FIRST and new.best == old.best and new.sets[new.best] >= stood:
        bears = any(event.reading.measurement in weights()[cause] for cause in new.best)
        return CONFIRMS if bears or moved >= STILL else BESIDE
    if moved < STILL:
        return BESIDE
    gone = sum(
        share >= ALIVE and new.causes.get(cause, 0.0) < share / 2.0
        for cause, share in old.causes.items()
    )
    return SPLITS if gone >= MANY or moved >= MUCH else ONE_BY_ONE
