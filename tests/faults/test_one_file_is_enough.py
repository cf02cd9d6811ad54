"""A new fault is one file and its rows: found, listed and checked with nothing else touched."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from simulator.faults import _catalogue
from tests.style.source_tree import ROOT

# Any other way to the same physics will do; the signs are the square law of duct resistance.
FILE = '''"""A filter of the wrong kind.

References
----------
.. [1] Square law of duct resistance.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    ducts = installation.ducts
    return replace(
        installation, ducts=replace(ducts, filter_loading=ducts.filter_loading + severity)
    )


FAULT = FaultKind(
    id="{id}",
    title="Unheard of {id}",
    cause="Filter unheard of, {id}",
    family="Indoor air",
    why="It lets through less air than the old one did, from the first day on.",
    apply=apply,
    measure="resistance added, in clean filters",
    kind="ratio",
    counted_in="clean filters",
    high=9.0,
    typical=6.0,
    prior=0.2,
    hazards=("hazard_look_air_handler",),
    evidence={{
        "look_filter": ("seen", 0.6),
        "static_before_filter": ("up", 0.4),
        "static_after_filter": ("down", 0.4),
    }},
    repairs=("replace_filter",),
)
'''
ROWS = """mode,metering,quantity,goes,source
cooling,txv,filter_drop,up,square law of duct resistance
cooling,txv,airflow,down,fan laws
"""
# Found before any test is collected, as a file in the folder itself would be.
PLUGIN = """
import simulator.faults

simulator.faults.__path__.append({faults!r})

from tests.faults import signs

signs.FOLDERS.append(signs.Path({rows!r}))
"""
CHECKS = (
    "tests/faults/test_every_fault.py",
    "tests/repairs/test_every_repair.py",
    "tests/diagnosis",
    "tests/calls/test_twins.py",
)
# What each slip in the file or its rows is caught by.
SLIPS = {
    "no_such_repair": ("replace_filter", "pray", "test_what_a_fault_names_restores"),
    "unfit_repair": ("replace_filter", "seal_supply", "test_what_a_fault_names_restores"),
    "no_such_reading": ('"look_filter"', '"look_away"', "test_every_cause_rests_on_real"),
    "false_evidence": (
        '"static_after_filter": ("down"',
        '"static_after_filter": ("up"',
        "test_the_plant_bears_out",
    ),
    "thin_evidence": ('"seen", 0.6', '"seen", 0.1', "test_every_cause_rests_on_real"),
    "no_such_hazard": ("hazard_look_air_handler", "dragons", "test_its_numbers_and_names"),
    "no_such_device": ("hazards=", 'metering=("tap",), hazards=', "test_its_numbers_and_names"),
    "false_sign": ("airflow,down", "airflow,up", "test_each_claimed_sign_appears"),
}


def added(folder: Path, **texts: tuple[str, str]) -> Path:
    """Files and rows of new faults, and the plugin that adds their folder to the search."""
    faults, rows = folder / "faults", folder / "rows"
    faults.mkdir()
    rows.mkdir()
    for name, (file, signs) in texts.items():
        (faults / f"{name}.py").write_text(file, encoding="utf-8")
        (rows / f"{name}.csv").write_text(signs, encoding="utf-8")
    plugin = PLUGIN.format(faults=str(faults), rows=str(rows))
    (folder / "added_faults.py").write_text(plugin, encoding="utf-8")
    return folder


def checked(folder: Path, chosen: str, *checks: str) -> str:
    """What the suite says of the new faults, in a process of its own."""
    path = os.pathsep.join((str(folder), str(ROOT)))
    options = ("-p", "added_faults", "-p", "no:cacheprovider", "-rA", "-q", "--tb=no")
    ran = subprocess.run(
        [sys.executable, "-m", "pytest", *options, "-k", chosen, *checks],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
        env={
            **os.environ,
            "PYTHONPATH": path,
            "PYTEST_ADDOPTS": "",
            "PYTHONDONTWRITEBYTECODE": "1",
        },
    )
    assert not ran.stderr, ran.stderr
    return ran.stdout


def lines(said: str, outcome: str) -> list[str]:
    """Tests of one outcome."""
    return [line for line in said.splitlines() if line.startswith(outcome + " ")]


def test_a_file_and_its_rows_pass_every_check(tmp_path: Path) -> None:
    name = "unheard_of_filter"
    folder = added(tmp_path, **{name: (FILE.format(id=name), ROWS)})
    # The list of causes in other processes is left out: those search the usual folder alone.
    said = checked(folder, f"({name} or diagnosis or every_row) and not every_process", *CHECKS)
    assert not lines(said, "FAILED") + lines(said, "ERROR"), said
    passed = "\n".join(lines(said, "PASSED"))
    for check in (
        "test_its_effect_grows_with_severity",
        "test_it_solves_over_severity_and_weather",
        "test_it_commutes_with_every_other",
        "test_what_a_fault_names_restores_and_an_unrelated_one_does_not",
        "test_every_cause_rests_on_real_measurements",
        "test_the_plant_bears_out_what_the_evidence_claims",
        "test_the_same_walk_shows_the_same_but_for_readings",
    ):
        assert f"{check}[{name}]" in passed
    assert passed.count(f"test_each_claimed_sign_appears[{name}-") == 2
    assert "test_every_fault_is_listed_once_and_no_fault_last" in passed


def test_each_slip_is_caught(tmp_path: Path) -> None:
    wrong = {}
    for name, (right, slip, _) in SLIPS.items():
        file, rows = FILE.format(id=name), ROWS
        assert (right in file) != (right in rows)
        wrong[name] = (file.replace(right, slip), rows.replace(right, slip))
    said = checked(added(tmp_path, **wrong), " or ".join(SLIPS), *CHECKS[:3])
    failed = lines(said, "FAILED")
    for name, (_, _, check) in SLIPS.items():
        assert any(check in line and f"[{name}" in line for line in failed), (name, said)


@pytest.mark.parametrize("text", ["FAULT = 1\n", "", FILE.format(id="another_name")])
def test_a_file_without_its_fault_is_refused(
    text: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "misfit.py").write_text(text, encoding="utf-8")
    path = [*_catalogue.simulator.faults.__path__, str(tmp_path)]
    monkeypatch.setattr(_catalogue.simulator.faults, "__path__", path)
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    monkeypatch.delitem(sys.modules, "simulator.faults.misfit", raising=False)
    with pytest.raises(TypeError, match=r"faults/misfit\.py must hold FAULT"):
        _catalogue.discover.__wrapped__()
    monkeypatch.delitem(sys.modules, "simulator.faults.misfit")
