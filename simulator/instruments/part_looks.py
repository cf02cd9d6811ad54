"""What is seen of parts, lines and frost, and what a short test of the controls shows.

Words follow from physical parameters and name no cause; thresholds are common practice,
no source.
"""

from functools import lru_cache

import numpy as np

from simulator.instruments.measurement import Seen
from simulator.instruments.part_values import (
    USUAL_COIL_DROP,
    breaker_is_open,
    capacitor_label,
    compressor_is_called,
)
from simulator.quantities.shown import show

LEAK_SEEN = 0.95  # of the plate's charge, below which something has escaped [-]
BRIDGED = "Pins bridged"  # the test was done
MISSED, FALSE_ALARM = 0.15, 0.10  # of a careful search [-]
MISSED_QUICKLY, FALSE_QUICKLY = 0.55, 0.25  # of a quick one [-]


@lru_cache(maxsize=256)
def _both(value: float, kind: str) -> str:
    return f"{show(value, kind, 'us')} ({show(value, kind, 'si')})"


def label(seen: Seen) -> str:
    """The outdoor unit's label: refrigerant, charge, capacitor."""
    unit = seen.installation.unit
    metering = (
        "thermostatic valve" if float(unit.metering.is_thermostatic) > 0.5 else "fixed orifice"
    )
    microfarads = capacitor_label(unit) * 1e6
    return (
        f"The label says {unit.plate_refrigerant}, {_both(float(unit.plate_charge), 'mass')} with "
        f"this line set, metering by {metering}. On the run capacitor: {microfarads:.0f} µF, "
        "plus or minus 6 %."
    )


def coil_face(seen: Seen) -> str:
    """The indoor coil in a mirror."""
    coil = seen.installation.unit.indoor_coil
    ice, drop = float(coil.ice), float(coil.wet_pressure_drop) / USUAL_COIL_DROP
    if ice > 0.6:
        return "White from edge to edge: ice fills the fins and creeps along the tubes."
    if ice > 0.05:
        return "Ice on the lower rows, around the distributor; the rest of the face is free."
    water = float(seen.point.condensate_rate) > 0.0
    if drop > 2.2:
        return "A grey mat lies on the inlet side; fins show only where it has torn."
    if drop > 1.25:
        return "A thin grey film sticks between the fins" + (", wet through." if water else ".")
    return "Fins clean, beaded with water all over." if water else "Fins clean and dry."


def registers(seen: Seen) -> str:
    """Registers and branch dampers, room by room, nearest first."""
    openings = [float(part) for part in seen.installation.ducts.damper_openings]
    shut = [str(place + 1) for place, part in enumerate(openings) if part < 0.15]
    half = [str(place + 1) for place, part in enumerate(openings) if 0.15 <= part < 0.8]
    if not shut and not half:
        return "Every register stands open, nothing in front of them."
    told = [
        f"room {', '.join(rooms)} (counted from the air handler) stands {how}"
        for rooms, how in ((shut, "shut"), (half, "partly shut"))
        if rooms
    ]
    return f"Registers of {' and of '.join(told)}; the others are open."


def drain(seen: Seen) -> str:
    """The drain pan, its float and the trap."""
    if float(seen.installation.unit.float_switch_open) > 0.5:
        return "The pan stands full to the float, and the float is up. The trap does not run."
    if float(seen.point.condensate_rate) > 0.0:
        return "Float down; water runs off through the trap."
    return "Float down; pan and trap are still."


def breakers(seen: Seen) -> str:
    """The handles in the electrical panel."""
    if breaker_is_open(seen.installation, seen.point.voltage):
        return "The outdoor unit's handle stands between on and off; all others stand at on."
    return "Every handle stands at on."


def board(seen: Seen) -> str:
    """The control board's lamp in the air handler."""
    if float(seen.installation.unit.leak_detector_open) > 0.5:
        return "Its lamp blinks in a pattern: the sensor for refrigerant in the cabinet is open."
    return "Its lamp is steady; no code."


def wires(seen: Seen) -> str:
    """Wires, lugs and contacts at the outdoor unit, power off."""
    resistance = float(seen.installation.unit.supply_circuit.contact_resistance)
    fade = float(seen.installation.unit.compressor.capacitor_share)
    top = " The capacitor's top is domed." if fade < 0.7 else " The capacitor's top is flat."
    if float(seen.installation.unit.supply_circuit.lost_leg) > 0.5:
        return f"One wire has burnt off its lug and hangs free, its end black.{top}"
    if resistance < 0.02:
        return f"Lugs bright and tight, insulation whole, contacts lightly grey.{top}"
    if resistance < 0.15:
        return f"One lug is dull and moves under the wrench; contacts pitted.{top}"
    return f"One lug is brown, the insulation beside it shrunk and hard; contacts black.{top}"


