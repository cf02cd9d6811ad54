"""A hostile browser at a real call: it learns nothing of the key and forges nothing."""

import re
import tomllib
from collections.abc import Iterator
from importlib.resources import files
from typing import Any

import pytest

from simulator.faults import _catalogue as faults
from simulator.serve.visits.closed_desk import NOT_YOURS
from tests.serve.raw_page import RawPage, raw_page
from tests.serve.running import Client, RunningBench

LIBRARY = {
    path.name.removesuffix(".toml"): tomllib.loads(path.read_text(encoding="utf-8"))
    for path in (files("simulator.calls") / "library").iterdir()
    if path.name.endswith(".toml")
}
LOOK = {"do": "look_around"}
OFFERED = {
    "lock_out",
    *("code", "name", "minutes", "place", "walk"),
    *("power", "blocked", "caution", "consequence", "amount"),
}
COACHED = {"taken", "rung", "said", "is_thinking"}
NONSENSE: list[Any] = [
    None,
    17,
    "look_around",
    [],
    {},
    {"do": None},
    {"do": "open_key"},
    {"do": "__class__"},
    {"do": "go"},
    {"do": "go", "place": "vault"},
    {"do": "go", "place": ["attic"]},
    {"do": "measure", "test": "truth", "technique": "best"},
    {"do": "measure", "test": {"$ne": 1}, "technique": 3},
    {"do": "prepare", "step": "../../sealed"},
    {"do": "wait", "minutes": ""},
    {"do": "wait", "minutes": "-10"},
    {"do": "wait", "minutes": "nan"},
    {"do": "wait", "minutes": "1e99"},
    {"do": "wait", "minutes": {"a": 1}},
    {"do": "mark", "cause": "no_such_cause", "as": "likely"},
    {"do": "mark", "cause": "supply_leak", "as": "true"},
    {"do": "declare", "causes": "all", "cited": []},
    {"do": "declare", "causes": [], "cited": [10**9]},
    {"do": "repair", "repair": "win", "amount": None},
    {"do": "repair", "repair": "add_refrigerant", "amount": "inf"},
    {"do": "units", "system": "furlongs"},
    {"do": "set", "faults": [{"name": "supply_leak", "severity": "20"}]},
]
FORGED: list[dict[str, Any]] = [
    {"score": 100, "total": 100, "phase": "closed", "minutes": 0},
    {"_handle": None, "_esm": "export default {}"},
    {"_model_name": "OutputModel", "layout": "IPY_MODEL_0"},
    {"keys": ["_handle"], "comm": None},
]


def leaks(call: str) -> list[str]:
    """What would give a call away."""
    sealed = LIBRARY[call]["sealed"]
    told = re.split(r"(?<=[.:]) ", sealed["story"])
    hazards = [hazard["text"] for hazard in sealed["hazards"]]
    whys = [fault.why for fault in faults.discover().values()]
    modules = ["simulator.faults", "simulator.calls.sealed", "<sealed>", "usual_minutes"]
    classes = ["FaultKind", "Fault("]
    return [*told, *hazards, *whys, *modules, *classes]


@pytest.fixture(scope="module", params=sorted(LIBRARY))
def visit(request: pytest.FixtureRequest, bench: RunningBench) -> Iterator[tuple[str, RawPage]]:
    """A visit to each call of the library, through a raw line."""
    client = Client(bench.address)
    with raw_page(client, client.take_call(request.param)) as page:
        yield request.param, page


def test_nothing_of_the_key_arrives(visit: tuple[str, RawPage]) -> None:
    call, page = visit
    panel = page.panel()
    view = _view(page.ask(panel, LOOK))
    for place in view["places"]:
        page.ask(panel, {"do": "go", "place": place["id"]})
        for test in place["tests"][:2]:
            technique = test["techniques"][0]["id"] if test["techniques"] else None
            page.ask(panel, {"do": "measure", "test": test["id"], "technique": technique})
    # Who arrives is coached at once, on people and safety; a made-up count forges nothing.
    for seen in (0, 1, 2, -1, "all", None):
        answer = page.ask(panel, {"do": "coach", "seen": seen, "rung": 4, "about": "register_sum"})
        assert answer is not None
        assert set(answer["coach"]) <= COACHED, answer
    assert page.states()
    heard = page.everything()
    assert view["visit"]["number"] in heard
    for leak in leaks(call):
        assert leak not in heard


