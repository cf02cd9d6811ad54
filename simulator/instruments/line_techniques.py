"""Ways to take amps, volts and calls at the panel and the thermostat, and what carelessness does.

Sizes are common practice, no source, unless said.
"""

from simulator.instruments.part_values import CONTROL_VOLTAGE, LINE
from simulator.instruments.techniques import Felt, Technique, careful

SERVICE_LINE = 0.03  # of the wires before the panel; about 1 % at a house's load [ohm]


def _first_circuit(felt: Felt) -> float:
    """Strips are fed by two circuits: one leg of the first carries the blower and half of them."""
    blower = float(felt.point.blower_current)
    return felt.value - 0.5 * max(felt.value - blower, 0.0)


def _coarse_range(felt: Felt) -> float:
    """On its large range a clamp's zero is 0.1 to 0.4 A off, either way: much, below 2 A."""
    size = 0.1 + 0.6 * abs(felt.draw - 0.5)
    return felt.value + (size if felt.draw > 0.5 else -size)


def _no_load(felt: Felt) -> float:
    """Before the start the wires up to the panel take nothing."""
    point = felt.point
    load = float(point.outdoor_current) + float(point.air_handler_current)
    return felt.value + SERVICE_LINE * load


def _while_defrosting(felt: Felt) -> float:
    """The board itself calls the strips while it melts frost, whatever the thermostat asks."""
    point = felt.point
    defrosts = point.mode == "heating" and float(point.frost_rate) > 0.0
    return CONTROL_VOLTAGE * float(point.voltage) / LINE if defrosts else felt.value


AIR_HANDLER_AMPS = (
    careful("Every circuit, leg by leg, on the smallest range"),
    Technique("one_leg", "One leg of the first circuit", _first_circuit, minutes=1.0),
    Technique("coarse", "On the clamp's large range, not zeroed", _coarse_range, minutes=2.0),
)
PANEL_VOLTS = (
    careful("While it runs"),
    Technique("idle", "Before it starts", _no_load),
)
STRIP_CALL = (
    careful("Outside a defrost"),
    Technique("in_defrost", "While the outdoor unit defrosts", _while_defrosting),
)
