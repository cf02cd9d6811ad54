"""The coach of one visit: thinks beside the page, answers when it is asked again."""

from typing import Any

from simulator.calls.call_file import CallFile
from simulator.calls.events import Hinted
from simulator.calls.visit import Visit
from simulator.diagnosis.coach import Hint, hint, hint_at_once
from simulator.records.class_visits import Standing
from simulator.serve.kernels.apart import apart
from simulator.serve.kernels.beside import Beside

PATIENCE = 0.2  # that a click waits for a thought before it is told to come again [s]
THINKING: dict[str, Any] = {"is_thinking": True}


class Coach:
    """Hints for one visit, from what its trainee knows and nothing else.

    The plants of a call take seconds to work out. That is done beside the page, once, when a hint
    first needs them; acts go on meanwhile.

    Parameters
    ----------
    call : CallFile
        The public part; the key is out of reach.
    """

    def __init__(self, call: CallFile) -> None:
        self._call = call
        self._thought: _Thought | None = None

    def asked(self, visit: Visit, seen: object) -> Hint | None:
        """The next hint.

        Parameters
        ----------
        visit : Visit
            As it stands.
        seen : object
            How many hints the page has seen, from the browser: one that it missed is told again
            and not counted twice.

        Returns
        -------
        Hint or None
            None while the coach thinks.
        """
        last = visit.hints[-1] if visit.hints else None
        if last is not None and type(seen) is int and seen < len(visit.hints):
            return Hint(last.rung, last.about, last.said, last.said_si, is_new=False)
        if (at_once := hint_at_once(visit, self._call)) is not None:
            return at_once
        thought = self._thought
        # What was thought over is no help once more has been learnt or done.
        if thought is None or (thought.is_over and not thought.fits(visit)):
            thought = self._thought = _Thought(visit, self._call)
        if not thought.fits(visit):
            return None
        try:
            return thought.told()
        except Exception:
            self._thought = None  # thought over anew when asked again
            raise


class _Thought:
    """One thinking over of a visit, beside the page."""

    def __init__(self, visit: Visit, call: CallFile) -> None:
        self._about = len(visit.events)
        self._work = Beside(lambda: apart(lambda: {"hint": hint(visit, call)}))

    @property
    def is_over(self) -> bool:
        return self._work.is_over

    def fits(self, visit: Visit) -> bool:
        return self._about == len(visit.events)

    def told(self) -> Hint | None:
        """None while it is under way."""
        self._work.wait(PATIENCE)
        thought_of: Hint | None = self._work.answer().get("hint")
        return thought_of


def coached(asked: Standing, visit: Visit, system: str) -> dict[str, Any] | None:
    """What the call page knows of its coach.

    Parameters
    ----------
    asked : Standing
        Of the visit in its class.
    visit : Visit
        As it stands.
    system : str
        Units, ``us`` or ``si``.

    Returns
    -------
    dict or None
        The last hint taken; None where there is no coach.
    """
    if visit.is_closed or not asked.is_coached:
        return None
    last = visit.hints[-1] if visit.hints else None
    return {
        "taken": len(visit.hints),
        "rung": 0 if last is None else last.rung,
        "said": [] if last is None else list(last.told(system)),
    }


def event(told: Hint, visit: Visit) -> Hinted:
    """A hint as it is stored.

    Parameters
    ----------
    told : Hint
        New.
    visit : Visit
        As it stands.

    Returns
    -------
    Hinted
    """
    return Hinted(
        seq=visit.next_seq,
        minute=visit.minute,
        rung=told.rung,
        about=told.about,
        said=told.said,
        said_si=told.said_si,
    )


def answer(hint: Hint | None, asked: Standing, visit: Visit, system: str) -> dict[str, Any]:
    """What the page is told after it has asked.

    Parameters
    ----------
    hint : Hint or None
        None while the coach thinks.
    asked : Standing
        Of the visit in its class.
    visit : Visit
        With the hint stored.
    system : str
        Units, ``us`` or ``si``.

    Returns
    -------
    dict
        ``coach``.
    """
    if hint is None:
        return {"coach": THINKING}
    now = coached(asked, visit, system) or {}
    said = (hint.said_si if system == "si" else hint.said) or hint.said
    return {"coach": {**now, "rung": hint.rung, "said": list(said)}}
