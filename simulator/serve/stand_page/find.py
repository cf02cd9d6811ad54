"""What a technician calls a fault, or what it does: words by which the stand's list finds it.

What a fault does to a reading is its own evidence; everyday words are common practice, no source.
"""

from functools import lru_cache

from simulator.faults._base import FaultKind
from simulator.faults._catalogue import discover

# By what it does: the phrase, and the measurements with the signs that it stands for.
DOES: dict[str, tuple[tuple[str, str], ...]] = {
    "low airflow, low air flow, too little air": (
        ("coil_airflow", "down"),
        ("static_before_filter", "down"),
    ),
    "too much airflow": (("coil_airflow", "up"),),
    "weak air at the registers": (("register_sum", "down"), ("coil_airflow", "down")),
    "high static pressure": (("static_supply", "up"), ("static_after_filter", "down")),
    "low suction pressure": (("suction_pressure", "down"),),
    "high suction pressure": (("suction_pressure", "up"),),
    "high head pressure": (("liquid_pressure", "up"), ("outdoor_leaving_temperature", "moved")),
    "low head pressure": (("liquid_pressure", "down"),),
    "high superheat, starved coil": (("suction_line_temperature", "up"),),
    "low superheat, floodback": (("suction_line_temperature", "down"),),
    "high amps": (("outdoor_current", "up"), ("compressor_current", "up")),
    "house under negative pressure": (("house_pressure", "down"),),
}
# By what it is called, or what the customer says.
CALLED: dict[str, tuple[str, ...]] = {
    "undercharge, undercharged, short of gas, low on gas, low charge, leak": ("undercharge",),
    "overcharge, overcharged, too much gas": ("overcharge",),
    "air in the system, noncondensables, non-condensable gas": ("non_condensables",),
    "wrong gas, mixed refrigerant": ("wrong_refrigerant",),
    "refrigerant restriction, kinked line, plugged filter drier": (
        *("liquid_line_restriction", "suction_restriction"),
    ),
    "dirty air filter, clogged filter, plugged filter": ("loaded_filter",),
    "duct restriction, crushed flex duct, undersized duct": (
        *("restricted_return_duct", "restricted_supply_duct"),
    ),
    "closed vents, shut vents": ("closed_registers",),
    "condenser coil dirty, plugged, fouled": ("dirty_outdoor_coil",),
    "condenser fan motor": ("slow_outdoor_fan",),
    "evaporator coil dirty, plugged, fouled": ("dirty_indoor_coil",),
    "frosted evaporator, frozen evaporator": ("iced_indoor_coil",),
    "frost, defrost board, frozen outdoor unit": ("no_defrost", "frequent_defrost"),
    "blower motor, blower capacitor, dirty wheel": ("weak_blower",),
    "compressor valves worn, inefficient compressor": ("leaking_compressor",),
    "dead compressor, burnt compressor, locked out": ("open_compressor", "grounded_compressor"),
    "single phase, lost phase, burnt wire": ("lost_leg",),
    "breaker trips, shorted winding, burnout": ("grounded_compressor",),
    "four-way valve": ("stuck_reversing_valve", "leaking_reversing_valve"),
    "TXV, TEV, metering device": ("overfeeding_valve", "starving_valve", "starved_outdoor_coil"),
    "fixed orifice, piston, metering device": (
        *("oversized_orifice", "undersized_orifice", "starved_outdoor_coil"),
    ),
    "thermostat calibration, sensor off": ("thermostat_offset", "cold_thermostat"),
    "heat strips, auxiliary heat": ("strips_on", "misplaced_staging", "open_strip_element"),
    "sequencer stuck": ("strips_on",),
    "freezing up, frozen coil, ice": (
        *("iced_indoor_coil", "loaded_filter", "weak_blower", "dirty_indoor_coil"),
        *("undercharge", "no_defrost"),
    ),
    "high bill": (
        *("strips_on", "misplaced_staging", "frequent_defrost", "supply_leak", "return_leak"),
        *("heavy_load", "missing_duct_insulation", "undercharge", "dirty_outdoor_coil"),
    ),
    "runs all the time": ("heavy_load", "thermostat_offset", "supply_leak", "undercharge"),
    "undersized unit, too small": ("heavy_load",),
    "no cooling, does not start": (
        *("open_compressor", "grounded_compressor", "lost_leg"),
        *("blocked_drain", "tripped_leak_detector"),
        *("weak_run_capacitor", "stuck_reversing_valve"),
    ),
    "humid, sticky rooms": ("fan_always_on", "return_leak", "fast_blower", "oversized_orifice"),
    "duct leak": ("supply_leak", "return_leak", "disconnected_run", "open_filter_slot"),
    "leak sensor": ("tripped_leak_detector",),
    "voltage drop": ("low_voltage", "loose_lug"),
    "zoning, bypass damper": ("stuck_zone_damper", "open_bypass"),
}


@lru_cache
def words_for(name: str) -> tuple[str, ...]:
    """Phrases that find a fault, beside its title and family.

    Parameters
    ----------
    name : str
        Of the fault.

    Returns
    -------
    tuple of str
    """
    kind = discover()[name]
    does = (phrase for phrase, signs in DOES.items() if _shows(kind, signs))
    called = (phrase for phrase, names in CALLED.items() if name in names)
    return (*does, *called)


def _shows(kind: FaultKind, signs: tuple[tuple[str, str], ...]) -> bool:
    return any(kind.evidence.get(measured, ("", 0.0))[0] == sign for measured, sign in signs)
