"""Before a class: a link that brings all of it back, and predictions beside what happened."""

from pathlib import Path
from typing import Any

import pytest

from simulator.serve.stand_page.stand import answer

SETTING: dict[str, Any] = {
    "do": "set", "outdoor": "101", "return_db": "79", "return_wb": "66", "airflow": "90",
    "altitude": "1500", "zone": "garage", "house": "two_zones", "zone_call": "first",
    "gauges": "R-32", "metering": "orifice", "charts": ["fan", "bill"],
    "faults": [{"name": "undercharge", "severity": "22.5"},
               {"name": "loaded_filter", "severity": "6"}],
}  # fmt: skip
METRIC = {
    "units": "si",
    "outdoor": "38.5",
    "return_db": "26",
    "return_wb": "19.1",
    "altitude": "450",
}


@pytest.mark.parametrize("more", [{}, METRIC, {"faults": []}], ids=["us", "si", "healthy"])
def test_a_link_brings_everything_back(more: dict[str, Any]) -> None:
    first = answer({**SETTING, **more})["stand"]
    opened = answer({"do": "open", "link": first["link"]})
    assert opened["stand"]["readings"] == first["readings"]
    assert opened["stand"]["link"] == first["link"]
    assert opened["opened"]["charts"] == ["fan", "bill"]
    assert "#" not in first["link"]
    assert len(first["link"]) < 400


def test_an_empty_link_is_the_usual_setting() -> None:
    assert answer({"do": "open", "link": ""})["stand"]["state"] == "running"
    winter = answer({"do": "open", "link": "mode=heating"})
    assert winter["opened"]["outdoor"] == "47"


@pytest.mark.parametrize(
    ("link", "said"),
    [
        ("mode=sideways", "The mode must be"),
        ("outdoor=1e9", "between 55 and 125"),
        ("outdoor=nan", "must lie between"),
        ("fault=gremlins:7", "not in the list"),
        ("fault=undercharge:lots", "must be a number"),
        ("fault=undercharge", "is missing"),
        ("fault=undercharge:5&fault=undercharge:6", "chosen twice"),
        ("chart=tarot", "The chart must be"),
        ("units=stone", "us or si"),
        ("answer=please", "does not know"),
        ("outdoor=" + "9" * 3000, "not one of the test stand's"),
        (["outdoor=95"], "not one of the test stand's"),
    ],
)
def test_a_link_that_asks_for_nonsense_gets_a_sentence(link: Any, said: str) -> None:
    found = answer({"do": "open", "link": link})
    assert set(found) == {"problem"}
    assert said in found["problem"]


LOW = {
    "do": "predict", "metering": "txv", "outdoor": "95", "return_db": "80", "return_wb": "67",
    "airflow": "100", "faults": [{"name": "undercharge", "severity": "20"}],
}  # fmt: skip


def test_predictions_stand_beside_what_the_plant_did() -> None:
    """Low charge behind a valve: subcooling falls (Domanski, Henderson, Payne 2014, NIST TN
    1848); airflow knows nothing of refrigerant (by definition)."""
    found = answer({**LOW, "marks": {"subcooling": "down", "airflow": "up"}})
    rows = {row["name"]: row for row in found["predicted"]["rows"]}
    assert rows["subcooling"]["agrees"]
    assert rows["subcooling"]["text"].startswith("As you said: it went down")
    assert not rows["airflow"]["agrees"]
    assert rows["airflow"]["text"].startswith("It stayed the same")
    assert found["predicted"]["summary"] == "1 of 2 readings went as the class said."
    shown = {row["name"]: row["goes"] for row in found["stand"]["readings"]}
    assert shown["subcooling"] == rows["subcooling"]["did"]


