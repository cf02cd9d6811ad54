"""What a repair asks for before it can begin: its place, and the system on or off."""

from simulator.calls.visit import Visit
from simulator.instruments.steps import STEPS, Step

WALK = 2.0  # between two places, in minutes
# Adding refrigerant needs a running compressor; taking it out can be done either way.
NEEDS_RUNNING = frozenset({"add_refrigerant"})
EITHER_WAY = frozenset({"recover_refrigerant"})
PLACES_OF_REPAIRS = {
    "add_refrigerant": "outdoor_unit",
    "clean_indoor_coil": "air_handler",
    "clean_outdoor_coil": "outdoor_unit",
    "clear_drain": "air_handler",
    "close_bypass": "air_handler",
    "correct_staging": "air_handler",
    "fit_slot_cover": "air_handler",
    "insulate_ducts": "zone",
    "open_registers": "registers",
    "open_up_ducts": "zone",
    "reconnect_run": "zone",
    "recover_refrigerant": "outdoor_unit",
    "reduce_load": "customer",
    "renew_defrost_control": "outdoor_unit",
    "renew_leak_detector": "air_handler",
    "renew_terminations": "outdoor_unit",
    "replace_capacitor": "outdoor_unit",
    "replace_check_valve": "outdoor_unit",
    "replace_compressor": "outdoor_unit",
    "replace_drier": "outdoor_unit",
    "replace_fan_motor": "outdoor_unit",
    "replace_filter": "air_handler",
    "replace_metering_device": "air_handler",
    "replace_outdoor_metering_device": "outdoor_unit",
    "replace_reversing_valve": "outdoor_unit",
    "replace_sequencer": "air_handler",
    "replace_strip_element": "air_handler",
    "replace_suction_line": "outdoor_unit",
    "replace_zone_actuator": "zone",
    "restore_supply_voltage": "electrical_panel",
    "seal_return": "air_handler",
    "seal_supply": "zone",
    "service_blower": "air_handler",
    "set_thermostat": "thermostat",
    "shorten_line_set": "outdoor_unit",
    "strap_bulb": "air_handler",
    "thaw_indoor_coil": "air_handler",
    "weigh_in_charge": "outdoor_unit",
}
# Hands go to terminals, capacitors or strips: which lock-out these ask for first.
LOCKED_OUT = {
    "clean_indoor_coil": "lock_out_air_handler",
    "clean_outdoor_coil": "isolate_unit",
    "correct_staging": "lock_out_air_handler",
    "renew_defrost_control": "isolate_unit",
    "renew_terminations": "isolate_unit",
    "replace_capacitor": "isolate_unit",
    "replace_compressor": "isolate_unit",
    "replace_fan_motor": "isolate_unit",
    "replace_reversing_valve": "isolate_unit",
    "replace_sequencer": "lock_out_air_handler",
    "replace_strip_element": "lock_out_air_handler",
    "replace_zone_actuator": "lock_out_air_handler",
    "service_blower": "lock_out_air_handler",
    "shorten_line_set": "isolate_unit",
}

# Looks for which hands go among wires and terminals; common practice, no source.
LOOKS_LOCKED_OUT = {
    "look_wires": "isolate_unit",
    "look_defrost_pins": "isolate_unit",
    "look_control_wires": "lock_out_air_handler",
}


def lock_out_of(visit: Visit, act: str) -> Step | None:
    """The lock-out an act still asks for; the technician may go on without it, and is graded.

    Parameters
    ----------
    visit : Visit
        As it stands.
    act : str
        Code of the repair, or of the look.

    Returns
    -------
    Step or None
        None where it is on, or none is needed.
    """
    step = LOCKED_OUT.get(act) or LOOKS_LOCKED_OUT.get(act)
    return None if step is None or step in visit.prepared else STEPS[step]


def walk_to(visit: Visit, repair: str) -> float:
    """The way to where a repair is done.

    Parameters
    ----------
    visit : Visit
        As it stands.
    repair : str
        Its code.

    Returns
    -------
    float
        In minutes; none for one who stands there.
    """
    return 0.0 if PLACES_OF_REPAIRS.get(repair, visit.place) == visit.place else WALK


def power_needed(repair: str) -> str:
    """How the system must stand.

    Parameters
    ----------
    repair : str
        Its code.

    Returns
    -------
    str
        For people.
    """
    if repair in NEEDS_RUNNING:
        return "system running"
    if repair in EITHER_WAY:
        return "system on or off"
    return "system off, power locked out" if repair in LOCKED_OUT else "system off"


def hindrance(visit: Visit, repair: str) -> str | None:
    """What must be done before a repair can begin.

    Parameters
    ----------
    visit : Visit
        As it stands.
    repair : str
        Its code.

    Returns
    -------
    str or None
        One sentence.
    """
    if repair in NEEDS_RUNNING and not visit.is_running:
        return "Start the system first: this is done on a running unit."
    if repair not in NEEDS_RUNNING | EITHER_WAY and visit.is_running:
        return "Stop the system first: this is done with the system off."
    return None
