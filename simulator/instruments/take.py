"""Taking a measurement: lag, technique, the tool's errors, its scale."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from simulator.instruments import sight
from simulator.instruments.measurement import Measurement, Seen
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.reading import Reading
from simulator.instruments.session import BATTERY, Session, battery_drift
from simulator.instruments.techniques import UNZEROED, Felt, Technique
from simulator.instruments.tools import TOOLS, Tool
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.plant.timeline import Moment
from simulator.quantities.shown import from_display, to_display

ANY_TAP = "static_supply"
BEHIND_DISCONNECT = frozenset(
    {"compressor_voltage", "leg_1_voltage", "leg_2_voltage", "contactor_drop", "compressor_current"}
)
NOTHING_ARRIVES = "Nothing on the meter: the disconnect is out and locked."
NO_PATH = "The meter shows OL: it finds no path."
ZERO = 1e-12  # SI of any kind [-]
UNMATCHED = 0.45  # probes that were not compared differ by up to this, either way [K]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hands:
    """What a technician brings to a measurement.

    Parameters
    ----------
    prepared : frozenset
        Steps done so far.
    session : Session
        The visit's tools.
    texts : mapping
        What the customer, the bill and the history say.
    """

    prepared: frozenset[str]
    session: Session
    texts: Mapping[str, str]


def technique_of(measurement: Measurement, technique: str) -> Technique:
    """A technique by name.

    Parameters
    ----------
    measurement : Measurement
        What is taken.
    technique : str
        Its id.

    Returns
    -------
    Technique

    Raises
    ------
    KeyError
        If the measurement cannot be taken that way.
    """
    return {item.id: item for item in measurement.techniques}[technique]


def take(
    measurement: str,
    technique: str,
    *,
    moment: Moment,
    installation: Installation,
    hands: Hands,
    chance: np.random.Generator,
) -> Reading:
    """One reading as the tool shows it.

    Parameters
    ----------
    measurement, technique : str
        What and how.
    moment : Moment
        The plant now, before the last change, and the time between.
    installation : Installation
        As it stands, for what can be seen.
    hands : Hands
        Preparations, tools, words.
    chance : Generator
        For this take alone.

    Returns
    -------
    Reading
        Rounded on the tool's own scale.

    Raises
    ------
    KeyError
        For an unknown measurement or technique.
    """
    item = MEASUREMENTS[measurement]
    way = technique_of(item, technique)
    tool = TOOLS[item.tool_id]
    draw = hands.session.draws[measurement]
    said = None
    locked = moment.now.state == "off" and "isolate_unit" in hands.prepared
    if measurement in BEHIND_DISCONNECT and locked:
        said = NOTHING_ARRIVES
    elif not item.has_number:
        seen = Seen(installation=installation, point=moment.now, technique=technique, draw=draw)
        said = sight.told(measurement, seen, hands.texts)
    elif item.unfit is not None:
        said = item.unfit(moment.now)
    if said is not None:
        return Reading(measurement=measurement, technique=technique, kind=item.kind, words=said)
    value = way.felt(Felt(lagged(item, tool, moment, installation), moment.now, draw))
    if not np.isfinite(value):
        return Reading(measurement=measurement, technique=technique, kind=item.kind, words=NO_PATH)
    # One manometer has one zero, wherever its hoses go.
    zero = hands.session.draws[ANY_TAP] if tool is TOOLS["manometer"] else draw
    value = _unprepared(tool, value, moment.now, hands.prepared, zero)
    if tool.has_meter_battery and "check_batteries" not in hands.prepared:
        value *= battery_drift(hands.session.draws[BATTERY])
    value = _with_errors(item.tool_id, tool, value, hands.session, chance)
    return Reading(
        measurement=measurement,
        technique=technique,
        kind=tool.kind,
        value=on_scale(value, tool),
        decimals=tool.decimals,
    )


def lagged(
    item: Measurement, tool: Tool, moment: Moment, installation: Installation | None = None
) -> float:
    """What the sensor has reached: a first-order approach from the state before.

    Parameters
    ----------
    item : Measurement
        What is taken.
    tool : Tool
        Gives the time constant.
    moment : Moment
        Now, before, and the time between.
    installation : Installation, optional
        As it stands now; needed where the parts as fitted are measured.

    Returns
    -------
    float
        In SI. [-]
    """
    if item.truth is None:
        # Parts as fitted have no past.
        return 0.0 if installation is None else item.true_value(installation, moment.now)
    now, before = float(item.truth(moment.now)), float(item.truth(moment.before))
    return float(now + (before - now) * np.exp(-max(moment.seconds, 0.0) / tool.lag))


def _unprepared(
    tool: Tool, value: float, point: OperatingPoint, prepared: frozenset[str], draw: float
) -> float:
    if tool is TOOLS["manometer"] and "zero_manometer" not in prepared:
        return UNZEROED(Felt(value, point, draw))
    if tool.kind == "temperature" and "match_probes" not in prepared:
        return value + UNMATCHED * (2.0 * draw - 1.0)
    return value


def _with_errors(
    tool_id: str, tool: Tool, value: float, session: Session, chance: np.random.Generator
) -> float:
    added, scaled = session.biases[tool_id]
    noise = tool.noise * float(chance.standard_normal())
    # A dead circuit reads zero on any clamp: errors in proportion vanish with the reading.
    quiet = 0.0 if tool.is_quiet_at_zero and abs(value) < ZERO else 1.0
    return value * (1.0 + tool.relative_bias * scaled) + quiet * (tool.bias * added + noise)


def on_scale(value: float, tool: Tool) -> float:
    """Rounded to the tool's last digit.

    Parameters
    ----------
    value : float
        In SI. [-]
    tool : Tool
        Gives scale and digits.

    Returns
    -------
    float
        In SI again. [-]
    """
    shown = round(to_display(value, tool.kind, "us"), tool.decimals)
    if tool.kind in ("relative_humidity", "airflow", "current", "condensate_rate", "power"):
        shown = max(shown, 0.0)
    return from_display(shown, tool.kind, "us")
