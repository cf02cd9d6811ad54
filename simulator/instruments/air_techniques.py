"""Ways to take air, statics and the house's pressure, and what carelessness does.

Sizes are common practice, no source, unless said.
"""

from functools import lru_cache

from simulator.instruments.techniques import SHIELDED, Felt, Technique, careful, wick
from simulator.properties import moist_air

FAHRENHEIT = 1.0 / 1.8  # one degree of it [K]
MOST_LAYERED = 4.0 * FAHRENHEIT  # between layers of one duct [K]


def _either_way(felt: Felt, least: float, most: float) -> float:
    """An error of some size, down for low draws and up for high ones."""
    size = least + 2.0 * (most - least) * abs(felt.draw - 0.5)
    return size if felt.draw > 0.5 else -size


def _centre_line(felt: Felt) -> float:
    """Air is fastest in the middle: 15 to 25 % high."""
    return felt.value * (1.15 + 0.10 * felt.draw)


def _infrared(felt: Felt) -> float:
    """A louvre of white enamel, and what it mirrors, instead of the air: up to 5 °F either way."""
    return felt.value + _either_way(felt, 1.0, 5.0) * FAHRENHEIT


def _at_hatch(felt: Felt) -> float:
    """Air of the house comes up at the hatch: 30 to 60 % of the way to it."""
    share = 0.30 + 0.30 * felt.draw
    return felt.value + share * (float(felt.point.grille_temperature) - felt.value)


def _damp_at_hatch(felt: Felt) -> float:
    """The same mixture, as a humidity probe feels it."""
    point, share = felt.point, 0.30 + 0.30 * felt.draw
    zone = float(point.zone_temperature)
    water = float(moist_air.humidity_ratio(zone, felt.value, point.pressure))
    house, house_water = float(point.grille_temperature), float(point.grille_humidity_ratio)
    mixed = moist_air.relative_humidity(
        zone + share * (house - zone), water + share * (house_water - water), point.pressure
    )
    return float(mixed)


def _layered(felt: Felt, grille: float) -> float:
    """What leaks in runs beside the rest: at one point none of it to twice its share."""
    gained = felt.value - grille
    off = (2.0 * felt.draw - 1.0) * gained
    return felt.value + min(max(off, -MOST_LAYERED), MOST_LAYERED)


def _layered_dry(felt: Felt) -> float:
    """Dry bulb in one layer."""
    return _layered(felt, float(felt.point.grille_temperature))


def _layered_wet(felt: Felt) -> float:
    """Wet bulb in one layer."""
    point = felt.point
    air = point.grille_temperature, point.grille_humidity_ratio, point.pressure
    return _layered(felt, _wet_bulb(*(float(part) for part in air)))


@lru_cache(maxsize=64)
def _wet_bulb(temperature: float, water: float, pressure: float) -> float:
    """Of one air: belief asks for the same one in every cell."""
    return float(moist_air.wet_bulb(temperature, water, pressure))


def _leaking_hole(felt: Felt) -> float:
    """Air passes the tip in a hole too wide for it: a tenth to a third of the pressure is lost."""
    return felt.value * (0.67 + 0.23 * felt.draw)


def _gusts(felt: Felt) -> float:
    """Wind on the outdoor end of the hose: up to 2 Pa, either way."""
    return felt.value + _either_way(felt, 0.5, 2.0)


def _open_door(felt: Felt) -> float:
    """Through an open door the house breathes: a twentieth to a fifth of its pressure is left."""
    return felt.value * (0.05 + 0.15 * felt.draw)


TRAVERSE = (
    careful("Sixteen points over the whole cross-section"),
    Technique("centre", "One point on the centre line", _centre_line, minutes=4.0),
)
IN_STREAM = (
    careful("Probe in the stream, every register open"),
    Technique("infrared", "Infrared at the louvre, from the floor", _infrared, minutes=1.0),
)
ZONE_TEMPERATURE = (
    careful("Beside the ducts"),
    Technique("hatch", "At the hatch, arm stretched in", _at_hatch, minutes=2.0),
)
ZONE_HUMIDITY = (
    careful("Beside the ducts"),
    Technique("hatch", "At the hatch, arm stretched in", _damp_at_hatch, minutes=2.0),
)
RETURN_DRY = (
    *SHIELDED[:1],
    Technique("one_point", "One point, close behind the filter slot", _layered_dry, minutes=2.0),
)
RETURN_WET = (
    *wick("air_handler_return_temperature"),
    Technique("one_point", "One point, close behind the filter slot", _layered_wet, minutes=2.0),
)
HOUSE_PRESSURE = (
    careful("Outer doors and windows shut, hose end sheltered, a minute averaged"),
    Technique("gusts", "One look, hose end in the wind", _gusts, minutes=3.0),
    Technique("open_door", "An outer door left open", _open_door, minutes=5.0),
)
TAP = (
    careful("Tip facing the flow, panels on"),
    Technique("leaking_hole", "Tip loose in a hole too wide for it", _leaking_hole, minutes=1.0),
)
