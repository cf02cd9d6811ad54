"""The answer stays sealed: twins look alike, and the vault gives nothing away."""

import copy
import json
import pickle
import re
import shutil
import subprocess
import sys
from dataclasses import asdict, replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from simulator.calls import call_file, sealed
from simulator.calls.call_table import CallFileError
from simulator.calls.sealed import Key, Sealed
from simulator.calls.site import Site
from simulator.diagnosis.causes import causes
from simulator.faults._catalogue import discover, named
from simulator.serve.visits.visits import CallDesk
from tests.scoring.played import desk_for, do, go

MASKED = ("shown", "words", "outcome")
ROOT = Path(__file__).parents[2]
LINT = "from importlinter.cli import lint_imports_command as lint; lint()"
# Who may say these, by the design of this program: see "vault" in pyproject.toml.
SPOKEN = {
    r"import sealed\b": {"serve/visits/visits.py", "serve/visits/closed_visits.py"},
    r"\.opened\(\)": {
        "calls/site.py",
        "scoring/debrief.py",
        "scoring/odds.py",  # of closed visits, like these
        "scoring/turning.py",
        "scoring/for_and_against.py",
        "scoring/best_question.py",  # behind the instructor's door
        "scoring/good_path.py",
        "scoring/replay.py",
        "scoring/self_explanation.py",
        "scoring/answer_key.py",
        "variants/subject.py",  # behind a command, no page knows of it
        "serve/instructor/class_debrief.py",  # of closed visits, behind the instructor's door
        "serve/visits/closed_visits.py",
        "serve/visits/graded.py",
        "serve/visits/solved.py",  # of closed plays, behind a command
    },
    r"\bdocument\(": {
        "calls/call_file.py",
        "calls/sealed.py",
        "variants/subject.py",  # behind the same command
        "variants/search.py",
    },
}


def twin(desk: CallDesk, **faults: float) -> CallDesk:
    """The same visit of the same unit with something else wrong."""
    key = replace(
        desk._site.key.opened(), faults=tuple(named(n, amount) for n, amount in faults.items())
    )
    desk._site = Site(desk._site.call, Sealed(key), 12345)
    return desk


def masked(view: Any) -> Any:
    """A view without the values of its readings."""
    if isinstance(view, dict):
        return {
            key: "…" if key in MASKED else masked(item)
            for key, item in view.items()
            if key not in ("number", "worked_out")
        }
    return [masked(item) for item in view] if isinstance(view, list) else view


def played(desk: CallDesk) -> list[Any]:
    """Views of one and the same walk."""
    go(desk, "customer", "consent", "ask_when read_bill")
    go(
        desk,
        "air_handler",
        "hazard_look_air_handler drill_test_holes",
        "look_filter return_dry_bulb",
    )
    go(desk, "outdoor_unit", "connect_gauges", "suction_pressure liquid_pressure")
    do(desk, "mark", cause="undercharge", **{"as": "likely"})
    do(desk, "declare", causes=["undercharge"], cited=[desk.visit.readings[-1].seq])
    do(desk, "repair", repair="add_refrigerant", amount="4")
    do(desk, "measure", test="suction_pressure", technique="careful")
    return [masked(desk.view("us"))]


