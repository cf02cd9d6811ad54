"""Smell tests of air, ducts, power and labels (rows 9, 10, 12 to 17, 22, 23, 25, 26, 34)."""

from dataclasses import replace

import numpy as np

from simulator.faults._catalogue import named
from simulator.plant import catalogue, standing, steady
from simulator.plant.motors import DESCRIBED
from simulator.properties import moist_air, refrigerant, refrigerant_tables
from simulator.properties.moist_air import STANDARD_PRESSURE
from simulator.quantities.values import Array
from tests.plant.stand import weather
from tests.truth.benches import Bench
from tests.truth.field import Field
from tests.truth.published_circuit import split
from tests.truth.smell import Smell, Smelt, cells, figures

DEGREE = 1 / 1.8  # one °F in kelvin
EVERYWHERE = np.True_
CFM = 2118.88  # of one m³/s
BTU = 3.412142  # Btu/h of one W


def _volt_amperes(field: Field) -> Smelt:
    voltage, bad = field.of("voltage"), np.zeros(len(field.keys), dtype=bool)
    factor = field.of("compressor_power_factor")
    apparent = field.of("compressor_voltage") * field.of("compressor_current")
    bad |= np.abs(field.of("compressor_power") - factor * apparent) > 0.03 * apparent
    for power, current in (
        ("outdoor_power", "outdoor_current"),
        ("blower_power", "blower_current"),
        ("air_handler_power", "air_handler_current"),
    ):
        shown = field.of(power) / (voltage * np.maximum(field.of(current), 1e-9))
        # Strips are a resistance, and take the whole power factor to one.
        highest = np.where(field.of("strip_power") > 0.0, 1.0, 1.0 - 1e-6)
        bad |= (shown <= 0.5) | (shown > highest)
    return cells(field, EVERYWHERE, bad)


def _split_slope(field: Field) -> Smelt:
    each = {}
    for unit in field.units:
        for metering in catalogue.METERING:
            bench = Bench(unit, metering)
            slope = (split(bench.at(wet=70.0)) - split(bench.at(wet=65.0))) / 5.0
            each[f"{bench.label} per °F wet bulb"] = (slope, -1.2, -0.6)
    return figures(**each)


def _fan_curve(field: Field) -> Smelt:
    """A plain motor: more filter, more static, less air, by both motors there are."""
    del field
    each = {}
    for motor in DESCRIBED:
        bench = Bench()
        clean = steady.solve(bench.installed(motor=motor), weather())
        loaded = steady.solve(
            bench.installed(faults=(("loaded_filter", 6.0),), motor=motor), weather()
        )
        each[f"{motor}_airflow"] = (float(loaded.airflow / clean.airflow), 0.3, 0.95)
        static = float(loaded.total_external_static / clean.total_external_static)
        each[f"{motor}_static"] = (static, 1.05, 5.0)
    return figures(**each)


def _other_drops(field: Field) -> Smelt:
    """With less air every part that is not at fault has its own smaller drop."""
    flow, registers = field.of("airflow"), field.of("register_airflow")
    per_flow = {
        "filter": field.of("filter_drop") / np.maximum(field.of("filter_airflow"), 1e-9) ** 2,
        "coil": field.of("coil_drop") / np.maximum(flow, 1e-9) ** 1.8,
        "supply": field.of("static_supply") / np.maximum(registers, 1e-9) ** 2,
    }
    kept = sum(
        (np.abs(value / value[field.healthy] - 1.0) < 0.01).astype(int)
        for value in per_flow.values()
    )
    less = flow < 0.95 * flow[field.healthy]
    return cells(field, less, kept < 2)


def _constant_airflow(field: Field) -> Smelt:
    del field
    built = catalogue.load_installation(unit="dunlin_48")
    clean, loaded = (
        steady.solve(one, weather())
        for one in (built, named("loaded_filter", 3.0).applied_to(built))
    )
    return figures(watts=(float(loaded.blower_power / clean.blower_power), 1.02, 4.0))


