"""Values worked out from readings as shown; charge tests that mean nothing."""

import pytest

from simulator.instruments.reading import Reading
from simulator.instruments.validity import charge_test_problems
from simulator.instruments.worked_out import work_out
from simulator.quantities.shown import from_display

RATED = 0.5663


def reading(key: str, shown: float, kind: str) -> Reading:
    """A reading in the technician's unit."""
    return Reading(
        measurement=key, technique="careful", kind=kind, value=from_display(shown, kind), decimals=1
    )


SHEET = [
    (1, reading("suction_pressure", 118.4, "gauge_pressure")),
    (2, reading("suction_line_temperature", 52.0, "temperature")),
    (3, reading("liquid_pressure", 365.4, "gauge_pressure")),
    (4, reading("liquid_line_temperature", 100.0, "temperature")),
    (5, reading("outdoor_temperature", 75.0, "temperature")),
    (6, reading("grille_wet_bulb", 62.0, "temperature")),
    (7, reading("static_supply", 0.28, "static_pressure")),
    (8, reading("static_after_filter", -0.22, "static_pressure")),
    (9, reading("register_sum", 912.0, "airflow")),
    (10, reading("coil_airflow", 1200.0, "airflow")),
    (11, reading("return_dry_bulb", 81.75, "temperature")),
    (12, reading("grille_dry_bulb", 75.0, "temperature")),
    (13, reading("return_zone_temperature", 120.0, "temperature")),
]


@pytest.mark.parametrize(
    ("key", "expected", "scale"),
    [
        # CoolProp 8: dew of R-410A at 118.4 psig is 40 °F; bubble at 365.4 psig is 109.8 °F.
        ("superheat", 12.0, 1.8),
        ("subcooling", 9.8, 1.8),
        ("target_superheat", 15.5, 1.8),
        ("approach", 25.0, 1.8),
        ("total_external_static", 0.50, 1 / 249.08891),
        ("register_share", 0.76, 1.0),
        ("return_share", 0.15, 1.0),
        ("return_gain", 6.75, 1.8),
    ],
)
def test_worked_values(key: str, expected: float, scale: float) -> None:
    found = {item.id: item for item in work_out(SHEET, "orifice", "R-410A")}
    assert found[key].value * scale == pytest.approx(expected, abs=0.12)
    assert found[key].formula


def test_only_an_orifice_has_a_target() -> None:
    assert "target_superheat" not in {i.id for i in work_out(SHEET, "txv", "R-410A")}


def test_the_newest_reading_counts_and_is_named() -> None:
    again = [*SHEET, (20, reading("suction_line_temperature", 57.0, "temperature"))]
    found = {item.id: item for item in work_out(again, "txv", "R-410A")}["superheat"]
    assert found.value * 1.8 == pytest.approx(17.0, abs=0.1)
    assert found.from_seqs == (20, 1)


def test_nothing_is_worked_out_of_nothing() -> None:
    assert work_out([], "txv", "R-410A") == []


def test_a_dash_in_the_table_is_said() -> None:
    hot = [
        (1, reading("outdoor_temperature", 104.0, "temperature")),
        (2, reading("grille_wet_bulb", 60.0, "temperature")),
    ]
    assert "no valid charge test" in work_out(hot, "orifice", "R-410A")[0].note


def problems(rows: list[Reading], **times: float | None) -> str:
    """All problems in one text."""
    said = {"seconds_since_start": 1200.0, "seconds_since_charge": None, **times}
    return " ".join(charge_test_problems(rows, rated_airflow=RATED, **said))


def test_a_proper_charge_test_has_no_problem() -> None:
    proper = [
        reading("coil_airflow", 1180.0, "airflow"),
        reading("outdoor_temperature", 88.0, "temperature"),
    ]
    assert problems(proper) == ""


def test_each_reason_is_named() -> None:
    """California Title 24 RA3.2: airflow first, 55 °F outdoors, 15 minutes."""
    cold = [
        reading("coil_airflow", 900.0, "airflow"),
        reading("outdoor_temperature", 50.0, "temperature"),
    ]
    assert "Airflow was not proven" in problems([])
    assert "below 350 cfm" in problems(cold)
    assert "colder than 55" in problems(cold)
    assert "15 minutes" in problems(cold, seconds_since_start=300.0)
    assert "not running" in problems(cold, seconds_since_start=None)
    assert "charge had been changed" in problems(cold, seconds_since_charge=60.0)