def test_twins_cannot_be_told_apart_but_by_their_readings(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    one = twin(desk_for("mallorn", tmp_path / "a", monkeypatch), supply_leak=0.22)
    first = played(one)
    two = twin(desk_for("mallorn", tmp_path / "b", monkeypatch), undercharge=0.2)
    assert json.dumps(first) == json.dumps(played(two))


def test_no_view_tells_the_story_or_any_reason(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for call in call_file.names():
        desk = desk_for(call, tmp_path / call, monkeypatch)
        if not desk.visit.is_running:
            do(desk, "start")
        played(desk)
        text = json.dumps(desk.view("us"), ensure_ascii=False)
        assert sealed.sealed(call).opened().story not in text
        for kind in discover().values():
            assert kind.why not in text
        assert str(desk._record.seed) not in text


def test_the_list_of_causes_is_whole_and_in_one_order(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    listed = {
        call: [c["code"] for c in desk_for(call, tmp_path / call, monkeypatch).view("us")["causes"]]
        for call in call_file.names()
    }
    assert all(codes == [choice.code for choice in causes()] for codes in listed.values())
    assert {choice.code for choice in causes()} == {*discover(), "no_fault"}


def test_a_sealed_key_is_neither_shown_nor_stored_nor_copied() -> None:
    box = sealed.sealed("mallorn")
    assert repr(box) == str(box) == "<sealed>"
    assert f"{box!s}" == "<sealed>"
    assert repr(box.opened()) == "<sealed>"
    for attempt in (pickle.dumps, copy.copy, copy.deepcopy, json.dumps):
        with pytest.raises(TypeError):
            attempt(box)


@pytest.mark.parametrize(
    "content", [b"\xff\xfe", b"[work_order", b"", b"[work_order]\ntitle = 3\n"], ids=repr
)
def test_a_damaged_call_file_gets_one_sentence(content: bytes) -> None:
    with pytest.raises(CallFileError) as problem:
        call_file.understood("mallorn", call_file.parsed("mallorn", content))
    assert re.fullmatch(r"[^.]*(\.[^ ][^.]*)*\.", str(problem.value))


def test_a_damaged_key_gives_nothing_away() -> None:
    tables = call_file.document("mallorn")
    for damage in (
        {"faults": {"gremlins": 1.0}},
        {"repairs": {"supply_leak": ["pray"]}},
        {"hazards": [{"step": "none"}]},
        {"usual_minutes": "long"},
    ):
        broken = {**tables, "sealed": {**tables["sealed"], **damage}}
        with pytest.raises(CallFileError) as problem:
            sealed.understood("mallorn", broken)
        assert str(problem.value) == "The sealed part of call mallorn is damaged."


def test_every_call_can_be_mended_by_its_own_repairs() -> None:
    for call in call_file.names():
        key: Key = sealed.sealed(call).opened()
        site = Site(call_file.load(call), sealed.sealed(call), 7)
        acts = tuple((acts[0], None) for acts in key.repairs.values())
        healthy, left = site.healthy(), site.installation(acts)
        for name, value in asdict(healthy.ducts).items():
            # A run taken off and put back is the same but for the last bit of a float.
            now = asdict(left.ducts)[name]
            assert np.ravel(now) == pytest.approx(np.ravel(value), rel=1e-12), name
        assert left.unit.strips.energised_power == healthy.unit.strips.energised_power


def vault_contract(folder: Path) -> subprocess.CompletedProcess[str]:
    """Judge the imports of a copy of the program."""
    command = [sys.executable, "-c", LINT, "--contract", "vault", "--no-cache"]
    return subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)


@pytest.mark.parametrize(
    "importer",
    [
        "serve/stand_page/stand.py",
        "serve/learning/lesson.py",
        "calls/view.py",
        "calls/decide.py",
        "records/schema.py",
    ],
)
def test_an_importer_more_breaks_the_vault(tmp_path: Path, importer: str) -> None:
    left_out = shutil.ignore_patterns("__pycache__", "*.npz")
    shutil.copytree(ROOT / "simulator", tmp_path / "simulator", ignore=left_out)
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    kept = vault_contract(tmp_path)
    assert kept.returncode == 0, kept.stdout + kept.stderr
    with (tmp_path / "simulator" / importer).open("a", encoding="utf-8") as module:
        module.write("\nfrom simulator.calls.sealed import sealed\n")
    broken = vault_contract(tmp_path)
    assert broken.returncode == 1
    assert "The key stays in the vault BROKEN" in broken.stdout
    name = f"simulator.{importer.removesuffix('.py').replace('/', '.')}"
    assert f"{name} -> simulator.calls.sealed" in broken.stdout


@pytest.mark.parametrize("said", SPOKEN)
def test_no_other_module_opens_a_key_or_reads_a_whole_call_file(said: str) -> None:
    package = ROOT / "simulator"
    found = {
        path.relative_to(package).as_posix()
        for path in package.rglob("*.py")
        if re.search(said, path.read_text(encoding="utf-8"))
    }
    assert found == SPOKEN[said]
