"""One's own equipment and house: published data fitted, nonsense said in one sentence."""

import re
from dataclasses import replace
from importlib.resources import files
from pathlib import Path

import numpy as np
import pytest

from simulator.components import compressor_map
from simulator.plant import air_path, steady, unit_report
from simulator.plant.catalogue import fit_of, load_installation
from simulator.plant.parameter_file import ParameterFileError
from simulator.properties import refrigerant
from simulator.serve import command
from tests.plant.stand import weather, winter

PLANT = files("simulator.plant")
INVENTED = ("heron_30", "martlet_24", "dunlin_48", "bittern_60", "siskin_18")
SHEET = PLANT.joinpath("equipment", "dunlin_48.toml").read_text(encoding="utf-8")
HOUSE = PLANT.joinpath("sites", "rooke.toml").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", INVENTED)
def test_every_rated_point_is_met(name: str) -> None:
    """3 % on capacity and 5 % on EER and COP: the bar set for this feature."""
    fit = fit_of(name)
    sheet = fit.published
    for point, capacity, ratio in zip(sheet.points, fit.capacities, fit.efficiencies, strict=True):
        assert capacity == pytest.approx(point.capacity, rel=0.03), point.name
        assert ratio == pytest.approx(point.efficiency, rel=0.05), point.name
    assert all(row.met for row in unit_report.rows(fit))


def test_fitted_points_are_what_the_plant_does() -> None:
    """The report against a fresh solution outside the fit, AHRI 210/240 A test."""
    fit = fit_of("siskin_18")
    built = load_installation("siskin_18")
    point = steady.solve(built, weather())
    # The reference house's ducts leak and warm the air a little, 2 % of capacity and no more.
    net = float(point.gross_capacity - point.blower_power)
    assert net == pytest.approx(fit.capacities[0], rel=0.04)


def test_the_six_units_cover_what_is_met_in_the_field() -> None:
    """1.5 to 5 tons, four refrigerants, three motors, both devices (the request itself)."""
    sheets = [fit_of(name).published for name in INVENTED]
    assert {1.5, 2.0, 2.5, 4.0, 5.0} == {sheet.tons for sheet in sheets}
    assert {sheet.refrigerant for sheet in sheets} == set(refrigerant.known())
    assert {sheet.motor for sheet in sheets} == {"psc", "constant_torque", "constant_airflow"}
    assert {sheet.metering for sheet in sheets} >= {("orifice", "orifice"), ("txv", "txv")}
    assert sum(sheet.compressor_map is not None for sheet in sheets) == 1


@pytest.mark.parametrize("metering", [None, "txv", "orifice"])
@pytest.mark.parametrize("name", [*INVENTED, "quail_36"])
def test_every_unit_settles_over_the_year(name: str, metering: str | None) -> None:
    """75 to 115 °F and 0 to 60 °F: the range asked for; a named trip is an answer."""
    built = load_installation(name, metering)
    summer = [weather(t, wet=w) for t in (75, 85, 95, 105, 115) for w in (57, 62, 67, 72)]
    cold = [winter(t, humidity=h) for t in range(0, 61, 5) for h in (0.4, 0.7)]
    for conditions in (summer, cold):
        state = np.asarray(steady.solve_many([built] * len(conditions), conditions).state)
        assert "no_solution" not in state
        assert np.mean(state == "running") > 0.8
    assert set(np.asarray(steady.solve_many([built] * 20, summer).state)) == {"running"}


def test_the_reference_unit_is_unchanged() -> None:
    """Charge, valve and torque of quail_36 as its own file makes them.

    Measured when the shell came to shed by its temperature, and the torque when drops came to
    go with the air's density; no other unit moves them.
    """
    unit = load_installation().unit
    assert unit.charge == pytest.approx(2.558255, rel=1e-4)
    assert unit.metering.open_area == pytest.approx(1.285694e-06, rel=1e-4)
    assert unit.blower.set_airflow == 0.0
    assert unit.blower.set_torque == pytest.approx(2.007727, rel=1e-6)


