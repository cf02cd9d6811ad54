"""Looks at parts, searches and short tests: words that grow with the thing and name no cause."""

from dataclasses import replace
from functools import lru_cache
from typing import Any

import numpy as np
import pytest

from simulator.faults._catalogue import discover
from simulator.instruments import sight
from simulator.instruments.measurement import Seen
from simulator.instruments.measurements import MEASUREMENTS
from simulator.plant import standing, steady
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from tests.plant.stand import installed, weather, winter

TOLD = [key for key, item in MEASUREMENTS.items() if item.told is not None]


def altered(part: str | None, **changed: float) -> Installation:
    """The reference installation with one part as given."""
    built = installed()
    if part == "controls":
        return replace(built, controls=replace(built.controls, **changed))
    unit: Any = built.unit
    new: Any = changed if part is None else {part: replace(getattr(unit, part), **changed)}
    return replace(built, unit=replace(unit, **new))


def told(
    key: str,
    built: Installation,
    around: Conditions | None = None,
    *,
    technique: str = "careful",
    draw: float = 0.5,
    is_off: bool = False,
) -> str:
    """What one sees."""
    point = (standing.at_rest if is_off else steady.solve)(built, around or weather())
    seen = Seen(installation=built, point=point, technique=technique, draw=draw)
    return sight.told(key, seen, {})


REST = standing.at_rest(installed(), weather())
CAPACITY = float(installed().unit.outdoor_coil.frost_capacity)
STEPS_OF = [
    ("look_wires", "supply_circuit", "contact_resistance", (0.0, 0.08, 0.4)),
    ("look_wires", "compressor", "capacitor_share", (1.0, 0.5)),
    ("look_indoor_coil", "indoor_coil", "ice", (0.0, 0.3, 0.9)),
    ("look_indoor_coil", "indoor_coil", "wet_pressure_drop", (62.3, 100.0, 200.0)),
    ("look_frost", "outdoor_coil", "frost", (0.0, 0.1 * CAPACITY, 0.5 * CAPACITY, CAPACITY)),
    ("look_defrost_pins", "controls", "defrost_interval", (1200.0, 1800.0, 3600.0)),
    ("look_defrost_pins", "controls", "defrost_demand", (0.0, 2.0, 4.0)),
    ("look_control_wires", "controls", "strips_with_every_call", (0.0, 0.5, 1.0)),
    ("look_drain", None, "float_switch_open", (0.0, 1.0)),
    ("look_board", None, "leak_detector_open", (0.0, 1.0)),
    ("look_breakers", "compressor", "winding_insulation", (200e6, 0.5)),
]


@pytest.mark.parametrize(("key", "part", "name", "amounts"), STEPS_OF)
def test_words_follow_the_size(
    key: str, part: str | None, name: str, amounts: tuple[float, ...]
) -> None:
    season = winter(28.0) if key == "look_frost" else weather()
    seen = [told(key, altered(part, **{name: x}), season, is_off=True) for x in amounts]
    assert len(set(seen)) == len(amounts)


@lru_cache
def usual(code: str, season: str) -> tuple[Installation, OperatingPoint]:
    """A fault of its typical size, settled."""
    built = installed("txv", 1.0, **{code: discover()[code].typical})
    return built, steady.solve(built, weather() if season == "summer" else winter())


@pytest.mark.parametrize("key", TOLD)
@pytest.mark.parametrize("season", ["summer", "winter"])
def test_they_are_sentences_that_name_no_cause(key: str, season: str) -> None:
    kinds = discover()
    names = {kind.title.lower() for kind in kinds.values()}
    names |= {code.replace("_", " ") for code in kinds}
    for code in kinds:
        built, point = usual(code, season)
        for technique in MEASUREMENTS[key].techniques:
            for draw in (0.01, 0.5, 0.99):
                seen = Seen(installation=built, point=point, technique=technique.id, draw=draw)
                said = sight.told(key, seen, {})
                assert said.endswith(".")
                assert not any(name in said.lower() for name in names)


