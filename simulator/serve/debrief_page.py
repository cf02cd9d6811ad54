"""What the debrief page asks for, message by message."""

from typing import Any

from simulator.serve.closed_desk import ClosedDesk
from simulator.serve.wire import text


def answered(desk: ClosedDesk, message: dict[str, Any], trainee: str) -> dict[str, Any]:
    """Answer one message of a debrief page.

    Parameters
    ----------
    desk : ClosedDesk
        Of the visit in the page's address.
    message : dict
        From the browser; anything at all.
    trainee : str
        Whose browser asks.

    Returns
    -------
    dict
        Plain data, or ``problem`` in one sentence.
    """
    units = text(message, "units")
    match message.get("do"):
        case "odds":
            return desk.odds(units)
        case "replay":
            return desk.replay(message, trainee)
        case "path":
            return desk.good_path(units)
        case "explain":
            return desk.explain(message, trainee)
        case _:
            return _opened(desk, units, trainee)


def _opened(desk: ClosedDesk, units: str, trainee: str) -> dict[str, Any]:
    from simulator.serve.next_call import next_call

    told = desk.debrief(units)
    if "debrief" in told:
        told["debrief"]["is_own"] = desk.is_of(trainee)
        told["debrief"]["next_call"] = next_call(desk.record, told["debrief"]["total"])
    return told
