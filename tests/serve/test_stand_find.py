"""The stand's list of faults: found by the trade's words, sent once."""

import re
from typing import Any

import pytest

from simulator.faults._catalogue import discover
from simulator.serve.stand_page.faults import fault_choices
from simulator.serve.stand_page.find import CALLED, DOES, words_for
from simulator.serve.stand_page.stand import answer

SETTING: dict[str, Any] = {
    "do": "set", "metering": "txv", "outdoor": "95", "return_db": "80", "return_wb": "67",
    "airflow": "100", "faults": [], "units": "us",
}  # fmt: skip


def found_by(phrase: str) -> set[str]:
    """Faults that a phrase stands for."""
    return {row["name"] for row in fault_choices() if phrase in row["words"]}


def test_low_airflow_finds_what_takes_airflow() -> None:
    """Common practice, no source."""
    found = found_by("low airflow, low air flow, too little air")
    assert found >= {
        "weak_blower", "loaded_filter", "dirty_indoor_coil", "iced_indoor_coil",
        "closed_registers", "restricted_return_duct", "restricted_supply_duct",
    }  # fmt: skip
    assert not found & {"fast_blower", "undercharge", "supply_leak"}


def typed(asked: str) -> set[str]:
    """Faults found as the page looks: every word begins one of a single phrase."""
    said = asked.lower().split()

    def fits(phrase: str) -> bool:
        heard = re.findall(r"\w+", phrase.lower())
        return all(any(word.startswith(begun) for word in heard) for begun in said)

    return {
        row["name"]
        for row in fault_choices()
        if any(fits(phrase) for phrase in (row["title"], row["family"], *row["words"]))
    }


@pytest.mark.parametrize(
    ("asked", "wanted"),
    [
        ("undercharge", "undercharge"),
        ("overcharge", "overcharge"),
        ("noncondensables", "non_condensables"),
        ("clogged filter", "loaded_filter"),
        ("frost", "no_defrost"),
        ("defrost", "frequent_defrost"),
        ("condenser fan", "slow_outdoor_fan"),
        ("evaporator dirty", "dirty_indoor_coil"),
        ("restriction", "liquid_line_restriction"),
        ("filter drier", "liquid_line_restriction"),
        ("piston", "undersized_orifice"),
        ("piston", "starved_outdoor_coil"),
        ("thermostat", "cold_thermostat"),
        ("zone", "stuck_zone_damper"),
    ],
)
def test_what_a_technician_types_finds_it(asked: str, wanted: str) -> None:
    """Common practice, no source."""
    assert wanted in typed(asked)
    assert len(typed(asked)) < 8


def test_every_phrase_finds_and_names_faults_that_there_are() -> None:
    assert all(found_by(phrase) for phrase in (*DOES, *CALLED))
    assert {name for names in CALLED.values() for name in names} <= set(discover())
    assert words_for("no_defrost")


def test_the_lists_come_once() -> None:
    whole, again = answer(SETTING)["stand"], answer({**SETTING, "listed": True})["stand"]
    assert {"faults", "choices"} == set(whole) - set(again)
    assert {name: whole[name] for name in again} == again


def test_a_unit_is_chosen_by_size_and_refrigerant() -> None:
    """From the equipment files' plates."""
    names = answer(SETTING)["stand"]["choices"]["unit_names"]
    assert names["quail_36"] == "Quail 36, 3 tons, R-410A"
    assert names["dunlin_48"] == "Dunlin 48, 4 tons, R-454B"


@pytest.mark.parametrize(("gauges", "said"), [("R-410A", True), ("R-454B", False), ("", False)])
def test_a_wrong_table_is_said(gauges: str, said: bool) -> None:
    asked = {**SETTING, "refrigerant": "R-454B", "gauges": gauges}
    assert any("wrong table" in one for one in answer(asked)["stand"]["meaning"]) is said


def test_a_compressor_that_no_longer_runs_is_said_beside_its_bill() -> None:
    """Outdoors at 35 °F a coil that is never cleared ices shut; the strips carry the house."""
    winter = {"mode": "heating", "outdoor": "35", "return_db": "70", "return_wb": "55"}
    for fault, stands in (("no_defrost", True), ("dirty_outdoor_coil", False)):
        faults = [{"name": fault, "severity": "50"}]
        asked = {**SETTING, **winter, "faults": faults, "do": "slow", "chart": "bill", "part": 1}
        notes = answer(asked)["slow"]["notes"]
        assert any("no longer runs" in one for one in notes) is stands


def test_without_a_fault_there_is_nothing_to_repair() -> None:
    said = answer({**SETTING, "do": "slow", "chart": "after", "part": 1})["slow"]["summary"]
    assert "choose a fault first" in said