def test_hands_are_counted() -> None:
    hands = {"subcooling": {"up": "3", "same": "", "down": "11"}}
    found = answer({**LOW, "marks": {"subcooling": "down"}, "hands": hands})
    assert "(11 of 14 hands)" in found["predicted"]["rows"][0]["text"]


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({"marks": {}}, "Mark at least one"),
        ({"marks": "all"}, "Mark at least one"),
        ({"marks": {"gossip": "up"}}, "does not show"),
        ({"marks": {"airflow": "sideways"}}, "up, same or down"),
        ({"marks": {"airflow": "up"}, "hands": {"airflow": {"up": "-3"}}}, "whole number"),
        ({"marks": {"airflow": "up"}, "hands": {"airflow": {"up": "9" * 40}}}, "whole number"),
        ({"marks": {"airflow": "up"}, "hands": {"airflow": {"left": "1"}}}, "up, same and down"),
        ({"marks": {"airflow": "up"}, "faults": "all"}, "At most 2"),
    ],
)
def test_what_cannot_be_foretold_gets_a_sentence(more: dict[str, Any], said: str) -> None:
    found = answer({**LOW, **more})
    assert set(found) == {"problem"}
    assert said in found["problem"]


def test_what_stayed_says_within_what() -> None:
    """The same bound that the readings are painted by, in the reading's own unit."""
    for units, unit in (("us", "cfm"), ("si", "L/s")):
        typed = LOW if units == "us" else {**LOW, **METRIC}
        found = answer({**typed, "marks": {"airflow": "same"}})
        text = found["predicted"]["rows"][0]["text"]
        row = next(row for row in found["stand"]["readings"] if row["name"] == "airflow")
        assert row["within"].endswith(unit)
        assert f"within {row['within']} of healthy" in text
        apart = abs(row["now_number"] - row["healthy_number"])
        assert apart < float(row["within"].split()[0].replace(",", ""))


@pytest.fixture
def _own_records(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Records that nobody else writes."""
    monkeypatch.setenv("BENCHCALL_DATA", str(tmp_path))


def sealed(name: str, severity: str) -> str:
    """The code of one fault."""
    asked = {**LOW, "do": "seal", "faults": [{"name": name, "severity": severity}]}
    return str(answer(asked)["sealed"])


@pytest.mark.usefixtures("_own_records")
def test_a_sealed_link_tells_nothing_before_the_reveal() -> None:
    """Two links that hold different faults are answered alike, but for what was asked."""
    codes = [sealed("loaded_filter", "6"), sealed("undercharge", "22.5")]
    assert codes[0] != codes[1] != sealed("undercharge", "22.5")
    first, second = (answer({"do": "open", "link": f"outdoor=101&predict={c}"}) for c in codes)
    assert first["opened"].pop("predict") == codes[0]
    assert second["opened"].pop("predict") == codes[1]
    assert first == second
    assert first["opened"]["faults"] == []
    healthy = answer({"do": "open", "link": "outdoor=101"})["stand"]
    assert first["stand"] == healthy


@pytest.mark.usefixtures("_own_records")
def test_a_sealed_fault_is_what_is_revealed() -> None:
    shown = answer({**LOW, "marks": {"subcooling": "down"}})
    code = sealed("undercharge", "20")
    hidden = {**LOW, "faults": [], "sealed": code, "marks": {"subcooling": "down"}}
    assert "problem" in answer({**hidden, "marks": {}})  # nothing foretold, nothing told
    told = answer(hidden)
    assert told["predicted"] == shown["predicted"]
    assert told["stand"]["readings"] == shown["stand"]["readings"]
    assert told["faults"] == LOW["faults"]


@pytest.mark.usefixtures("_own_records")
@pytest.mark.parametrize(
    ("message", "said"),
    [
        ({"do": "open", "link": "predict=NOBODY"}, "No fault is kept here"),
        ({"do": "open", "link": "predict="}, "No fault is kept here"),
        ({"do": "open", "link": "predict=AAAAAA&fault=undercharge:20"}, "does not name the fault"),
        ({**LOW, "sealed": ["AAAAAA"], "marks": {"airflow": "up"}}, "No fault is kept here"),
        ({**LOW, "do": "seal", "faults": []}, "Choose the fault first"),
        ({**LOW, "do": "seal", "outdoor": "400"}, "between 55 and 125"),
    ],
)
def test_what_cannot_be_sealed_or_opened_gets_a_sentence(
    message: dict[str, Any], said: str
) -> None:
    found = answer(message)
    assert set(found) == {"problem"}
    assert said in found["problem"]
