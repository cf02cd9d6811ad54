"""How a first hint leads on from what a trainee has asked and measured already.

Nothing here knows the key, nor what a reading would show: only which have been taken.
"""

from collections.abc import Mapping

from simulator.calls.visit import Visit
from simulator.diagnosis.coach_themes import themes
from simulator.diagnosis.enough import last_repair, newest
from simulator.instruments.measurements import MEASUREMENTS

MOST = 3  # that are named, the newest ones [-]
# What each question leaves known, and what makes one think of it.
KNOWN: Mapping[str, str] = {
    "ask_when": "since when it is so",
    "ask_changed": "what changed before it began",
    "ask_touched": "who worked on it last",
    "ask_rooms": "where in the house it is felt",
    "read_bill": "what the house has used",
    "read_history": "what was done here before",
}
QUESTIONS: Mapping[str, str] = {
    "ask_when": "Did it come on a certain day, at certain hours, or little by little?",
    "ask_changed": "What was no longer as it had been in the weeks before it began?",
    "ask_touched": "Whose hands were on the system last, and was it better or worse after?",
    "ask_rooms": "Is it the whole house or a part of it, and what does it feel like there?",
    "read_bill": "Is more being used than a year ago, or does it only feel like it?",
    "read_history": "What have others done here before you, and did it last?",
}


def leading(about: str, visit: Visit) -> list[str]:
    """What a first hint about a reading says.

    Parameters
    ----------
    about : str
        Code of the reading.
    visit : Visit
        With what was taken.

    Returns
    -------
    list
        What the sheet tells already, where it tells anything, and a question.
    """
    taken = newest(visit, last_repair(visit))
    if about in QUESTIONS:
        known = [KNOWN[name] for name in taken if name in KNOWN and name != about]
        told = f"You know by now: {'; '.join(known)}." if known else ""
        return [told, QUESTIONS[about]]
    theme = themes()[about]
    if about not in taken and about in newest(visit):
        lead = "You took it before the repair; nothing shows yet what the repair did to it."
        return [lead, theme.question]
    of_it = [MEASUREMENTS[name].said for name in taken if name in theme.codes and name != about]
    if of_it:
        return [f"Of this you have so far: {'; '.join(of_it[-MOST:])}.", theme.question]
    others = list(dict.fromkeys(themes()[name].about for name in taken))
    told = f"Your sheet tells of this so far: {'; '.join(others[-MOST:])}." if others else ""
    return [told, theme.question]
