"""Delivery effectiveness by the plant's own ducts and zones, the coil's duty given.

ANSI/ASHRAE 152 holds the equipment's output and the air around the ducts, so the circuit is
left out here: everything else is what the plant runs.
"""

from dataclasses import dataclass, replace

from simulator.plant import air_states, case
from simulator.plant.air_report import air_fields
from simulator.plant.case import Case
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation, Zone
from simulator.plant.zone_balance import ZoneAir
from simulator.properties import moist_air

# 540 ft² and 100 ft² at R-6 (h ft² °F/Btu) in W/K: what P13 and P14 give.
SUPPLY_WALL, RETURN_WALL = (area / 6.0 * 0.527527 for area in (540.0, 100.0))
ROW_AIRFLOW = 1200.0 / 2118.88  # m³/s of 1,200 cfm, what P13 and P14 give
THOUSAND_BTU = 293.0711  # W of 1,000 Btu/h
ENDLESS_AIR = 1.0e5  # holds a zone at the outdoor state whatever the ducts do [m³/s]


@dataclass(frozen=True, slots=True, kw_only=True)
class Duty:
    """Rooms, air around the ducts, heat taken from the air in Btu/h, plenum in K, leaks."""

    room: ZoneAir
    zone: ZoneAir
    heat: float
    leaving: float | None
    leaks: float


def delivery_effectiveness(built: Installation, duty: Duty) -> float:
    """What reaches the rooms over what the equipment gives, blower heat included in both.

    Heat and walls are those of the row for each of its cfm, so that a unit of another size is
    asked the same question at the airflow its blower gives in these ducts.
    """
    ducts = replace(
        built.ducts,
        supply_leak=duty.leaks,
        return_leak=duty.leaks,
        room_runs=tuple(1.0 for _ in built.ducts.room_runs),
    )
    zone = _held(built.supply_zone)
    built = replace(built, ducts=ducts, supply_zone=zone, return_zone=zone, zones_shared=1.0)
    around = Conditions(
        outdoor_temperature=duty.zone.temperature,
        outdoor_humidity_ratio=duty.zone.humidity_ratio,
        indoor_temperature=duty.room.temperature,
        indoor_humidity_ratio=duty.room.humidity_ratio,
        solar=0.0,
        mode="heating" if duty.heat < 0.0 else "cooling",
    )
    held = case.prepared(built, around)
    size = float(held.path.airflow) / ROW_AIRFLOW
    walls = replace(
        held.installation.ducts,
        supply_conductance=size * SUPPLY_WALL,
        return_conductance=size * RETURN_WALL,
    )
    held = case.prepared(replace(held.installation, ducts=walls), around)
    output = size * duty.heat / 1000.0 * THOUSAND_BTU
    entering = ZoneAir(duty.room.temperature, duty.room.humidity_ratio)
    for _ in range(60):
        states = _worked(held, entering, output, duty.leaving)
        entering = air_states.entering_coil(held, states.return_zone, states.plenum)
    return float(air_fields(held, states)["delivered_capacity"]) / abs(output)


def _worked(
    held: Case, entering: ZoneAir, output: float, leaving: float | None
) -> air_states.AirStates:
    """Coil and plenum for an output that counts the blower's heat."""
    air = air_states.coil_air(held, entering.temperature, entering.humidity_ratio)
    blower = held.path.blower_power
    heat = output + blower
    sensible = heat
    if leaving is not None:
        capacity = air.mass_flow * moist_air.heat_capacity(entering.humidity_ratio)
        sensible = capacity * (entering.temperature - leaving) + blower
    return air_states.air_states(held, air, heat, sensible)


def _held(zone: Zone) -> Zone:
    return replace(
        zone,
        shell_conductance=0.0,
        ground_conductance=0.0,
        house_conductance=0.0,
        vent_airflow=ENDLESS_AIR,
        moisture_gain=0.0,
    )
