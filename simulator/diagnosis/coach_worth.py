"""What readings still open are worth, in plain words: no odds, no bits, no cause."""

from collections.abc import Sequence

import numpy as np

from simulator.diagnosis.belief import Belief
from simulator.diagnosis.next_reading import Worth
from simulator.instruments.measurements import MEASUREMENTS

# Expected loss of doubt from which a reading is worth so much, in bits [-].
HALF, GOOD_PART, SOMETHING = 0.75, 0.35, 0.12
SETTLES = 0.6  # of all doubt that is left [-]
MUCH, HANDFUL, LITTLE = 3.0, 1.5, 0.6  # doubt that is left, in bits [-]
MOST_NAMED = 3


def doubt(belief: Belief) -> float:
    """How much is still open.

    Parameters
    ----------
    belief : Belief
        As the readings leave it.

    Returns
    -------
    float
        Entropy of the sets of causes, in bits. [-]
    """
    parts = np.array([part for part in belief.sets.values() if part > 0.0])
    return float(-(parts * np.log2(parts)).sum())


def openness(left: float) -> str:
    """How much is still open, in words.

    Parameters
    ----------
    left : float
        Doubt, in bits. [-]

    Returns
    -------
    str
        A sentence.
    """
    if left >= MUCH:
        return "By what is on your sheet, much is still possible."
    if left >= HANDFUL:
        return "By what is on your sheet, a handful of things are still possible."
    if left >= LITTLE:
        return "By what is on your sheet, little is still open."
    return "By what is on your sheet, hardly anything is still open."


def worth_words(bits: float, left: float) -> str:
    """What one reading would bring.

    Parameters
    ----------
    bits : float
        Expected loss of doubt. [-]
    left : float
        All doubt there is, in bits. [-]

    Returns
    -------
    str
        A sentence.
    """
    if bits >= HALF:
        return "It would split what is still possible about in half."
    if bits >= SETTLES * left and bits >= SOMETHING:
        return "It would go far to settle what is still open."
    if bits >= GOOD_PART:
        return "It would rule out a good part of what is still possible."
    if bits >= SOMETHING:
        return "It would tell you something, not much."
    return "It would tell you little now."


def others(worths: Sequence[Worth], but: str) -> tuple[str, ...]:
    """What else is worth its minutes, and what is not.

    Parameters
    ----------
    worths : sequence
        The best a minute first.
    but : str
        The reading that is pointed to already.

    Returns
    -------
    tuple
        Sentences.
    """
    bits: dict[str, float] = {}
    minutes: dict[str, float] = {}
    for one in worths:
        bits[one.measurement] = max(bits.get(one.measurement, 0.0), one.bits)
        minutes.setdefault(one.measurement, one.minutes)
    bits.pop(but, None)
    good = [name for name in bits if bits[name] >= GOOD_PART][:MOST_NAMED]
    idle = sorted((name for name in bits if bits[name] < SOMETHING), key=minutes.__getitem__)
    said = []
    if good:
        said.append(f"Also worth their minutes: {_names(good)}.")
    if idle:
        said.append(f"Would tell you little now: {_names(idle[:MOST_NAMED])}.")
    return tuple(said)


def _names(codes: Sequence[str]) -> str:
    return "; ".join(MEASUREMENTS[code].said for code in codes)
