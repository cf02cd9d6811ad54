"""What a visit gives away once it is closed: debrief, odds, replay, one good path."""

from collections.abc import Callable
from typing import Any

from simulator.calls.site import Site
from simulator.calls.view import work_order
from simulator.calls.visit import Visit
from simulator.quantities.shown import SYSTEMS
from simulator.records.visit_records import RecordsError, VisitRecord
from simulator.serve.classes.files import overrides, reflections
from simulator.serve.classes.rules import HELD, is_held
from simulator.serve.visits.wire import text

NOT_CLOSED = "The debrief opens when the visit is closed."
NOT_YOURS = "This visit was worked by somebody else; only they can answer or try things in it."


class ClosedDesk:
    """One visit, of which nothing is told before it is closed and released.

    Parameters
    ----------
    record : VisitRecord
        As stored.
    site : Site
        With the key.
    visit : Visit
        As it stands.
    """

    def __init__(self, record: VisitRecord, site: Site, visit: Visit) -> None:
        self._record = record
        self._site = site
        self._visit = visit

    @property
    def visit(self) -> Visit:
        """The visit as it stands.

        Returns
        -------
        Visit
        """
        return self._visit

    @property
    def site(self) -> Site:
        """Where it is worked, with the key; for the server alone.

        Returns
        -------
        Site
        """
        return self._site

    @property
    def record(self) -> VisitRecord:
        """The visit as stored.

        Returns
        -------
        VisitRecord
        """
        return self._record

    def is_of(self, trainee: str) -> bool:
        """Whether a browser worked this visit.

        Parameters
        ----------
        trainee : str
            The browser's own name.

        Returns
        -------
        bool
        """
        return trainee == self._record.trainee

    def debrief(self, system: str) -> dict[str, Any]:
        """What was true and what it was worth, once the visit is closed.

        Parameters
        ----------
        system : str
            Units, ``us`` or ``si``.

        Returns
        -------
        dict
            ``debrief``, or ``problem`` while the visit is open.
        """
        from simulator.scoring.replay import choices
        from simulator.serve.visits.graded import first_answer

        if hindrance := self.untold():
            return {"problem": hindrance}
        told = first_answer(self._record.token, self._visit, self._site, _known(system))
        visit = {
            "number": self._record.number,
            "minutes": round(self._visit.minute),
            "readings": len(self._visit.readings),
        }
        head = {"visit": visit, "work_order": work_order(self._site), "by_hand": self._by_hand()}
        told["to_explain"]["own_answer"] = reflections().newest(self._record.token)
        return {"debrief": {**head, **told, "replay_tests": choices(self._site)}}

    def explain(self, message: dict[str, Any], trainee: str) -> dict[str, Any]:
        """Keep what a trainee answers to the question the debrief opens with.

        Parameters
        ----------
        message : dict
            From the browser; anything at all.
        trainee : str
            Whose browser asks.

        Returns
        -------
        dict
            ``own_answer`` as kept, or ``problem``.
        """
        from simulator.scoring.self_explanation import question

        if hindrance := self.untold() or self._not_for(trainee):
            return {"problem": hindrance}
        asked = question(self._visit, self._site)["ask"]
        try:
            reflections().add(self._record.token, asked, text(message, "text"))
        except RecordsError as problem:
            return {"problem": str(problem)}
        return {"own_answer": reflections().newest(self._record.token)}

    def odds(
        self, system: str = "us", reached: Callable[[int], object] = lambda _: None
    ) -> dict[str, Any]:
        """How likely what was true was after each reading, and the points that rest on it.

        Parameters
        ----------
        system : str
            Units, ``us`` or ``si``.
        reached : callable
            Told as each of three steps begins: the table of the call, the readings, the points.

        Returns
        -------
        dict
            ``odds`` by event, ``turns``, ``causes`` and the points that the debrief lacked, or
            ``problem`` while the visit is open.
        """
        from simulator.diagnosis.expected import expected_at
        from simulator.scoring.for_and_against import for_and_against
        from simulator.scoring.odds import believed
        from simulator.serve.visits.graded import second_answer

        if hindrance := self.untold():
            return {"problem": hindrance}
        reached(1)
        expected_at(self._site.call)
        reached(2)
        believed(self._visit, self._site)
        reached(3)
        causes = for_and_against(self._visit, self._site, _known(system))
        told = second_answer(self._record.token, self._visit, self._site)
        return {**told, "causes": causes}

    def replay(self, message: dict[str, Any], trainee: str) -> dict[str, Any]:
        """A measurement nobody took, as it would have come out; nothing of it is kept.

        Parameters
        ----------
        message : dict
            From the browser; anything at all.
        trainee : str
            Whose browser asks.

        Returns
        -------
        dict
            ``replay``, or ``problem`` in one sentence.
        """
        from simulator.scoring.replay import CannotReplay, asked, replayed

        if hindrance := self.untold() or self._not_for(trainee):
            return {"problem": hindrance}
        try:
            minute, measurement = asked(message, self._visit)
        except CannotReplay as problem:
            return {"problem": str(problem)}
        system = _known(message.get("units"))
        return {"replay": replayed(self._visit, self._site, (minute, measurement), system)}

    def good_path(self, system: str = "us") -> dict[str, Any]:
        """How a good technician might have worked this very call; it takes seconds.

        Parameters
        ----------
        system : str
            Units, ``us`` or ``si``.

        Returns
        -------
        dict
            ``path``, or ``problem`` while the visit is open.
        """
        from simulator.scoring.good_path import good_path

        if hindrance := self.untold():
            return {"problem": hindrance}
        return {"path": good_path(self._site, _known(system))}

    def _not_for(self, trainee: str) -> str | None:
        return None if self.is_of(trainee) else NOT_YOURS

    def _by_hand(self) -> dict[str, Any] | None:
        """Points that count instead of the rubric's."""
        decided = overrides().of(self._record.token)
        return {"points": decided[-1].points, "own_reason": decided[-1].reason} if decided else None

    def untold(self) -> str | None:
        """Why nothing may be told yet.

        Returns
        -------
        str or None
            A sentence; None where the visit is closed and its scores are not held.
        """
        if not self._visit.is_closed:
            return NOT_CLOSED
        return HELD if is_held(self._record.token) else None


def _known(system: object) -> str:
    return str(system) if system in SYSTEMS else "us"
