"""The table of times."""

import inspect
import json

import pytest

from simulator.serve.command import main
from simulator.serve.commands.timing import browsing, solving
from simulator.serve.commands.timing.times import Timing, table, timed
from simulator.serve.paths import PACKAGE


def test_a_line_gives_the_median_and_the_slowest() -> None:
    lines = table([Timing(what="waiting", seconds=(0.01, 0.03, 0.02))]).splitlines()
    assert lines[-1] == "| waiting | 20 ms | 30 ms |  |"


def test_a_line_is_compared_when_there_is_something_to_compare_with() -> None:
    line = table([Timing(what="page", seconds=(3.0,), against=2.0, bar="≤ 1.5 ×")])
    assert "3.00 s (1.50 ×)" in line
    assert "≤ 1.5 ×" in line


def test_the_first_time_is_not_counted() -> None:
    done: list[int] = []
    assert len(timed(lambda: done.append(1), 3)) == 3
    assert len(done) == 4


def test_a_mistaken_number_of_rounds_gets_one_sentence(
    capsys: pytest.CaptureFixture[str],
) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["bench", "--rounds", "many"])
    assert ended.value.code == 2
    said = capsys.readouterr().err
    assert "whole number from 1 to 50" in said
    assert said.count("\n") == 1


def test_the_plant_is_compared_in_one_run(capsys: pytest.CaptureFixture[str]) -> None:
    """Floors far below the bars: the machine of a test run is shared."""
    assert main(["bench", "--json", "--rounds", "1"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["batch_solves_per_s"] > 1000
    assert found["cold_ms"] < 100
    assert found["naive_ratio"] > 100
    assert found["tespy_batch_ratio"] > 10
    assert found["tespy_single_ratio"] > 0.1
    assert found["growth"]["5000"] > 3 * found["growth"]["10"]


def test_the_figure_is_the_median_of_the_batch_that_is_named(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Faster runs, and faster sizes, stand beside it and change nothing."""
    runs = {10: (1.0, 2.0, 9.0), 100: (0.001, 0.001, 0.002)}
    sizes: list[int] = []

    def drawn(count: int) -> tuple[list[int], list[int]]:
        sizes.append(count)
        return [0], [0]

    def measured(_: int) -> list[Timing]:
        return [Timing(what="", seconds=taken) for taken in ((1.0,), (1.0,), (4.0, 2.0, 1.0))]

    def none(_: str) -> None:
        raise ImportError

    for name, value in (
        ("GROWTH", (10, 100)),
        ("scenarios", drawn),
        ("timed", lambda *_: runs[sizes[-1]]),
        ("solving", measured),
        ("_reference", none),
    ):
        monkeypatch.setattr(solving, name, value)
    found = solving.comparison(3)
    assert found["batch_size"] == solving.BATCH == 10000
    assert found["batch_solves_per_s"] == pytest.approx(5000.0)
    assert found["growth"] == pytest.approx({"10": 5.0, "100": 100000.0, "10000": 5000.0})


def test_the_readme_holds_the_table_that_is_printed() -> None:
    readme = (PACKAGE.parent / "README.md").read_text(encoding="utf-8")
    (head, rule) = table([]).splitlines()
    lines = readme.split(f"{head}\n{rule}\n")[1].split("\n\n")[0].splitlines()
    said = inspect.getsource(browsing) + inspect.getsource(solving)
    said = said.replace("{BATCH:,}", f"{solving.BATCH:,}")
    assert len(lines) == said.count("what=")
    for line in lines:
        what, _, _, asked = (part.strip() for part in line.strip("|").split("|"))
        assert f'what="{what}"' in said or f'what=f"{what}"' in said
        assert not asked or f'bar="{asked}"' in said
