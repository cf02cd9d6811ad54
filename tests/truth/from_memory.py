"""What the plant says to the values written down from memory, in a table of their own.

They are kept apart because nobody has looked them up again. They came after the fit, though
many are other points of curves and tables that the plant was fitted with.
"""

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from simulator.plant import defrost, steady
from simulator.plant.operating_point import OperatingPoint
from simulator.properties import moist_air, refrigerant
from simulator.properties.moist_air import STANDARD_PRESSURE
from tests.plant.stand import fahrenheit, winter
from tests.truth.benches import Bench, Faults
from tests.truth.published_circuit import (
    PSI,
    capacity,
    cop,
    net_efficiency,
    sensible_share,
    split,
)

Devices = tuple[str, ...]
Asked = tuple[Devices, Callable[[Bench], tuple[float, ...]]]
Judge = Callable[[OperatingPoint, OperatingPoint], float]
BOTH: Devices = ("txv", "orifice")
ORIFICE: Devices = ("orifice",)
GRAINS, BTU_PER_POUND, CUBIC_FEET_PER_POUND = 7000.0, 2326.0, 16.018463


def _power(one: OperatingPoint, other: OperatingPoint) -> float:
    return float(one.outdoor_power / other.outdoor_power)


def _cool(outdoor: float, wet: float, power: bool = False) -> Asked:
    judge = _power if power else capacity
    return BOTH, lambda b: (judge(b.at(outdoor, wet), b.at()),)


def _air(share: float) -> Asked:
    return BOTH, lambda b: (capacity(b.at(airflow=share), b.at()),)


def _warm(outdoor: float) -> Asked:
    return BOTH, lambda b: (capacity(b.heating(outdoor), b.heating()),)


def _faulty(fault: str, amount: float, judge: Judge = capacity, devices: Devices = BOTH) -> Asked:
    faults: Faults = ((fault, amount),)
    return devices, lambda b: (judge(b.at(faults=faults), b.at()),)


def _cop_ratio(one: OperatingPoint, other: OperatingPoint) -> float:
    return cop(one) / cop(other)


def _superheat(outdoor: float, wet: float) -> Asked:
    return ORIFICE, lambda b: (float(b.at(outdoor, wet).superheat) * 1.8,)


def _split(wet: float) -> Asked:
    return BOTH, lambda b: (split(b.at(wet=wet)),)


def _sensible(wet: float) -> Asked:
    return BOTH, lambda b: (sensible_share(b.at(wet=wet)),)


def bypass_factor(entering: tuple[float, float], leaving: tuple[float, float]) -> float:
    """Share of air that leaves as it came, the rest saturated on the line through both states.

    Temperature and humidity ratio of each; the lowest saturated state on the line is taken.
    """
    along = np.linspace(1.0, 3.0, 4001)
    dry = entering[0] + along * (leaving[0] - entering[0])
    water = entering[1] + along * (leaving[1] - entering[1])
    full = moist_air.saturated_humidity_ratio(dry, STANDARD_PRESSURE)
    met = np.flatnonzero(water >= full)
    return float(1.0 - 1.0 / along[met[0]]) if met.size else float("nan")


def _bypass(bench: Bench) -> tuple[float, ...]:
    point = bench.at()
    states = [
        (float(getattr(point, f"{at}_temperature")), float(getattr(point, f"{at}_humidity_ratio")))
        for at in ("air_handler_return", "coil_leaving")
    ]
    return (bypass_factor(states[0], states[1]),)


def _below_return(bench: Bench) -> tuple[float, ...]:
    point = bench.at()
    return (float(point.air_handler_return_temperature - point.evaporating_temperature) * 1.8,)


def _whole_cop(bench: Bench) -> tuple[float, ...]:
    """As makers' tables have it: the blower's heat and power counted."""
    point = bench.heating(17.0)
    blower = float(point.blower_power)
    heat, power = float(point.gross_capacity) + blower, float(point.outdoor_power) + blower
    return (heat / power,)


def _frosted(bench: Bench) -> tuple[float, ...]:
    built = bench.installed()
    built = replace(built, controls=replace(built.controls, defrost_interval=1800.0))
    cold, mild = (
        float(steady.solve(built, winter(outdoor)).delivered_sensible) for outdoor in (17.0, 47.0)
    )
    cycle = defrost.cycle(built, winter(35.0, humidity=0.82))
    return (cycle.mean_capacity / (cold + 0.6 * (mild - cold)),)


def _hot_dry() -> tuple[float, float]:
    dry = fahrenheit(100.0)
    wet = moist_air.humidity_ratio_from_wet_bulb(dry, fahrenheit(65.0), STANDARD_PRESSURE)
    return dry, float(wet)


def _damp(dry: float, relative: float) -> tuple[float, float]:
    water = float(moist_air.humidity_ratio(fahrenheit(dry), relative, STANDARD_PRESSURE))
    return float(moist_air.enthalpy(fahrenheit(dry), water)) / BTU_PER_POUND, water


