"""The four rungs for what is no reading: preparations, and acts of the visit itself.

The same on every call; common practice, no source.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from simulator.diagnosis.coached import RECORD, REPAIR, SECURE, START, STATE


@dataclass(frozen=True, slots=True)
class Ladder:
    """The four rungs of what is no measurement.

    Parameters
    ----------
    asks, points, expects, works : str
        A sentence or two each.
    """

    asks: str
    points: str
    expects: str
    works: str


SAFETY = Ladder(
    "What could hurt you or the people here before you have touched anything?",
    "Before covers, ladders and terminals comes a look round.",
    "Nothing out of order is what one hopes for; that it was looked at first is what counts.",
    "Stand back, look, listen and smell. What is wrong is told to the customer and made safe "
    "before anything is opened.",
)
CONSENT = Ladder(
    "Does the customer know what you are going to do in the house, and where?",
    "A word with the customer comes before the first tool.",
    "A plain yes, and what you must know: pets, children, medical needs.",
    "Say in two sentences where you will go and what you will open, ask whether anything speaks "
    "against it, and listen.",
)
READY = Ladder(
    "Would you trust this tool if two of them disagreed?",
    "A tool is checked before it is believed.",
    "Two sound probes in the same air differ by less than a degree, never by exactly nothing.",
    "Do it once, before the first number that rests on it, and note what you found.",
)
METER = Ladder(
    "How do you know that your meter would have shown a voltage if there was one?",
    "A meter is proven before it is believed, and gear is put on before terminals are near.",
    "The known source reads what it should, before and after.",
    "Measure a source you know, then the circuit, then the source again.",
)
LOCKED = Ladder(
    "Could anything or anybody bring the power back while your hands are in it?",
    "What is switched off is locked, and proven dead, before hands go to terminals.",
    "A proven meter shows nothing between any two terminals, nor to ground.",
    "Switch off at the disconnect or breaker, put your lock on, prove it dead with a proven meter, "
    "and discharge what can hold a charge.",
)
RUNS = Ladder(
    "The complaint is about a system at work. Have you seen it at work?",
    "Call for it at the thermostat and let it run before anything is judged.",
    "Most readings are steady about fifteen minutes after a start.",
    "Start the system, wait until it is steady, and see with your own eyes what the customer "
    "complained about.",
)
FINDING = Ladder(
    "Which of the causes is left that explains every reading on your sheet, with the right sizes?",
    "Open Causes: rule out what a reading contradicts, then state under Finding what is left.",
    "Enough for a repair that can be undone is about ten to one over the next best; for a costly "
    "one, thirty to one.",
    "Go down the sheet. For each reading outside the ordinary ask which causes move it that way, "
    "and for each inside it which causes it clears. State what is left and how large it is, and "
    "tick the readings that show it.",
)
STANDS_STILL = Ladder(
    "Is the system as it must be for hands to go into it?",
    "Switch it off first. The thermostat alone takes only the call away.",
    "Nothing turns, nothing hums, and a proven meter shows no voltage where hands will be.",
    "Switch off, and where hands go to terminals pull the disconnect or the breaker, lock it, and "
    "prove it dead before you touch.",
)
MENDS = Ladder(
    "What does your finding ask for, and can it be undone if you are wrong?",
    "Open Repair: choose the act that mends what you stated, the reversible one first.",
    "Only what was found changes; all else should read after it as it did before.",
    "Read what the act needs and what it leads to, do it, start the system again, and take the "
    "readings that showed the fault once more at the same points.",
)
WRITES = Ladder(
    "If somebody else comes here next year, what must they be able to read?",
    "Open Write-up before you leave.",
    "What was wrong, how you know, what you did, what to watch: with at least two numbers.",
    "Write in plain words: found, shown by, done, before and after, and an honest range for what "
    "the customer may expect.",
)
OF_ACTS: Mapping[str, Ladder] = {
    START: RUNS,
    STATE: FINDING,
    SECURE: STANDS_STILL,
    REPAIR: MENDS,
    RECORD: WRITES,
}
OF_STEPS: Mapping[str, Ladder] = {
    "consent": CONSENT,
    "match_probes": READY,
    "check_batteries": READY,
    "zero_manometer": READY,
    "prove_meter": METER,
    "isolate_unit": LOCKED,
    "lock_out_air_handler": LOCKED,
}


def ladder_of(about: str) -> Ladder:
    """The rungs of a preparation or an act.

    Parameters
    ----------
    about : str
        A code that can be coached, of no measurement.

    Returns
    -------
    Ladder
        For all other preparations that of safety.
    """
    return OF_ACTS.get(about) or OF_STEPS.get(about, SAFETY)
