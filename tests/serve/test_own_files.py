"""Units and houses of one's own: on the command line by path, on the stand by name."""

from importlib.resources import files
from pathlib import Path

import pytest

from simulator.quantities.entered import BadEntry
from simulator.serve.bench_readings import readings
from simulator.serve.stand import own_files
from simulator.serve.stand_page import stand

PLANT = files("simulator.plant")


@pytest.fixture
def own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A data folder with a unit, a house on a crawl space, a house of two zones, a bad unit."""
    monkeypatch.setenv("BENCHCALL_DATA", str(tmp_path))
    siskin = (PLANT / "equipment" / "siskin_18.toml").read_text(encoding="utf-8")
    reference = (PLANT / "sites" / "reference.toml").read_text(encoding="utf-8")
    two = (PLANT / "sites" / "two_zones.toml").read_text(encoding="utf-8")
    for kind, name, text in (
        ("unit", "wren_18", siskin.replace('"Siskin 18"', '"Wren 18"')),
        ("unit", "bad_18", siskin.replace("17200", "97200")),
        ("unit", "quail_36", siskin),  # a shipped name
        ("unit", "Not a name", siskin),
        ("house", "cottage", reference.replace('_zone = "attic"', '_zone = "crawl_space"')),
        ("house", "upstairs", two),
    ):
        own_files.folder(kind).mkdir(exist_ok=True)
        (own_files.folder(kind) / f"{name}.toml").write_text(text, encoding="utf-8")
    return tmp_path


def asked(**words: str) -> dict[str, object]:
    """What the stand answers."""
    usual = {"mode": "cooling", "outdoor": "95", "return_db": "80", "return_wb": "67"}
    return stand.answer({"do": "set", **usual, "airflow": "100", "faults": [], **words})


def test_the_stand_offers_what_lies_in_the_folder_beside_what_is_shipped(own: Path) -> None:
    choices = stand.choices()
    assert choices["unit"][-2:] == ("bad_18", "wren_18")
    assert choices["unit"].count("quail_36") == 1
    assert choices["motor"]["quail_36"] == ("constant_torque", "psc")
    assert choices["motor"]["siskin_18"] == choices["motor"]["wren_18"] == ("psc",)
    assert choices["motor"]["bittern_60"] == ("constant_airflow",)
    assert set(choices["motor"]) == set(choices["unit"])
    assert choices["house"] == ("reference", "two_zones", "cottage", "upstairs")


def test_an_own_unit_in_an_own_house_is_what_the_shipped_ones_are(own: Path) -> None:
    mine = asked(unit="wren_18", house="cottage")["stand"]
    same = asked(unit="siskin_18", zone="crawl_space")["stand"]
    attic = asked(unit="siskin_18")["stand"]
    assert mine["readings"] == same["readings"] != attic["readings"]
    assert "unit=wren_18" in mine["link"]
    assert stand.opened(mine["link"])["house"] == "cottage"


def test_an_own_house_of_two_zones_has_dampers(own: Path) -> None:
    assert asked(house="upstairs", zone_call="second")["stand"]["zones"] == 2
    assert "stuck_zone_damper" not in asked(house="upstairs")["stand"]["unfit"]
    assert "house of two zones" in asked(house="cottage", zone_call="second")["problem"]


def test_a_bad_file_says_what_is_wrong_and_no_path(own: Path) -> None:
    problem = asked(unit="bad_18")["problem"]
    assert problem.startswith("The file bad_18.toml: the capacity for cooling at 95 °F is")
    assert str(own) not in problem


def test_a_page_cannot_name_a_path(own: Path) -> None:
    for path in (str(own / "equipment" / "wren_18.toml"), "../equipment/wren_18", "wren_18.toml"):
        assert asked(unit=path)["problem"].startswith("The unit must be bittern_60")


def test_python_and_command_line_take_a_path(own: Path) -> None:
    path = str(own / "equipment" / "wren_18.toml")
    house = str(own / "houses" / "cottage.toml")
    assert readings(unit=path, house=house) == readings(unit="wren_18", house="cottage")
    with pytest.raises(BadEntry, match=r"^The file none.toml cannot be found\.$"):
        readings(unit="none.toml")