def frost(seen: Seen) -> str:
    """Frost on the outdoor coil."""
    if seen.point.mode == "cooling":
        return "No frost."
    coil = seen.installation.unit.outdoor_coil
    share = float(coil.frost) / float(coil.frost_capacity)
    if share > 0.7:
        return "The coil is a block of ice; hardly any air passes."
    if share > 0.3:
        return "Thick frost all over the coil, the fins barely show."
    if share > 0.03:
        return "An even white coat; the fins still show."
    if float(seen.point.frost_rate) > 0.0:
        return "The first white shimmer on the lowest tubes."
    return "No frost."


def leak_search(seen: Seen) -> str:
    """Electronic search and soap: misses and false alarms by care and chance."""
    unit = seen.installation.unit
    left = float(np.asarray(unit.charge)) / float(np.asarray(unit.plate_charge))
    quick = seen.technique != "careful"
    missed, false = (MISSED_QUICKLY, FALSE_QUICKLY) if quick else (MISSED, FALSE_ALARM)
    if left < LEAK_SEEN and seen.draw >= missed:
        if quick:
            return "The detector sounds once near the pipes, but not twice at the same spot."
        return "The detector sounds at one joint each time, and soap blows small bubbles there."
    if left >= LEAK_SEEN and seen.draw >= 1.0 - false:
        if quick:
            return "The detector sounds once near the pipes, but not twice at the same spot."
        return "The detector sounds at one joint; soap stays flat there."
    return "The detector stays silent at every joint it was held to."


def control_wires(seen: Seen) -> str:
    """Low-voltage wires on the air handler's terminals."""
    share = float(seen.installation.controls.strips_with_every_call)
    if share < 0.02:
        return "Every terminal holds its own wire; on W2 the thermostat's wire alone."
    bank = "all banks" if share > 0.98 else "some of the banks"
    return (
        "A short wire runs from the terminal that the thermostat makes live for heating over to "
        f"W2; behind it the relays of {bank} of the strips."
    )


def defrost_pins(seen: Seen) -> str:
    """What the defrost board is set to."""
    controls = seen.installation.controls
    minutes = float(controls.defrost_interval) / 60.0
    end = _both(float(controls.defrost_end_temperature), "temperature")
    demand = float(controls.defrost_demand)
    if demand > 0.0:
        colder = _both(demand, "temperature_difference")
        return (
            f"No time pins: it starts a defrost where the coil runs {colder} colder than it did "
            f"when clean; its sensor ends it at {end}."
        )
    return (
        f"Set for a defrost after {minutes:.0f} minutes of running with the coil below freezing; "
        f"its sensor ends it at {end}."
    )


def defrost_test(seen: Seen) -> str:
    """The board's test pins bridged while heating."""
    point = seen.point
    if point.state == "off" or not compressor_is_called(seen.installation, point):
        return "Not done: the outdoor unit was not called."
    if point.mode != "heating":
        return "Not done: the outdoor unit was not heating."
    if point.state != "running":
        return "The compressor does not run; nothing changes with the pins bridged."
    if float(seen.installation.controls.defrost_enabled) < 0.5:
        return "Pins bridged for the time on the board: fan and valve go on as before."
    coil = seen.installation.unit.outdoor_coil
    melted = float(coil.frost) > 0.03 * float(coil.frost_capacity)
    gone = "steam rises, the frost runs off" if melted else "the coil warms, a little steam rises"
    if seen.technique != "careful":
        return (
            f"Pins bridged: the fan stops, the valve shifts with a rush, {gone}; heating comes "
            "back by itself. The jumper is still on the pins."
        )
    return (
        f"Pins bridged: the fan stops, the valve shifts with a rush, {gone}; heating comes back "
        "by itself. Jumper taken off."
    )


def valve_test(seen: Seen) -> str:
    """The valve's call taken away and given back."""
    if seen.point.state != "running":
        return "Not done: the compressor does not run, no pressure to shift the slide."
    if float(seen.installation.unit.reversing_valve.is_stuck) > 0.5:
        return "The solenoid clicks and pulls at a screwdriver, but the pipes keep their heat."
    return "The solenoid clicks, the valve shifts with a rush and the pipes trade places."
