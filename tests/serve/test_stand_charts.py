"""The stand's charts carry the plant's own numbers, and a chart there is not gets a sentence."""

from typing import Any

import numpy as np
import pytest

from simulator.properties import moist_air
from simulator.serve import bench_readings
from simulator.serve.bench_setting import Setting
from simulator.serve.stand import answer

BASE: dict[str, Any] = {
    "do": "chart", "mode": "cooling", "unit": "quail_36", "refrigerant": "", "metering": "",
    "motor": "", "zone": "attic", "outdoor": "95", "outdoor_wb": "", "return_db": "80",
    "return_wb": "67", "airflow": "100", "altitude": "0", "units": "us",
}  # fmt: skip


def chart(name: str, faults: dict[str, float] | None = None, **more: str) -> dict[str, Any]:
    """One chart as the browser gets it; shares of a fault in percent."""
    listed = [{"name": code, "severity": str(size)} for code, size in (faults or {}).items()]
    found = answer({**BASE, "chart": name, "faults": listed, **more})
    assert "problem" not in found, found
    return dict(found["chart"])


def test_fan_and_ducts_cross_where_the_system_runs() -> None:
    found = chart("fan", {"loaded_filter": 8.0})
    told = bench_readings.as_table(bench_readings.solved(Setting(faults={"loaded_filter": 8.0})))
    flow, static = found["cross"][1]["at"]
    assert flow == pytest.approx(told["readings"]["airflow"]["value"], rel=1e-6)
    assert static == pytest.approx(told["readings"]["total_external_static"]["value"], rel=1e-6)
    for fan in found["fan"]:
        flows, statics = np.array(fan).T
        assert (np.diff(flows) < 0).all()
        assert (np.diff(statics) > 0).all()
    assert found["cross"][0]["text"] != found["cross"][1]["text"]


def test_air_lies_below_saturation_and_dries_over_the_coil() -> None:
    found = chart("air", {"return_leak": 20.0})
    wet, _ = found["curves"]
    at, moist = np.array(wet["points"]).T
    for way in (found["healthy"], found["now"]):
        for temperature, water in way:
            assert water <= np.interp(temperature, at, moist) + 0.2
        assert way[2][1] < way[1][1]
    # A leak in an attic warms the return on its way.
    assert found["now"][1][0] - found["now"][0][0] > found["healthy"][1][0] - found["healthy"][0][0]
    grains = 7000.0 * float(moist_air.humidity_ratio((at[10] + 459.67) / 1.8, 1.0, 101325.0))
    assert moist[10] == pytest.approx(grains, rel=1e-9)


@pytest.mark.parametrize("mode", ["cooling", "heating"])
def test_what_the_coil_gives_is_what_arrives_and_what_is_lost(mode: str) -> None:
    weather = {"outdoor": "40", "return_db": "70", "return_wb": "58"} if mode == "heating" else {}
    found = chart("delivery", {"supply_leak": 25.0}, mode=mode, **weather)
    for column in ("healthy", "now"):
        size = {name: part["size"] for name, part in found[column].items()}
        assert size["coil"] == pytest.approx(size["blown"] + size["walls"] + size["rooms"])
        assert min(size.values()) >= 0.0
    assert found["now"]["blown"]["size"] > 4.0 * found["healthy"]["blown"]["size"]


def test_a_chart_there_is_not_gets_a_sentence() -> None:
    found = answer({**BASE, "chart": "<b>", "faults": []})
    assert found == {"problem": "chart must be air, fan, delivery, not '<b>'."}
