"""Thermostat, staging of the strips, and the defrost board, as they are set."""

from dataclasses import dataclass

from simulator.quantities.values import Values


@dataclass(frozen=True, slots=True, kw_only=True)
class Controls:
    """How the equipment is told to run.

    Parameters
    ----------
    thermostat_offset : float
        By how much the thermostat reads warmer than the rooms are. [delta K]
    fan_always_on : float
        1 where the blower runs between calls too. [-]
    auxiliary_lockout : float
        Outdoor temperature above which strips are held off. [K]
    auxiliary_droop : float
        How far the rooms fall below the setpoint before strips join. [delta K]
    strips_with_every_call : float
        1 where a jumper brings strips on with every call for heat; less where it reaches some
        of their banks only. It starts at a terminal that is dead while cooling. [-]
    emergency_heat : float
        1 where the thermostat leaves the compressor out while heating. [-]
    defrost_enabled : float
        1 where the board and its sensor can start a defrost. [-]
    defrost_interval : float
        Running time below freezing coil between two defrosts. [s]
    defrost_demand : float
        How much colder than clean the coil must run before a defrost; 0 where a timer alone
        starts it. [delta K]
    defrost_end_temperature : float
        Of the coil that ends a defrost. [K]
    defrost_limit : float
        Longest defrost. [s]
    """

    thermostat_offset: Values = 0.0
    fan_always_on: Values = 0.0
    auxiliary_lockout: Values = 277.6  # 40 °F
    auxiliary_droop: Values = 1.1
    strips_with_every_call: Values = 0.0
    emergency_heat: Values = 0.0
    defrost_enabled: Values = 1.0
    defrost_interval: Values = 3600.0  # pins for 30, 60 and 90 minutes are common practice
    defrost_demand: Values = 0.0
    defrost_end_temperature: Values = 288.7  # 60 °F
    defrost_limit: Values = 600.0
