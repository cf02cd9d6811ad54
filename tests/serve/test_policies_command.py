"""The table of the four simulated trainees is what shows that grading works."""

import json
import os
from itertools import pairwise

import pytest

from simulator.calls import call_file
from simulator.calls.sealed import sealed
from simulator.diagnosis.causes import codes, name_of
from simulator.serve.command import main
from simulator.serve.commands import policies

# Bar of the issue on grading: ordered, and each at least this far apart. [-]
APART = 15.0
ORDER = ("random", "gauges_first", "checklist", "reference")


@pytest.fixture(scope="module")
def found() -> dict[str, object]:
    if os.environ.get("BENCHCALL_WHOLE"):
        return policies.played_by_all(call_file.names(), 3)
    return policies.played_by_all(call_file.names()[::3])


def test_better_work_scores_more(found: dict) -> None:
    scores = [found["mean_score"][name] for name in ORDER]
    gaps = [round(after - before, 1) for before, after in pairwise(scores)]
    assert min(gaps) >= APART, dict(zip(ORDER, scores, strict=True))


def test_the_reference_solves_every_call_in_the_time_allowed(found: dict) -> None:
    """It scores as whoever finds, mends and proves everything; 85 as for good play by hand."""
    low = {call: row["reference"] for call, row in found["calls"].items()
           if row["reference"]["score"] < 85.0}  # fmt: skip
    assert not low
    assert found["unsolved"] == []


def test_what_was_not_solved_is_told_with_its_look_alike(monkeypatch: pytest.MonkeyPatch) -> None:
    """Random taps in the reference's place find nothing and are told so."""
    monkeypatch.setattr(policies, "REFERENCE", "random")
    data = policies.played_by_all(["tavener"])
    (one,) = data["unsolved"]
    assert one["call"] == "tavener"
    assert not one["is_right"]
    assert one["allowed"] == sealed("tavener").opened().usual_minutes
    assert one["look_alike"] in {name_of(cause) for cause in codes()}
    assert policies.table(data).splitlines()[-1].startswith("Not solved in time: tavener")


def test_table_and_data_say_the_same(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["policies", "--json", "tavener"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert set(data["mean_score"]) == set(ORDER)
    assert main(["policies", "tavener"]) == 0
    told = capsys.readouterr().out.splitlines()
    assert told[0].split() == ["call", *ORDER]
    shown = [float(x) for x in told[-1].split()[1:]]
    assert shown == [data["mean_score"][name] for name in ORDER]


def test_an_unknown_call_is_told_in_a_sentence(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["policies", "nowhere"]) == 2
    assert "nowhere" in capsys.readouterr().err
