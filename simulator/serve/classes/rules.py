"""What a class asks of a visit: paused, a test, out of time, scores held."""

from simulator.calls.visit import Visit
from simulator.records.assignments import ALONE as ALONE_MODE
from simulator.records.assignments import TEST as TEST_MODE
from simulator.records.assignments import Assignment
from simulator.records.class_visits import Standing
from simulator.serve.classes.files import assignments, class_records, class_visits

FROZEN = "Your instructor has paused the class. What you did is kept; go on when it is released."
HELD = (
    "This call is a test. What it was worth, and what was true, is shown when your instructor "
    "releases it."
)
TEST = "This call is a test."
TEST_AHEAD = "A test: one visit, without the coach."
NO_COACH = "There is no coach on this call: what you do and find is your own."
ALONE = "This call is worked without the coach."
BESIDE = "Your own visit: the class {name} does not count it. Its calls stand on the home page."
LEFT = "This visit is closed; its debrief is on the home page."
ON_PAPER = ("mark", "declare", "write_up", "probe", "close")  # takes no site time


def refusal(asked: Standing, minute: float, what: object) -> str | None:
    """Why an act is not taken.

    Parameters
    ----------
    asked : Standing
        Of the visit in its class.
    minute : float
        Site time so far, in minutes.
    what : object
        The act, as the browser names it.

    Returns
    -------
    str or None
        A sentence; None where the class has nothing against it.
    """
    if asked.is_frozen:
        return FROZEN
    return None if what in ON_PAPER else used_up(asked, minute)


def used_up(asked: Standing, minute: float) -> str | None:
    """What is left to do once the time is over.

    Parameters
    ----------
    asked : Standing
        Of the visit in its class.
    minute : float
        Site time so far, in minutes.

    Returns
    -------
    str or None
        A sentence; None while there is time.
    """
    if asked.allowed is None or minute < asked.allowed:
        return None
    return (
        f"The {asked.allowed:.0f} minutes allowed on site are used up. State your finding, "
        "write to the customer and leave."
    )


def too_long(asked: Standing, minute: float, end: float, what: object) -> str | None:
    """Why an act is not begun: it would not be done when the time is up.

    The visit ends with its time, and a reading that is not finished is none.

    Parameters
    ----------
    asked : Standing
        Of the visit in its class.
    minute, end : float
        Site time so far, and when the act would be done, in minutes.
    what : object
        The act, as the browser names it.

    Returns
    -------
    str or None
        A sentence; None where there is time for it.
    """
    if what in ON_PAPER or asked.allowed is None or end <= asked.allowed:
        return None
    left, long = asked.allowed - minute, end - minute
    return (
        f"That takes {long:.0f} min, and {left:.0f} min of the {asked.allowed:.0f} allowed on site "
        "are left. Choose something shorter, or state your finding, write to the customer and "
        "leave."
    )


def coach_refusal(asked: Standing, visit: Visit) -> str | None:
    """Why the coach keeps silent.

    Parameters
    ----------
    asked : Standing
        Of the visit in its class.
    visit : Visit
        As it stands.

    Returns
    -------
    str or None
        A sentence; None where a hint may be had.
    """
    if visit.is_closed:
        return LEFT
    if not asked.is_coached:
        return NO_COACH
    return FROZEN if asked.is_frozen else None


def terms(asked: Standing, minute: float) -> list[str]:
    """What a trainee should know of them while the visit goes on.

    Parameters
    ----------
    asked : Standing
        Of the visit in its class.
    minute : float
        Site time so far, in minutes.

    Returns
    -------
    list of str
        Sentences; none for practice without a limit.
    """
    said = [BESIDE.format(name=asked.beside)] if asked.beside else []
    if asked.is_test:
        said.append(TEST)
    if not asked.is_test and not asked.is_coached:
        said.append(ALONE)
    if over := used_up(asked, minute):
        said.append(over)
    elif asked.allowed is not None:
        left = asked.allowed - minute
        said.append(f"{asked.allowed:.0f} minutes are allowed on site; {left:.0f} are left.")
    if asked.is_frozen:
        said.append(FROZEN)
    return said


def ahead(own: Assignment, trainee: str) -> list[str]:
    """What a trainee should know of the terms before the call is taken.

    Parameters
    ----------
    own : Assignment
        Of the call in the class.
    trainee : str
        Whose browser asks.

    Returns
    -------
    list of str
        Sentences; none for practice without a limit.
    """
    said = [TEST_AHEAD] if own.mode == TEST_MODE else [ALONE] if own.mode == ALONE_MODE else []
    allowed = own.allowed(trainee)
    if allowed is not None:
        said.append(f"{allowed:.0f} minutes are allowed on site.")
    return said


def is_once(own: Assignment) -> bool:
    """Whether a call may be worked only once.

    Parameters
    ----------
    own : Assignment
        Of the call in the class.

    Returns
    -------
    bool
        True for a test.
    """
    return own.mode == TEST_MODE


def is_test(token: str) -> bool:
    """Whether a visit must go without coaching.

    Parameters
    ----------
    token : str
        Of the visit.

    Returns
    -------
    bool
    """
    return class_visits().standing(token).is_test


def is_held(token: str) -> bool:
    """Whether the scores of a visit wait for the instructor.

    Parameters
    ----------
    token : str
        Of the visit.

    Returns
    -------
    bool
        True also for a visit of no class while a class is tested with the same call.
    """
    return class_visits().standing(token).is_held


def uncounted_by(call: str, trainee: str) -> str:
    """The class that would not count a call, were it taken now.

    Parameters
    ----------
    call : str
        Its id.
    trainee : str
        The browser's own name.

    Returns
    -------
    str
        Its name; empty for who is in none, and for a call that a class of theirs works.
    """
    joined = class_records().of_trainee(trainee)
    return joined[0].name if joined and not any(call in one.calls for one in joined) else ""


def may_start(call: str, trainee: str) -> bool:
    """Whether a browser may take a call now.

    Parameters
    ----------
    call : str
        Its id.
    trainee : str
        The browser's own name.

    Returns
    -------
    bool
        False while others are tested with it: a private window must not show the answer.
    """
    if call not in assignments().held_calls():
        return True
    return any(call in joined.calls for joined in class_records().of_trainee(trainee))
