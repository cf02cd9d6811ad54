"""``benchcall readings``: names, units, and one sentence for what cannot be."""

import json
import re
import subprocess
import sys
from typing import Any

import numpy as np
import pytest

from simulator.faults._catalogue import discover
from simulator.quantities.entered import BadEntry
from simulator.serve.bench_readings import readings
from simulator.serve.command import main
from simulator.serve.stand.given import told
from simulator.serve.stand.limits import (
    LIMITS,
    MOST_AIRFLOW,
)

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
    # By what they are: a dead motor, a full pan and a tripped detector hold it off.
    dead = ("open_compressor", "grounded_compressor", "lost_leg")
    stands = name in (*dead, "blocked_drain", "tripped_leak_detector")
    assert found["state"] == ("compressor_off" if stands else "running")


def test_airflow_is_a_share_of_rated(capsys: pytest.CaptureFixture[str]) -> None:
    full, less = (printed(capsys, "--airflow", share) for share in ("1.0", "0.7"))
    ratio = less["readings"]["airflow"]["value"] / full["readings"]["airflow"]["value"]
    assert ratio == pytest.approx(0.7, rel=0.01)


@pytest.mark.parametrize("motor", sorted(MOST_AIRFLOW))
def test_airflow_follows_its_share_without_a_jump(motor: str) -> None:
    # The definition of the option: a share of the rated 1,200 cfm (400 cfm a ton) for
    # which the blower is set, here under the very conditions in which it is set.
    shares = [0.5, 0.9, 0.99, 0.999, 0.9999, 1.0, 1.0001, 1.001, 1.01, 1.1]
    found = [
        readings(airflow=share, motor=motor)["readings"]["airflow"]["value"] for share in shares
    ]
    assert found == sorted(found)
    assert found == pytest.approx([1200.0 * share for share in shares], rel=2e-4)


def test_the_induction_motor_gives_way_where_the_other_pushes(
    capsys: pytest.CaptureFixture[str],
) -> None:
    # Common practice, no source: against a loaded filter a constant-torque motor holds
    # more of its airflow than an induction motor on a fixed tap, at a higher speed.
    kept, power = {}, {}
    for motor in MOST_AIRFLOW:
        clean = printed(capsys, "--motor", motor)
        loaded = printed(capsys, "--motor", motor, "--fault", "loaded_filter=4")
        values = [row["readings"]["airflow"]["value"] for row in (clean, loaded)]
        kept[motor], power[motor] = values[1] / values[0], clean["truth"]["air_handler_power"]
        assert json.loads(json.dumps(readings(motor=motor))) == clean
    assert kept["psc"] < kept["constant_torque"] < 1.0
    assert power["psc"]["value"] > power["constant_torque"]["value"]


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
        (["--outdoor=--"], "--outdoor needs a number"),
        (["--zone=--"], "The zone must be"),
        (["--unit", "siskin_18", "--airflow", "1.05"], "of rated airflow at most"),
        (["--return-wb", "85"], "cannot be above"),
        (["--metering", "tap"], "txv or orifice"),
        (["--mode", "sauna"], "cooling or heating"),
        (["--mode", "heating", "--outdoor", "95"], "while heating must lie between -5 and 65"),
        (["--mode", "heating", "--outdoor", "-6"], "while heating must lie between -5 and 65"),
        (["--outdoor", "17"], "between 55 and 125"),
        (["--mode", "heating", "--return-db", "95"], "while heating must lie between 50 and 80"),
        (["--outdoor", "80", "--outdoor-wb", "85"], "The outdoor wet bulb (85 °F) cannot be"),
        (["--outdoor", "120", "--outdoor-wb", "40"], "cannot have a wet bulb as low as 40"),
        (["--mode", "heating", "--outdoor", "40", "--outdoor-wb", "10"], "as low as 10"),
        (["--mode", "heating", "--outdoor-wb", "-40"], "between -10 and 65"),
        (["--outdoor-wb", "damp"], "--outdoor-wb needs a number"),
        (["--altitude", "-1"], "between 0 and 10000 ft"),
        (["--altitude", "29032"], "between 0 and 10000 ft"),
        (["--altitude", "high"], "--altitude needs a number"),
        (["--refrigerant", "R-12"], "R-22, R-32, R-410A or R-454B"),
        (["--refrigerant", "propane"], "R-22, R-32, R-410A or R-454B"),
        (["--unit", "sparrow"], "The unit must be"),
        (["--unit", "../../quail_36"], "The unit must be"),
        (["--motor", "ecm"], "constant_torque, psc or constant_airflow"),
        (["--motor", ""], "constant_torque, psc or constant_airflow"),
        (["--motor", "constant_airflow"], "constant_airflow"),
        (["--motor", "psc", "--airflow", "1.3"], "between 0.3 and 1.1"),
        (["--zone", "moon"], "attic, crawl_space"),
        (["--fault", "undercharge"], "NAME=SEVERITY"),
        (["--fault", "undercharge=lots"], "needs a number"),
        (["--fault", "undercharge=5"], "0 to 0.5"),
        (["--fault", "gremlins=1"], "--list-faults lists all"),
        (["--fault", "underchrge=0.1"], "(did you mean undercharge?)"),
        (["--fault", "undercharge=0.1", "--fault", "overcharge=0.1"], "cannot both be there"),
        (["--zone-call", "second"], "only in the house of two zones"),
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