def _air_properties() -> dict[str, float]:
    """Worked examples of moist air, from the project's own formulas."""
    dry, water = _hot_dry()
    cold, cold_water = _damp(35.0, 1.0)
    heated = float(moist_air.enthalpy(fahrenheit(100.0), cold_water)) / BTU_PER_POUND
    (damp, damp_water), (off, off_water) = _damp(85.0, 0.5), _damp(50.0, 1.0)
    dew = float(moist_air.dew_point(water, STANDARD_PRESSURE))
    density = float(moist_air.density(dry, water, STANDARD_PRESSURE))
    return {
        "M54": water * GRAINS,
        "M55": dew * 1.8 - 459.67,
        "M56": CUBIC_FEET_PER_POUND / density,
        "M57": heated - cold,
        "M58": damp - off,
        "M59": (damp_water - off_water) * GRAINS,
    }


def _pressure(fluid: str, line: str, degrees: float) -> float:
    of = getattr(refrigerant.load(fluid), f"{line}_pressure")
    return float(of(np.array([fahrenheit(degrees)]))[0] - STANDARD_PRESSURE) / PSI


def _fixed(name: str) -> Asked:
    return BOTH, lambda b: (_air_properties()[name],)


MEMORY_CHECKS = {
    "M01": _cool(75.0, 67.0), "M02": _cool(85.0, 67.0), "M03": _cool(105.0, 67.0),
    "M04": _cool(95.0, 62.0), "M05": _cool(95.0, 72.0), "M06": _cool(115.0, 62.0),
    "M07": _cool(75.0, 72.0),
    "M08": _cool(75.0, 67.0, power=True), "M09": _cool(85.0, 67.0, power=True),
    "M10": _cool(105.0, 67.0, power=True), "M11": _cool(95.0, 62.0, power=True),
    "M12": _cool(95.0, 72.0, power=True),
    "M13": _air(0.85), "M14": _air(0.5),
    "M15": (BOTH, lambda b: (capacity(b.heating(airflow=0.7), b.heating()),)),
    "M16": (BOTH, lambda b: (cop(b.heating(airflow=0.7)) / cop(b.heating()),)),
    "M17": _warm(62.0), "M18": _warm(27.0), "M19": _warm(7.0),
    "M20": (BOTH, lambda b: (cop(b.heating(17.0)) / cop(b.heating()),)),
    "M21": _faulty("undercharge", 0.1), "M22": _faulty("undercharge", 0.2),
    "M23": _faulty("undercharge", 0.4), "M24": _faulty("undercharge", 0.3, _power),
    "M25": _faulty("overcharge", 0.2), "M26": _faulty("overcharge", 0.2, _power),
    "M27": _faulty("undercharge", 0.14, capacity, ORIFICE),
    "M28": _faulty("undercharge", 0.14, _cop_ratio, ORIFICE),
    "M29": _faulty("dirty_outdoor_coil", 0.56, capacity, ORIFICE),
    "M30": _faulty("dirty_outdoor_coil", 0.56, _cop_ratio, ORIFICE),
    "M31": (ORIFICE, lambda b: (capacity(b.at(airflow=0.64), b.at()),)),
    "M32": _superheat(65.0, 60.0), "M33": _superheat(65.0, 70.0), "M34": _superheat(75.0, 66.0),
    "M35": _superheat(85.0, 64.0), "M36": _superheat(85.0, 70.0), "M37": _superheat(95.0, 66.0),
    "M38": _superheat(95.0, 70.0), "M39": _superheat(95.0, 74.0), "M40": _superheat(105.0, 70.0),
    "M41": _superheat(115.0, 74.0),
    "M42": _split(62.0), "M43": _split(70.0), "M44": _split(74.0),
    "M45": (BOTH, lambda b: (net_efficiency(b.at(82.0)) / net_efficiency(b.at()),)),
    "M46": _sensible(67.0), "M47": _sensible(62.0), "M48": _sensible(72.0),
    "M49": (BOTH, _bypass), "M50": (BOTH, _below_return),
    "M51": (BOTH, lambda b: (-split(b.heating()),)),
    "M52": (BOTH, _whole_cop),
    "M53": (BOTH, _frosted),
    **{name: _fixed(name) for name in ("M54", "M55", "M56", "M57", "M58", "M59")},
    "M60": (BOTH, lambda b: (_pressure("R-22", "dew", 40.0),)),
    "M61": (BOTH, lambda b: (_pressure("R-22", "dew", 110.0),)),
    "M62": (BOTH, lambda b: (_pressure("R-410A", "dew", 45.0),)),
    "M63": (BOTH, lambda b: (_pressure("R-410A", "bubble", 120.0),)),
}  # fmt: skip
