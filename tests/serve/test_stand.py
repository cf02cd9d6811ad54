"""The test stand's answers: whole, in both systems, and one sentence for what cannot be."""

import re
from inspect import getsource
from typing import Any

import pytest

from simulator.faults._catalogue import discover
from simulator.plant import report
from simulator.quantities.entered import BadEntry
from simulator.serve.stand.setting import checked
from simulator.serve.stand_page import stand
from simulator.serve.stand_page.bill import bill
from simulator.serve.stand_page.delivery import heat
from simulator.serve.stand_page.entry import setting_of, system_of
from simulator.serve.stand_page.faults import NEEDS, fault_choices
from simulator.serve.stand_page.words import STATES

SETTING: dict[str, Any] = {
    "do": "set", "metering": "txv", "outdoor": "95", "return_db": "80", "return_wb": "67",
    "airflow": "100", "faults": [], "units": "us",
}  # fmt: skip


def asked(**changes: Any) -> dict[str, Any]:
    """The answer to a changed setting."""
    return stand.answer({**SETTING, **changes})


def billed(**changes: Any) -> dict[str, Any]:
    """What the day costs under a changed setting."""
    message = {**SETTING, **changes}
    system = system_of(message)
    return bill(checked(setting_of(message), system), system)


METRIC = {"units": "si", "outdoor": "35", "return_db": "26.66667", "return_wb": "19.44444"}
MET: dict[str, dict[str, str]] = {
    "": {}, "strips": {"strips": "called"},
    "two_zones": {"house": "two_zones", "zone_call": "second"},
}  # fmt: skip
WINTER = {"mode": "heating", "outdoor": "17", "return_db": "70", "return_wb": "55"}


def row(answer: dict[str, Any], name: str) -> dict[str, Any]:
    """One reading of an answer."""
    return next(row for row in answer["stand"]["readings"] if row["name"] == name)


def test_healthy_shows_no_difference() -> None:
    answer = asked()
    assert answer["stand"]["state"] == "running"
    assert all(row["difference"] == "" for row in answer["stand"]["readings"])


@pytest.mark.parametrize("name", sorted(discover()))
def test_every_fault_moves_something(name: str) -> None:
    kind = next(f for f in fault_choices() if f["name"] == name)
    season = MET[kind["needs"]] | ({} if "cooling" in kind["modes"] else WINTER)
    season = season | {"metering": kind["metering"][0]}
    chosen = [{"name": name, "severity": str(kind["typical"])}]
    answer = asked(faults=chosen, **season)
    if not any(row["difference"] for row in answer["stand"]["readings"]):
        # What is wrong with the house alone is seen in how long the unit runs.
        now, healthy = (
            cells(billed(faults=chosen, **season), column)
            for column in ("energy", "energy_healthy")
        )
        assert now != healthy
    for reading in answer["stand"]["readings"]:
        assert reading["low"] < reading["high"]


def test_every_fault_is_offered_once() -> None:
    assert sorted(choice["name"] for choice in fault_choices()) == sorted(discover())


@pytest.mark.parametrize("name", NEEDS)
def test_what_needs_something_first_would_not_show_without_it(name: str) -> None:
    kind = discover()[name]
    scale = 100 if kind.unit == "-" else 1
    fault = {"name": name, "severity": str(kind.typical * scale)}
    for season in ({}, WINTER):
        answer = asked(faults=[fault], **season)
        assert not any(row["difference"] for row in answer["stand"]["readings"])


def test_the_other_system_says_the_same() -> None:
    us, si = row(asked(), "suction_pressure"), row(asked(**METRIC), "suction_pressure")
    assert us["unit"] == "psig"
    assert si["unit"] == "kPa"
    assert us["now_number"] * 6.894757 == pytest.approx(si["now_number"], rel=1e-6)


def test_two_faults_at_once() -> None:
    two = [{"name": "undercharge", "severity": "20"}, {"name": "loaded_filter", "severity": "8"}]
    answer = asked(faults=two)
    assert row(answer, "subcooling")["difference"].endswith("below healthy")
    assert row(answer, "filter_drop")["difference"].endswith("above healthy")


