"""Controls, contacts, capacitor, windings, strips: what a meter finds follows from the parts."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.session import BATTERY, Session
from simulator.instruments.special_tools import SPECIAL_TOOLS
from simulator.instruments.steps import STEPS
from simulator.instruments.take import (
    NO_PATH,
    Hands,
    take,
)
from simulator.plant import standing, steady
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.plant.timeline import Moment
from simulator.quantities.shown import show
from tests.plant.stand import installed, weather, winter

CALLED = 26.5  # of a 24 V transformer under little load; common practice, no source [V]


def with_part(part: str, **changed: float) -> Installation:
    """The reference installation with one part altered."""
    built = installed()
    unit: Any = built.unit
    altered = replace(getattr(unit, part), **changed) if part != "unit" else None
    unit = replace(unit, **({part: altered} if altered is not None else changed))
    return replace(built, unit=unit)


def truth(key: str, built: Installation, point: OperatingPoint) -> float:
    """The value behind a measurement."""
    return MEASUREMENTS[key].true_value(built, point)


def calls(built: Installation, around: Conditions, solve: Callable[..., Any]) -> str:
    """The terminals that carry a call."""
    point = solve(built, around)
    terminals = {"Y": "compressor_call", "G": "fan_call", "O": "valve_call", "W": "auxiliary_call"}
    for key in terminals.values():
        assert truth(key, built, point) in (0.0, pytest.approx(CALLED, abs=0.1))
    return "".join(name for name, key in terminals.items() if truth(key, built, point) > 20.0)


# Terminals as wired on a heat pump whose valve is energised to cool; common practice, no source.
PRESENT = [
    ("cooling", installed(), weather(), "YGO"),
    ("heating", installed(), winter(), "YG"),
    ("heating, strips called", installed(), replace(winter(), auxiliary_call=1.0), "YGW"),
    (
        "strips alone",
        installed(),
        replace(winter(), auxiliary_call=1.0, compressor_call=0.0),
        "GW",
    ),
    ("strips with no call", installed(strips_on=4.8), weather(), "YGO"),
    ("slide stuck, cooling called", installed(stuck_reversing_valve=1.0), weather(), "YGO"),
    ("float up", with_part("unit", float_switch_open=1.0), weather(), "YGO"),
    ("motor open", with_part("compressor", is_open=1.0), weather(), "YGO"),
]


@pytest.mark.parametrize(
    ("_what", "built", "around", "expected"), PRESENT, ids=lambda x: str(x)[:30]
)
def test_which_call_is_present(
    _what: str, built: Installation, around: Conditions, expected: str
) -> None:
    assert calls(built, around, steady.solve) == expected


def test_nothing_is_called_while_off() -> None:
    assert calls(installed(), weather(), standing.at_rest) == ""


@pytest.mark.parametrize("switch", ["float_switch_open", "leak_detector_open"])
def test_a_switch_between_takes_the_call_from_the_contactor(switch: str) -> None:
    built = with_part("unit", **{switch: 1.0})
    point = steady.solve(built, weather())
    assert truth("compressor_call", built, point) > 20.0
    assert truth("contactor_coil", built, point) == 0.0
    healthy = steady.solve(installed(), weather())
    assert truth("contactor_coil", installed(), healthy) > 20.0


def test_a_bad_contact_shows_only_under_load() -> None:
    built = with_part("supply_circuit", contact_resistance=0.25)
    point = steady.solve(built, weather())
    drop = truth("contactor_drop", built, point)
    # Ohm's law over the resistance that was put in.
    assert drop == pytest.approx(0.25 * float(point.outdoor_current), rel=0.02)
    assert truth("compressor_voltage", built, point) < float(point.voltage) - 1.0
    sound = steady.solve(installed(), weather())
    # Tens of millivolts over good contacts; common practice, no source.
    assert 0.01 < truth("contactor_drop", installed(), sound) < 0.1


def test_the_idle_reading_hides_a_bad_contact() -> None:
    built = with_part("supply_circuit", contact_resistance=0.25)
    point = steady.solve(built, weather())
    idle, loaded = (shown("compressor_voltage", way, built, point) for way in ("idle", "careful"))
    assert idle - loaded > 1.5


def test_a_bad_contact_lowers_one_leg_and_a_sag_both() -> None:
    sound = steady.solve(installed(), weather())
    legs = ("leg_1_voltage", "leg_2_voltage")
    usual = [truth(leg, installed(), sound) for leg in legs]
    # Two legs of a split-phase service, each half of the line: NEC, 120/240 V.
    assert usual == pytest.approx([0.5 * float(sound.voltage)] * 2, abs=0.1)
    loose = installed(loose_lug=1.0)
    point = steady.solve(loose, weather())
    one, two = (truth(leg, loose, point) for leg in legs)
    assert two == pytest.approx(0.5 * float(point.voltage))
    # Ohm's law over the resistance that was put in.
    current = float(point.compressor_current)
    assert two - one == pytest.approx(current * loose.unit.supply_circuit.contact_resistance, 0.03)
    assert shown("leg_1_voltage", "idle", loose, point) == pytest.approx(two, abs=3.0)
    sagged = installed(low_voltage=0.08)
    low = [truth(leg, sagged, steady.solve(sagged, weather())) for leg in legs]
    assert low == pytest.approx([0.92 * leg for leg in usual], abs=0.1)


def test_insulation_falls_with_warmth_and_not_with_an_open_winding() -> None:
    def found(outdoor: float, built: Installation) -> float:
        return truth("winding_insulation", built, standing.at_rest(built, weather(outdoor)))

    # IEEE 43: half for every 10 K, 18 °F.
    assert found(98.0, installed()) == pytest.approx(0.5 * found(80.0, installed()))
    assert found(95.0, with_part("compressor", is_open=1.0)) == found(95.0, installed())
    assert found(115.0, installed()) > 20e6


def test_watts_of_the_air_handler_are_its_motor_and_its_strips() -> None:
    cool = steady.solve(installed(), weather())
    strips = installed(strips_on=4.8)
    hot = steady.solve(strips, weather())
    watts = truth("air_handler_power", installed(), cool)
    assert watts == pytest.approx(float(cool.blower_power))
    added = truth("air_handler_power", strips, hot) - float(hot.blower_power)
    assert added == pytest.approx(float(hot.strip_power))
    # Strips draw no idle current, a motor does.
    over = {}
    for name, built, point in (("motor", installed(), cool), ("strips", strips, hot)):
        careful, apparent = (
            shown("air_handler_power", way, built, point) for way in ("careful", "volt_amperes")
        )
        over[name] = apparent / careful
    assert over["motor"] > over["strips"] > 0.98


@pytest.mark.parametrize("share", [1.0, 0.8, 0.5])
def test_a_capacitor_reads_its_share_of_the_label(share: float) -> None:
    built = with_part("compressor", capacitor_share=share)
    rest = standing.at_rest(built, weather())
    # 40 µF on a unit of 3 tons; common practice, no source.
    assert truth("run_capacitor", built, rest) == pytest.approx(share * 40e-6)


def test_an_open_motor_gives_no_path_and_a_whole_one_about_an_ohm() -> None:
    rest = standing.at_rest(installed(), weather())
    # About an ohm from common to run; common practice, no source.
    assert 0.4 < truth("winding_resistance", installed(), rest) < 2.0
    built = with_part("compressor", is_open=1.0)
    for way in ("careful", "hot"):
        reading = whole("winding_resistance", way, built, standing.at_rest(built, weather()))
        assert reading.words == NO_PATH


@pytest.mark.parametrize("key", ["run_capacitor", "winding_resistance", "winding_insulation"])
def test_parts_are_not_taken_out_of_a_live_circuit(key: str) -> None:
    reading = whole(key, "careful", installed(), steady.solve(installed(), weather()))
    assert reading.value is None
    assert reading.words is not None
    assert "off first" in reading.words


def test_compressor_amps_leave_the_fan_out() -> None:
    point = steady.solve(installed(), weather())
    alone = truth("compressor_current", installed(), point)
    assert 0.0 < alone < truth("outdoor_current", installed(), point)


# Plate power of one element over its plate voltage: 4800 W / 240 V = 20 A.
ELEMENTS = [
    ({}, (0.0, 0.0)),
    ({"energised_power": 4800.0}, (20.0, 0.0)),
    ({"energised_power": 9600.0}, (20.0, 20.0)),
    ({"energised_power": 9600.0, "working_share": 0.5}, (20.0, 0.0)),
]


@pytest.mark.parametrize(("changed", "expected"), ELEMENTS)
def test_each_strip_element_has_its_own_amps(
    changed: dict[str, float], expected: tuple[float, float]
) -> None:
    built = with_part("strips", **changed)
    point = steady.solve(built, weather())
    amps = [truth(f"strip_element_{n}_current", built, point) for n in (1, 2)]
    assert amps == pytest.approx(expected, abs=0.05)
    assert sum(amps) == pytest.approx(float(point.strip_current), rel=0.02, abs=0.01)


def whole(
    key: str,
    technique: str,
    built: Installation,
    point: OperatingPoint,
    *,
    session: int = 3,
    prepared: frozenset[str] = frozenset(STEPS),
) -> Any:
    """One reading in a settled state."""
    hands = Hands(
        prepared=prepared, session=Session.drawn(np.random.default_rng(session)), texts={}
    )
    moment = Moment(now=point, before=point, seconds=7200.0)
    chance = np.random.default_rng([session, 1])
    return take(key, technique, moment=moment, installation=built, hands=hands, chance=chance)


def shown(key: str, technique: str, built: Installation, point: OperatingPoint) -> float:
    """Its number."""
    return float(whole(key, technique, built, point).value)


def test_a_low_battery_drifts_until_it_is_looked_at() -> None:
    point = steady.solve(installed(), weather())
    drifts = {}
    for session in range(24):
        read = [
            whole("voltage", "careful", installed(), point, session=session, prepared=prepared)
            for prepared in (frozenset(STEPS) - {"check_batteries"}, frozenset(STEPS))
        ]
        draw = Session.drawn(np.random.default_rng(session)).draws[BATTERY]
        drifts[draw] = read[0].value / read[1].value - 1.0
    low = [drift for draw, drift in drifts.items() if draw > 0.7]
    good = [drift for draw, drift in drifts.items() if draw <= 0.7]
    assert low
    assert good
    assert all(drift == 0.0 for drift in good)
    # 1 to 4 %; common practice, no source.
    assert all(0.009 < drift < 0.042 for drift in low)


def test_one_more_tool_leaves_the_others_as_they_were(monkeypatch: pytest.MonkeyPatch) -> None:
    before = Session.drawn(np.random.default_rng(4))
    monkeypatch.setitem(MEASUREMENTS, "another", MEASUREMENTS["voltage"])
    after = Session.drawn(np.random.default_rng(4))
    assert {k: v for k, v in after.draws.items() if k != "another"} == before.draws
    assert after.biases == before.biases


@pytest.mark.parametrize(
    ("value", "kind", "expected"),
    [
        (0.0362, "voltage_drop", "36 mV"),
        (1.12, "resistance", "1.1 Ω"),
        (38.94e-6, "capacitance", "38.9 µF"),
        (1604e-6, "concentration", "1604 ppm"),
    ],
)
def test_special_tools_are_marked_like_any_other(value: float, kind: str, expected: str) -> None:
    # SI prefixes; the same in both systems of units.
    assert kind in {tool.kind for tool in SPECIAL_TOOLS.values()}
    for system in ("us", "si"):
        printed = show(value, kind, system)
        assert f"{printed.text} {printed.unit}".replace(",", "").replace(" ", " ") == expected
