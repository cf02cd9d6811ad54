"""One list of checks that every measurement passes, and what a tool does to the truth."""

from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache

import numpy as np
import pytest

from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.places import PLACES
from simulator.instruments.reading import Reading
from simulator.instruments.session import Session
from simulator.instruments.steps import STEPS
from simulator.instruments.take import Hands, take
from simulator.instruments.tools import TOOLS
from simulator.plant import standing, steady, timeline
from simulator.plant.timeline import Moment
from simulator.quantities.kinds import KINDS
from simulator.quantities.shown import to_display
from tests.plant.stand import installed, weather, winter

EVERY = pytest.mark.parametrize("key", MEASUREMENTS)
MEASURED = [key for key, item in MEASUREMENTS.items() if item.way == "measure"]
ALL_STEPS = frozenset(STEPS)


@lru_cache
def moment(seconds: float = 3600.0) -> Moment:
    """A healthy unit some time after its start."""
    built = installed()
    now = timeline.quasi_steady(built, weather(), seconds)
    return Moment(now=now, before=standing.at_rest(built, weather()), seconds=seconds)


@lru_cache
def off() -> Moment:
    """A healthy unit long after its stop."""
    rest = standing.at_rest(installed(), weather())
    return Moment(now=rest, before=rest, seconds=7200.0)


@lru_cache
def strips_alone() -> Moment:
    """Strips called, the compressor left out."""
    called = replace(winter(), auxiliary_call=1.0, compressor_call=0.0)
    now = steady.solve(installed(), called)
    return Moment(now=now, before=now, seconds=3600.0)


def moment_for(key: str, seconds: float = 3600.0) -> Moment:
    """One in which the measurement can be taken."""
    unfit = MEASUREMENTS[key].unfit
    running = moment(seconds)
    if unfit is None or unfit(running.now) is None:
        return running
    return strips_alone() if unfit(off().now) else off()


def truth_of(key: str) -> float:
    """The value behind a measurement, where it can be taken."""
    return MEASUREMENTS[key].true_value(installed(), moment_for(key).now)


def taken(
    key: str,
    technique: str = "careful",
    *,
    session: int = 1,
    repeat: int = 1,
    prepared: Iterable[str] = ALL_STEPS,
    at: float = 3600.0,
) -> Reading:
    """One reading."""
    hands = Hands(
        prepared=frozenset(prepared),
        session=Session.drawn(np.random.default_rng(session)),
        texts={},
    )
    chance = np.random.default_rng([session, repeat])
    return take(
        key,
        technique,
        moment=moment_for(key, at),
        installation=installed(),
        hands=hands,
        chance=chance,
    )


def number(reading: Reading) -> float:
    """The reading's value."""
    assert reading.value is not None
    return reading.value


def test_both_sides_of_the_system_are_there() -> None:
    assert len(MEASURED) >= 68
    assert {item.group for item in MEASUREMENTS.values()} == {
        "low side", "high side", "air", "static", "electrical", "house",
    }  # fmt: skip


@EVERY
def test_it_is_whole(key: str) -> None:
    item = MEASUREMENTS[key]
    assert item.place in PLACES
    assert item.tool_id in TOOLS
    assert item.kind in KINDS
    assert item.minutes > 0
    assert set(item.needs) <= set(STEPS)
    assert item.techniques[0].id == "careful"
    assert item.has_number == (item.way == "measure")
    assert item.truth is None or item.fitted is None
    assert TOOLS[item.tool_id].source


@EVERY
def test_it_can_be_taken_and_stored(key: str) -> None:
    for technique in MEASUREMENTS[key].techniques:
        reading = taken(key, technique.id)
        assert (reading.value is None) != (reading.words is None)
        assert Reading.from_dict(reading.as_dict()) == reading


@pytest.mark.parametrize("key", MEASURED)
def test_it_shows_no_more_digits_than_its_tool(key: str) -> None:
    reading = taken(key)
    tool = TOOLS[MEASUREMENTS[key].tool_id]
    shown = to_display(number(reading), tool.kind, "us")
    assert shown == pytest.approx(round(shown, tool.decimals), abs=1e-9)