def cycle(answer: dict[str, Any], role: str = "now") -> list[list[float]]:
    """The corners of the cycle as drawn, or the points of both saturation lines."""
    lines = answer["stand"]["charts"]["cycle"]["lines"]
    return [pair for line in lines if line["role"] == role for pair in line["points"]]


def test_the_cycle_closes_over_the_dome() -> None:
    out, _, hot, liquid, mixture = cycle(asked())
    assert liquid[0] == mixture[0] < out[0] < hot[0]
    assert out[1] == pytest.approx(mixture[1])
    assert hot[1] > liquid[1] > out[1]


def cells(answer: dict[str, Any], column: str) -> dict[str, float]:
    """One column of the bill, by part."""
    return {row["part"]: float(row[column].replace(",", "")) for row in answer["rows"]}


LEAK = [{"name": "supply_leak", "severity": "40"}]


@pytest.mark.parametrize("faults", [[], LEAK, [{"name": "strips_on", "severity": "4.8"}]])
@pytest.mark.parametrize("column", ["energy", "energy_healthy", "cost", "cost_healthy"])
def test_the_bill_adds_up(faults: list[dict[str, str]], column: str) -> None:
    """By arithmetic, within the rounding of five printed numbers."""
    found = cells(billed(faults=faults), column)
    total = found.pop("total")
    assert set(found) == {"compressor", "outdoor_fan", "blower", "strips"}
    assert sum(found.values()) == pytest.approx(total, abs=0.25 if "energy" in column else 0.025)
    assert total > 0


def test_the_bill_stands_beside_the_healthy_one() -> None:
    """A leak costs more (common practice, no source); without a fault the columns are one."""
    healthy, leaky = billed(), billed(faults=LEAK)
    for column in ("energy", "cost"):
        assert cells(healthy, column) == cells(healthy, f"{column}_healthy")
        assert cells(leaky, f"{column}_healthy") == cells(healthy, column)
        assert cells(leaky, column)["total"] > 1.3 * cells(healthy, column)["total"]
    assert leaky["energy_unit"] == "kWh/day"
    assert leaky["cost_unit"] == "$/day"


def test_strips_that_stay_on_stand_in_their_own_row() -> None:
    """By definition: the healthy unit has none on in summer."""
    warm = billed(faults=[{"name": "strips_on", "severity": "4.8"}])
    assert cells(warm, "energy_healthy")["strips"] == 0.0
    assert cells(warm, "energy")["strips"] > cells(warm, "energy")["compressor"]


def test_the_bill_says_its_day_in_both_systems() -> None:
    """From the setting: 95 °F is 35 °C, 80 °F is 26.7 °C."""
    us, si = billed(), billed(**METRIC)
    assert "95.0 °F" in us["day"]
    assert "80.0 °F" in us["day"]
    assert "35.0 °C" in si["day"]
    assert "26.7 °C" in si["day"]
    assert us["rows"] == si["rows"]


def test_a_house_that_gets_away_is_said() -> None:
    """The thermostat holds 80 °F on a day of 95 °F; half the air lost, it cannot."""
    assert len(billed()["runs"]) == 1
    lost = billed(faults=[{"name": "supply_leak", "severity": "50"}])
    assert "does not hold" in lost["runs"][1]


