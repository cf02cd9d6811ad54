"""A straight air conditioner as a unit file: no [heating], no reversing valve, strips may heat."""

import re
from importlib.resources import files
from pathlib import Path

import pytest

from simulator.plant import steady, unit_report
from simulator.plant.catalogue import fit_of, load_installation
from simulator.quantities.entered import BadEntry
from simulator.serve.bench_readings import readings
from simulator.serve.command import main
from tests.plant.stand import winter

HERON = files("simulator.plant").joinpath("equipment", "heron_30.toml").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def straight(tmp_path_factory: pytest.TempPathFactory) -> str:
    """The old orifice unit as one that was built without the other half."""
    text = re.sub(r"(?ms)^\[heating\].*?(?=^\[)", "", HERON)
    text = re.sub(r"(?m)^heating = .*$", "", text).replace("Heron 30", "Heron AC")
    file: Path = tmp_path_factory.mktemp("own") / "straight.toml"
    file.write_text(text, encoding="utf-8")
    return str(file)


def test_its_rated_points_of_cooling_are_met(
    straight: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """3 % on capacity and 5 % on EER, as for every unit file."""
    fit = fit_of(straight)
    assert all(row.met for row in unit_report.rows(fit))
    assert [point.mode for point in fit.published.points] == ["cooling"]
    assert main(["equipment", straight]) == 0
    assert "orifice cooling without a reversing valve" in capsys.readouterr().out


def test_it_cools_as_the_heat_pump_of_its_data_does(straight: str) -> None:
    mine, other = readings(unit=straight), readings(unit="heron_30")
    for part, name, near in (
        ("truth", "gross_capacity", 0.03),
        ("truth", "gross_power", 0.05),
        ("readings", "suction_pressure", 0.06),
        ("readings", "liquid_pressure", 0.06),
    ):
        value = mine[part][name]["value"]
        assert value == pytest.approx(other[part][name]["value"], rel=near), name


def test_heat_is_refused_and_strips_alone_give_it(straight: str) -> None:
    """Resistance heat needs no circuit: by definition."""
    with pytest.raises(BadEntry, match="Heron AC has no reversing valve and cannot heat"):
        readings(unit=straight, mode="heating")
    with pytest.raises(BadEntry, match="no reversing valve"):
        readings(unit=straight, mode="heating", strips="called")
    left_out = steady.solve(load_installation(straight), winter())
    assert left_out.state == "compressor_off"
    found = readings(unit=straight, mode="heating", strips="emergency")
    assert found["state"] == "compressor_off"
    assert found["readings"]["strip_current"]["value"] == pytest.approx(9600.0 / 240.0, rel=0.01)


@pytest.mark.parametrize("name", ["stuck_reversing_valve", "leaking_reversing_valve"])
def test_what_it_has_not_cannot_fail(straight: str, name: str) -> None:
    asked = readings(unit=straight, faults={name: 0.5 if "leaking" in name else 1.0})
    assert asked.pop("notes")[0].endswith("this unit has no reversing valve.")
    assert asked == readings(unit=straight)
