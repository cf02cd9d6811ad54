"""The one door in: a browser's message becomes an action, or one sentence."""

from typing import Any

from simulator.calls import actions
from simulator.calls.view import amount_kind
from simulator.quantities.entered import BadEntry, entered
from simulator.repairs._catalogue import discover


def text(message: dict[str, Any], key: str) -> str:
    """A text of a message.

    Parameters
    ----------
    message : dict
        From the browser.
    key : str
        Which.

    Returns
    -------
    str
        Empty where there is none; half a character, which no file can hold, becomes a question
        mark.
    """
    value = message.get(key)
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        return ""
    return str(value).encode("utf-8", "replace").decode("utf-8")


def action(message: dict[str, Any], system: str) -> actions.Action:
    """What a message asks for.

    Parameters
    ----------
    message : dict
        From the browser; anything at all.
    system : str
        Units of what was typed.

    Returns
    -------
    Action
        Not yet decided.

    Raises
    ------
    BadEntry
        If it asks for nothing that exists, or a number in it is none.
    """
    match message.get("do"):
        case "go":
            return actions.GoTo(place=text(message, "place"))
        case "prepare":
            return actions.Prepare(step=text(message, "step"))
        case "measure":
            return actions.Measure(
                measurement=text(message, "test"), technique=text(message, "technique")
            )
        case "start":
            return actions.StartSystem()
        case "stop":
            return actions.StopSystem()
        case "wait":
            return actions.Wait(minutes=_minutes(text(message, "minutes")))
        case _:
            return _on_paper(message, system)


def _on_paper(message: dict[str, Any], system: str) -> actions.Action:
    match message.get("do"):
        case "mark":
            return actions.Mark(cause=text(message, "cause"), mark=text(message, "as"))
        case "declare":
            return actions.Declare(
                causes=tuple(str(code) for code in _listed(message, "causes")),
                cited=tuple(_whole(seq) for seq in _listed(message, "cited")),
                sizes=tuple(str(size) for size in _listed(message, "sizes")),
            )
        case "repair":
            return _repair(message, system)
        case "write_up":
            return actions.WriteUp(text=text(message, "text"))
        case "probe":
            return _probe(message)
        case "close":
            return actions.Close()
        case _:
            raise BadEntry("That is not something a visit knows how to do.")


def _minutes(typed: str) -> float:
    return entered(typed, "duration", name="wait", low=60.0, high=120.0 * 60.0) / 60.0


def _probe(message: dict[str, Any]) -> actions.Probe:
    causes = tuple(str(code) for code in _listed(message, "causes"))
    typed = [str(share) for share in _listed(message, "percents")]
    shares = tuple(entered(one, "fraction", name="percentage", low=0.0, high=1.0) for one in typed)
    return actions.Probe(causes=causes, shares=shares)


def _listed(message: dict[str, Any], key: str) -> list[Any]:
    value = message.get(key, [])
    if not isinstance(value, list):
        raise BadEntry(f"{key} must be a list.")
    return value


def _whole(seq: Any) -> int:
    if isinstance(seq, bool) or not isinstance(seq, int):
        raise BadEntry("Readings are cited by their number on the sheet.")
    return seq


def _repair(message: dict[str, Any], system: str) -> actions.Repair:
    code, amount = text(message, "repair"), message.get("amount")
    kind = discover().get(code)
    if kind is None or kind.amount_name is None:
        return actions.Repair(repair=code, amount=None)
    return actions.Repair(
        repair=code,
        amount=entered(
            "" if amount is None else str(amount),
            amount_kind(code),
            system,
            name=kind.amount_name,
            low=kind.low,
            high=kind.high,
        ),
    )
