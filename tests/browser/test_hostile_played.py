"""Calls played to their last step in a browser: all that it heard, held against the key."""

import os
import re
from collections import Counter
from dataclasses import dataclass
from typing import Any

import pytest
from playwright.sync_api import Page

from simulator.calls import call_file
from simulator.calls.repair_terms import power_needed
from simulator.calls.sealed import sealed
from simulator.calls.sheet import value_shown
from simulator.calls.site import Site
from simulator.calls.view import OUTCOME
from simulator.calls.visit import fold
from simulator.diagnosis.causes import causes
from simulator.faults import _catalogue as faults
from simulator.faults._sizes import bounds_shown
from simulator.instruments.places import PLACES
from simulator.quantities.kinds import KINDS
from simulator.quantities.shown import SYSTEMS, show
from simulator.records.visit_records import VisitRecords
from simulator.repairs import _catalogue as repairs
from tests.browser.overheard import DRAWERS, WRONG_CAUSE, Eavesdropper, play
from tests.browser.test_hostile import COACHED, LIBRARY, OFFERED, leaks
from tests.serve.running import RunningBench

# A sample of both kinds and both seasons; BENCHCALL_WHOLE=1 plays the library.
FEW = ["mallorn", "tavener", "winterbourne"]
COACHED_CALLS = sorted(LIBRARY) if os.environ.get("BENCHCALL_WHOLE") else FEW[:1]
SAMPLE = sorted(LIBRARY) if os.environ.get("BENCHCALL_WHOLE") else FEW


@pytest.mark.parametrize("call", SAMPLE)
def test_a_call_played_to_its_last_step_tells_nothing(
    page: Page, bench: RunningBench, call: str
) -> None:
    ears = Eavesdropper()
    done = play(page, call, LIBRARY[call]["sealed"], ears, asks_coach=call in COACHED_CALLS)
    page.unroute_all(behavior="wait")
    views, told, heard = ears.views(), ears.told(), ears.everything()
    last, key = views[-1], LIBRARY[call]["sealed"]
    _assert_lists_are_neutral(views, done)
    # Outside those lists: what the trainee chose, and not a word of the key.
    assert last["finding"]["causes"] == [WRONG_CAUSE]
    assert [row["outcome"] for row in last["repairs_done"]] == [OUTCOME] * len(done)
    undone = {act for acts in key["repairs"].values() for act in acts} - set(done)
    if call in COACHED_CALLS:
        _assert_coach_is_discreet(ears)
    names = [text for code in key["faults"] for text in (code, faults.discover()[code].title)]
    names += [text for code in undone for text in (code, repairs.discover()[code].title)]
    for name in names:
        assert name not in told, name
        _assert_as_often_as_the_others(name, "".join(ears.pages[-len(DRAWERS) :]))
    assert not {"severity", "faults", "proof", "share", "story", "seed", "truth"} & _fields(told)
    for leak in leaks(call):
        assert leak not in heard, leak
    truth = _truth(page, bench, call, last)
    _assert_no_number_of(truth, call, told, heard)
    # The same net holds fish when there are some.
    plants = [f"{max(truth.exact):.1f}", f"{truth.seed}"]
    plants += [f"{100 * worst:.0f} %" for worst in truth.severities if worst < 1.0]
    for planted in (*plants, max(truth.printed)):
        with pytest.raises(AssertionError):
            _assert_no_number_of(truth, call, f'{told} "x": {planted}', f"{heard} {planted}")


def _assert_coach_is_discreet(ears: Eavesdropper) -> None:
    """Hints came, in words: neither a cause nor a likelihood is among them."""
    told = ears.coached()
    assert {one["rung"] for one in told if "rung" in one} >= {1, 2, 3, 4}
    assert all(set(one) <= COACHED for one in told)
    said = " ".join(line for one in told for line in one.get("said", []))
    for cause in causes():
        assert cause.name.lower() not in said.lower(), cause.name
        assert not re.search(rf"\b{cause.code}\b", said), cause.code
    for word in ("odds", "likely", "probab", " bits", "score", "%"):
        assert word not in said, word


def _degrees(code: str, system: str) -> dict[str, Any]:
    """Where slight, moderate and severe part: by the kind of fault alone."""
    kind = faults.discover().get(code)
    if kind is None:
        return {"measure": "", "bounds": []}
    return {"measure": kind.measure, "bounds": bounds_shown(kind, system)}


def _assert_lists_are_neutral(views: list[dict[str, Any]], done: list[str]) -> None:
    """Causes and repairs are the same rows for every call, but for the trainee's own marks."""
    listed = [
        [
            {"code": c.code, "name": c.name, "family": c.family, **_degrees(c.code, system)}
            for c in causes()
        ]
        for system in SYSTEMS
    ]
    for view in views:
        marks = {row.pop("code"): row.pop("mark") for row in map(dict, view["causes"])}
        assert [{k: v for k, v in row.items() if k != "mark"} for row in view["causes"]] in listed
        assert {code for code, mark in marks.items() if mark != "open"} <= {WRONG_CAUSE}
        assert [row["code"] for row in view["repairs"]] == list(repairs.discover())
        for row in view["repairs"]:
            kind = repairs.discover()[row["code"]]
            said = (row["name"], row["minutes"], row["caution"], row["consequence"])
            assert said == (kind.title, kind.minutes, kind.caution, kind.consequence)
            # The power it needs is the repair's own in every call.
            assert row["power"] == power_needed(row["code"])
            assert set(row) == OFFERED
        # What a row adds hangs on the place and the power alone, not on being right.
        terms = {(row["power"], row["blocked"]) for row in view["repairs"]}
        assert len(terms) == len({row["power"] for row in view["repairs"]})
        assert len({(row["place"], row["walk"]) for row in view["repairs"]}) <= len(PLACES)
    assert len(views[-1]["repairs_done"]) == len(done)


