"""Points for choosing well what to measure next."""

from simulator.calls.sealed import Key
from simulator.calls.visit import Visit
from simulator.diagnosis.evidence import weights
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.validity import AIRFLOW_PROOF
from simulator.scoring.calibration import calibration
from simulator.scoring.finding import whole
from simulator.scoring.grounds import Choice, Grounds
from simulator.scoring.hints import charge
from simulator.scoring.part import Because, Part, open_part, part
from simulator.scoring.truth import shares

POINTS = 10.0
FULL, NOTHING = 0.2, 0.7  # mean regret for all points and for none [-]
FEW = 8  # acts over which regret is averaged at least: none is felt once all is known
# Required before a charge test counts, whatever it tells.
ALWAYS = frozenset({*AIRFLOW_PROOF, "outdoor_temperature"})


def counted(key: Key, grounds: Grounds) -> list[Choice]:
    """Choices that count: what must be taken anyway never counts against anybody.

    Parameters
    ----------
    key : Key
        Names what proves a repair, which is taken before it too, and what a finding rests on.
    grounds : Grounds
        Worked out.

    Returns
    -------
    list
        Oldest first.
    """
    proof = {test for tests in key.proof.values() for test in tests}
    bearing = {name for cause in shares(key) for name in weights()[cause]}
    required = ALWAYS | proof | bearing
    return [
        choice
        for choice in grounds.choices
        if choice.regret <= FULL or choice.event.reading.measurement not in required
    ]


def efficiency(visit: Visit, key: Key, grounds: Grounds) -> Part:
    """Worth a minute of what was taken against the best that could have been.

    Parameters
    ----------
    visit : Visit
        Closed.
    key : Key
        Names what has to be taken anyway.
    grounds : Grounds
        Open until it is worked out.

    Returns
    -------
    Part
        Of 10; in site time, never by the clock of the room.
    """
    if not grounds.is_worked_out:
        return open_part("Efficiency", POINTS)
    earned, because = _by_choice(visit, key, grounds)
    for why in (*charge(visit), *calibration(visit, shares(key))):
        earned -= why.points
        because.append(Because(why.text, why.seq))
    return part("Efficiency", earned, POINTS, because)


def _by_choice(visit: Visit, key: Key, grounds: Grounds) -> tuple[float, list[Because]]:
    """Points before hints, and why."""
    left, choices = visit.events[-1].seq, counted(key, grounds)
    is_carried = visit.finding is not None and whole(visit, grounds).is_enough
    if not choices and not is_carried:
        said = "Too little was measured to judge what was chosen: leaving early is no economy."
        return 0.0, [Because(said, left)]
    acts = max(len(choices), FEW if is_carried else 1)
    regret = sum(choice.regret for choice in choices) / acts
    points = POINTS * min(max((NOTHING - regret) / (NOTHING - FULL), 0.0), 1.0)
    because = [
        Because(
            f"Your choices were worth {100.0 * (1.0 - regret):.0f} % of the best a minute that "
            "could have been taken; none is missed once all is known.",
            choices[-1].event.seq if choices else left,
        )
    ]
    if not is_carried:
        led = _led(visit, key)
        points *= led * min(len(choices) / FEW, 1.0)
        if len(choices) < FEW:
            text = (
                f"Choices to be judged by: {len(choices)} of {FEW}. What came after the finding or "
                "the first repair, or had to be taken anyway, is none."
            )
            because.append(Because(text, left))
        if led < 1.0:
            seq = visit.finding.seq if visit.finding else left
            text = "Good choices count only as far as they led to a finding that is true or carried"
            because.append(Because(f"{text}: here {100.0 * led:.0f} %.", seq))
    return points, because + (_worst(choices) if points < POINTS else [])


def _led(visit: Visit, key: Key) -> float:
    """How far the finding is true."""
    found, true = visit.finding.causes if visit.finding else (), shares(key)
    right = [cause for cause in found if cause in true]
    return sum(true[cause] for cause in right) * len(right) / max(len(found), 1)


def _worst(choices: list[Choice]) -> list[Because]:
    """The choice that gave most away."""
    worst = max(choices, key=lambda choice: choice.regret, default=None)
    if worst is None or worst.regret <= NOTHING:
        return []
    own, best = MEASUREMENTS[worst.event.reading.measurement], MEASUREMENTS[worst.best]
    text = f"Worth least for its minutes then: {own.said}. Worth most was: {best.said}."
    return [Because(text, worst.event.seq)]