class Unpleasant:
    """Cannot even be shown."""

    def __repr__(self) -> str:
        raise RuntimeError("nobody may ask")


NO_NUMBERS: list[Any] = [
    "95", "", True, float("nan"), float("inf"), -float("inf"), [95.0], (95.0,), {"value": 95},
    95j, 10**400, -(10**400), np.array([95.0, 96.0]), np.float64("nan"), b"95", object,
    Unpleasant(), "9\n5" * 99,
]  # fmt: skip
NO_WORDS: list[Any] = [
    "", "TXV", "moon", True, 1, float("nan"), ["txv"], {"txv": 1}, b"txv", Unpleasant(),
    "a\nb", "x" * 999,
]  # fmt: skip
NO_FAULTS: list[Any] = [
    None, "undercharge", ["undercharge"], 0.2, [("undercharge", 0.2)], Unpleasant(),
    {"gremlins": 0.1}, {None: 0.1}, {3: 0.1}, {"under\ncharge": 0.1}, {("undercharge",): 0.1},
    *({"undercharge": amount} for amount in NO_NUMBERS),
    dict.fromkeys(list(discover())[:5], 0.1),
]  # fmt: skip
HOSTILE: list[tuple[str, Any, str]] = [
    *((key, value, name) for key, (*_, name) in LIMITS.items() for value in NO_NUMBERS),
    *((key, value, said) for key, said in (
        ("mode", "cooling or heating"), ("metering", "txv or orifice"), ("unit", "the unit must"),
        ("motor", "constant_torque, psc or constant_airflow"), ("refrigerant", "R-410A"),
        ("zone", "attic, crawl_space, garage or basement"),
    ) for value in NO_WORDS),
    ("faults", {"undercharge": -0.1}, "undercharge takes 0 to 0.5"),
    *(("faults", value, "fault") for value in NO_FAULTS),
    *((key, None, name) for key, name in (
        ("mode", "the mode"), ("unit", "the unit"), ("house", "the house"),
        ("airflow", "the airflow"), ("altitude", "the altitude"),
    )),
    *((word, 3, "mode, unit, refrigerant, metering, motor, zone, outdoor")
      for word in ("outdoors", "", "__class__")),
]  # fmt: skip


@pytest.mark.parametrize(
    ("key", "value", "said"), HOSTILE, ids=[f"{key}-{told(value)}" for key, value, _ in HOSTILE]
)
def test_python_gets_one_sentence_too(key: str, value: Any, said: str) -> None:
    with pytest.raises(BadEntry) as problem:
        readings(**{key: value})
    text = str(problem.value)
    assert said.lower() in text.lower()
    assert re.fullmatch(r"[A-Za-z][^\n]*[^.\n]\.", text)
    assert len(text) < 320


def test_numbers_of_other_makes_are_numbers() -> None:
    usual = readings(outdoor=95.0, airflow=1.0, faults={"undercharge": 0.25})
    others = readings(
        outdoor=np.int64(95), airflow=1, return_db=np.float64(80), faults={"undercharge": 1 / 4}
    )
    assert others == usual


def test_the_text_is_as_fine_as_a_tool(capsys: pytest.CaptureFixture[str]) -> None:
    # A starved orifice has no liquid seal: its subcooling is a hair beside nothing.
    arguments = ["--metering", "orifice", "--fault", "undercharge=0.4"]
    for more in ([], ["--mode", "heating"]):
        as_fine_as_a_tool([*arguments, *more], capsys)


def as_fine_as_a_tool(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    """Compare what is printed with what is known."""
    full = printed(capsys, *arguments)
    assert main(["readings", *arguments]) == 0
    text = capsys.readouterr().out
    shown = dict(re.findall(r"^  (\w+) +(\S+)", text, flags=re.MULTILINE))
    assert set(shown) == set(full["readings"]) | set(full["truth"])
    for name, number in shown.items():
        row = {**full["readings"], **full["truth"]}[name]
        # Digital gauges and thermometers show tenths; heat is known to hundreds at best.
        decimals = {"psig": 1, "°F": 1, "Btu/h": -2}.get(row["unit"])
        assert not re.fullmatch(r"-0(\.0*)?", number)
        if row["unit"] == "" and number in ("no", "yes"):
            assert row["value"] == float(number == "yes")
            continue
        if decimals is None:
            assert float(number) == pytest.approx(row["value"], abs=0.51)
            continue
        assert number == f"{round(row['value'], decimals) + 0.0:.{max(decimals, 0)}f}"
    assert shown["subcooling"] == "0.0" or full["mode"] == "heating"
    assert full["readings"]["superheat"]["value"] != float(shown["superheat"])


@pytest.mark.parametrize("options", [["--json"], ["--list-faults"], []])
def test_a_reader_who_has_seen_enough_hears_no_complaint(options: list[str]) -> None:
    command = [sys.executable, "-m", "simulator.serve.command", "readings", *options]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as writer:
        assert writer.stdout is not None
        assert writer.stderr is not None
        writer.stdout.close()
        assert writer.stderr.read() == b""
        assert writer.wait(60.0) == 0