def _assert_as_often_as_the_others(name: str, markup: str) -> None:
    """The page writes a name of the key as often as most names of the same list."""
    lists = ([c.code for c in causes()], [c.name for c in causes()], list(repairs.discover()))
    lists = (*lists, [kind.title for kind in repairs.discover().values()])
    whole = next(names for names in lists if name in names)
    often = Counter(_times(other, markup) for other in whole)
    assert _times(name, markup) == often.most_common(1)[0][0] > 0, name


def _times(name: str, markup: str) -> int:
    return len(re.findall(rf"(?<!\w){re.escape(name)}(?!\w)", markup))


def _fields(told: str) -> set[str]:
    return set(re.findall(r'"(\w+)": ', told))


@dataclass(frozen=True)
class Truth:
    """The numbers of one visit that only its key, its chance or its physics knows."""

    seed: int
    severities: set[float]
    shares: set[float]
    exact: set[float]
    printed: set[str]


def _truth(page: Page, bench: RunningBench, call: str, last: dict[str, Any]) -> Truth:
    store = VisitRecords(bench.data / "visits.sqlite")
    token = page.url.split("visit=")[1]
    record, events = store.record(token), store.events(token)
    store.close()
    key = LIBRARY[call]["sealed"]
    site = Site(call_file.load(call), sealed(call), record.seed)
    readings = fold(events).readings
    # The numbers left out of what was told are those that the tools gave, noise and all.
    assert [row["shown"] for row in last["sheet"]] == [value_shown(e, "us")[0] for e in readings]
    shares, exact, printed = set(key["causes"].values()), set(), set()
    for event in readings:
        now = site.moment(fold(events[: event.seq + 1]), event.minute).now
        flows = [float(now.supply_leak_airflow), float(now.return_leak_airflow)]
        # A tight duct loses a few percent at every house; that tells nothing.
        shares |= {x / float(now.airflow) for x in flows if x > 0.05 * float(now.airflow)}
        heats = [float(now.delivered_capacity), float(now.delivered_sensible)]
        heats.append(float(now.gross_capacity) - heats[0])
        for kind, values in (("airflow", flows), ("heat_rate", heats)):
            exact |= _units(values, kind)
            both = [show(x, kind, system) for x in values for system in SYSTEMS if x > 0.0]
            printed |= {f"{amount.text} {amount.unit}" for amount in both}
    shares = {share for share in shares if 0.0 < share < 1.0}
    return Truth(record.seed, set(key["faults"].values()), shares, exact, printed)


def _assert_no_number_of(truth: Truth, call: str, told: str, heard: str) -> None:
    """Neither seed nor severity nor share nor an exact state, in whatever unit."""
    for seed in (str(truth.seed), f"{truth.seed:x}", f"{truth.seed:X}"):
        assert seed not in heard
    # What the work order says of the plates, such as the strips' size, everybody may know.
    for line in LIBRARY[call]["work_order"]["equipment"]:
        told = told.replace(line, "")
    shares = truth.severities | truth.shares
    for text, value in _numbers(told):
        digits = len(re.sub(r"\D", "", text).lstrip("0"))
        # Numbers of few digits are counts and minutes, unless a unit or decimals say otherwise.
        decimals = len(text.partition(".")[2])
        is_fine = digits >= 5 or (digits >= 4 and decimals >= 2)
        near = [x for x in truth.exact if is_fine and round(x, decimals) == value]
        assert not near, (text, near)
        assert not [x for x in shares if decimals >= 2 and round(x, decimals) == value], text
        assert "." not in text or value not in truth.severities, text
    for printed in truth.printed:
        assert not re.search(rf"(?<![\d.,]){re.escape(printed)}", told), printed
    for amount in shares:
        for unit, scale, places in (("%", 100.0, 0), ("%", 100.0, 1), ("kW", 1.0, 1)):
            said = rf"(?<![\d.,]){amount * scale:.{places}f}\s*{unit}"
            assert not re.search(said, told), said


def _units(values: list[float], kind: str) -> set[float]:
    scales = (1.0, KINDS[kind].us.scale, KINDS[kind].metric.scale)
    return {value / scale for value in values for scale in scales if value}


def _numbers(told: str) -> list[tuple[str, float]]:
    found = re.findall(r"(?<![\w.,-])\d[\d,]*(?:\.\d+)?(?![\w-])", told)
    texts = [text.replace(",", "") for text in found]
    return [(text, float(text)) for text in texts]
