"""What the air side, the ducts, the house and the motors say to the published checks."""

from dataclasses import replace
from functools import lru_cache

from simulator.components.electric_strips import ElectricStrips, strip_power
from simulator.plant import air_path, air_states, case, energy
from simulator.plant.zone_balance import ZoneAir
from simulator.properties import moist_air
from tests.plant.stand import fahrenheit, weather
from tests.truth.benches import Bench
from tests.truth.delivery import Duty, delivery_effectiveness

BOTH = ("txv", "orifice")
GRAINS = 7000.0  # in a pound
BTU_PER_POUND = 2326.0  # in J/kg
MILD = energy.DayWeather(high=fahrenheit(79), low=fahrenheit(61), humidity_ratio=0.010)


def _return_mix(bench: Bench) -> ZoneAir:
    """Room air with 15 % from a hot attic, through the plant's own mixing."""
    wet = moist_air.humidity_ratio_from_wet_bulb(fahrenheit(75), fahrenheit(63), 101325.0)
    rooms = replace(weather(), indoor_temperature=fahrenheit(75), indoor_humidity_ratio=float(wet))
    built = bench.installed()
    ducts = replace(built.ducts, return_leak=0.15, return_conductance=0.0)
    attic = fahrenheit(120)
    air = ZoneAir(attic, moist_air.humidity_ratio(attic, 0.17, 101325.0))
    return air_states.entering_coil(case.prepared(replace(built, ducts=ducts), rooms), air, air)


def _mixed_dry_bulb(bench: Bench) -> tuple[float, ...]:
    return (float(_return_mix(bench).temperature) * 1.8 - 459.67,)


def _mixed_wet_bulb(bench: Bench) -> tuple[float, ...]:
    mixed = _return_mix(bench)
    bulb = moist_air.wet_bulb(mixed.temperature, mixed.humidity_ratio, 101325.0)
    return (float(bulb) * 1.8 - 459.67,)


def _room_water() -> float:
    return float(moist_air.humidity_ratio_from_wet_bulb(fahrenheit(80), fahrenheit(67), 101325.0))


def _grains(bench: Bench) -> tuple[float, ...]:
    del bench
    return (_room_water() * GRAINS,)


def _enthalpy(bench: Bench) -> tuple[float, ...]:
    """Counted as the handbook does: dry air from 0 °F, water vapour as 1061 + 0.444 t."""
    del bench
    zero = (0.0 + 459.67) / 1.8
    heat = float(moist_air.enthalpy(fahrenheit(86), 0.02) - moist_air.enthalpy(zero, 0.0))
    vapour_zero = 1061.0 - (2501000.0 + 1860.0 * (zero - 273.15)) / BTU_PER_POUND
    return (heat / BTU_PER_POUND + 0.02 * vapour_zero,)


def _relative_humidity(bench: Bench) -> tuple[float, ...]:
    del bench
    share = moist_air.relative_humidity(fahrenheit(80), _room_water(), 101325.0)
    return (float(share) * 100.0,)


def _strip_power(bench: Bench) -> tuple[float, ...]:
    del bench
    strips = ElectricStrips(
        installed_power=9600.0, energised_power=9600.0, working_share=1.0, plate_voltage=240.0
    )
    return (float(strip_power(strips, 208.0)) / 9600.0,)


def _static(bench: Bench) -> tuple[float, ...]:
    full, less = (air_path.settle(bench.installed(part), weather()) for part in (1.0, 0.75))
    ratio = (less.supply - less.after_filter) / (full.supply - full.after_filter)
    return (0.50 * float(ratio),)


@lru_cache
def run_time(bench: Bench, supply_leak: float) -> float:
    """Mean run fraction of a mild day, on which the healthy unit peaks below 0.6."""
    faults = (("supply_leak", supply_leak),) if supply_leak else ()
    day = energy.day(bench.installed(faults=faults), MILD, fahrenheit(76))
    return day.mean_run_fraction


def _heating_delivery(bench: Bench) -> tuple[float, ...]:
    room, buffer = fahrenheit(70.0), fahrenheit(45.0)
    duty = Duty(
        room=ZoneAir(room, 0.006),
        zone=ZoneAir(buffer, 0.004),
        heat=-32000.0,
        leaving=None,
        leaks=0.0,
    )
    return (delivery_effectiveness(bench.installed(), duty),)


def _cooling_delivery(bench: Bench) -> tuple[float, ...]:
    room, crawl = fahrenheit(75.0), fahrenheit(80.0)
    wet = moist_air.humidity_ratio_from_wet_bulb(room, fahrenheit(63.0), 101325.0)
    duty = Duty(
        room=ZoneAir(room, float(wet)),
        zone=ZoneAir(crawl, float(moist_air.humidity_ratio(crawl, 0.70, 101325.0))),
        heat=36000.0,
        leaving=fahrenheit(55.0),
        leaks=0.10,
    )
    return (delivery_effectiveness(bench.installed(), duty),)


AIR_CHECKS = {
    "P13": (BOTH, _heating_delivery),
    "P14": (BOTH, _cooling_delivery),
    "P15": (BOTH, _mixed_dry_bulb),
    "P16": (BOTH, _mixed_wet_bulb),
    "P18": (BOTH, _grains),
    "P19": (BOTH, _enthalpy),
    "P20": (BOTH, _relative_humidity),
    "P21": (BOTH, _strip_power),
    "P22": (BOTH, _static),
    "P31": (BOTH, lambda b: (run_time(b, 0.5) / run_time(b, 0.0),)),
    "P32": (BOTH, lambda b: (float(b.at().blower_current),)),
    "P33": (BOTH, lambda b: (float(b.at().strip_current),)),
}
