"""The stand's charts carry the plant's own numbers, each with its table."""

import json
from typing import Any

import numpy as np
import pytest

from simulator.properties import moist_air
from simulator.serve import bench_readings
from simulator.serve.stand.setting import Setting, checked
from simulator.serve.stand_page.bill import bill
from simulator.serve.stand_page.entry import setting_of
from simulator.serve.stand_page.link import QUICK
from simulator.serve.stand_page.stand import answer
from simulator.serve.stand_page.trends import SLOW

BASE: dict[str, Any] = {
    "mode": "cooling", "unit": "quail_36", "refrigerant": "", "metering": "",
    "motor": "", "zone": "attic", "outdoor": "95", "outdoor_wb": "", "return_db": "80",
    "return_wb": "67", "airflow": "100", "altitude": "0", "units": "us",
}  # fmt: skip
WINTER = {"mode": "heating", "outdoor": "40", "return_db": "70", "return_wb": "58"}
LEAK = {"supply_leak": 40.0}


def asked(faults: dict[str, float] | None = None, **more: Any) -> dict[str, Any]:
    """A message; shares of a fault in percent."""
    listed = [{"name": code, "severity": str(size)} for code, size in (faults or {}).items()]
    return {**BASE, "do": "set", "faults": listed, **more}


def chart(name: str, faults: dict[str, float] | None = None, **more: Any) -> dict[str, Any]:
    """One chart as the browser gets it, with its last part."""
    if name in QUICK:
        found = answer(asked(faults, charts=[name], **more))
        assert "problem" not in found, found
        return dict(found["stand"]["charts"][name])
    found = answer(asked(faults, do="slow", chart=name, part=SLOW[name][0] - 1, **more))
    assert "problem" not in found, found
    return dict(found["slow"])


def day_of(faults: dict[str, float]) -> dict[str, Any]:
    """What a day costs, as the bill is made from it."""
    return bill(checked(setting_of(asked(faults)), "us"), "us")


def lines(found: dict[str, Any], role: str) -> list[np.ndarray]:
    """Lines of a role, each of shape (2, n)."""
    return [np.array(line["points"]).T for line in found["lines"] if line["role"] == role]


@pytest.mark.parametrize("system", ["us", "si"])
@pytest.mark.parametrize("name", [*QUICK, *SLOW])
@pytest.mark.parametrize("faults", [{}, LEAK, {"open_compressor": 100.0}], ids=str)
def test_each_chart_is_whole(name: str, faults: dict[str, float], system: str) -> None:
    """Words, a table, no number that no screen can show; the last part is drawn."""
    metric = {"units": "si", "outdoor": "35", "return_db": "26.7", "return_wb": "19.4"}
    found = chart(name, faults, **(metric if system == "si" else {}))
    json.dumps(found, allow_nan=False)
    assert len(found["summary"]) > 20
    assert found["title"]
    if faults != {"open_compressor": 100.0} or name != "cycle":
        assert found["tables"]
    for table in found["tables"]:
        assert {len(row) for row in table["rows"]} == {len(table["columns"])}
    assert found["kind"] in ("plot", "flow", "bars")
    if found["kind"] == "plot":
        for axis in (found["x"], found["y"]):
            assert axis["low"] < axis["high"]
            assert 2 <= len(axis["ticks"]) <= 7
    assert "nan" not in json.dumps(found).lower().replace("enan", "")


def test_fan_and_ducts_cross_where_the_system_runs() -> None:
    found = chart("fan", {"loaded_filter": 8.0})
    told = bench_readings.as_table(bench_readings.solved(Setting(faults={"loaded_filter": 8.0})))
    crossing = next(mark for mark in found["marks"] if mark["role"] == "now")
    flow, static = crossing["at"]
    assert flow == pytest.approx(told["readings"]["airflow"]["value"], rel=1e-5)
    assert static == pytest.approx(told["readings"]["total_external_static"]["value"], rel=1e-5)
    fan, ducts = lines(found, "now")
    assert (np.diff(fan[0]) < 0).all()
    assert (np.diff(fan[1]) > 0).all()
    # Both curves pass through the crossing, by interpolation between their points.
    for curve in (fan[:, ::-1], ducts):
        assert np.interp(flow, *curve) == pytest.approx(static, rel=0.02)
    assert f"{flow:,.0f} cfm" in crossing["text"]


def test_air_lies_below_saturation_and_dries_over_the_coil() -> None:
    found, healthy = chart("air", {"return_leak": 20.0}), chart("air")
    saturated = lines(found, "guide")[0]
    for way in (lines(found, "healthy")[0], lines(found, "now")[0]):
        for temperature, water in way.T:
            if saturated[0][0] <= temperature <= saturated[0][-1]:
                assert water <= np.interp(temperature, *saturated) + 0.2
        assert way[1][2] < way[1][1]
    # A leak in an attic warms the return on its way.
    now, ghost = lines(found, "now")[0], lines(healthy, "now")[0]
    assert now[0][1] - now[0][0] > ghost[0][1] - ghost[0][0]
    at, water = saturated[0][3], saturated[1][3]
    grains = 7000.0 * float(moist_air.humidity_ratio((at + 459.67) / 1.8, 1.0, 101325.0))
    assert water == pytest.approx(grains, rel=1e-4)


