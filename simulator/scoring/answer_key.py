"""What an instructor needs on paper about one call: truth, one good path, what counts."""

from typing import Any

from simulator.calls.decide import place_name
from simulator.calls.sealed import Key
from simulator.calls.site import Site
from simulator.diagnosis.causes import name_of
from simulator.diagnosis.evidence import evidence
from simulator.faults._base import Fault
from simulator.faults._catalogue import discover
from simulator.faults._sizes import amount_shown, is_sized
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.places import PLACES
from simulator.instruments.steps import STEPS
from simulator.repairs import _catalogue as repairs
from simulator.scoring.three_states import before_after, bill

GOES = {
    "up": "high",
    "down": "low",
    "flat": "as healthy",
    "seen": "is seen",
    "moved": "off either way",
    "beside": "for comparison",
}


def answer_key(site: Site, system: str = "us") -> dict[str, Any]:
    """One call's key.

    Parameters
    ----------
    site : Site
        With the key.
    system : str
        Units, ``us`` or ``si``.

    Returns
    -------
    dict
        Plain data; the readings are the plant's, healthy, as found and after the right repairs.
    """
    key = site.key.opened()
    acts = tuple((codes[0], _usual(codes[0])) for codes in key.repairs.values() if codes)
    return {
        "story": key.story,
        "usual_minutes": round(key.usual_minutes),
        "causes": [_cause(code, share, key, system) for code, share in key.causes.items()],
        "hazards": [
            {"step": STEPS[h.step].name, "text": h.text, "is_gate": h.is_gate} for h in key.hazards
        ],
        "path": _path(key, site),
        "readings": before_after(site, acts, system),
        "bill": bill(site, acts, system),
    }


def _usual(repair: str) -> float | None:
    """Right amounts depend on what was found; a key names none."""
    kind = repairs.discover()[repair]
    return None if kind.amount_name is None else (kind.low + kind.high) / 2.0


def _size(fault: Fault, system: str) -> list[str]:
    """How large a fault is; nothing of one that has no degrees."""
    kind = fault.kind
    if not is_sized(kind):
        return ["", ""]
    return amount_shown(kind, fault.severity / kind.unit_in_si, system)


def _cause(code: str, share: float, key: Key, system: str) -> dict[str, Any]:
    fault = discover().get(code)
    found = next((f for f in key.faults if f.kind.id == code), None)
    size, unit = _size(found, system) if found else ["", ""]
    return {
        "name": name_of(code),
        "share": round(100.0 * share),
        "size": size,
        "size_unit": unit,
        "measure": fault.measure if fault else "",
        "why": fault.why if fault else "",
        "evidence": [
            {"name": MEASUREMENTS[name].name, "goes": GOES.get(goes, goes), "weight": weight}
            for name, (goes, weight) in sorted(
                evidence()[code].items(), key=lambda item: -item[1][1]
            )
        ],
        "repairs": [repairs.discover()[one].title for one in key.repairs.get(code, ())],
        "proof": [MEASUREMENTS[name].name for name in key.proof.get(code, ())],
    }


def _path(key: Key, site: Site) -> list[dict[str, Any]]:
    """An order of looking that works: dangers first, then what tells most, place by place."""
    telling = {name for code in key.causes for name in evidence()[code]}
    always = {"ask_when", "ask_changed", "ask_touched"}
    path = []
    for place in PLACES:
        steps = [STEPS[h.step].name for h in key.hazards if STEPS[h.step].place == place]
        tests = [
            item.name
            for item in MEASUREMENTS.values()
            if item.place == place and item.id in telling | always
        ]
        if tests:
            path.append({"place": place_name(site, place), "first": steps, "tests": tests})
    return path
