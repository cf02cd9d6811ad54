"""Faults that mean nothing where they are asked for, and faults that cannot stand together.

Which part each fault sits in, and when that part works: common practice, no source.
"""

import json
import math
import os
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from simulator.faults._catalogue import discover
from simulator.quantities.entered import BadEntry
from simulator.serve.bench_readings import as_table, readings, solved
from simulator.serve.command import main
from simulator.serve.commands.readings import WORDS
from simulator.serve.stand.fault_fit import OPPOSITES
from simulator.serve.stand.limits import HEATING_LIMITS, MODES
from simulator.serve.stand.setting import Setting
from simulator.serve.stand_page.words import STATES

WINTER_ONLY = sorted(name for name, kind in discover().items() if kind.modes == ("heating",))
TYPED = 2000 if os.environ.get("BENCHCALL_WHOLE") else 150
ODD = [
    "",
    "0",
    "-0",
    "nan",
    "inf",
    "-1e400",
    "1e9",
    "9" * 60,
    "é",
    "\x00",
    "a=b",
    "None",
    "[]",
    "--",
]


def typical(name: str) -> dict[str, float]:
    """The fault at a middling size."""
    return {name: discover()[name].typical}


@pytest.mark.parametrize("pair", OPPOSITES, ids=lambda pair: pair[0])
def test_opposites_are_refused_unless_one_is_absent(pair: tuple[str, str, str]) -> None:
    one, other, _ = pair
    with pytest.raises(BadEntry, match="cannot both be there"):
        readings(faults=typical(one) | typical(other))
    alone = readings(faults=typical(one))
    assert readings(faults=typical(one) | {other: 0.0}) == alone


@pytest.mark.parametrize("name", WINTER_ONLY)
def test_a_winter_fault_in_summer_says_why_nothing_shows(name: str) -> None:
    asked = readings(faults=typical(name))
    title = discover()[name].title
    assert asked.pop("notes") == [f'"{title}" is left out: it shows only while heating.']
    assert asked == readings()


@pytest.mark.parametrize(
    ("metering", "names"),
    [
        ("txv", ("undersized_orifice", "oversized_orifice")),
        ("orifice", ("starving_valve", "overfeeding_valve")),
    ],
)
def test_a_fault_of_the_other_device_says_why_nothing_shows(
    metering: str, names: tuple[str, str]
) -> None:
    healthy = readings(metering=metering)
    for name in names:
        asked = readings(metering=metering, faults=typical(name))
        assert "this unit meters by" in asked.pop("notes")[0]
        assert asked == healthy
        other = readings(metering=discover()[name].metering[0], faults=typical(name))
        assert "notes" not in other


@pytest.mark.parametrize("name", sorted({*WINTER_ONLY, "stuck_zone_damper"} - {"no_defrost"}))
def test_what_is_left_out_would_not_have_shown(name: str) -> None:
    """But for the ice of a coil never defrosted, which no summer leaves standing."""
    applied = as_table(solved(Setting(faults=typical(name))))
    healthy = as_table(solved(Setting()))
    for part in ("readings", "truth"):
        for key, row in healthy[part].items():
            assert applied[part][key]["value"] == pytest.approx(row["value"], rel=1e-6, abs=1e-6)


def test_a_fault_that_fits_has_no_note() -> None:
    damper = typical("stuck_zone_damper")
    assert "notes" in readings(faults=damper)
    assert "notes" not in readings(faults=damper, house="two_zones", zone_call="second")
    assert "notes" not in readings(faults={"no_defrost": 0.0})


@pytest.mark.parametrize("name", ["iced_indoor_coil", "blocked_drain"])
def test_a_summer_fault_in_winter_says_why_nothing_shows(name: str) -> None:
    """A coil that warms the air neither ices nor drips: common practice, no source."""
    asked = readings(mode="heating", faults=typical(name))
    title = discover()[name].title
    assert asked.pop("notes") == [f'"{title}" is left out: it shows only while cooling.']
    assert asked == readings(mode="heating")


def test_a_bypass_in_a_house_of_one_zone_is_shown_and_named() -> None:
    for mode in MODES:
        (said,) = readings(mode=mode, faults=typical("open_bypass"))["notes"]
        assert "house of two zones" in said
    assert "notes" not in readings(faults=typical("open_bypass"), house="two_zones")


@pytest.mark.parametrize("mode", MODES)
def test_an_open_element_carries_nothing_in_either_mode(mode: str) -> None:
    """P = V I: 5 kW of strips at their plate's 240 V take 20.8 A."""
    for share in (0.0, 0.5, 1.0):
        found = readings(mode=mode, faults={"strips_on": 5.0, "open_strip_element": share})
        whole = found["readings"]["strip_current"]["value"]
        assert whole == pytest.approx((1.0 - share) * 5000.0 / 240.0)
        assert "notes" not in found


def test_no_settled_state_is_told_with_what_to_change(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    lost = replace(solved(Setting()), state="no_solution")
    monkeypatch.setattr("simulator.plant.steady.solve", lambda *_: lost)
    (said,) = readings()["notes"]
    assert "No settled state" in said
    assert "make a fault smaller or the weather milder" in said
    assert said == STATES["no_solution"]
    assert main(["readings"]) == 0
    assert f"note: {said}" in capsys.readouterr().out


def test_the_note_stands_above_the_numbers(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["readings", "--fault", "frequent_defrost=0.5"]) == 0
    assert "note: " in capsys.readouterr().out.split("readings")[0]


def typed(chance: np.random.Generator) -> list[str]:
    """Words as somebody might type them: mostly sound, some far off, some nonsense."""
    arguments = ["readings", "--json"]
    mode = str(chance.choice(MODES))
    arguments += ["--mode", mode]
    for word in WORDS[1:]:
        if chance.random() < 0.05:
            arguments += [f"--{word.replace('_', '-')}", str(chance.choice(ODD))]
    for key, (low, high, *_) in HEATING_LIMITS.items():
        if chance.random() < 0.3:
            text = f"{chance.uniform(low - 5.0, high + 5.0):.4g}"
            text = str(chance.choice(ODD)) if chance.random() < 0.1 else text
            arguments += [f"--{key.replace('_', '-')}={text}"]
    for name in chance.choice(sorted(discover()), int(chance.integers(0, 4))):
        kind = discover()[str(name)]
        amount = f"{chance.uniform(kind.low, 1.05 * kind.high):.4g}"
        amount = str(chance.choice(ODD)) if chance.random() < 0.05 else amount
        arguments += ["--fault", f"{name}={amount}"]
    return arguments


def answer_to(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> dict[str, Any] | None:
    """The table, or nothing after one sentence; anything else fails."""
    try:
        status = main(arguments)
    except SystemExit as end:  # the parser's own, of what is no option
        status = int(end.code or 0)
    shown = capsys.readouterr()
    assert "Traceback" not in shown.err
    if status == 0:
        return dict(json.loads(shown.out))
    assert status == 2, arguments
    assert shown.out == ""
    assert shown.err.strip()
    return None


def test_whatever_is_typed_gets_finite_numbers_or_a_sentence(
    capsys: pytest.CaptureFixture[str],
) -> None:
    chance = np.random.default_rng(26)
    answers = [answer_to(typed(chance), capsys) for _ in range(TYPED)]
    tables = [table for table in answers if table is not None]
    assert 0.1 * TYPED < len(tables) < 0.9 * TYPED
    for table in tables:
        assert table["state"] in STATES
        for part in ("readings", "truth"):
            assert all(math.isfinite(row["value"]) for row in table[part].values())
