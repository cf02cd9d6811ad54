"""A first guess of a published unit: a reference unit made larger or smaller."""

from dataclasses import replace
from typing import Any

import numpy as np

from simulator.components.blower import Blower
from simulator.components.metering_device import MeteringDevice
from simulator.plant import blower_fit
from simulator.plant.data_sheet import TON, PublishedUnit
from simulator.plant.installation import Unit
from simulator.plant.unit_map import efficiencies_of
from simulator.properties import refrigerant

COLD, HOT = 283.15, 313.15  # saturation in both coils, where refrigerants are compared [K]


def scaled(reference: Unit, sheet: PublishedUnit) -> Unit:
    """The reference unit at the size, with the fluid and the plate of a data sheet.

    Conductances, volumes and flows go with size; swept flow also with what a volume of the
    refrigerant carries, pressure drops with its pressure.

    Parameters
    ----------
    reference : Unit
        Described part by part.
    sheet : PublishedUnit
        As read.

    Returns
    -------
    Unit
        Not yet sized.
    """
    size = sheet.tons * TON / float(reference.nominal_capacity)
    heat, volume, pressure, film = _against(reference.refrigerant, sheet.refrigerant)
    coils = [_coil(coil, size, film) for coil in (reference.outdoor_coil, reference.indoor_coil)]
    unit = replace(
        reference,
        name=sheet.name,
        refrigerant=sheet.refrigerant,
        plate_refrigerant=sheet.refrigerant,
        nominal_capacity=sheet.tons * TON,
        rated_airflow=sheet.airflow,
        rated_flow=float(reference.rated_flow) * size / heat,
        charge=float(reference.charge) * size,
        plate_charge=float(reference.plate_charge) * size,
        high_cut_out=sheet.high_cut_out,
        low_cut_out=sheet.low_cut_out,
        metering=_set_to(reference.metering, sheet.superheat),
        reversing_valve=replace(reference.reversing_valve, is_fitted=float(sheet.heats)),
        strips=replace(
            reference.strips, installed_power=sheet.strip_power, plate_voltage=sheet.strip_voltage
        ),
        outdoor_coil=replace(
            coils[0],
            airflow=sheet.fan_airflow,
            fan_power=sheet.fan_power,
            pressure_drop=reference.outdoor_coil.pressure_drop * pressure,
        ),
        indoor_coil=replace(
            coils[1],
            rated_airflow=sheet.airflow,
            condensing_drop=reference.indoor_coil.condensing_drop * pressure,
        ),
        lines=_times(
            _times(reference.lines, size, _LINES),
            pressure,
            ("suction_pressure_drop", "liquid_pressure_drop"),
        ),
    )
    return replace(
        unit, compressor=_compressor(unit, sheet, size, size / volume), blower=_blower(unit, sheet)
    )


def _set_to(valve: MeteringDevice, superheat: float) -> MeteringDevice:
    """The same valve with its spring set to another superheat: as far open there as before."""
    spring = valve.spring_superheat + superheat - valve.rated_superheat
    return replace(valve, rated_superheat=superheat, spring_superheat=spring)


def _coil(coil: Any, size: float, film: float) -> Any:
    return _times(_times(coil, size, _COIL), film, ("vapour_conductance",))


_COIL = (
    "air_conductance",
    "two_phase_conductance",
    "boiling_conductance",
    "dry_conductance",
    "condensing_conductance",
    "vapour_conductance",
    "liquid_conductance",
    "frost_capacity",
    "tube_volume",
)
_LINES = (
    "suction_volume",
    "suction_conductance",
    "liquid_volume",
    "discharge_volume",
    "shell_volume",
    "accumulator_volume",
    "accumulator_return",
    "oil_mass",
)


def _times(part: Any, factor: float, keys: tuple[str, ...]) -> Any:
    found = {key: getattr(part, key) * factor for key in keys if hasattr(part, key)}
    return replace(part, **found)


def _against(reference: str, other: str) -> tuple[float, float, float, float]:
    """Heat of a kilogram and of a cubic metre, pressure, and film of gas, over the reference's.

    A film in a tube carries with heat capacity and with the flow's power of 0.8, Prandtl
    numbers of these gases taken as alike: Chilton and Colburn, Ind. Eng. Chem. 26, 1934, 1183
    (from memory). Less of a fluid that carries more heat flows.
    """

    def of(name: str) -> tuple[float, float, float, float]:
        fluid = refrigerant.load(name)
        cold = float(fluid.dew_pressure(COLD))
        boiling = fluid.saturation(np.log(cold))
        liquid = fluid.saturation(np.log(float(fluid.bubble_pressure(HOT))))
        heat = float(boiling.vapour_enthalpy - liquid.liquid_enthalpy)
        film = float(boiling.vapour_heat_capacity) / heat**0.8
        return heat, heat * float(boiling.vapour_density), cold, film

    heat, volume, pressure, film = (
        new / old for new, old in zip(of(other), of(reference), strict=True)
    )
    return heat, volume, pressure, film


def _compressor(unit: Unit, sheet: PublishedUnit, size: float, swept: float) -> Any:
    machine = unit.compressor
    machine = replace(
        machine,
        power_factor=sheet.power_factor,
        # A shell's surface grows less than its volume.
        shell_conductance=machine.shell_conductance * size ** (2.0 / 3.0),
    )
    if sheet.compressor_map is None:
        return replace(machine, displacement=machine.displacement * swept, **sheet.efficiencies)
    said = efficiencies_of(
        sheet.compressor_map, sheet.refrigerant, float(machine.volumetric_efficiency)
    )
    return replace(
        machine,
        displacement=said.displacement,
        volumetric_slope=said.volumetric_slope,
        best_efficiency=said.best_efficiency,
        best_pressure_ratio=said.best_pressure_ratio,
        efficiency_curvature=said.efficiency_curvature,
    )


def _blower(unit: Unit, sheet: PublishedUnit) -> Blower:
    coil = unit.indoor_coil
    return blower_fit.fitted(
        sheet,
        dry_coil_drop=float(coil.wet_pressure_drop * coil.dry_share),
        usual_diameter=float(unit.blower.wheel_diameter)
        * float(np.cbrt(sheet.airflow / USUAL_AIRFLOW)),
    )


USUAL_AIRFLOW = 0.5663  # of a ten-inch wheel, 1,200 cfm [m³/s]; common practice, no source
