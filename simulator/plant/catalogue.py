"""Installations by name: equipment file, site file, metering device, rating point."""

from dataclasses import replace
from functools import lru_cache

from simulator.components.blower import Blower
from simulator.components.compressor import SOUND_INSULATION, Compressor
from simulator.components.electric_strips import ElectricStrips
from simulator.components.indoor_coil import IndoorCoil
from simulator.components.metering_device import MeteringDevice
from simulator.components.outdoor_coil import OutdoorCoil
from simulator.components.refrigerant_lines import RefrigerantLines
from simulator.components.reversing_valve import ReversingValve
from simulator.components.supply_circuit import SupplyCircuit
from simulator.plant import data_sheet, parameter_file, published_unit, sizing, unit_fit
from simulator.plant.installation import Installation, Unit
from simulator.plant.motors import DESCRIBED, need_motor
from simulator.plant.parameter_file import ParameterFileError, Table
from simulator.plant.site_file import site
from simulator.plant.unit_fit import Fit
from simulator.properties.refrigerant import known

METERING = ("txv", "orifice")
REFERENCE = "quail_36"  # what a published unit is scaled from


@lru_cache
def load_installation(
    unit: str = REFERENCE,
    metering: str | None = None,
    house: str = "reference",
    motor: str | None = None,
    zone: str | None = None,
) -> Installation:
    """A healthy installation, sized at its rating point.

    Parameters
    ----------
    unit : str
        Equipment file shipped, or the path of one's own; read once.
    metering : str, optional
        ``txv`` or ``orifice`` in both modes; else what the unit has.
    house : str
        Site file shipped, or the path of one's own.
    motor : str, optional
        ``constant_torque``, ``psc`` or ``constant_airflow``; else what the unit has.
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
    if metering is not None and metering not in METERING:
        raise ParameterFileError(f"metering must be txv or orifice, not {metering}.")
    if motor is not None and motor not in data_sheet.MOTORS:
        raise ParameterFileError(
            f"motor must be {', '.join(DESCRIBED)} or constant_airflow, not {motor}."
        )
    built = site(parameter_file.read("sites", house), zone)
    sized, devices = _sized_unit(unit, motor)
    cooling, heating = (metering or own for own in devices)
    return sizing.fitted(
        replace(built, unit=sized),
        is_thermostatic=cooling == "txv",
        heating_thermostatic=heating == "txv",
    )


@lru_cache
def fit_of(unit: str) -> Fit:
    """How a published unit was fitted to its rated points.

    Parameters
    ----------
    unit : str
        Equipment file shipped, or the path of one's own.

    Returns
    -------
    Fit
        With the sized unit.

    Raises
    ------
    ParameterFileError
        For a file that cannot be used, or is not of the published kind.
    """
    file = parameter_file.read("equipment", unit)
    published_unit.need_whole(file)
    quail = parameter_file.read("equipment", REFERENCE)
    return unit_fit.fit(
        published_unit.published(file),
        _unsized_unit(quail, DESCRIBED[0]),
        site(parameter_file.read("sites", "reference")),
    )


@lru_cache
def _sized_unit(unit: str, motor: str | None) -> tuple[Unit, tuple[str, str]]:
    """A unit sized at its rating point, and the metering device it has in each mode."""
    file = parameter_file.read("equipment", unit)
    if file.rows.get("kind") == published_unit.KIND:
        made = fit_of(unit)
        own = made.published.motor
        need_motor(motor or own, (own,), made.published.name)
        return made.unit, made.published.metering
    need_motor(motor or DESCRIBED[0], DESCRIBED, file.table("plate").word("name"))
    reference = site(parameter_file.read("sites", "reference"))
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
    file.need_no_negative()
    unsized = _unsized_unit(file, motor or DESCRIBED[0])
    try:
        return sizing.sized(replace(reference, unit=unsized), rating).unit, ("txv", "txv")
    except (sizing.SizingError, ArithmeticError, ValueError) as problem:
        raise ParameterFileError(f"{file.name}: {problem}") from problem


def _unsized_unit(file: Table, motor: str) -> Unit:
    plate = file.table("plate")
    numbers = plate.numbers(
        nominal_capacity="W", rated_airflow="m³/s", high_cut_out="Pa", low_cut_out="Pa"
    )
    return Unit(
        name=plate.word("name"),
        refrigerant=_known_refrigerant(plate),
        plate_refrigerant=_known_refrigerant(plate),
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
        supply_circuit=SupplyCircuit(sag=0.0, contact_resistance=0.0, lost_leg=0.0),
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


def _known_refrigerant(plate: Table) -> str:
    name = plate.word("refrigerant")
    if name not in known():
        raise ParameterFileError(
            f"{plate.name}: there is no refrigerant {name}; there are: "
            f"{', '.join(sorted(known()))}."
        )
    return name


def _compressor(table: Table) -> Compressor:
    return Compressor(
        leak_fraction=0.0,
        capacitor_share=1.0,
        is_open=0.0,
        winding_insulation=SOUND_INSULATION,
        **table.numbers(
            displacement="m³/s",
            volumetric_efficiency="-",
            volumetric_slope="-",
            best_efficiency="-",
            best_pressure_ratio="-",
            efficiency_curvature="-",
            shell_conductance="W/K",
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
        clear_share=1.0,
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
            accumulator_volume="m³",
            accumulator_return="kg/s",
            oil_mass="kg",
            oil_solubility="1/Pa",
        ),
    )


def _blower(table: Table, motor: str) -> Blower:
    induction = motor == "psc"
    return Blower(
        set_airflow=0.0,
        set_torque=0.0 if induction else 2.0,
        slip_torque=0.1 if induction else 0.0,
        synchronous_speed=table.number("synchronous_speed", "rad/s") if induction else 0.0,
        torque_fraction=1.0,
        **table.numbers(
            wheel_diameter="m", motor_efficiency="-", standby_power="W", power_factor="-"
        ),
    )
