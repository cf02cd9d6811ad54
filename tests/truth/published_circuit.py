"""What the circuit says to the published checks of capacity, power, fault and charge."""

import numpy as np

from simulator.instruments import charging_verdict as charging
from simulator.plant import sizing, standing, steady
from simulator.plant.operating_point import OperatingPoint
from simulator.properties import refrigerant
from simulator.properties.moist_air import STANDARD_PRESSURE
from simulator.quantities.shown import to_display
from tests.plant.stand import fahrenheit, weather
from tests.truth.benches import Bench, with_tight_ducts

WATT = 3.412142  # in Btu/h
PSI = 6894.757  # in Pa
BOTH, VALVE, ORIFICE = ("txv", "orifice"), ("txv",), ("orifice",)


def cop(point: OperatingPoint) -> float:
    """Capacity per watt of the outdoor unit."""
    return float(point.gross_capacity / point.outdoor_power)


def capacity(one: OperatingPoint, other: OperatingPoint) -> float:
    """Gross, one over the other."""
    return float(one.gross_capacity / other.gross_capacity)


def over_ambient(point: OperatingPoint) -> float:
    """Condensing over outdoor air. [°F]"""
    return float(point.condensing_temperature - point.outdoor_temperature) * 1.8


def sensible_share(point: OperatingPoint) -> float:
    """Sensible heat ratio."""
    return float(point.sensible_capacity / point.gross_capacity)


def split(point: OperatingPoint) -> float:
    """Entering the coil less supply plenum. [°F]"""
    return float(point.air_handler_return_temperature - point.supply_plenum_temperature) * 1.8


def net_efficiency(point: OperatingPoint) -> float:
    """EER net of the indoor blower, as a rating counts it. [Btu/Wh]"""
    net = point.gross_capacity - point.blower_power
    return float(net / (point.outdoor_power + point.blower_power)) * WATT


def rated_efficiency(bench: Bench) -> tuple[float, ...]:
    """EER at the rating point, ducts as in a laboratory."""
    built = sizing.at_airflow(with_tight_ducts(bench.installed()), weather(), 1.0)
    return (net_efficiency(steady.solve(built, weather())),)


def _low_charge_and_air(bench: Bench) -> OperatingPoint:
    return bench.at(airflow=0.8, faults=(("undercharge", 0.2),))


def _over_weather(bench: Bench) -> tuple[float, ...]:
    return tuple(
        over_ambient(bench.at(outdoor)) for outdoor in (65.0, 75.0, 85.0, 95.0, 105.0, 115.0)
    )


def _standing(bench: Bench) -> tuple[float, ...]:
    resting = standing.at_rest(bench.installed(), weather(80.0))
    return (float(resting.suction_pressure - resting.pressure) / PSI,)


def _dew_pressures(bench: Bench) -> tuple[float, ...]:
    del bench
    fluid = refrigerant.load("R-410A")
    absolute = fluid.dew_pressure(np.array([fahrenheit(40.0), fahrenheit(110.0)]))
    return tuple(float(value - STANDARD_PRESSURE) / PSI for value in absolute)


def _valve_verdict(bench: Bench) -> str:
    del bench
    low, high = (end * 1.8 for end in charging.SANE_SUPERHEAT)
    return f"{charging.valve_verdict(18.0 / 1.8).verdict}: {low:.0f} to {high:.0f} F"


def _orifice_verdict(bench: Bench) -> str:
    del bench
    found = charging.orifice_verdict(21.0 / 1.8, 14.0 / 1.8, fahrenheit(95.0))
    off = to_display(found.off_by or 0.0, "temperature_difference")
    band = charging.SUPERHEAT_BAND * 1.8
    return f"{found.verdict}: {off:+.0f} F against a band of +-{band:.0f} F"


def _cold_verdict(bench: Bench) -> str:
    judge = charging.orifice_verdict if bench.metering == "orifice" else charging.subcooling_verdict
    found = judge(10.0 / 1.8, 10.0 / 1.8, fahrenheit(54.9))
    return f"{found.verdict}: {'weigh in' if 'weigh in' in found.reason else found.reason}"


HALF_AIR = (("dirty_outdoor_coil", 0.5),)
CIRCUIT_CHECKS = {
    "P01": (BOTH, lambda b: (capacity(b.at(115.0), b.at()),)),
    "P02": (BOTH, lambda b: (float(b.at(115.0).outdoor_power / b.at().outdoor_power),)),
    "P03": (BOTH, lambda b: (capacity(b.heating(17.0), b.heating()),)),
    "P04": (BOTH, lambda b: (sensible_share(b.at(airflow=0.75)) - sensible_share(b.at()),)),
    "P05": (BOTH, lambda b: (capacity(b.at(faults=(("undercharge", 0.3),)), b.at()),)),
    "P06": (BOTH, lambda b: (cop(b.at(faults=(("undercharge", 0.3),))) / cop(b.at()),)),
    "P07": (BOTH, lambda b: (capacity(b.heating(faults=(("undercharge", 0.2),)), b.heating()),)),
    "P08": (BOTH, lambda b: (capacity(b.at(airflow=0.7), b.at()),)),
    "P09": (BOTH, lambda b: (cop(b.at(airflow=0.7)) / cop(b.at()),)),
    "P10": (BOTH, lambda b: (cop(b.at()) / cop(b.at(faults=HALF_AIR)),)),
    "P11": (BOTH, lambda b: (capacity(_low_charge_and_air(b), b.at()),)),
    "P12": (BOTH, lambda b: (cop(b.at()) / cop(_low_charge_and_air(b)),)),
    "P17": (BOTH, rated_efficiency),
    "P23": (ORIFICE, lambda b: (float(b.at(75.0, wet=62.0).superheat) * 1.8,)),
    "P24": (BOTH, lambda b: (split(b.at()),)),
    "P25": (VALVE, _valve_verdict),
    "P26": (ORIFICE, _orifice_verdict),
    "P27": (BOTH, _cold_verdict),
    "P28": (BOTH, _standing),
    "P29": (BOTH, _dew_pressures),
    "P30": (BOTH, _over_weather),
}
