"""Installations by name: equipment file, site file, metering device, rating point."""

from dataclasses import replace
from functools import lru_cache
from typing import Any

from simulator.components.blower import Blower
from simulator.components.compressor import Compressor
from simulator.components.electric_strips import ElectricStrips
from simulator.components.indoor_coil import IndoorCoil
from simulator.components.metering_device import MeteringDevice
from simulator.components.outdoor_coil import OutdoorCoil
from simulator.components.refrigerant_lines import RefrigerantLines
from simulator.components.reversing_valve import ReversingValve
from simulator.components.supply_circuit import SupplyCircuit
from simulator.plant import parameter_file, sizing
from simulator.plant.controls import Controls
from simulator.plant.installation import Ducts, House, Installation, Unit, Zone
from simulator.plant.parameter_file import ParameterFileError, Table

METERING = ("txv", "orifice")
CLOSED_DAMPER = 0.04  # a closed damper still leaks a little; common practice, no source
MOTORS = ("constant_torque", "psc")


@lru_cache
def load_installation(
    unit: str = "quail_36",
    metering: str = "txv",
    house: str = "reference",
    motor: str = "constant_torque",
    zone: str | None = None,
) -> Installation:
    """A healthy installation, sized at its rating point.

    Parameters
    ----------
    unit : str
        Equipment file.
    metering : str
        ``txv`` or ``orifice``.
    house : str
        Site file.
    motor : str
        ``constant_torque`` or ``psc``.
    zone : str, optional
        Around all ducts, instead of what the site file says.

    Returns
    -------
    Installation
        Floats.

    Raises
    ------
    ParameterFileError
        For a name or a file that cannot be used.
    """
    if metering not in METERING:
        raise ParameterFileError(f"metering must be txv or orifice, not {metering}.")
    if motor not in MOTORS:
        raise ParameterFileError(f"motor must be constant_torque or psc, not {motor}.")
    reference = _site(parameter_file.read("sites", "reference"))
    sized = _sized_unit(unit, motor, reference)
    site = _site(parameter_file.read("sites", house), zone)
    return sizing.fitted(replace(site, unit=sized), is_thermostatic=metering == "txv")


@lru_cache
def _sized_unit(unit: str, motor: str, reference: Installation) -> Unit:
    file = parameter_file.read("equipment", unit)
    rating = sizing.Rating(
        **file.table("rating").numbers(
            outdoor_temperature="K",
            indoor_temperature="K",
            indoor_wet_bulb="K",
            external_static="Pa",
            superheat="delta K",
            subcooling="delta K",
            heating_outdoor_temperature="K",
            heating_outdoor_wet_bulb="K",
            heating_indoor_temperature="K",
            heating_superheat="delta K",
            heating_subcooling="delta K",
        )
    )
    return sizing.sized(replace(reference, unit=_unsized_unit(file, motor)), rating).unit


def _unsized_unit(file: Table, motor: str) -> Unit:
    plate = file.table("plate")
    numbers = plate.numbers(
        nominal_capacity="W", rated_airflow="m³/s", high_cut_out="Pa", low_cut_out="Pa"
    )
    return Unit(
        name=str(plate.rows["name"]),
        refrigerant=str(plate.rows["refrigerant"]),
        plate_refrigerant=str(plate.rows["refrigerant"]),
        rated_flow=plate.number("expected_flow", "kg/s"),
        compressor=_compressor(file.table("compressor")),
        outdoor_coil=_outdoor_coil(file.table("outdoor_coil")),
        indoor_coil=_indoor_coil(file.table("indoor_coil"), numbers["rated_airflow"]),
        metering=_metering(
            file.table("metering"), file.table("rating").number("superheat", "delta K")
        ),
        heating_metering=_metering(
            file.table("metering"), file.table("rating").number("heating_superheat", "delta K")
        ),
        reversing_valve=ReversingValve(leak_fraction=0.0, is_stuck=0.0),
        supply_circuit=SupplyCircuit(sag=0.0, contact_resistance=0.0),
        float_switch_open=0.0,
        leak_detector_open=0.0,
        lines=_lines(file.table("lines")),
        blower=_blower(file.table("blower").table(motor), motor),
        strips=ElectricStrips(
            energised_power=0.0,
            working_share=1.0,
            **file.table("strips").numbers(installed_power="W", plate_voltage="V"),
        ),
        charge=3.0,
        plate_charge=3.0,
        foreign_gas=0.0,
        rated_pressure_difference=1.7e6,
        **numbers,
    )


def _compressor(table: Table) -> Compressor:
    return Compressor(
        leak_fraction=0.0,
        capacitor_share=1.0,
        is_open=0.0,
        **table.numbers(
            displacement="m³/s",
            volumetric_efficiency="-",
            volumetric_slope="-",
            best_efficiency="-",
            best_pressure_ratio="-",
            efficiency_curvature="-",
            shell_loss_fraction="-",
            power_factor="-",
        ),
    )


