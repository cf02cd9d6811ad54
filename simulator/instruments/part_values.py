"""True values of electrical parts, from what is fitted and what it carries."""

import numpy as np

from simulator.components.electric_strips import motor_current, strip_power
from simulator.components.supply_circuit import breaker_opens, takes_no_line
from simulator.plant.installation import Installation, Unit
from simulator.plant.operating_point import OperatingPoint
from simulator.quantities.values import Values

# Sizes below are common practice, no source, unless said.
TON = 3516.85  # [W]
MICROFARADS_PER_TON = 13.3  # of a run capacitor, to the nearest 5
COPPER_SHARE = 0.05  # of the rated power lost in the run winding [-]
RATED_COP = 3.8  # gives a compressor's rated power from its capacity [-]
LINE = 240.0  # [V]
SOUND_CONTACT = 0.003  # of a good contactor's two poles and lugs [ohm]
ELEMENT_POWER = 4800.0  # of one strip element on its plate [W]
CONTROL_VOLTAGE = 26.5  # of a lightly loaded 24 V transformer at line voltage [V]
# Of a clean wet coil at rated airflow, 0.25 in wc; every unit shipped has it.
USUAL_COIL_DROP = 62.3  # [Pa]
AT = 293.15  # where insulation is stated [K]
HALVING = 10.0  # insulation loses half for this much warmth, IEEE 43 [K]
STRIPS_CALLED = 1.0  # strip power that only a call explains [W]


def capacitor_label(unit: Unit) -> float:
    """Capacitance on the label of the compressor's run capacitor.

    Parameters
    ----------
    unit : Unit
        Its size decides.

    Returns
    -------
    float
        To the nearest 5 µF. [F]
    """
    tons = float(np.asarray(unit.nominal_capacity)) / TON
    return 5.0e-6 * max(round(MICROFARADS_PER_TON * tons / 5.0), 1)


def capacitance(installation: Installation, point: OperatingPoint) -> Values:
    """Of the compressor's run capacitor, [F]."""
    del point
    unit = installation.unit
    return unit.compressor.capacitor_share * capacitor_label(unit)


def winding_resistance(installation: Installation, point: OperatingPoint) -> float:
    """Common to run; infinite while the motor circuit is open, [ohm]."""
    del point
    unit = installation.unit
    if float(unit.compressor.is_open) > 0.5:
        return float("inf")
    power = float(np.asarray(unit.nominal_capacity)) / RATED_COP
    current = float(motor_current(power, LINE, unit.compressor.power_factor))
    return COPPER_SHARE * power / current**2


def insulation(installation: Installation, point: OperatingPoint) -> Values:
    """Windings to shell, the shell as warm as the air around it, [ohm]."""
    sound = np.asarray(installation.unit.compressor.winding_insulation)
    return sound * 0.5 ** ((np.asarray(point.outdoor_temperature) - AT) / HALVING)


def leg(number: int, installation: Installation, point: OperatingPoint) -> Values:
    """To ground behind the contactor, [V].

    A bad contact or lug sits in the first pole. Where that leg is lost, the other one comes
    back through the winding: half the line's voltage on both, and none between them.
    """
    half = 0.5 * np.asarray(point.voltage)
    behind = np.asarray(point.compressor_voltage)
    left = np.minimum(half, behind) if number > 1 else np.maximum(behind - half, 0.0)
    unit = installation.unit
    held_in = np.asarray(unit.float_switch_open) + np.asarray(unit.leak_detector_open) < 0.5
    lost = np.asarray(unit.supply_circuit.lost_leg) > 0.5
    return np.where(lost & held_in & (np.asarray(point.state) != "off"), half, left)


def contact_drop(installation: Installation, point: OperatingPoint) -> Values:
    """Over poles and lugs: of the unit's current, or the line's over what is open, [V]."""
    unit = installation.unit
    carried = unit.supply_circuit.contact_resistance + SOUND_CONTACT
    carried = carried * np.asarray(point.outdoor_current)
    arrives = 1.0 - breaker_opens(point.voltage, unit.compressor.winding_insulation)
    is_open = np.asarray(point.compressor_voltage) < 1.0
    return np.where(is_open, arrives * np.asarray(point.voltage), carried)


