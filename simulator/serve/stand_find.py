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
    "short of gas, low charge, leak": ("undercharge",),
    "too much gas": ("overcharge",),
    "TXV, TEV": ("overfeeding_valve", "starving_valve"),
    "fixed orifice, piston": ("oversized_orifice", "undersized_orifice"),
    "heat strips, auxiliary heat": ("strips_on", "misplaced_staging", "open_strip_element"),
    "freezing up, frozen coil": (
        *("iced_indoor_coil", "loaded_filter", "weak_blower", "dirty_indoor_coil"),
        *("undercharge", "no_defrost"),
    ),
    "high bill": (
        *("strips_on", "misplaced_staging", "frequent_defrost", "supply_leak", "return_leak"),
        *("heavy_load", "missing_duct_insulation", "undercharge", "dirty_outdoor_coil"),
    ),
    "runs all the time": ("heavy_load", "thermostat_offset", "supply_leak", "undercharge"),
    "no cooling, does not start": (
        *("open_compressor", "blocked_drain", "tripped_leak_detector"),
        *("weak_run_capacitor", "stuck_reversing_valve"),
    ),
    "humid, sticky rooms": ("fan_always_on", "return_leak", "fast_blower", "oversized_orifice"),
    "duct leak": ("supply_leak", "return_leak", "disconnected_run", "open_filter_slot"),
    "condenser dirty": ("dirty_outdoor_coil",),
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
