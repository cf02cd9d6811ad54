"""What was typed on the test stand: a setting, or one sentence on what is wrong with it."""

from typing import Any

import numpy as np

from simulator.faults._catalogue import discover
from simulator.quantities.entered import BadEntry
from simulator.quantities.shown import SYSTEMS
from simulator.serve.stand.entry_units import IN_SI, limits, meant, shown, shown_unit
from simulator.serve.stand.given import need_word
from simulator.serve.stand.limits import LIMITS, MODES, USUAL, limits_of
from simulator.serve.stand.setting import Setting

WORDS = (
    *("unit", "refrigerant", "metering", "motor", "zone"),
    *("house", "strips", "zone_call", "gauges"),
)
MAY_BE_EMPTY = ("refrigerant", "metering", "motor", "zone", "gauges")  # as unit or house has it
STEPS = {"outdoor": 1.0, "return_db": 0.5, "return_wb": 0.5, "airflow": 5.0, "altitude": 100.0}
FINE = 0.5  # of what has no step of its own
METRIC_STEPS = {"°F": 0.5, "ft": 50.0}
SCALE = {"airflow": 100.0}  # shown in percent
MOST_FAULTS = 2


def system_of(message: dict[str, Any]) -> str:
    """In whose units it was typed.

    Parameters
    ----------
    message : dict
        As sent.

    Returns
    -------
    str
        ``us`` or ``si``.

    Raises
    ------
    BadEntry
        For any other.
    """
    system = message.get("units", "us")
    if system not in SYSTEMS:
        raise BadEntry("Units are us or si.")
    return str(system)


def _number(message: dict[str, Any], key: str, name: str) -> float:
    text = str(message.get(key, "")).strip()
    if not text:
        raise BadEntry(f"{name} is missing; give a number.")
    try:
        return float(text[:40])
    except ValueError:
        raise BadEntry(f"{name} must be a number, not {text[:40]!r}.") from None


def setting_of(message: dict[str, Any]) -> Setting:
    """The setting that was typed.

    Parameters
    ----------
    message : dict
        As sent, numbers as text in the units that were chosen.

    Returns
    -------
    Setting
        Not yet checked as a whole.

    Raises
    ------
    BadEntry
        For text where a number belongs, and for faults that there are not.
    """
    system = system_of(message)
    mode = message.get("mode", "cooling")
    need_word(mode, "the mode", MODES)
    given: dict[str, Any] = {"mode": mode}
    for key, (_, _, unit, name) in limits_of(mode).items():
        if key not in message and key in ("outdoor_wb", "altitude"):
            continue
        if key == "outdoor_wb" and not str(message[key]).strip():
            continue  # usual humidity
        number = _number(message, key, name[0].upper() + name[1:])
        given[key] = meant(number, unit, system) / SCALE.get(key, 1.0)
    for word in WORDS:
        asked = message.get(word, "")
        if asked or (word not in MAY_BE_EMPTY and word in message):
            given[word] = asked
    return Setting(**given, faults=_faults(message))


def _faults(message: dict[str, Any]) -> dict[str, float]:
    asked = message.get("faults", [])
    if not isinstance(asked, list) or len(asked) > MOST_FAULTS:
        raise BadEntry(f"At most {MOST_FAULTS} faults fit on the stand.")
    faults: dict[str, float] = {}
    for row in asked:
        name = str(row.get("name", "")) if isinstance(row, dict) else ""
        kind = discover().get(name)
        if kind is None:
            raise BadEntry("That fault is not in the list; choose one from it.")
        if name in faults:
            raise BadEntry(f"{kind.title} is chosen twice; choose another for the second fault.")
        amount = _number(row, "severity", f"The severity of {kind.title.lower()}")
        scale = 100.0 if kind.unit == "-" else 1.0
        faults[name] = _in_range(kind, amount, scale)
    return faults


def _in_range(kind: Any, amount: float, scale: float) -> float:
    if not np.isfinite(amount) or not kind.low * scale <= amount <= kind.high * scale:
        unit = "%" if kind.unit == "-" else f" {kind.unit}"
        raise BadEntry(
            f"{kind.title} takes {kind.low * scale:g} to {kind.high * scale:g}{unit}, "
            f"not {amount:g}."
        )
    return amount / scale


def dials(mode: str, system: str) -> dict[str, dict[str, Any]]:
    """Ends, step, unit and usual value of each number that can be set.

    Parameters
    ----------
    mode : str
        Of the setting.
    system : str
        ``us`` or ``si``.

    Returns
    -------
    dict
        By name, as shown.
    """
    rows = {}
    for key, (low, high, unit, _) in limits_of(mode).items():
        scale = SCALE.get(key, 1.0)
        ends = limits(low, high, unit, system)
        metric = system == "si" and unit in IN_SI
        if metric:  # a slider begins and ends on a whole number
            ends = (float(np.ceil(ends[0])), float(np.floor(ends[1])))
        rows[key] = {
            "low": ends[0] * scale,
            "high": ends[1] * scale,
            "step": METRIC_STEPS[unit] if metric else STEPS.get(key, FINE),
            "unit": "% of rated" if key in SCALE else shown_unit(unit, system),
        }
    return rows


def usual(system: str) -> dict[str, dict[str, str]]:
    """Where each mode begins.

    Parameters
    ----------
    system : str
        ``us`` or ``si``.

    Returns
    -------
    dict
        Text by name, by mode.
    """
    return {
        mode: {
            key: f"{round(shown(number, LIMITS[key][2], system), 1):g}"
            for key, number in numbers.items()
        }
        for mode, numbers in USUAL.items()
    }
