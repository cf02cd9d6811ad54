"""Houses of one's own: nonsense in one sentence; what thermostat and defrost board do."""

import re
from pathlib import Path

import pytest

from simulator.plant import defrost, parameter_file
from simulator.plant.catalogue import load_installation
from simulator.plant.installation import Installation
from simulator.plant.parameter_file import ParameterFileError
from tests.plant.stand import winter

REFERENCE = Path(parameter_file.__file__).with_name("sites") / "reference.toml"
HOUSE = REFERENCE.with_name("rooke.toml").read_text(encoding="utf-8")


def value(key: str, number: str) -> str:
    """The house with another number in one row, wherever it stands."""
    pattern = rf"(?m)^({key} = \{{ value = )[^,]+(, unit)"
    done, count = re.subn(pattern, rf"\g<1>{number}\g<2>", HOUSE)
    assert count >= 1, key
    return done


def row(key: str, number: str, unit: str) -> str:
    """A house's table of controls with one row."""
    return f'\n[controls]\n{key} = {{ value = {number}, unit = "{unit}", source = "mine" }}\n'


HOSTILE_HOUSES = {
    "empty": "",
    "no zones": HOUSE.split("[zones")[0],
    "zone unknown": HOUSE.replace('supply_zone = "ceiling"', 'supply_zone = "moon"'),
    "zone a number": HOUSE.replace('supply_zone = "ceiling"', "supply_zone = 3"),
    "no zone named": HOUSE.replace('supply_zone = "ceiling"\n', ""),
    "shares of two": HOUSE.replace("[0.30, 0.26, 0.24, 0.20]", "[0.9, 0.9, 0.1, 0.1]"),
    "shares negative": HOUSE.replace("[0.30, 0.26, 0.24, 0.20]", "[1.3, -0.3, -0.2, 0.2]"),
    "shares words": HOUSE.replace("[0.30, 0.26, 0.24, 0.20]", '["a", "b", "c", "d"]'),
    "shares missing": re.sub(r"(?m)^room_shares.*\n", "", HOUSE),
    "runs too few": HOUSE.replace("[0.6, 0.9, 1.1, 1.4]", "[0.6]"),
    "leak in per cent": value("return_leak", "12"),
    "leak negative": value("supply_leak", "-0.1"),
    "duct without drop": value("return_drop", "0"),
    "no volume": value("volume", "0"),
    "conductance negative": value("conductance", "-95"),
    "ground in °C": value("ground_temperature", "17"),
    "price nan": value("electricity_price", "nan"),
    "price in cents": value("electricity_price", "15.45"),
    "house of steel": value("conductance", "1e9"),
    "storm indoors": value("natural_infiltration", "1e9"),
    "walled duct": value("supply_drop", "1e9"),
    "control unknown": HOUSE + "\n[controls]\nsnooze = 1\n",
    "lockout in °F": HOUSE + row("auxiliary_lockout", "40.0", "°F"),
    "lockout of no weather": HOUSE + row("auxiliary_lockout", "40.0", "K"),
}


@pytest.mark.parametrize("case", HOSTILE_HOUSES)
def test_a_house_of_nonsense_is_one_sentence(case: str, tmp_path: Path) -> None:
    file = tmp_path / "house.toml"
    file.write_text(HOSTILE_HOUSES[case], encoding="utf-8")
    with pytest.raises(ParameterFileError) as said:
        load_installation(house=str(file))
    assert str(said.value).endswith(".")
    assert "\n" not in str(said.value)


def built(folder: Path, **said: tuple[float, str]) -> Installation:
    """The reference house with some of its controls set."""
    told = [f'{k} = {{ value = {v}, unit = "{u}", source = "set" }}' for k, (v, u) in said.items()]
    file = folder / "home.toml"
    file.write_text(
        "\n".join([REFERENCE.read_text(encoding="utf-8"), "[controls]", *told]), "utf-8"
    )
    return load_installation(house=str(file))


def test_a_board_on_demand_waits_where_it_is_dry(tmp_path: Path) -> None:
    """By demand a coil that stays clean is left alone; the timer melts nothing (by what they are).

    Wet, it starts before the timer would let the coil close.
    """
    demand, timer = built(tmp_path, defrost_demand=(4.0, "delta K")), load_installation()
    dry, wet = winter(35.0, humidity=0.55), winter(33.0, humidity=0.95)
    found = {
        (board, air): defrost.cycle(own, around).defrosts_per_hour
        for board, own in (("demand", demand), ("timer", timer))
        for air, around in (("dry", dry), ("wet", wet))
    }
    assert found["demand", "dry"] < 0.5 * found["timer", "dry"]
    assert found["demand", "wet"] > found["demand", "dry"]


def test_what_is_not_said_is_usual(tmp_path: Path) -> None:
    own, usual = built(tmp_path, auxiliary_lockout=(270.0, "K")), load_installation()
    assert own.controls.auxiliary_lockout == 270.0
    assert own.controls.defrost_interval == usual.controls.defrost_interval


@pytest.mark.parametrize("name", [path.stem for path in REFERENCE.parent.glob("*.toml")])
def test_every_shipped_house_is_within_what_a_house_is(name: str) -> None:
    assert load_installation(house=name).house.volume > 0.0
