"""One house's equipment, ducts, zones and rooms, as parameters."""

from dataclasses import dataclass

from simulator.components.blower import Blower
from simulator.components.compressor import Compressor
from simulator.components.electric_strips import ElectricStrips
from simulator.components.indoor_coil import IndoorCoil
from simulator.components.metering_device import MeteringDevice
from simulator.components.outdoor_coil import OutdoorCoil
from simulator.components.refrigerant_lines import RefrigerantLines
from simulator.components.reversing_valve import ReversingValve
from simulator.components.supply_circuit import SupplyCircuit
from simulator.plant.controls import Controls
from simulator.quantities.values import Values


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """The split system: circuit, blower, strips.

    Parameters
    ----------
    name : str
        Of the (invented) model.
    refrigerant : str
        In the circuit.
    plate_refrigerant : str
        As on the plate.
    metering, heating_metering : MeteringDevice
        Before the indoor coil; before the outdoor coil.
    nominal_capacity : float
        [W]
    rated_airflow : float
        Indoor. [m³/s]
    rated_flow : float
        Of refrigerant at the reference point. [kg/s]
    charge : float
        In the circuit now. [kg]
    plate_charge : float
        As on the plate, lines included. [kg]
    rated_pressure_difference : float
        Condenser less evaporator at the rating point. [Pa]
    foreign_gas : float
        Air in the circuit. [mol]
    high_cut_out, low_cut_out : float
        Absolute pressures at which the switches open. [Pa]
    float_switch_open, leak_detector_open : float
        1 while the condensate float or the refrigerant detector holds the compressor off. [-]
    """

    name: str
    refrigerant: str
    plate_refrigerant: str
    nominal_capacity: Values
    rated_airflow: Values
    rated_flow: Values
    compressor: Compressor
    outdoor_coil: OutdoorCoil
    indoor_coil: IndoorCoil
    metering: MeteringDevice
    heating_metering: MeteringDevice
    reversing_valve: ReversingValve
    lines: RefrigerantLines
    blower: Blower
    strips: ElectricStrips
    supply_circuit: SupplyCircuit
    charge: Values
    plate_charge: Values
    rated_pressure_difference: Values
    foreign_gas: Values
    high_cut_out: Values
    low_cut_out: Values
    float_switch_open: Values
    leak_detector_open: Values


@dataclass(frozen=True, slots=True, kw_only=True)
class Ducts:
    """Air path from the return grille to the registers.

    Parameters
    ----------
    return_drop, clean_filter_drop, supply_drop : float
        At rated airflow, tight and clean. [Pa]
    return_grille_drop, supply_branch_drop : float
        What of ``return_drop`` lies before a tap in the return trunk, and of ``supply_drop``
        behind one in the supply trunk, as built, at rated airflow: grille and box there,
        branches, boots and registers here. What is added to a duct sits in its trunk. [Pa]
    filter_loading : float
        Resistance of the filter over that of a clean one. [-]
    slot_area : float
        Open area between filter and coil. [m²]
    return_leak, supply_leak : float
        Part of the fan flow drawn from the return zone, lost to the supply zone. [-]
    built_return_leak, built_supply_leak : float
        What a well-made duct of this house still leaks. [-]
    return_conductance, supply_conductance : float
        Through the duct walls. [W/K]
    room_shares : tuple
        Of the register flow, nearest room first. [-]
    room_runs : tuple
        Length of each run over the mean run. [-]
    damper_openings : tuple
        How far the branch to each room stands open. [-]
    room_zones : tuple
        Which zone each room belongs to: all 1 in a house of one zone, 1 or 2. [-]
    zone_dampers : tuple
        Opening of each zone's damper when its zone calls, and when it does not. [-]
    bypass_share : float
        Part of the fan flow that returns from the supply plenum at once. [-]
    zoned_bypass_share : float
        The same while only one zone calls: a bypass damper that opens by pressure. [-]
    """

    return_drop: Values
    clean_filter_drop: Values
    supply_drop: Values
    return_grille_drop: Values
    supply_branch_drop: Values
    filter_loading: Values
    slot_area: Values
    return_leak: Values
    supply_leak: Values
    built_return_leak: Values
    built_supply_leak: Values
    return_conductance: Values
    supply_conductance: Values
    room_shares: tuple[Values, ...]
    room_runs: tuple[Values, ...]
    damper_openings: tuple[Values, ...]
    room_zones: tuple[Values, ...]
    zone_dampers: tuple[tuple[Values, Values], tuple[Values, Values]]
    bypass_share: Values
    zoned_bypass_share: Values


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """A space outside the rooms that ducts run through.

    Parameters
    ----------
    kind : str
        attic, garage, crawl space or basement.
    shell_conductance : float
        To the sunlit shell. [W/K]
    sun_share : float
        Temperature rise of the shell per unit of sun. [K m²/W]
    ground_conductance : float
        To the ground. [W/K]
    ground_temperature : float
        [K]
    house_conductance : float
        To the rooms. [W/K]
    vent_airflow : float
        Outdoor air passing through. [m³/s]
    moisture_gain : float
        Water given off inside. [kg/s]
    """

    kind: str
    shell_conductance: Values
    sun_share: Values
    ground_conductance: Values
    ground_temperature: Values
    house_conductance: Values
    vent_airflow: Values
    moisture_gain: Values


@dataclass(frozen=True, slots=True, kw_only=True)
class House:
    """The rooms.

    Parameters
    ----------
    conductance : float
        Of the envelope, without air change. [W/K]
    sun_area : float
        Glass area that counts. [m²]
    internal_gain : float
        People and appliances, sensible. [W]
    moisture_gain : float
        People, cooking, bathing. [kg/s]
    natural_infiltration : float
        With the blower off. [m³/s]
    leakage_coefficient : float
        Flow at one pascal. [m³/s/Pa^0.65]
    heat_capacity : float
        Of rooms and contents. [J/K]
    volume : float
        Of air. [m³]
    moisture_buffer : float
        Moisture held by the contents over that of the air. [-]
    electricity_price : float
        [$/J]
    """

    conductance: Values
    sun_area: Values
    internal_gain: Values
    moisture_gain: Values
    natural_infiltration: Values
    leakage_coefficient: Values
    heat_capacity: Values
    volume: Values
    moisture_buffer: Values
    electricity_price: Values


@dataclass(frozen=True, slots=True, kw_only=True)
class Installation:
    """Everything that stands on one site.

    Parameters
    ----------
    unit : Unit
    ducts : Ducts
    supply_zone, return_zone : Zone
        Around the supply ducts; around the return and the air handler.
    zones_shared : float
        1 where both are the same space. [-]
    house : House
    controls : Controls
        As set.
    """

    unit: Unit
    ducts: Ducts
    supply_zone: Zone
    return_zone: Zone
    zones_shared: Values
    house: House
    controls: Controls