def test_every_cause_is_offered_in_one_order(bench: RunningBench) -> None:
    offered = set()
    for call in LIBRARY:
        client = Client(bench.address)
        with raw_page(client, client.take_call(call)) as page:
            view = _view(page.ask(page.panel(), LOOK))
            offered.add(tuple(cause["code"] for cause in view["causes"]))
    (causes,) = offered
    assert set(faults.discover()) <= set(causes)


def test_nonsense_gets_a_sentence_at_most_and_changes_nothing(visit: tuple[str, RawPage]) -> None:
    _, page = visit
    panel = page.panel()
    before = _view(page.ask(panel, LOOK))
    for nonsense in NONSENSE:
        answer = page.ask(panel, nonsense)
        if answer is None or answer.get("view") == before:
            continue
        assert isinstance(answer.get("problem"), str), nonsense
        assert "ticket" not in answer["problem"], nonsense
    assert _view(page.ask(panel, LOOK)) == before
    _assert_no_workings(page)


def test_forged_traits_change_nothing(visit: tuple[str, RawPage]) -> None:
    _, page = visit
    panel = page.panel()
    before = _view(page.ask(panel, LOOK))
    for state in FORGED:
        page.tell(panel, {"method": "update", "state": state, "buffer_paths": []})
    assert _view(page.ask(panel, LOOK)) == before
    _assert_no_workings(page)


def test_the_debrief_of_an_open_visit_is_closed(bench: RunningBench) -> None:
    call = next(iter(LIBRARY))
    client = Client(bench.address)
    address = client.take_call(call).replace("call.ipynb", "debrief.ipynb")
    with raw_page(client, address) as page:
        replay = {"do": "replay", "minute": 0, "test": "look_filter"}
        for asked in (LOOK, {"do": "odds"}, {"do": "path"}, replay, {"do": "explain", "text": "x"}):
            answer = page.ask(page.panel(), asked)
            assert answer is not None
            assert set(answer) - {"id"} == {"problem"}
        for leak in leaks(call):
            assert leak not in page.everything()


def test_the_debrief_of_another_opens_no_replay(bench: RunningBench) -> None:
    """Neither with the address of another's visit nor by naming another call."""
    owner, stranger = Client(bench.address), Client(bench.address)
    address = owner.take_call("mallorn")
    with raw_page(owner, address) as page:
        for told in ({"do": "declare", "causes": ["no_fault"], "cited": []}, {"do": "close"}):
            page.ask(page.panel(), told)
    stranger.ask("")
    with raw_page(stranger, address.replace("call.ipynb", "debrief.ipynb")) as page:
        asked = {
            "do": "replay",
            "minute": 0,
            "test": "look_filter",
            "call": "rooke",
            "trainee": "x",
        }
        for message in (asked, {"do": "explain", "text": "mine"}):
            answer = page.ask(page.panel(), message)
            assert answer is not None
            assert answer["problem"] == NOT_YOURS
    with raw_page(owner, address.replace("call.ipynb", "debrief.ipynb")) as page:
        answer = page.ask(page.panel(), asked, patience=90.0)
        assert answer is not None
        assert answer["replay"]["name"] == "Look at the filter"
        page.ask(page.panel(), {"do": "debrief"})
        heard = page.everything()
        for other in set(LIBRARY) - {"mallorn"}:
            for sentence in re.split(r"(?<=[.:]) ", LIBRARY[other]["sealed"]["story"]):
                assert sentence not in heard
        _assert_no_workings(page)


@pytest.mark.parametrize("visit_token", ["", "AAAAAAAAAAAAAAAA", "../../etc", "%00", "'; --"])
def test_a_made_up_visit_gets_a_sentence(bench: RunningBench, visit_token: str) -> None:
    client = Client(bench.address)
    client.ask("")
    with raw_page(client, f"voila/render/call.ipynb?visit={_quoted(visit_token)}") as page:
        answer = page.ask(page.panel(), LOOK)
        assert answer is not None
        assert answer["problem"]
        assert "ticket" not in answer["problem"]
        _assert_no_workings(page)


def _view(answer: dict[str, Any] | None) -> dict[str, Any]:
    assert answer is not None
    assert "view" in answer, answer.get("problem")
    return dict(answer["view"])


def _assert_no_workings(page: RawPage) -> None:
    heard = page.everything()
    for working in ("Traceback", "site-packages", 'File \\"'):
        assert working not in heard
    assert not [said for said in page.heard if said["msg_type"] in ("stream", "error")]


def _quoted(text: str) -> str:
    return text if text.startswith("%") else re.sub(r"[^\w.]", lambda m: f"%{ord(m[0]):02X}", text)