def test_the_r454b_cut_out_lies_below_the_end_of_its_tables() -> None:
    unit = load_installation("dunlin_48").unit
    assert unit.high_cut_out < 0.98 * refrigerant.load("R-454B").highest_pressure


def test_a_constant_airflow_motor_holds_until_its_limit() -> None:
    """Power rises with static until the torque limit, then airflow falls (common practice)."""
    built = load_installation("dunlin_48")
    paths = [
        air_path.settle(
            replace(built, ducts=replace(built.ducts, filter_loading=loading)), weather()
        )
        for loading in (1.0, 2.0, 3.0, 20.0)
    ]
    flows = [float(path.airflow) for path in paths]
    powers = [float(path.blower_power) for path in paths]
    assert flows[0] == pytest.approx(built.unit.rated_airflow, rel=1e-6)
    assert flows[1] == pytest.approx(flows[0], rel=1e-6)
    assert powers[0] < powers[1] < powers[2]
    assert flows[3] < 0.95 * flows[0]


def test_ten_coefficients_are_those_of_the_standard() -> None:
    """AHRI 540's order of terms, worked by hand at 2 and 3 °F."""
    weights = tuple(10.0**power for power in range(-9, 1))
    terms = (1, 2, 3, 4, 6, 9, 8, 12, 18, 27)
    expected = sum(weight * term for weight, term in zip(weights, terms, strict=True))
    assert compressor_map.polynomial(weights, 2.0, 3.0) == pytest.approx(expected)


def _changed(text: str, row: str, new: str) -> str:
    """The sheet with one row replaced."""
    done, count = re.subn(rf"(?m)^{row} = .*$", new.replace("\\", "\\\\"), text, count=1)
    assert count == 1, row
    return done


def _value(row: str, value: str, text: str = SHEET) -> str:
    pattern = rf"(?m)^({row} = \{{ value = )(\[.*?\]|[^,]+)(, unit)"
    done, count = re.subn(pattern, rf"\g<1>{value}\g<3>", text)
    assert count >= 1, row
    return done


def _unit(row: str, unit: str, text: str = SHEET) -> str:
    done, count = re.subn(rf'(?m)^({row} = .*unit = ")[^"]+', rf"\g<1>{unit}", text, count=1)
    assert count == 1, row
    return done


def _without(table: str) -> str:
    start = SHEET.index(f"[{table}]")
    end = SHEET.find("\n[", start + 1)
    return SHEET[:start] + (SHEET[end:] if end > 0 else "")