def test_a_wrong_setting_has_no_bill() -> None:
    with pytest.raises(BadEntry):
        billed(outdoor="400")


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"outdoor": ""}, "is missing"),
        ({"outdoor": "warm"}, "must be a number"),
        ({"outdoor": "nan"}, "must lie between"),
        ({"outdoor": "400"}, "between 55 and 125"),
        ({"return_wb": "81"}, "cannot be above"),
        ({"return_db": "95", "return_wb": "46"}, "cannot have a wet bulb"),
        ({"metering": "tap"}, "txv or orifice"),
        ({"units": "stone"}, "us or si"),
        ({"units": "si"}, "between 12.8 and 51.7 °C, not 95"),
        ({**METRIC, "return_wb": "27"}, "(27 °C) cannot be above the return dry bulb (26.7 °C)"),
        ({"mode": "heating"}, "between -5 and 65 °F, not 95"),
        ({**WINTER, "outdoor": "-40"}, "between -5 and 65 °F, not -40"),
        ({**WINTER, **METRIC, "outdoor": "35"}, "between -20.6 and 18.3 °C, not 35"),
        ({"mode": "thaw"}, "cooling or heating"),
        ({"unit": "sparrow"}, "The unit must be"),
        ({"unit": ""}, "The unit must be"),
        ({"refrigerant": "R-12"}, "The refrigerant must be"),
        ({"altitude": "x"}, "must be a number"),
        ({"altitude": "99999"}, "between 0 and 10000 ft"),
        ({**METRIC, "altitude": "99999"}, "between 0 and 3048 m"),
        ({"outdoor_wb": "soft"}, "must be a number"),
        ({"outdoor": "80", "outdoor_wb": "85"}, "cannot be above the outdoor dry bulb"),
        ({"motor": "steam"}, "The motor must be"),
        ({"zone": "roof"}, "The zone must be"),
        ({"house": "castle"}, "The house must be"),
        ({"zone_call": "second"}, "only in the house of two zones"),
        ({"strips": "called"}, "set the thermostat to heating"),
        ({"gauges": "R-12"}, "The refrigerant of the gauges must be"),
        ({"charts": ["cycle"] * 3}, "At most 2 charts"),
        ({"charts": ["tarot"]}, "The chart must be one of"),
        ({"faults": "all"}, "At most 2"),
        ({"faults": [{"name": "gremlins", "severity": "1"}]}, "not in the list"),
        ({"faults": [{"name": "undercharge", "severity": "x"}]}, "must be a number"),
        ({"faults": [{"name": "undercharge", "severity": "80"}]}, "0 to 50%"),
        ({"faults": [{"name": "undercharge", "severity": "5"}] * 2}, "chosen twice"),
        ({"do": "explode"}, "only knows how to be set"),
    ],
)
def test_what_cannot_be_set_gets_one_sentence(changes: dict[str, Any], said: str) -> None:
    answer = asked(**changes)
    assert set(answer) == {"problem"}
    assert said in answer["problem"]
    assert re.sub(r"\d\.\d", "", answer["problem"]).count(".") <= 1


COLDEST = {**WINTER, "outdoor": "-5"}


@pytest.mark.parametrize(
    "changes", [WINTER, {**COLDEST, "refrigerant": "R-22"}, {**COLDEST, "refrigerant": "R-32"}]
)
def test_winter_has_its_page(changes: dict[str, Any]) -> None:
    """By what heating is: the large pipe is hot, the air rises, the chart and bill stand."""
    answer = asked(**changes)
    names = {reading["name"] for reading in answer["stand"]["readings"]}
    assert {"vapour_line_pressure", "vapour_line_temperature", "temperature_rise"} <= names
    assert "temperature_split" not in names
    assert bool(cycle(answer)) == (answer["stand"]["state"] == "running")
    assert cycle(answer, "healthy") == cycle(answer)
    found = billed(**changes)
    assert {row["part"] for row in found["rows"]} == {
        "compressor", "outdoor_fan", "blower", "strips", "total",
    }  # fmt: skip
    assert all(row["energy"] != "–" for row in found["rows"])


def test_the_cycle_closes_in_winter_too() -> None:
    answer = asked(**WINTER)
    out, _, hot, liquid, mixture = cycle(answer)
    rows = answer["stand"]["charts"]["cycle"]["tables"][0]["rows"]
    assert rows[0][0] == "leaving the outdoor coil"
    assert liquid[0] == mixture[0] < out[0] < hot[0]
    assert hot[1] > liquid[1] > out[1]
    lowest = min(pressure for _, pressure in cycle(answer, "guide"))
    assert lowest < mixture[1]


def test_a_fault_in_another_fluid_is_drawn_over_its_own_dome() -> None:
    fault = [{"name": "wrong_refrigerant", "severity": "100"}]
    healthy, wrong = asked(), asked(faults=fault)
    assert cycle(wrong, "guide") != cycle(healthy, "guide")
    assert cycle(wrong, "healthy") == cycle(healthy)