def test_saturation_follows_the_barometer() -> None:
    """Thinner air holds more water in each pound of itself: by Dalton's law."""
    low, high = (lines(chart("air", altitude=feet), "guide")[1] for feet in ("0", "8000"))
    assert np.interp(70.0, *high) > 1.2 * np.interp(70.0, *low)


@pytest.mark.parametrize("faults", [{}, LEAK, {"return_leak": 20.0}, {"strips_on": 4.8}], ids=str)
@pytest.mark.parametrize("season", [{}, WINTER, {**WINTER, "strips": "called"}], ids=str)
def test_what_flows_in_flows_out(faults: dict[str, float], season: dict[str, str]) -> None:
    """First law: what gives is what takes, and nothing is left over."""
    for stream in chart("delivery", faults, **season)["streams"]:
        gives, takes = (sum(end["size"] for end in stream[side]) for side in ("gives", "takes"))
        assert gives == pytest.approx(takes, rel=1e-6)
        assert stream["whole"] == pytest.approx(takes, rel=1e-9)
        assert min(end["size"] for end in stream["takes"]) >= 0.0


def test_a_leak_takes_its_share() -> None:
    """Forty percent of the fan flow lost takes about that much of what the coil gives."""
    now, healthy = chart("delivery", LEAK)["streams"]
    shares = {end["part"]: end["size"] / now["whole"] for end in now["takes"]}
    assert 0.3 < shares["supply_leak"] < 0.5
    before = {end["part"]: end["size"] / healthy["whole"] for end in healthy["takes"]}
    assert shares["supply_leak"] > 5.0 * before["supply_leak"]


def test_a_month_is_thirty_days() -> None:
    bars = chart("bill", LEAK)
    day = day_of(LEAK)
    total = next(row for row in bars["rows"] if row["part"] == "total")
    told = next(row for row in day["rows"] if row["part"] == "total")
    assert total["now"] == pytest.approx(30.0 * float(told["cost"]), abs=0.2)
    assert total["healthy"] == pytest.approx(30.0 * float(told["cost_healthy"]), abs=0.2)
    parts = [row["now"] for row in bars["rows"] if row["part"] != "total"]
    assert sum(parts) == pytest.approx(total["now"])


def test_start_up_grows_part_by_part_and_ends_where_the_readings_stand() -> None:
    """The charge has come back after a quarter of an hour (California Title 24 RA3.2)."""
    parts = SLOW["start_heat"][0]
    lengths = []
    for part in range(parts):
        found = answer(asked({"undercharge": 20.0}, do="slow", chart="start_heat", part=part))
        lengths.append(lines(found["slow"], "now")[0].shape[1])
        assert found["slow"]["parts"] == parts
    assert lengths == sorted(set(lengths))
    superheat = lines(found["slow"], "now")[0][1]
    steady = answer(asked({"undercharge": 20.0}))["stand"]["readings"]
    stands = next(row["now_number"] for row in steady if row["name"] == "superheat")
    assert superheat[-1] == pytest.approx(stands, abs=0.5)
    assert superheat[0] > superheat[-1] + 1.0


def test_a_unit_that_trips_says_how_it_cycles() -> None:
    found = chart("start_pressure", {"dirty_outdoor_coil": 70.0}, outdoor="118")
    assert "trips on high pressure" in found["notes"][0]


def test_run_time_adds_up_to_the_day() -> None:
    """By arithmetic: minutes of twenty-four hours are the day's share."""
    found = chart("run_time", LEAK)
    share = day_of(LEAK)["runs"][0]
    minutes = lines(found, "now")[0][1][::2]
    assert f"It runs {minutes.sum() / 14.4:.0f} %" in share
    assert minutes.max() <= 60.0


def test_strips_are_named_where_they_heat() -> None:
    """By definition: the healthy unit has none on in summer."""
    for faults, label in ((LEAK, "Blower"), ({"strips_on": 4.8}, "Blower and strips")):
        now = chart("delivery", faults)["streams"][0]
        assert label in [end["label"] for end in (*now["gives"], *now["takes"])]


def test_the_rooms_come_back_after_the_repair() -> None:
    found = chart("after", LEAK)
    repaired, left = lines(found, "now")[0], lines(found, "healthy")[0]
    assert repaired[1][0] == left[1][0]
    assert (repaired[1] <= left[1] + 1e-9).all()
    assert (left[1] - repaired[1]).max() > 1.0
    assert "back at the setpoint after" in found["notes"][0]


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({"chart": "tarot"}, "The chart must be one of"),
        ({"chart": "bill", "part": 9}, "has 2 parts"),
        ({"chart": "bill", "part": "x"}, "whole number"),
        ({"chart": "bill", "part": -1}, "has 2 parts"),
    ],
)
def test_a_chart_there_is_not_gets_a_sentence(more: dict[str, Any], said: str) -> None:
    found = answer(asked(do="slow", **more))
    assert set(found) == {"problem"}
    assert said in found["problem"]