HOSTILE: dict[str, str | bytes] = {
    "empty": "",
    "not toml": "this is = = not",
    "binary": bytes(range(256)) * 8,
    "utf-16": SHEET.encode("utf-16"),
    "kind only": 'kind = "published"\n',
    "unknown kind": SHEET.replace('"published"', '"guessed"'),
    "deeply nested": 'kind = "published"\nx = ' + "[" * 5000 + "]" * 5000,
    "huge": SHEET + "#" * 1_100_000,
    "huge digits": _value("capacity", "9" * 5000),
    "table is a number": 'kind = "published"\nplate = 5\n',
    "row is bare": _changed(SHEET, "capacity", "capacity = 46500"),
    "no source": _changed(SHEET, "capacity", 'capacity = { value = 46500, unit = "Btu/h" }'),
    "no unit": _changed(SHEET, "capacity", 'capacity = { value = 46500, source = "x" }'),
    "nan": _value("capacity", "nan"),
    "infinity": _value("eer", "inf"),
    "boolean": _value("eer", "true"),
    "word for number": _value("eer", '"twelve"'),
    "list for number": _value("eer", "[12.2]"),
    "date for number": _value("eer", "2026-01-01"),
    "eer 40": _value("eer", "40"),
    "eer 0": _value("eer", "0"),
    "negative eer": _value("eer", "-12"),
    "eer as cop": _value("eer", "3.6"),
    "negative capacity": _value("capacity", "-46500"),
    "zero capacity": _value("capacity", "0"),
    "capacity in tons": _value("capacity", "4"),
    "capacity tenfold": _value("capacity", "465000"),
    "capacity in kW": _unit("capacity", "kW"),
    "capacity in W": _unit("capacity", "W"),
    "shr above one": _value("sensible_heat_ratio", "1.2"),
    "shr in per cent": _value("sensible_heat_ratio", "71"),
    "shr zero": _value("sensible_heat_ratio", "0"),
    "mild below rated": _value("mild_capacity", "40000"),
    "mild eer below": _value("mild_eer", "9"),
    "17 above 47": _value("capacity_17", "52000"),
    "cop rises in the cold": _value("cop_17", "4.2"),
    "cop 12": _value("cop_47", "12"),
    "no heating": _without("heating"),
    "no cooling": _without("cooling"),
    "no blower": _without("blower"),
    "no compressor": _without("compressor"),
    "no fan": _without("outdoor_fan"),
    "no charge rule": _without("charge"),
    "no metering": _without("metering"),
    "no plate": _without("plate"),
    "unknown refrigerant": SHEET.replace('"R-454B"', '"R-999"', 1),
    "refrigerant number": SHEET.replace('refrigerant = "R-454B"', "refrigerant = 454", 1),
    "refrigerant path": SHEET.replace('refrigerant = "R-454B"', 'refrigerant = "../r22"', 1),
    "empty name": SHEET.replace('name = "Dunlin 48"', 'name = ""', 1),
    "long name": SHEET.replace('name = "Dunlin 48"', f'name = "{"D" * 500}"', 1),
    "control signs in name": SHEET.replace('"Dunlin 48"', '"Dun\\u001b[31m"', 1),
    "fifty tons": _value("nominal_tons", "50"),
    "tons do not fit": _value("nominal_tons", "2"),
    "airflow in L/s": SHEET.replace("airflow = { value = 1550,", "airflow = { value = 730,"),
    "airflow unit": _unit("airflow", "L/s"),
    "static in Pa": SHEET.replace("static = { value = 0.5,", "static = { value = 124,"),
    "blower rises": SHEET.replace("1540, 1430", "1540, 1700"),
    "columns of two lengths": SHEET.replace("[0.1, 0.3, 0.5, 0.7, 0.9, 1.1]", "[0.1, 0.9]"),
    "statics fall": SHEET.replace("[0.1, 0.3, 0.5", "[0.5, 0.3, 0.1"),
    "blower empty": SHEET.replace("[0.1, 0.3, 0.5, 0.7, 0.9, 1.1]", "[]"),
    "blower words": SHEET.replace("[0.1, 0.3,", '["low", 0.3,'),
    "blower without power": SHEET.replace("[190, 265", "[0, 265"),
    "blower power falls": SHEET.replace("510, 530]", "510, 150]"),
    "blower of no efficiency": SHEET.replace("[190, 265", "[19, 265"),
    "unknown motor": SHEET.replace('"constant_airflow"', '"jet"', 1),
    "psc without poles": SHEET.replace('"constant_airflow"', '"psc"', 1),
    "unknown device": SHEET.replace('cooling = "txv"', 'cooling = "hope"'),
    "orifice by subcooling": SHEET.replace('cooling = "txv"', 'cooling = "orifice"'),
    "valve by superheat": SHEET.replace('rule = "subcooling"', 'rule = "superheat"'),
    "subcooling absurd": _value("subcooling", "90"),
    "superheat negative": _value("superheat", "-4"),
    "cut-out beyond tables": _value("high_cut_out", "610"),
    "cut-out on a mild day": _value("high_cut_out", "200"),
    "low cut-out above suction": _value("low_cut_out", "150"),
    "low cut-out in a vacuum": _value("low_cut_out", "-20"),
    "ampacity below load": _value("circuit_ampacity", "10"),
    "load of a kettle": _value("compressor_rated_load", "2"),
    "power factor two": _value("power_factor", "2"),
    "strips of a factory": _value("strips", "400"),
    "efficiency above one": _value("best_efficiency", "1.4"),
    "slope negative": _value("volumetric_slope", "-0.3"),
    "fan takes all": SHEET.replace("power = { value = 220,", "power = { value = 9000,"),
    "fan moves nothing": SHEET.replace("value = 3800,", "value = 38,"),
    "impossible together": _value("cop_17", "1.3"),
    "one row of nonsense": "x = 1",
    "a table misspelled": SHEET.replace("[blower]", "[blowr]"),
}