def _outdoor_coil(table: Table) -> OutdoorCoil:
    return OutdoorCoil(
        blocked_fraction=0.0,
        fan_fraction=1.0,
        frost=0.0,
        **table.numbers(
            air_conductance="W/K",
            two_phase_conductance="W/K",
            boiling_conductance="W/K",
            frost_capacity="kg",
            vapour_conductance="W/K",
            liquid_conductance="W/K",
            airflow="m³/s",
            fan_power="W",
            fan_power_factor="-",
            tube_volume="m³",
            pressure_drop="Pa",
            air_film_penalty="-",
        ),
    )


def _indoor_coil(table: Table, rated_airflow: float) -> IndoorCoil:
    return IndoorCoil(
        rated_airflow=rated_airflow,
        ice=0.0,
        **table.numbers(
            air_conductance="W/K",
            two_phase_conductance="W/K",
            vapour_conductance="W/K",
            tube_volume="m³",
            wet_pressure_drop="Pa",
            dry_share="-",
            dry_conductance="W/K",
            condensing_conductance="W/K",
            liquid_conductance="W/K",
            condensing_drop="Pa",
        ),
    )


def _metering(table: Table, rated_superheat: float) -> MeteringDevice:
    return MeteringDevice(
        rated_superheat=rated_superheat,
        is_thermostatic=1.0,
        open_area=1e-6,
        bulb_offset=0.0,
        bypass_area=0.0,
        **table.numbers(
            spring_superheat="delta K",
            stroke_superheat="delta K",
            least_opening="-",
            flash_weight="-",
            flash_resistance="-",
        ),
    )


def _lines(table: Table) -> RefrigerantLines:
    return RefrigerantLines(
        restriction=0.0,
        suction_restriction=0.0,
        lift=0.0,
        compensator_volume=0.0,
        **table.numbers(
            suction_volume="m³",
            suction_pressure_drop="Pa",
            suction_conductance="W/K",
            liquid_volume="m³",
            liquid_pressure_drop="Pa",
            discharge_volume="m³",
            shell_volume="m³",
            oil_mass="kg",
            oil_solubility="1/Pa",
        ),
    )


def _blower(table: Table, motor: str) -> Blower:
    induction = motor == "psc"
    return Blower(
        set_torque=0.0 if induction else 2.0,
        slip_torque=0.1 if induction else 0.0,
        synchronous_speed=table.number("synchronous_speed", "rad/s") if induction else 0.0,
        torque_fraction=1.0,
        **table.numbers(
            wheel_diameter="m", motor_efficiency="-", standby_power="W", power_factor="-"
        ),
    )


def _site(file: Table, zone: str | None = None) -> Installation:
    """A site file; its unit is put in by the caller."""
    site, zones = file.table("site"), file.table("zones")
    supply, back = (zone or str(site.rows[side]) for side in ("supply_zone", "return_zone"))
    unsized: Any = None
    return Installation(
        unit=unsized,
        ducts=_ducts(file.table("ducts")),
        supply_zone=_zone(zones.table(supply), supply),
        return_zone=_zone(zones.table(back), back),
        zones_shared=float(supply == back),
        controls=Controls(),
        house=House(
            **file.table("house").numbers(
                conductance="W/K",
                sun_area="m²",
                internal_gain="W",
                moisture_gain="kg/s",
                natural_infiltration="m³/s",
                leakage_coefficient="m³/s/Pa^0.65",
                heat_capacity="J/K",
                volume="m³",
                moisture_buffer="-",
                electricity_price="$/J",
            )
        ),
    )


def _ducts(table: Table) -> Ducts:
    numbers = table.numbers(
        return_drop="Pa",
        clean_filter_drop="Pa",
        supply_drop="Pa",
        return_leak="-",
        supply_leak="-",
        return_conductance="W/K",
        supply_conductance="W/K",
    )
    shares, runs = table.rows["room_shares"], table.rows["room_runs"]
    if abs(sum(shares) - 1.0) > 1e-9 or len(shares) != len(runs):
        raise ParameterFileError(
            f"{table.name}: room_shares must add up to 1 and pair with room_runs."
        )
    return Ducts(
        filter_loading=1.0,
        slot_area=0.0,
        built_return_leak=numbers["return_leak"],
        built_supply_leak=numbers["supply_leak"],
        room_shares=tuple(float(share) for share in shares),
        room_runs=tuple(float(run) for run in runs),
        damper_openings=tuple(1.0 for _ in runs),
        room_zones=tuple(float(zone) for zone in table.rows.get("room_zones", [1] * len(runs))),
        zone_dampers=((1.0, CLOSED_DAMPER), (1.0, CLOSED_DAMPER)),
        bypass_share=0.0,
        zoned_bypass_share=float(table.rows.get("zoned_bypass_share", 0.0)),
        **numbers,
    )


def _zone(table: Table, kind: str) -> Zone:
    return Zone(
        kind=kind,
        **table.numbers(
            shell_conductance="W/K",
            sun_share="K m²/W",
            ground_conductance="W/K",
            ground_temperature="K",
            house_conductance="W/K",
            vent_airflow="m³/s",
            moisture_gain="kg/s",
        ),
    )