def element_current(number: int, installation: Installation, point: OperatingPoint) -> float:
    """Of one strip element, those that heat counted first, [A]."""
    strips = installation.unit.strips
    count = max(round(float(strips.installed_power) / ELEMENT_POWER), 1)
    if number > count:
        return 0.0
    each = float(strips.installed_power) / count
    hot = float(point.strip_power) / (each * (float(point.voltage) / strips.plate_voltage) ** 2)
    here = min(max(float(hot) - (number - 1), 0.0), 1.0)
    return here * each * float(point.voltage) / float(strips.plate_voltage) ** 2


def _control(point: OperatingPoint) -> float:
    return CONTROL_VOLTAGE * float(point.voltage) / LINE


def _is_held_off(installation: Installation) -> bool:
    unit = installation.unit
    return float(unit.float_switch_open) + float(unit.leak_detector_open) > 0.5


def is_off_the_line(installation: Installation, voltage: Values) -> bool:
    """Whether the outdoor unit has lost a leg or its breaker.

    Parameters
    ----------
    installation : Installation
        As it stands.
    voltage : float
        At the panel. [V]

    Returns
    -------
    bool
    """
    unit = installation.unit
    return bool(takes_no_line(unit.supply_circuit, voltage, unit.compressor.winding_insulation))


def breaker_is_open(installation: Installation, voltage: Values) -> bool:
    """Whether the outdoor unit's breaker has opened on a path to ground.

    Parameters
    ----------
    installation : Installation
        Tells how well the windings stand off the shell.
    voltage : float
        At the panel. [V]

    Returns
    -------
    bool
    """
    return bool(breaker_opens(voltage, installation.unit.compressor.winding_insulation))


def compressor_is_called(installation: Installation, point: OperatingPoint) -> bool:
    """Whether the thermostat asks for the compressor.

    A compressor that stands although nothing in the unit holds it off was not called.

    Parameters
    ----------
    installation : Installation
        Tells which switches are open.
    point : OperatingPoint
        What the plant does.

    Returns
    -------
    bool
    """
    if point.state == "off":
        return False
    held = (
        _is_held_off(installation)
        or float(installation.unit.compressor.is_open) > 0.5
        or is_off_the_line(installation, point.voltage)
    )
    return point.state != "compressor_off" or held


def called_mode(installation: Installation, point: OperatingPoint) -> str:
    """What the thermostat asks for: a stuck valve does the opposite."""
    if float(installation.unit.reversing_valve.is_stuck) < 0.5:
        return point.mode
    return "heating" if point.mode == "cooling" else "cooling"


def supply_of_controls(installation: Installation, point: OperatingPoint) -> float:
    """R to C at the thermostat, [V]."""
    del installation
    return _control(point)


def compressor_call(installation: Installation, point: OperatingPoint) -> float:
    """Y to C at the thermostat, [V]."""
    return _control(point) * compressor_is_called(installation, point)


def contactor_coil(installation: Installation, point: OperatingPoint) -> float:
    """Over the contactor's coil: the call, less what a switch on its way takes out, [V]."""
    tripped = point.state in ("high_pressure_trip", "low_pressure_trip")
    passes = not (_is_held_off(installation) or tripped)
    return compressor_call(installation, point) * passes


def fan_call(installation: Installation, point: OperatingPoint) -> float:
    """G to C at the thermostat, [V]."""
    always = float(installation.controls.fan_always_on) > 0.5
    return _control(point) * (point.state != "off" or always)


def valve_call(installation: Installation, point: OperatingPoint) -> float:
    """O to C at the thermostat, present while it asks for cooling, [V]."""
    called = compressor_is_called(installation, point)
    return _control(point) * (called and called_mode(installation, point) == "cooling")


def auxiliary_call(installation: Installation, point: OperatingPoint) -> float:
    """W to C at the thermostat: strips that heat with no call have their own reason, [V]."""
    alone = float(strip_power(installation.unit.strips, point.voltage))
    called = float(point.strip_power) > alone + STRIPS_CALLED
    jumper = float(installation.controls.strips_with_every_call) > 0.5
    heating = called_mode(installation, point) == "heating"
    jumped = jumper and heating and compressor_is_called(installation, point)
    return _control(point) * (called or jumped)