@pytest.mark.parametrize("key", MEASURED)
def test_careful_readings_are_near_the_truth(key: str) -> None:
    tool = TOOLS[MEASUREMENTS[key].tool_id]
    value = truth_of(key)
    spread = tool.bias + tool.noise + tool.relative_bias * abs(value)
    digit = KINDS[tool.kind].us.scale * 10.0**-tool.decimals
    for session in range(6):
        assert abs(number(taken(key, session=session)) - value) <= 4.0 * spread + digit


def test_errors_stay_for_a_visit_and_noise_does_not() -> None:
    same = [number(taken("liquid_pressure", repeat=i)) for i in range(30)]
    assert np.std(same) > 0.0
    means = [
        np.mean([number(taken("liquid_pressure", session=s, repeat=i)) for i in range(10)])
        for s in range(12)
    ]
    assert np.std(means) > 1.5 * np.std(same)


def test_a_dead_circuit_reads_nothing() -> None:
    assert number(taken("strip_current")) == 0.0


CARELESS = [
    ("grille_wet_bulb", "as_found", 1),
    ("suction_line_temperature", "bare", 1),
    ("liquid_line_temperature", "bare", -1),
    ("outdoor_temperature", "sun", 1),
    ("register_sum", "plain", -1),
    ("supply_dry_bulb", "close", -1),
    ("room_temperature", "in_hand", 1),
    ("outdoor_power", "volt_amperes", 1),
    ("air_handler_power", "volt_amperes", 1),
    ("static_supply_trunk", "elbow", -1),
    ("static_return_trunk", "elbow", -1),
    ("winding_insulation", "hot", -1),
    ("outdoor_leaving_temperature", "one_point", 1),
    ("liquid_pressure", "discharge_port", 1),
    ("run_capacitor", "in_circuit", 1),
    ("winding_resistance", "hot", 1),
    ("contactor_drop", "not_closed", 1),
    ("compressor_current", "both_leads", -1),
    ("table_airflow", "wrong_column", 1),
    ("plate_airflow", "raw", -1),
    ("strip_rise_airflow", "in_view", -1),
    ("blower_speed", "slipping", -1),
    ("standing_pressure", "sunny", 1),
    ("duct_leakage", "one_open", 1),
    ("tracer_return", "breath", 1),
    ("run_time", "one_cycle", 1),
    ("vapour_line_temperature", "bare", 1),
    ("coil_airflow", "centre", 1),
    ("zone_temperature", "hatch", -1),
    ("static_supply", "leaking_hole", -1),
    ("static_after_filter", "leaking_hole", 1),
]


@pytest.mark.parametrize(("key", "technique", "sign"), CARELESS)
def test_careless_techniques_err_to_their_side(key: str, technique: str, sign: int) -> None:
    for session in range(5):
        off = number(taken(key, technique, session=session)) - number(taken(key, session=session))
        assert off * sign > 0.0


def test_a_dry_wick_hides_a_quarter_of_the_depression() -> None:
    shift = number(taken("grille_wet_bulb", "as_found")) - number(taken("grille_wet_bulb"))
    assert shift * 1.8 == pytest.approx(0.25 * 13.0, abs=0.3)


def test_skipped_preparations_show() -> None:
    rest = ALL_STEPS - {"zero_manometer"}
    offs = [
        number(taken("static_supply", session=s, prepared=rest))
        - number(taken("static_supply", session=s))
        for s in range(8)
    ]
    inches = np.abs(offs) / 249.09
    assert (inches > 0.015).all()
    assert (inches < 0.065).all()
    unmatched = [
        number(taken("return_dry_bulb", session=s, prepared=ALL_STEPS - {"match_probes"}))
        - number(taken("return_dry_bulb", session=s))
        for s in range(8)
    ]
    assert np.std(unmatched) > 0.1


def test_a_reading_taken_too_early_is_honestly_wrong() -> None:
    final = number(taken("suction_line_temperature"))
    early = number(taken("suction_line_temperature", at=60.0))
    later = number(taken("suction_line_temperature", at=900.0))
    assert abs(early - final) > 3.0
    assert abs(later - final) < 0.3
    assert number(taken("condensate", at=240.0)) < 0.6 * number(taken("condensate"))


def test_unknown_techniques_are_refused() -> None:
    with pytest.raises(KeyError):
        taken("voltage", "by_ear")
