"""``benchcall readings``: names, units, and one sentence for what cannot be."""

import json
from typing import Any

import pytest

from simulator.faults._catalogue import discover
from simulator.serve.bench_readings import readings
from simulator.serve.command import main

UNITS = {
    "readings": {
        "suction_pressure": "psig", "liquid_pressure": "psig", "superheat": "°F",
        "subcooling": "°F", "temperature_split": "°F", "discharge_temperature": "°F",
        "liquid_line_temperature": "°F", "suction_line_temperature": "°F",
        "compressor_current": "A", "air_handler_current": "A", "total_external_static": "in wc",
        "outdoor_power": "W", "airflow": "cfm",
    },
    "truth": {
        "gross_capacity": "Btu/h", "gross_power": "W", "cop": "", "sensible_heat_ratio": "",
        "delivered_capacity": "Btu/h",
    },
}  # fmt: skip


def printed(capsys: pytest.CaptureFixture[str], *arguments: str) -> Any:
    """What the command prints as JSON."""
    assert main(["readings", "--json", *arguments]) == 0
    return json.loads(capsys.readouterr().out)


def test_names_and_units(capsys: pytest.CaptureFixture[str]) -> None:
    found = printed(capsys)
    for part, units in UNITS.items():
        for name, unit in units.items():
            assert found[part][name]["unit"] == unit
            assert isinstance(found[part][name]["value"], float)


def test_it_is_without_noise_and_the_same_as_from_python(
    capsys: pytest.CaptureFixture[str],
) -> None:
    arguments = ["--metering", "orifice", "--outdoor", "88", "--fault", "undercharge=0.2"]
    first, second = printed(capsys, *arguments), printed(capsys, *arguments)
    assert first == second
    from_python = readings(metering="orifice", outdoor=88.0, faults={"undercharge": 0.2})
    assert json.loads(json.dumps(from_python)) == first


@pytest.mark.parametrize("name", discover())
def test_every_fault_can_be_asked_for(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    found = printed(capsys, "--fault", f"{name}={discover()[name].typical}")
    assert found["state"] == "running"


def test_airflow_is_a_share_of_rated(capsys: pytest.CaptureFixture[str]) -> None:
    full, less = (printed(capsys, "--airflow", share) for share in ("1.0", "0.7"))
    ratio = less["readings"]["airflow"]["value"] / full["readings"]["airflow"]["value"]
    assert ratio == pytest.approx(0.7, rel=0.01)


def test_faults_are_listed_with_their_measure(capsys: pytest.CaptureFixture[str]) -> None:
    listed = printed(capsys, "--list-faults")
    assert {row["name"] for row in listed} == set(discover())
    assert all(row["severity"] and row["high"] > 0 for row in listed)


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--outdoor", "warm"], "--outdoor needs a number"),
        (["--outdoor", "200"], "between 55 and 125"),
        (["--outdoor", "nan"], "between 55 and 125"),
        (["--return-wb", "85"], "cannot be above"),
        (["--metering", "tap"], "txv or orifice"),
        (["--mode", "sauna"], "must be cooling"),
        (["--zone", "moon"], "attic, crawl_space"),
        (["--fault", "undercharge"], "NAME=SEVERITY"),
        (["--fault", "undercharge=lots"], "needs a number"),
        (["--fault", "undercharge=5"], "0 to 0.5"),
        (["--fault", "gremlins=1"], "there are:"),
        (["--fault", "undercharge=0.1", "--fault", "undercharge=0.2"], "given twice"),
    ],
)
def test_wrong_input_gets_one_sentence(
    arguments: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["readings", *arguments]) == 2
    printed_to = capsys.readouterr()
    assert said in printed_to.err
    assert printed_to.err.count("\n") == 1
    assert printed_to.out == ""
