"""``benchcall equipment``: its report, the sheets it copies and what it refuses."""

import tomllib
from importlib.resources import files
from pathlib import Path

import pytest

from simulator.plant.catalogue import load_installation
from simulator.plant.parameter_file import ParameterFileError
from simulator.serve import command

PLANT = files("simulator.plant")
SHEET = PLANT.joinpath("equipment", "dunlin_48.toml").read_text(encoding="utf-8")


def test_the_report_says_stated_and_fitted(capsys: pytest.CaptureFixture[str]) -> None:
    assert command.main(["equipment", "bittern_60"]) == 0
    shown = capsys.readouterr().out
    stated = tomllib.loads(
        PLANT.joinpath("equipment", "bittern_60.toml").read_text(encoding="utf-8")
    )
    assert f"{stated['cooling']['capacity']['value']}" in shown
    assert "All 19 rows are met." in shown


def test_the_unit_without_a_sheet_is_not_offered(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "400")
    with pytest.raises(SystemExit):
        command.main(["equipment", "--help"])
    offered = capsys.readouterr().out
    assert "bittern_60, dunlin_48, heron_30, martlet_24, siskin_18" in offered
    assert "quail_36" not in offered
    assert command.main(["equipment", "quail_36"]) == 2
    said = capsys.readouterr().err
    assert "has no data sheet; name a TOML file, or one of bittern_60," in said
    assert said.count("\n") == 1
    assert command.main(["equipment", "quial_36"]) == 2
    said = capsys.readouterr().err
    assert said.startswith("quial_36 is neither a TOML file nor one of bittern_60,")


def test_a_shipped_sheet_is_where_ones_own_begins(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    mine = tmp_path / "mine.toml"
    assert command.main(["equipment", "dunlin_48", "--copy-to", str(mine)]) == 0
    assert mine.read_text(encoding="utf-8") == SHEET
    for unit, new, why in (
        ("dunlin_48", mine, "is there already"),
        ("dunlin_48", tmp_path / "no" / "such.toml", "cannot be written"),
        (str(mine), tmp_path / "other.toml", "Only a shipped data sheet is copied"),
        ("quail_36", tmp_path / "other.toml", "has no data sheet"),
    ):
        assert command.main(["equipment", unit, "--copy-to", str(new)]) == 2
        said = capsys.readouterr().err
        assert why in said
        assert said.count("\n") == 1
    assert mine.read_text(encoding="utf-8") == SHEET


@pytest.mark.parametrize(
    ("unit", "motor", "sentence"),
    [
        (
            "quail_36",
            "constant_airflow",
            "Quail 36 has no constant_airflow blower; what it can have: constant_torque, psc.",
        ),
        (
            "heron_30",
            "constant_torque",
            "Heron 30 has no constant_torque blower; what it can have: psc.",
        ),
    ],
)
def test_another_motor_than_its_own_is_refused(unit: str, motor: str, sentence: str) -> None:
    with pytest.raises(ParameterFileError) as said:
        load_installation(unit, motor=motor)
    assert str(said.value) == sentence