@pytest.mark.parametrize(
    ("key", "code"),
    [
        ("look_indoor_coil", "iced_indoor_coil"),
        ("look_indoor_coil", "dirty_indoor_coil"),
        ("look_registers", "closed_registers"),
        ("look_drain", "blocked_drain"),
        ("look_board", "tripped_leak_detector"),
        ("look_wires", "loose_lug"),
        ("look_breakers", "grounded_compressor"),
        ("look_wires", "lost_leg"),
    ],
)
def test_what_can_be_seen_is_seen(key: str, code: str) -> None:
    assert sight.told(key, Seen(installation=usual(code, "summer")[0], point=REST), {}) != (
        sight.told(key, Seen(installation=installed(), point=REST), {})
    )


def test_a_calls_own_words_go_first() -> None:
    point = steady.solve(installed(), weather())
    seen = Seen(installation=installed(), point=point)
    assert sight.told("look_board", seen, {"look_board": "Dark."}) == "Dark."
    assert sight.words("look_board", installed(), point, {"look_board": "Dark."}) == "Dark."


def test_the_label_tells_the_plate_and_not_what_is_inside() -> None:
    plain = told("look_label", installed())
    assert "R-410A" in plain
    assert "40 µF" in plain
    assert told("look_label", installed(undercharge=0.3)) == plain
    assert told("look_label", inside("R-32")) == plain


def inside(fluid: str) -> Installation:
    """Another refrigerant in the circuit than on the plate."""
    built = installed()
    return replace(built, unit=replace(built.unit, refrigerant=fluid))


def share_of_alarms(technique: str, **faults: float) -> float:
    """How often the search ends with bubbles, over many visits."""
    built = installed("txv", 1.0, **faults)
    point = standing.at_rest(built, weather())
    silent = "The detector stays silent at every joint it was held to."
    ends = [
        sight.told(
            "leak_search",
            Seen(installation=built, point=point, technique=technique, draw=float(draw)),
            {},
        )
        != silent
        for draw in np.linspace(0.0, 0.999, 200)
    ]
    return float(np.mean(ends))


def test_a_search_finds_where_charge_is_missing_and_errs_at_times() -> None:
    # Misses and false alarms are rough shares; common practice, no source.
    for technique, finds, errs in (("careful", 0.85, 0.10), ("quick", 0.45, 0.25)):
        assert share_of_alarms(technique, undercharge=0.2) == pytest.approx(finds, abs=0.02)
        assert share_of_alarms(technique) == pytest.approx(errs, abs=0.02)
        assert share_of_alarms(technique, overcharge=0.1) == pytest.approx(errs, abs=0.02)


def test_only_a_careful_search_tells_a_leak_from_a_false_alarm() -> None:
    low, full = installed(undercharge=0.2), installed()
    assert "bubbles" in told("leak_search", low, draw=0.95)
    assert "flat" in told("leak_search", full, draw=0.95)
    quick = [told("leak_search", built, technique="quick", draw=0.95) for built in (low, full)]
    assert quick[0] == quick[1]


def test_a_defrost_can_be_tried_only_while_heating() -> None:
    assert told("test_defrost", installed(), weather()).startswith("Not done")
    assert told("test_defrost", installed(), winter(), is_off=True).startswith("Not done")
    assert "valve shifts" in told("test_defrost", installed(), winter())
    frosted = altered("outdoor_coil", frost=0.4 * CAPACITY)
    assert "frost runs off" in told("test_defrost", frosted, winter(30.0))
    blocked = altered("controls", defrost_enabled=0.0)
    assert "go on as before" in told("test_defrost", blocked, winter())


def test_a_coil_that_condenses_bears_no_ice() -> None:
    iced = altered("outdoor_coil", frost=0.5 * CAPACITY)
    assert told("look_frost", iced, weather()) == "No frost."
    assert "frost" in told("look_frost", iced, winter(28.0)).lower().replace("no frost", "")


def test_a_slide_that_sits_fast_does_not_answer() -> None:
    assert "trade places" in told("test_valve", installed())
    assert "keep their heat" in told("test_valve", installed(stuck_reversing_valve=1.0))
    assert told("test_valve", installed(), is_off=True).startswith("Not done")


def test_gas_that_slips_through_the_valve_warms_the_suction() -> None:
    item = MEASUREMENTS["reversing_valve_rise"]
    sound, slipping = (
        item.true_value(built, steady.solve(built, weather()))
        for built in (installed(), installed(leaking_reversing_valve=0.1))
    )
    assert slipping > sound + 1.0
