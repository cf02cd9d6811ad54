"""What the debrief page asks for, message by message."""

from typing import Any

from simulator.serve.kernels.beside import Beside, Steps
from simulator.serve.visits import visits
from simulator.serve.visits.closed_desk import ClosedDesk
from simulator.serve.visits.next_call import next_call
from simulator.serve.visits.wire import text

SLOW = ("odds", "path")


class DebriefPage:
    """Answers one page; what takes seconds is worked out beside it.

    Parameters
    ----------
    trainee : str
        Whose browser asks.
    """

    def __init__(self, trainee: str) -> None:
        self._trainee = trainee
        self._under_way: dict[tuple[str, str], Beside] = {}

    def answered(self, desk: ClosedDesk, message: dict[str, Any]) -> dict[str, Any]:
        """Answer one message.

        Parameters
        ----------
        desk : ClosedDesk
            Of the visit in the page's address.
        message : dict
            From the browser; anything at all.

        Returns
        -------
        dict
            Plain data, ``pending``, or ``problem`` in one sentence.
        """
        units = text(message, "units")
        match message.get("do"):
            case "odds" | "path" as what:
                return self._slowly(desk, what, units)
            case "replay":
                return desk.replay(message, self._trainee)
            case "explain":
                return desk.explain(message, self._trainee)
            case _:
                return self._opened(desk, units)

    def _slowly(self, desk: ClosedDesk, what: str, units: str) -> dict[str, Any]:
        if hindrance := desk.untold():
            return {"problem": hindrance}
        key = (what, "si" if units == "si" else "us")
        if key not in self._under_way:
            # A desk of its own: what a site has solved is no place for two at once.
            own = visits.open_desk(desk.record.token)
            steps = Steps()
            self._under_way[key] = Beside(
                lambda: _reckoned(own, key[1], steps) if what == "odds" else own.good_path(key[1]),
                steps,
            )
        return self._under_way[key].answer()

    def _opened(self, desk: ClosedDesk, units: str) -> dict[str, Any]:
        told = desk.debrief(units)
        if "debrief" in told:
            told["debrief"]["is_own"] = desk.is_of(self._trainee)
            total = told["debrief"]["total"]
            told["debrief"]["next_call"] = None if total is None else next_call(desk.record, total)
        return told


def _reckoned(desk: ClosedDesk, units: str, steps: Steps) -> dict[str, Any]:
    """Odds and points, and the call to take next, which waits for the points."""
    told = desk.odds(units, steps.reach)
    if "total" in told:
        told["next_call"] = next_call(desk.record, told["total"])
    return told