def _humidity(field: Field, place: str) -> Array:
    return np.asarray(
        moist_air.relative_humidity(
            field.of(f"{place}_temperature"),
            field.of(f"{place}_humidity_ratio"),
            field.of("pressure"),
        )
    )


def _psychrometrics(field: Field) -> Smelt:
    places = (
        "grille",
        "air_handler_return",
        "coil_leaving",
        "supply_plenum",
        "zone",
        "return_zone",
    )
    bad = np.zeros(len(field.keys), dtype=bool)
    for place in places:
        damp = _humidity(field, place)
        bad |= (damp > 1.0 + 1e-4) | (damp < 0.0)
    entering, supply = (
        field.of(f"{place}_humidity_ratio") for place in ("air_handler_return", "supply_plenum")
    )
    return cells(field, EVERYWHERE, bad | (supply > entering + 1e-9))


def _leaving_humidity(field: Field) -> Smelt:
    """Wet: a tenth of the heat as water, and not starved, which leaves rows dry that mix in.

    Both are this project's own reading of "wet coil"; what the widest gives is told beside it.
    """
    latent = 1.0 - field.of("sensible_capacity") / np.maximum(field.of("gross_capacity"), 1.0)
    damp = _humidity(field, "coil_leaving")
    wet = (latent > 0.10) & (field.of("coil_superheat") < 20.0 * DEGREE) & field.running
    any_water = (field.of("condensate_rate") > 0.0) & field.running
    drier = int((any_water & (damp < 0.70)).sum())
    shown = f"{damp[wet].min():.0%} to {damp[wet].max():.0%}; " if wet.any() else ""
    return cells(
        field,
        wet,
        damp < 0.70,
        figure=f"{shown}of all with any condensate {drier:,} of {int(any_water.sum()):,} drier",
    )


def _condensate(field: Field) -> Smelt:
    dew = np.asarray(
        moist_air.dew_point(field.of("air_handler_return_humidity_ratio"), field.of("pressure"))
    )
    water = field.of("condensate_rate")
    dry = field.of("evaporating_temperature") > dew
    wet = field.of("coil_leaving_temperature") < dew
    return cells(field, dry | wet, np.where(dry, water > 1e-6, water <= 0.0))


def _leaks_apart(field: Field) -> Smelt:
    share = field.of("register_airflow") / np.maximum(field.of("airflow"), 1e-9)
    gain = field.of("air_handler_return_temperature") - field.of("grille_temperature")
    moved_share = np.abs(share - share[field.healthy]) > 0.005
    moved_gain = np.abs(gain - gain[field.healthy]) > 1.0 * DEGREE
    back, forth = field.are(fault="return_leak"), field.are(fault="supply_leak")
    return cells(field, back | forth, np.where(back, moved_share, moved_gain))


def _house_pressure(field: Field) -> Smelt:
    leak = field.are(fault="supply_leak")
    wrong = (field.change("house_pressure") >= 0.0) | (field.of("house_pressure") >= 0.0)
    return cells(field, leak, wrong)


def _glide(field: Field) -> Smelt:
    del field
    each = {}
    # R-454B: about 2.6 °F at usual pressures; one pure and one nearly azeotropic fluid beside it.
    for name, low, high in (("R-454B", 1.8, 3.4), ("R-410A", 0.0, 0.4), ("R-32", -0.01, 0.01)):
        fluid = refrigerant.load(name)
        pressure = fluid.dew_pressure(np.array([45.0 / 1.8 + 255.372]))
        wide = fluid.dew_temperature(pressure) - fluid.bubble_temperature(pressure)
        each[name.replace("-", "")] = (float(wide[0]) * 1.8, low, high)
    return figures(**each)


