"""How a measurement can be taken, carefully or not, and what carelessness does to it.

A careless technique changes what the sensor feels, by the physics of the mistake; sizes are
common practice, no source, unless said.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

from simulator.plant.operating_point import OperatingPoint


class Felt(NamedTuple):
    """What a technique starts from: the true value, its surroundings, a draw from 0 to 1."""

    value: float
    point: OperatingPoint
    draw: float


@dataclass(frozen=True, slots=True)
class Technique:
    """One way of taking a measurement.

    Parameters
    ----------
    id : str
        On the wire.
    name : str
        For people.
    felt : callable
        What the sensor feels; the draw is one for the whole visit.
    minutes : float, optional
        Site time it takes, in minutes; as long as the measurement says where left out.
    """

    id: str
    name: str
    felt: Callable[[Felt], float] = lambda felt: felt.value
    minutes: float | None = None


def careful(name: str) -> Technique:
    """The way it should be done.

    Parameters
    ----------
    name : str
        For people.

    Returns
    -------
    Technique
        Feels the truth.
    """
    return Technique("careful", name)


def _dry_wick(air: str) -> Callable[[Felt], float]:
    """A wick a quarter dry feels a quarter of the depression less."""

    def felt(now: Felt) -> float:
        depression = float(getattr(now.point, air)) - now.value
        return now.value + 0.25 * max(depression, 0.0)

    return felt


def _bare_outdoors(felt: Felt) -> float:
    """An uninsulated clamp takes 10 to 25 % of its reading from the air around it."""
    share = 0.10 + 0.15 * felt.draw
    return felt.value + share * (float(felt.point.outdoor_temperature) - felt.value)


def _in_sun(felt: Felt) -> float:
    """Sun on a thermometer: 5 to 15 °F."""
    return felt.value + (5.0 + 10.0 * felt.draw) / 1.8


def _in_view_of_coil(felt: Felt) -> float:
    """A probe that sees the cold coil or the hot strips is drawn to them."""
    cold = 0.1 * (float(felt.point.coil_leaving_temperature) - 4.0 - felt.value)
    hot = 2.2 if float(felt.point.strip_power) > 0.0 else 0.0
    return felt.value + min(cold, 0.0) + hot


def _unzeroed(felt: Felt) -> float:
    """A manometer that was not zeroed: 0.02 to 0.05 in wc, either way."""
    size = (0.02 + 0.06 * abs(felt.draw - 0.5)) * 249.09
    return felt.value + (size if felt.draw > 0.5 else -size)


def _unpowered_hood(felt: Felt) -> float:
    """An unpowered hood holds the flow back: 5 to 15 % low."""
    return felt.value * (0.95 - 0.10 * felt.draw)


def _volt_amperes(felt: Felt) -> float:
    """Volts times amps taken for watts: the power factor is left out."""
    return felt.value / float(felt.point.compressor_power_factor)


def _body_heat(felt: Felt) -> float:
    """Held in the hand beside a sunny wall: 1 to 3 °F."""
    return felt.value + (1.0 + 2.0 * felt.draw) / 1.8


def _far_from_fan(felt: Felt) -> float:
    """One point over the fan motor instead of three around it: about 2 °F."""
    return felt.value + 2.0 / 1.8


def wick(air: str) -> tuple[Technique, ...]:
    """Ways to take a wet bulb.

    Parameters
    ----------
    air : str
        Field of the dry bulb at the same place.

    Returns
    -------
    tuple
        The careful one first.
    """
    return (
        careful("Fresh wet wick, in moving air"),
        Technique("as_found", "Wick as it came out of the bag", _dry_wick(air)),
    )


INSULATED = (
    careful("Clean pipe, clamp insulated"),
    Technique("bare", "Clamp straight on the pipe", _bare_outdoors),
)
SHADE = (
    careful("In the shade, at the coil's inlet side"),
    Technique("sun", "On top of the unit, in the sun", _in_sun),
)
SHIELDED = (
    careful("Past a bend, three points averaged"),
    Technique("close", "One point right above the air handler", _in_view_of_coil),
)
HOOD = (
    careful("Powered hood, all registers open"),
    Technique("plain", "Hood without its fan", _unpowered_hood),
)
WATTS = (
    careful("True power"),
    Technique("volt_amperes", "Volts times amps", _volt_amperes),
)
SOAKED = (
    careful("Beside the thermostat, three minutes to settle"),
    Technique("in_hand", "Held in the hand by the window", _body_heat),
)
OVER_FAN = (
    careful("Three points around the fan"),
    Technique("one_point", "One point over the motor", _far_from_fan),
)
PLAIN = (careful("As usual"),)
OPEN_QUESTION = (
    careful("An open question, answered in their own words"),
    Technique("leading", "The answer you expect is in the question", minutes=1.0),
)
BACK_IN = (
    careful("Look, and slide it back in"),
    Technique("left_out", "Look, and stand it beside the unit", minutes=1.0),
)
JUMPER = (
    careful("Bridged for the time on the board, jumper taken off"),
    Technique("left_on", "Bridged, and on to the next thing", minutes=8.0),
)
STILL_AIR = (
    careful("Doors shut, the room's air still, each joint twice"),
    Technique("draft", "Along the joints once, in the room's draft", minutes=3.0),
)
UNZEROED = _unzeroed