def test_heat_has_three_digits() -> None:
    # Nobody knows heat from air and airflow closer than a few percent: common practice.
    assert heat(10551.0, "us") == "36,000 Btu/h"
    assert heat(976.0, "us") == "3,330 Btu/h"
    assert heat(10551.0, "si") == "10.6 kW"
    assert heat(-976.0, "si") == "−0.976 kW"
    assert heat(0.0, "us") == "0.00 Btu/h"


@pytest.mark.parametrize("system", ["us", "si"])
@pytest.mark.parametrize("mode", ["cooling", "heating"])
def test_the_ends_of_every_slider_can_be_set(mode: str, system: str) -> None:
    usual = asked()["stand"]["usual"] if system == "us" else asked(**METRIC)["stand"]["usual"]
    start = {"mode": mode, "units": system, "airflow": "100", **usual[mode]}
    dials = asked(**start)["stand"]["limits"]
    for key in ("outdoor", "altitude"):
        for end in ("low", "high"):
            assert "stand" in asked(**{**start, key: str(dials[key][end])})


def test_every_state_has_a_sentence() -> None:
    # The words are those that the plant gives out.
    words = set(re.findall(r'"([a-z_]+)"', getsource(report.state_words)))
    assert {"running", "high_pressure_trip", "no_solution"} <= words <= set(STATES)


def test_strips_called_take_amps_and_warm_the_plenum() -> None:
    """Resistance heat: the air handler's amps rise and so does the supply (by definition)."""
    alone, helped = asked(**WINTER), asked(**WINTER, strips="called")
    for name in ("air_handler_current", "supply_plenum_temperature"):
        assert row(helped, name)["now_number"] > row(alone, name)["now_number"] + 5.0


def test_one_zone_alone_raises_the_static() -> None:
    """Half the ducts shut ask more of the blower: square law of ducts."""
    both = asked(house="two_zones")
    second = asked(house="two_zones", zone_call="second")
    name = "total_external_static"
    assert row(second, name)["now_number"] > 1.2 * row(both, name)["now_number"]


def test_gauges_set_to_another_fluid_mislead() -> None:
    """R-410A boils at about twice the pressure of R-22: read as R-22 its superheat is far too
    low, and what the plant does is as before (pressure tables, common practice)."""
    right, wrong = asked(), asked(gauges="R-22")
    assert row(wrong, "superheat")["now_number"] < row(right, "superheat")["now_number"] - 15.0
    assert row(wrong, "subcooling")["now_number"] > row(right, "subcooling")["now_number"] + 15.0
    assert row(wrong, "suction_pressure") == row(right, "suction_pressure")
    same = asked(gauges="R-410A")
    for name in ("superheat", "subcooling"):
        found = row(same, name)["now_number"]
        assert found == pytest.approx(row(right, name)["now_number"], abs=0.3)


def test_altitude_acts_on_the_bill() -> None:
    """Thin air carries less for each turn of the wheel (common practice, no source)."""
    low, high = billed(), billed(altitude="7000")
    assert cells(high, "energy")["total"] != cells(low, "energy")["total"]


def test_a_valve_fault_is_told_what_it_meters_by() -> None:
    assert "an expansion valve" in asked()["stand"]["unfit"]["oversized_orifice"]
    on_an_orifice = asked(metering="orifice")["stand"]["unfit"]
    assert "a fixed orifice" in on_an_orifice["starving_valve"]
    assert "oversized_orifice" not in on_an_orifice


def test_what_means_nothing_here_is_left_out_of_numbers_and_link() -> None:
    answer = asked(faults=[{"name": "no_defrost", "severity": "50"}])["stand"]
    assert answer["unfit"]["no_defrost"].endswith("is left out: it shows only while heating.")
    assert all(row["difference"] == "" for row in answer["readings"])
    assert "no_defrost" not in answer["link"]
    winter = asked(**WINTER, faults=[{"name": "no_defrost", "severity": "50"}])["stand"]
    assert "no_defrost" in winter["link"]


def test_opposites_get_a_sentence() -> None:
    faults = [{"name": name, "severity": "10"} for name in ("undercharge", "overcharge")]
    assert "cannot both be there" in asked(faults=faults)["problem"]
