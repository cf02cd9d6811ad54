"""The whole state of the stand as a line of text that can be sent to somebody."""

from dataclasses import fields
from typing import Any
from urllib.parse import parse_qsl, urlencode

from simulator.faults._catalogue import discover
from simulator.quantities.entered import BadEntry
from simulator.quantities.shown import SYSTEMS
from simulator.serve.stand.entry_units import shown
from simulator.serve.stand.limits import limits_of
from simulator.serve.stand.setting import Setting
from simulator.serve.stand_page.entry import SCALE, WORDS, usual
from simulator.serve.stand_page.trends import SLOW

QUICK = ("cycle", "air", "fan", "delivery")  # charts that come with every answer
USUAL_CHARTS = ("cycle", "delivery")
MOST_CHARTS = 2
LONGEST = 2000  # characters; a whole setting has some four hundred
KEYS = ("mode", "units", "predict", *WORDS, *limits_of("cooling"))


def charts_of(message: dict[str, Any]) -> list[str]:
    """The charts that are shown.

    Parameters
    ----------
    message : dict
        As sent.

    Returns
    -------
    list of str

    Raises
    ------
    BadEntry
        For a chart there is not.
    """
    asked = message.get("charts", list(USUAL_CHARTS))
    if not isinstance(asked, list) or len(asked) > MOST_CHARTS:
        raise BadEntry(f"At most {MOST_CHARTS} charts fit beside each other.")
    for name in asked:
        if name not in (*QUICK, *SLOW):
            raise BadEntry(f"The chart must be one of {', '.join((*QUICK, *SLOW))}.")
    return list(dict.fromkeys(str(name) for name in asked))


def link_of(setting: Setting, system: str, charts: list[str]) -> str:
    """The text behind the number sign of the stand's address.

    Parameters
    ----------
    setting : Setting
        Checked.
    system : str
        ``us`` or ``si``: in whose units its numbers are.
    charts : list of str
        Shown.

    Returns
    -------
    str
        What is as usual is left out, save weather and rooms.
    """
    default = {field.name: field.default for field in fields(Setting)}
    pairs = [("mode", setting.mode)]
    for word in WORDS:
        chosen = getattr(setting, word)
        if chosen is not None and chosen != default[word]:
            pairs.append((word, str(chosen)))
    for key, (_, _, unit, _) in limits_of(setting.mode).items():
        number = getattr(setting, key)
        if number is not None and number != default[key]:
            printed = shown(float(number), unit, system) * SCALE.get(key, 1.0)
            pairs.append((key, f"{printed:.7g}"))
    for name, amount in setting.faults.items():
        scale = 100.0 if discover()[name].unit == "-" else 1.0
        pairs.append(("fault", f"{name}:{amount * scale:.7g}"))
    if system != "us":
        pairs.append(("units", system))
    pairs += [("chart", name) for name in charts]
    return urlencode(pairs, safe=":")


def opened(link: Any) -> dict[str, Any]:
    """The words of a link, as if they had been typed.

    Parameters
    ----------
    link : object
        As ``link_of`` gave it, or as somebody wrote it.

    Returns
    -------
    dict
        A message; its numbers have not been looked at yet.

    Raises
    ------
    BadEntry
        For what no link of the stand says.
    """
    if not isinstance(link, str) or len(link) > LONGEST:
        raise BadEntry("That link is not one of the test stand's.")
    words: dict[str, Any] = {}
    faults: list[dict[str, str]] = []
    charts: list[str] = []
    for key, value in parse_qsl(link, keep_blank_values=True):
        if key == "fault":
            name, _, amount = value.partition(":")
            faults.append({"name": name, "severity": amount})
        elif key == "chart":
            charts.append(value)
        elif key in KEYS:
            words[key] = value
        else:
            raise BadEntry(f"The link says {key[:40]!r}, which the stand does not know.")
    if "predict" in words and faults:
        raise BadEntry("A link for a prediction does not name the fault.")
    mode, system = words.get("mode", "cooling"), words.get("units", "us")
    return (
        _usual(str(mode), str(system))
        | words
        | {"faults": faults}
        | ({"charts": charts} if charts else {})
    )


def _usual(mode: str, system: str) -> dict[str, str]:
    if system not in SYSTEMS:
        return {}  # said where it is read
    return {"airflow": "100", **usual(system).get(mode, {})}
