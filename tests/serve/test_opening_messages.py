"""A lesson whose panel cannot answer fails the run over the lessons."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from simulator.serve.paths import PACKAGE
from tests.serve.running import write_notebook

ROOT = PACKAGE.parent
STAND = "from simulator.serve.pages import show_test_stand\n\nshow_test_stand()"
BROKEN = "from simulator.serve.{module}\n\ndef broken(*_, **__):\n    {body}\n\n{name} = broken"
OF_STAND = {"module": "stand_page import stand", "name": "stand.answer"}
OF_VISITS = {"module": "visits import visits", "name": "visits.view"}
PAGES: dict[str, tuple[list[str], str]] = {
    "whole": ([STAND], ""),
    "raises": (
        [BROKEN.format(**OF_STAND, body="raise ValueError('stuck fan')"),
         STAND],
        "stuck fan",
    ),
    "complains": (
        [BROKEN.format(**OF_STAND, body="return {'problem': 'no power'}"),
         STAND],
        "no power",
    ),
    "says_nothing": (
        [BROKEN.format(**OF_STAND, body="return {}"), STAND],
        "the answer is empty",
    ),
    "call": (
        [BROKEN.format(**OF_VISITS, body="raise OSError('lost order')"),
         "from simulator.serve.pages import show_call\n\nshow_call()"],
        "lost order",
    ),
    "part": (
        ["from simulator.serve.pages import show_part\n\n"
         "show_part('air-before-refrigerant', 'no such part')"],
        "no such part",
    ),
    "bare": (["1 + 1"], "shows no panel"),
}  # fmt: skip


def run(*arguments: str) -> "subprocess.CompletedProcess[str]":
    """Pytest with notebooks, as the checks run it."""
    options = ("-q", "--color=no", "-p", "no:cacheprovider", "--nbval-lax", "--nbval-current-env")
    return subprocess.run(
        [sys.executable, "-m", "pytest", *options, *arguments],
        cwd=ROOT, env={**os.environ, "PYTHONPATH": str(ROOT)}, text=True, capture_output=True,
        check=False, timeout=240,
    )  # fmt: skip


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A notebook of each kind."""
    made = tmp_path_factory.mktemp("pages")
    for name, (cells, _) in PAGES.items():
        write_notebook(made / f"{name}.ipynb", *cells)
    return made


def test_a_panel_that_cannot_answer_fails_the_run(folder: Path) -> None:
    asked = run("-rfp", "-p", "tests.serve.opening_messages", str(folder))
    assert asked.returncode == 1, asked.stdout + asked.stderr
    for name, (_, said) in PAGES.items():
        failed = [
            line
            for line in asked.stdout.splitlines()
            if line.startswith("FAILED") and f"{name}.ipynb" in line
        ]
        # Only the message fails: every cell of these lessons runs without error.
        assert [line.split("::")[1].split(" - ")[0] for line in failed] == (
            ["opening messages"] if said else []
        )
        assert said in asked.stdout


def test_without_the_message_all_of_them_pass(folder: Path) -> None:
    assert run(str(folder)).returncode == 0


def test_every_panel_of_every_lesson_is_asked() -> None:
    plugin = "tests.serve.opening_messages"
    assert f'"{plugin}"' in (ROOT / ".ci" / "check").read_text(encoding="utf-8")
    listed = run("-p", plugin, "--collect-only", "lessons").stdout
    books = [path.name for path in (ROOT / "lessons").glob("*.ipynb")]
    assert books
    for book in books:
        assert f"{book}::a visit" in listed
        assert f"{book}::opening messages" in listed
