"""The top level holds what the design card names, and the README what CI runs."""

import subprocess
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
CARD = {
    "README.md",
    "DEVELOPERS.md",
    "pyproject.toml",
    "simulator",
    "lessons",
    "tests",
    "binder",
    "LICENSE",
}


def test_only_the_card_stands_at_the_top() -> None:
    listed = subprocess.run(
        ["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True, check=True
    ).stdout.split("\0")
    top = {name.split("/")[0] for name in listed if name}
    assert {name for name in top if not name.startswith(".")} == CARD


def test_command_two_is_marked_for_the_server() -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    assert text.count("<!-- command two -->") == 1
    after = text.split("<!-- command two -->")[1]
    assert ".ci/check" in after.split("```")[1]