@pytest.mark.parametrize("case", HOSTILE)
def test_nonsense_is_one_sentence(
    case: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Through the command, as a person would meet it: one line, no traceback, status 2."""
    content = HOSTILE[case]
    file = tmp_path / "own.toml"
    file.write_bytes(content if isinstance(content, bytes) else content.encode())
    assert command.main(["equipment", str(file)]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.count("\n") == 1
    assert said.err.endswith(".\n")
    assert said.err[:-1].isprintable()
    assert 15 < len(said.err) < 320


NAMES_THE_CULPRIT = {
    "eer 40": "eer is 40",
    "shr above one": "sensible_heat_ratio is 1.2",
    "capacity in kW": "is in kW, it must be in Btu/h",
    "unknown refrigerant": "not R-999",
    "blower rises": "rises with static",
    "no heating": "named and there is no table [heating]; state both for a heat pump",
    "one row of nonsense": "and has x, which no unit file has; needed and allowed are",
    "a table misspelled": "lacks [blower] and has blowr, which",
    "airflow in L/s": "cfm a ton",
    "static in Pa": "external_static is 124",
    "fan takes all": "outdoor fan takes",
    "cut-out beyond tables": "where the tables end",
    "ampacity below load": "circuit ampacity",
    "impossible together": "misses the efficiency for heating at 17 °F",
    "valve by superheat": "holds its superheat",
}


@pytest.mark.parametrize("case", NAMES_THE_CULPRIT)
def test_the_sentence_names_what_is_wrong(case: str, tmp_path: Path) -> None:
    file = tmp_path / "own.toml"
    file.write_text(str(HOSTILE[case]), encoding="utf-8")
    with pytest.raises(ParameterFileError, match=re.escape(NAMES_THE_CULPRIT[case])):
        fit_of(str(file))


@pytest.mark.parametrize(
    ("row", "value"),
    [("displacement", "-0.002"), ("displacement", "2.0"), ("air_conductance", "0.001")],
)
def test_parts_that_cannot_run_are_one_sentence(row: str, value: str, tmp_path: Path) -> None:
    """A unit described part by part, as quail_36 is."""
    quail = PLANT.joinpath("equipment", "quail_36.toml").read_text(encoding="utf-8")
    file = tmp_path / "parts.toml"
    file.write_text(_value(row, value, quail), encoding="utf-8")
    with pytest.raises(ParameterFileError) as said:
        load_installation(unit=str(file))
    assert str(said.value).endswith(".")
    assert "\n" not in str(said.value)


def test_there_are_sixty_hostile_files() -> None:
    assert len(HOSTILE) >= 60


def test_own_files_serve_by_path(tmp_path: Path) -> None:
    """The very data of a shipped unit and a shipped house, under one's own names."""
    unit, house = tmp_path / "mine.toml", tmp_path / "home.toml"
    unit.write_text(SHEET, encoding="utf-8")
    house.write_text(HOUSE, encoding="utf-8")
    own = load_installation(unit=str(unit), house=str(house))
    assert own == load_installation("dunlin_48", house="rooke")
