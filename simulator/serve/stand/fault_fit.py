"""Which faults mean something where they are asked for, and which cannot stand together."""

from collections.abc import Mapping

from simulator.faults._catalogue import discover
from simulator.plant.installation import Installation
from simulator.quantities.entered import BadEntry
from simulator.serve.stand.limits import STRIPS

THERMOSTATIC = 0.5  # a share of 1 or 0 [-]
DEVICES = {"txv": "an expansion valve", "orifice": "a fixed orifice"}
# What the parts that it sits in do only while cooling: common practice, no source.
SUMMER_ONLY = ("iced_indoor_coil", "blocked_drain")
# Nothing of this is in a straight air conditioner, whose strips may still heat.
HEAT_PUMP_ONLY = (
    *("leaking_reversing_valve", "stuck_reversing_valve", "stuck_check_valve"),
    *("no_defrost", "frequent_defrost", "starved_outdoor_coil", "misplaced_staging"),
)
# Shows in either mode beside this one, which energises the part that it sits in.
BESIDE = {"open_strip_element": "strips_on"}
# Each of a pair is the opposite of the other in one and the same part.
OPPOSITES = (
    ("undercharge", "overcharge", "a circuit holds too little or too much"),
    ("undersized_orifice", "oversized_orifice", "an orifice is too small or too large"),
    ("starving_valve", "overfeeding_valve", "a valve feeds too little or too much"),
    ("thermostat_offset", "cold_thermostat", "a thermostat reads too warm or too cold"),
    ("no_defrost", "frequent_defrost", "a coil is defrosted never or too often"),
)


def metering_of(installation: Installation, mode: str) -> str:
    """What meters in a mode, faults or none.

    Parameters
    ----------
    installation : Installation
        Floats.
    mode : str
        ``cooling`` or ``heating``.

    Returns
    -------
    str
        ``txv`` or ``orifice``.
    """
    unit = installation.unit
    device = unit.heating_metering if mode == "heating" else unit.metering
    return "txv" if float(device.is_thermostatic) >= THERMOSTATIC else "orifice"


def zones_of(installation: Installation) -> int:
    """How many zones with dampers the house has.

    Parameters
    ----------
    installation : Installation
        Floats.

    Returns
    -------
    int
        1 or 2. [-]
    """
    return 2 if any(float(zone) > 1.0 for zone in installation.ducts.room_zones) else 1


def is_heat_pump(installation: Installation) -> bool:
    """Whether the circuit can be turned round.

    Parameters
    ----------
    installation : Installation
        Floats.

    Returns
    -------
    bool
    """
    return float(installation.unit.reversing_valve.is_fitted) > 0.0


def need_heat_pump(installation: Installation, mode: str, strips: str) -> None:
    """Refuse a call for heat to a compressor that can only cool.

    Parameters
    ----------
    installation : Installation
        Floats.
    mode : str
        ``cooling`` or ``heating``.
    strips : str
        One of ``STRIPS``; the last leaves the compressor out.

    Raises
    ------
    BadEntry
        Naming the unit and what may heat there.
    """
    if mode == "heating" and strips != STRIPS[-1] and not is_heat_pump(installation):
        raise BadEntry(
            f"The {installation.unit.name} has no reversing valve and cannot heat; only its "
            "strips can (emergency)."
        )


def unfit(healthy: Installation, mode: str, faults: Mapping[str, float]) -> dict[str, str]:
    """Faults that mean nothing here, each with the reason.

    Parameters
    ----------
    healthy : Installation
        Floats.
    mode : str
        ``cooling`` or ``heating``.
    faults : mapping
        Severity by name of those that are asked for, beside which others may show.

    Returns
    -------
    dict
        One sentence by fault name.
    """
    metering, reasons = metering_of(healthy, mode), {}
    heats = is_heat_pump(healthy)
    for name, kind in discover().items():
        if faults.get(BESIDE.get(name, "")):
            continue
        if name in HEAT_PUMP_ONLY and not heats:
            reasons[name] = f'"{kind.title}" is left out: this unit has no reversing valve.'
            continue
        elsewhere = mode == "cooling" or len(kind.metering) == 1 or name in SUMMER_ONLY
        if mode not in kind.modes and elsewhere:
            reason = f"it shows only while {kind.modes[0]}"
        elif metering not in kind.metering:
            reason = f"this unit meters by {DEVICES[metering]}"
        elif name == "stuck_zone_damper" and zones_of(healthy) == 1:
            reason = "only the house of two zones (house two_zones) has such dampers"
        else:
            continue
        reasons[name] = f'"{kind.title}" is left out: {reason}.'
    return reasons


def said_of(healthy: Installation, faults: Mapping[str, float]) -> list[str]:
    """What is to be known of a fault that shows where it is seldom met.

    Parameters
    ----------
    healthy : Installation
        Floats.
    faults : mapping
        Severity by name; what has none is not there.

    Returns
    -------
    list
        A sentence each.
    """
    if faults.get("open_bypass") and zones_of(healthy) == 1:
        return [
            "A bypass belongs to a house of two zones (house two_zones); here the readings are "
            "those of a house of one zone that was built with one."
        ]
    return []


def need_no_opposites(faults: Mapping[str, float]) -> None:
    """Refuse two faults that cannot stand together.

    Parameters
    ----------
    faults : mapping
        Severity by name; what has none is not there.

    Raises
    ------
    BadEntry
        Naming both and why.
    """
    for one, other, why in OPPOSITES:
        if faults.get(one) and faults.get(other):
            titles = [discover()[name].title for name in (one, other)]
            raise BadEntry(
                f"{titles[0]} and {titles[1][:1].lower()}{titles[1][1:]} cannot both be there: "
                f"{why}; choose one of them."
            )