def _label(field: Field) -> Smelt:
    """Standing pressure at 80 °F is that of the fluid on the plate."""
    broken = []
    for unit in field.units:
        built = catalogue.load_installation(unit=unit)
        resting = standing.at_rest(built, weather(80.0))
        plate = refrigerant.load(built.unit.plate_refrigerant)
        facts = refrigerant_tables.facts()[built.unit.plate_refrigerant]
        wanted = plate.dew_pressure(np.array([resting.outdoor_temperature]))[0]
        flammable = built.unit.plate_refrigerant in ("R-32", "R-454B")
        if abs(resting.suction_pressure - wanted) > 2.0e4:
            broken.append(f"{unit}: pressure is not that of {built.unit.plate_refrigerant}")
        if (facts.safety_class == "A2L") != flammable:
            broken.append(f"{unit}: safety class {facts.safety_class}")
    return Smelt(looked=len(field.units), broken=tuple(broken))


def _altitude(field: Field) -> Smelt:
    """Factor of cfm and °F at 5,000 ft and at sea level; gauges and drops in the air there."""
    del field
    high = float(moist_air.standard_pressure(1524.0))
    each, drops = {}, []
    for name, pressure, middle in (
        ("sea_level", STANDARD_PRESSURE, 1.053),
        ("high_up", high, 0.873),
    ):
        point = steady.solve(Bench().installed(), replace(weather(wet=60.0), pressure=pressure))
        drop = point.air_handler_return_temperature - point.coil_leaving_temperature
        factor = float(point.sensible_capacity * BTU / (point.airflow * CFM * drop * 1.8))
        each[name] = (factor, 0.96 * middle, 1.04 * middle)
        # A gauge that mixed the two would be off by the barometers' difference, 2.5 psi.
        fluid = refrigerant.load("R-410A")
        absolute = fluid.dew_pressure(np.array([point.suction_line_temperature - point.superheat]))
        off = float(absolute[0] - point.suction_pressure) / 6894.757
        each[f"{name}_psi_off"] = (off, -0.1, 0.1)
        drops.append(
            float(point.filter_drop * point.airflow / point.air_mass_flow)
            / float(point.airflow) ** 2
        )
    each["drop_per_head"] = (drops[1] / drops[0], 0.99, 1.01)
    return figures(**each)


AIR_SMELLS = (
    Smell(number=9, fails_if="watts are not volts times amps times power factor",
          bar="±3 %, power factor 0.5 to 1", found=_volt_amperes),
    Smell(number=10, fails_if="split ignores humidity",
          bar="about −0.9 °F per °F wet bulb (−0.6 to −1.2), wet coil", found=_split_slope),
    Smell(number=12, fails_if="static up, airflow unchanged", bar="fan curve solved",
          found=_fan_curve),
    Smell(number=13, fails_if="airflow down, drops of the other parts do not follow",
          bar="drop ∝ flow to its power within 1 %, two parts of three", found=_other_drops),
    Smell(number=14, fails_if="constant-airflow motor: static up, watts not",
          bar="watts up", found=_constant_airflow),
    Smell(number=15, fails_if="wet bulb over dry bulb, RH over 100 %, supply damper than return",
          bar="none, at six places", found=_psychrometrics),
    Smell(number=16, fails_if="air off a wet coil too dry", bar="≥ 70 % RH, usually 85 to 95",
          found=_leaving_humidity),
    Smell(number=17, fails_if="condensate from a coil above the dew point, or none below",
          bar="signs", found=_condensate),
    Smell(number=22, fails_if="return leak moves the register sum, supply leak the return gain",
          bar="within 0.5 points; within 1 °F", found=_leaks_apart),
    Smell(number=23, fails_if="supply leak makes the house positive", bar="negative, and lower",
          found=_house_pressure),
    Smell(number=25, fails_if="a blend with one saturation column",
          bar="R-454B about 2.6 °F of glide at 45 °F", found=_glide),
    Smell(number=26, fails_if="pressures of another fluid than the label's, or A2L not marked",
          bar="standing within 3 psi; class by fluid", found=_label),
    Smell(number=34, fails_if="1.08 at altitude; gauge and absolute mixed",
          bar="1.053 and 0.873 ±4 %; saturation within 0.1 psi; drop ∝ ρ v² within 1 %",
          found=_altitude),
)  # fmt: skip
