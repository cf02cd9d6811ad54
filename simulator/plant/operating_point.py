"""What the installation is doing: every quantity an instrument could reach."""

from dataclasses import dataclass

from simulator.quantities.values import Values


@dataclass(frozen=True, slots=True, kw_only=True)
class OperatingPoint:
    """One settled state of the installation; floats, or arrays of shape (n,) in a batch.

    Parameters
    ----------
    state : str
        ``running``, ``off``, ``high_pressure_trip``, ``low_pressure_trip``,
        ``overload_trip``, ``compressor_off`` or ``no_solution``; in a batch an array of such words.
    mode : str
        What the circuit does while it runs: ``cooling`` or ``heating``.
    suction_pressure : float
        Absolute, at the suction service port; while heating at the true suction port. [Pa]
    liquid_pressure : float
        Absolute, at the liquid service port, air included. [Pa]
    vapour_port_pressure : float
        Absolute, at the service port of the large pipe: suction gas while cooling, hot gas
        while heating. [Pa]
    discharge_pressure : float
        Absolute, at the compressor outlet, air included. [Pa]
    evaporating_temperature : float
        Dew point in the boiling coil. [K]
    boiling_surface_temperature : float
        Of that coil's metal, warmer than what boils in it by the refrigerant's film. [K]
    condensing_temperature : float
        Bubble point of the refrigerant in the condensing coil. [K]
    evaporator_outlet_temperature : float
        Of the pipe where the bulb sits. [K]
    suction_line_temperature : float
        Of the pipe at the suction service port. [K]
    vapour_line_temperature : float
        Of the large pipe at the outdoor unit. [K]
    reversing_valve_rise : float
        By how much the suction gas warms across the reversing valve. [delta K]
    discharge_temperature : float
        Of the discharge pipe. [K]
    liquid_line_temperature : float
        Of the pipe at the liquid service port. [K]
    liquid_after_drier_temperature : float
        Of the liquid pipe just before the metering device. [K]
    superheat : float
        At the suction service port; negative never, zero when liquid is present. [delta K]
    coil_superheat : float
        At the boiling coil's outlet. [delta K]
    subcooling : float
        At the liquid service port, as gauge and pipe give it. [delta K]
    refrigerant_flow : float
        Through the metering device. [kg/s]
    refrigerant_charge : float
        In the circuit now, computed zone by zone. [kg]
    gross_capacity : float
        Heat taken from the air by the indoor coil, or given to it while heating. [W]
    evaporator_heat : float
        Taken up by the boiling coil, whichever it is. [W]
    sensible_capacity : float
        Its sensible part. [W]
    condensate_rate : float
        Water leaving the coil. [kg/s]
    frost_rate : float
        Water settling on the boiling outdoor coil, as frost below freezing. [kg/s]
    heat_rejected : float
        Given off by the condensing coil, whichever it is. [W]
    suction_line_gain : float
        Picked up by the suction pipe. [W]
    vapour_line_loss : float
        Lost by the hot vapour pipe while heating. [W]
    compressor_power : float
        Electrical. [W]
    compressor_shell_loss : float
        Part of the compressor's power that never enters the gas. [W]
    compressor_current : float
        At the terminals. [A]
    compressor_power_factor : float
        Watts over volt-amperes. [-]
    outdoor_fan_power : float
        Electrical. [W]
    outdoor_fan_current : float
        At the terminals. [A]
    outdoor_power : float
        Compressor and outdoor fan. [W]
    outdoor_current : float
        Of the outdoor unit. [A]
    outdoor_airflow : float
        Through the outdoor coil. [m³/s]
    outdoor_leaving_temperature : float
        Of the air above the outdoor fan. [K]
    airflow : float
        Through the indoor coil. [m³/s]
    air_mass_flow : float
        Dry air through the indoor coil. [kg/s]
    filter_airflow : float
        Through the filter. [m³/s]
    static_before_filter : float
        Against the room. [Pa]
    static_after_filter : float
        Against the room; the coil's inlet side. [Pa]
    static_after_coil : float
        Against the room; the blower's inlet side. [Pa]
    static_supply : float
        Against the room, in the supply plenum. [Pa]
    static_return_trunk, static_supply_trunk : float
        Against the room, in the trunks away from the air handler. [Pa]
    total_external_static : float
        Supply plenum less coil inlet. [Pa]
    filter_drop : float
        Across the filter. [Pa]
    coil_drop : float
        Across the coil. [Pa]
    blower_speed : float
        Of the wheel. [rad/s]
    blower_power : float
        Electrical. [W]
    blower_current : float
        At the terminals. [A]
    strip_power : float
        Of the electric strips. [W]
    strip_duty : float
        Part of the time that their limit leaves them on; 1 where it stays closed. [-]
    strip_current : float
        At the terminals. [A]
    air_handler_power : float
        Blower and strips. [W]
    air_handler_current : float
        Blower and strips. [A]
    grille_temperature : float
        At the return grille. [K]
    grille_humidity_ratio : float
        At the return grille. [kg/kg]
    air_handler_return_temperature : float
        Entering the coil. [K]
    air_handler_return_humidity_ratio : float
        Entering the coil. [kg/kg]
    coil_leaving_temperature : float
        Leaving the coil. [K]
    coil_leaving_humidity_ratio : float
        Leaving the coil. [kg/kg]
    supply_plenum_temperature : float
        After blower and strips. [K]
    supply_plenum_humidity_ratio : float
        After blower and strips. [kg/kg]
    near_register_temperature : float
        At the nearest register. [K]
    far_register_temperature : float
        At the farthest register. [K]
    zone_temperature : float
        Of the space the supply ducts run through. [K]
    zone_humidity_ratio : float
        Of the space the supply ducts run through. [kg/kg]
    return_zone_temperature : float
        Of the space the return runs through. [K]
    return_zone_humidity_ratio : float
        Of the space the return runs through. [kg/kg]
    outdoor_temperature : float
        In the shade. [K]
    outdoor_humidity_ratio : float
        Outdoors. [kg/kg]
    register_airflow : float
        Sum over all registers. [m³/s]
    supply_leak_airflow : float
        Lost to the supply zone. [m³/s]
    return_leak_airflow : float
        Drawn from the return zone, filter slot included. [m³/s]
    slot_airflow : float
        Drawn through the open filter slot. [m³/s]
    delivered_capacity : float
        Total cooling, or heating, that reaches the rooms. [W]
    delivered_sensible : float
        Its sensible part. [W]
    house_pressure : float
        Of the rooms against outdoors, blower on. [Pa]
    infiltration_airflow : float
        Outdoor air entering the rooms while running. [m³/s]
    voltage : float
        At the equipment's disconnects, under load. [V]
    compressor_voltage : float
        Behind the contactor, under load. [V]
    contact_loss : float
        Heat given off by the outdoor unit's contacts and lugs. [W]
    pressure : float
        Barometric. [Pa]
    register_airflows : tuple
        Of each room, in the order of the house. [m³/s]
    """

    state: str
    mode: str
    # Refrigerant side
    suction_pressure: Values
    liquid_pressure: Values
    vapour_port_pressure: Values
    discharge_pressure: Values
    evaporating_temperature: Values
    boiling_surface_temperature: Values
    condensing_temperature: Values
    evaporator_outlet_temperature: Values
    suction_line_temperature: Values
    vapour_line_temperature: Values
    reversing_valve_rise: Values
    discharge_temperature: Values
    liquid_line_temperature: Values
    liquid_after_drier_temperature: Values
    superheat: Values
    coil_superheat: Values
    subcooling: Values
    refrigerant_flow: Values
    refrigerant_charge: Values
    gross_capacity: Values
    evaporator_heat: Values
    sensible_capacity: Values
    condensate_rate: Values
    frost_rate: Values
    heat_rejected: Values
    suction_line_gain: Values
    vapour_line_loss: Values
    compressor_power: Values
    compressor_shell_loss: Values
    compressor_current: Values
    compressor_power_factor: Values
    outdoor_fan_power: Values
    outdoor_fan_current: Values
    outdoor_power: Values
    outdoor_current: Values
    outdoor_airflow: Values
    outdoor_leaving_temperature: Values
    # Indoor air
    airflow: Values
    air_mass_flow: Values
    filter_airflow: Values
    static_before_filter: Values
    static_after_filter: Values
    static_after_coil: Values
    static_supply: Values
    static_return_trunk: Values
    static_supply_trunk: Values
    total_external_static: Values
    filter_drop: Values
    coil_drop: Values
    blower_speed: Values
    blower_power: Values
    blower_current: Values
    strip_power: Values
    strip_duty: Values
    strip_current: Values
    air_handler_power: Values
    air_handler_current: Values
    grille_temperature: Values
    grille_humidity_ratio: Values
    air_handler_return_temperature: Values
    air_handler_return_humidity_ratio: Values
    coil_leaving_temperature: Values
    coil_leaving_humidity_ratio: Values
    supply_plenum_temperature: Values
    supply_plenum_humidity_ratio: Values
    near_register_temperature: Values
    far_register_temperature: Values
    zone_temperature: Values
    zone_humidity_ratio: Values
    return_zone_temperature: Values
    return_zone_humidity_ratio: Values
    outdoor_temperature: Values
    outdoor_humidity_ratio: Values
    register_airflow: Values
    supply_leak_airflow: Values
    return_leak_airflow: Values
    slot_airflow: Values
    delivered_capacity: Values
    delivered_sensible: Values
    house_pressure: Values
    infiltration_airflow: Values
    voltage: Values
    compressor_voltage: Values
    contact_loss: Values
    pressure: Values
    register_airflows: tuple[Values, ...]
