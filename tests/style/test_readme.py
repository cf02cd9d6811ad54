"""What the README promises is what runs."""

import json
import os
import re
import shlex
import subprocess
from pathlib import Path
from typing import Any

import pytest

from simulator.serve.command import main
from tests.style.source_tree import ROOT

README = (ROOT / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```(\w*)\n(.*?)^```$", README, flags=re.MULTILINE | re.DOTALL)


def command_two() -> str:
    """The README's test command."""
    after = README.split("<!-- command two -->")[1]
    return re.findall(r"^```\w*\n(.*?)^```$", after, flags=re.MULTILINE | re.DOTALL)[0].strip()


def test_the_server_runs_the_readme_command(tmp_path: Path) -> None:
    """The server script is run with a README whose command only says that it ran."""
    folder = tmp_path / "clone" / ".ci"
    folder.mkdir(parents=True)
    (folder / "run").write_text((ROOT / ".ci" / "run").read_text("utf-8"), encoding="utf-8")
    stand_in = README.replace(command_two(), "echo command two was run")
    (folder.parent / "README.md").write_text(stand_in, encoding="utf-8")
    done = subprocess.run(
        ["bash", str(folder / "run")],
        env={**os.environ, "BENCHCALL_CHROMIUM": "named, so that none is installed"},
        capture_output=True,
        text=True,
        check=True,
        timeout=300,
    )
    assert done.stdout.strip().endswith("command two was run")


def test_the_readme_command_runs_all_checks() -> None:
    assert command_two().endswith(".venv/bin/python .ci/check")


def test_the_python_lines_run(capsys: pytest.CaptureFixture[str]) -> None:
    (lines,) = [text for language, text in BLOCKS if language == "python"]
    scope: dict[str, Any] = {}
    exec(compile(lines, "README.md", "exec"), scope)
    assert "superheat" in scope["found"]["readings"]
    assert capsys.readouterr().out.strip()


def test_the_readings_line_runs(capsys: pytest.CaptureFixture[str]) -> None:
    (line,) = [text for _, text in BLOCKS if text.startswith("benchcall readings")]
    assert main(shlex.split(line)[1:]) in (None, 0)
    said = json.loads(capsys.readouterr().out)
    assert {"readings", "truth"} <= set(said)


def test_every_option_of_the_table_exists(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main(["readings", "--help"])
    known = set(re.findall(r"--[a-z-]+", capsys.readouterr().out))
    table = "\n".join(line for line in README.splitlines() if line.startswith("| `--"))
    named = set(re.findall(r"--[a-z-]+", table))
    assert named
    assert named <= known


def test_every_file_the_documents_point_at_exists() -> None:
    for document in ("README.md", "DEVELOPERS.md"):
        text = (ROOT / document).read_text(encoding="utf-8")
        for target in re.findall(r"\]\((?!https?:|#)([^)]+)\)", text):
            assert (ROOT / target).exists(), (document, target)
