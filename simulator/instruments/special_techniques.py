"""Ways to take the measurements of parts, ducts and history, and what carelessness does.

Sizes are common practice, no source, unless said.
"""

from simulator.instruments.part_values import HALVING
from simulator.instruments.techniques import Felt, Technique, careful
from simulator.properties import refrigerant

COPPER = 0.00393  # change of resistance with temperature, annealed copper, IEC 60028 [1/K]
SLOPE_OF_PRESSURE = 0.026  # of a saturated refrigerant near 35 °C, from the tables [1/K]
VELOCITY_HEAD = 7.6  # of 700 ft/min, usual in a trunk [Pa]
MOST_RUN = 86400.0  # [s]


def _in_circuit(felt: Felt) -> float:
    """The windings beside the capacitor are measured with it: 10 to 25 % high."""
    return felt.value * (1.10 + 0.15 * felt.draw)


def _hot(felt: Felt) -> float:
    """Straight after a stop the copper is 40 to 80 K warmer."""
    return felt.value * (1.0 + COPPER * (40.0 + 40.0 * felt.draw))


def _hot_insulation(felt: Felt) -> float:
    """Straight after a stop the insulation is 40 to 80 K warmer, and halves every 10 K."""
    return felt.value * float(0.5 ** ((40.0 + 40.0 * felt.draw) / HALVING))


def _idle_leg(felt: Felt) -> float:
    """Before the start nothing flows: each leg has half of the line's voltage."""
    return 0.5 * float(felt.point.voltage) + 0.0 * felt.value


def _in_elbow(felt: Felt) -> float:
    """At the inside of a bend air is faster: up to its velocity head low, still air not at all."""
    moving = float(felt.point.airflow) > 0.0
    return felt.value - moving * VELOCITY_HEAD * (0.5 + 0.5 * felt.draw)


def _volt_amperes(felt: Felt) -> float:
    """Volts times amps taken for watts, of blower and strips."""
    point = felt.point
    apparent = float(point.voltage) * float(point.air_handler_current)
    power = float(point.air_handler_power)
    return felt.value * apparent / power if power > 0.0 else felt.value


def _idle(felt: Felt) -> float:
    """Before the start nothing flows, and no bad contact shows."""
    return float(felt.point.voltage)


def _open_pole(felt: Felt) -> float:
    """Over a contact that has not closed stands the line's whole voltage."""
    return float(felt.point.voltage) + 0.0 * felt.value


def _both_leads(felt: Felt) -> float:
    """Two currents the opposite way cancel in one clamp."""
    return 0.0 * felt.value


def _slipping(felt: Felt) -> float:
    """A worn tip slips: 2 to 6 % low."""
    return felt.value * (0.98 - 0.04 * felt.draw)


def _wrong_column(felt: Felt) -> float:
    """The dry-coil column or the next tap: 8 to 20 % high."""
    return felt.value * (1.08 + 0.12 * felt.draw)


def _not_normalised(felt: Felt) -> float:
    """The plate's own drop not corrected by the total static: 5 to 12 % low."""
    return felt.value * (0.95 - 0.07 * felt.draw)


def _sees_strips(felt: Felt) -> float:
    """A probe in view of the elements reads too warm: the flow comes out 12 % low."""
    return felt.value * (0.90 - 0.04 * felt.draw)


def _plate_watts(felt: Felt) -> float:
    """Watts off the plate: right only at the plate's voltage, 240 V."""
    return felt.value * (240.0 / float(felt.point.voltage)) ** 2


def _not_swapped(felt: Felt) -> float:
    """Two clamps that were not swapped differ by up to 1 °F, either way."""
    size = 0.2 + 0.7 * abs(felt.draw - 0.5)
    return felt.value + (size if felt.draw > 0.5 else -size)


def _sunny_coil(felt: Felt) -> float:
    """The coil in the sun is 3 to 8 K warmer than the air the thermometer shows."""
    return felt.value * (1.0 + SLOPE_OF_PRESSURE * (3.0 + 5.0 * felt.draw))


def _one_register_open(felt: Felt) -> float:
    """One register left unsealed: 30 to 80 cfm more."""
    return felt.value + (30.0 + 50.0 * felt.draw) * 0.3048**3 / 60.0


def _breathing(felt: Felt) -> float:
    """Breath beside the probe: 100 to 300 ppm more."""
    return felt.value + (100.0 + 200.0 * felt.draw) * 1e-6


def _one_cycle(felt: Felt) -> float:
    """One cycle of the afternoon scaled to a day: 15 to 45 % too much, at most all day."""
    return min(felt.value * (1.15 + 0.30 * felt.draw), MOST_RUN)


def _discharge_port(felt: Felt) -> float:
    """Before the condenser instead of behind it."""
    return float(felt.point.discharge_pressure) - float(felt.point.pressure) + 0.0 * felt.value


def _large_port(felt: Felt) -> float:
    """Hot gas while heating; the same gas as ever while cooling."""
    point = felt.point
    return felt.value + float(point.vapour_port_pressure) - float(point.suction_pressure)


def _not_seated(felt: Felt) -> float:
    """A valve core that is barely pressed fills the hose slowly: a fifth to a half too low."""
    return felt.value * (0.80 - 0.30 * felt.draw)


TABLE = "table_"


def table_of(technique: str) -> str | None:
    """Whose pressure table a technique reads.

    Parameters
    ----------
    technique : str
        Its id.

    Returns
    -------
    str or None
        A refrigerant; none where the label's own is used.
    """
    return technique.removeprefix(TABLE) if technique.startswith(TABLE) else None


def _tables() -> tuple[Technique, ...]:
    """The pressure is felt as it is; what is worked out from it uses the chosen table."""
    return tuple(
        Technique(f"{TABLE}{name}", f"Gauge set to {name}") for name in refrigerant.known()
    )


LABEL = careful("Gauge set to the refrigerant on the label")
NOT_SEATED = Technique("not_seated", "Hose half tight, valve core barely pressed", _not_seated)
VAPOUR_GAUGE = (LABEL, *_tables(), NOT_SEATED)
SUCTION_GAUGE = (
    *VAPOUR_GAUGE,
    Technique("large_port", "At the large pipe's port, whichever way it runs", _large_port),
)
LIQUID_GAUGE = (
    LABEL,
    *_tables(),
    Technique("discharge_port", "At the discharge port", _discharge_port),
    NOT_SEATED,
)
LEADS_OFF = (
    careful("Discharged, leads off"),
    Technique("in_circuit", "Leads left on", _in_circuit),
)
COOLED = (
    careful("Leads off, shell cooled down"),
    Technique("hot", "Straight after it stopped", _hot),
)
COOLED_SHELL = (
    careful("Leads off, shell cooled down, one minute of test voltage"),
    Technique("hot", "Straight after it stopped", _hot_insulation),
)
LOADED_LEG = (
    careful("While it runs"),
    Technique("idle", "On the line side, before it starts", _idle_leg),
)
STRAIGHT = (
    careful("Straight run, tip facing the flow"),
    Technique("elbow", "Just behind an elbow", _in_elbow),
)
BLOWER_WATTS = (
    careful("True power"),
    Technique("volt_amperes", "Volts times amps", _volt_amperes),
)
LOADED = (
    careful("While it runs"),
    Technique("idle", "On the line side, before it starts", _idle),
)
CLOSED = (
    careful("While it carries the load"),
    Technique("not_closed", "Before it has closed", _open_pole),
)
ONE_LEAD = (
    careful("One lead in the clamp"),
    Technique("both_leads", "Both leads in the clamp", _both_leads),
)
FIRM = (
    careful("Firmly on the hub"),
    Technique("slipping", "Worn tip, held loosely", _slipping),
)
COLUMN = (
    careful("Tap as wired, wet-coil column"),
    Technique("wrong_column", "First column of the table", _wrong_column),
)
NORMALISED = (
    careful("Corrected by the total static with and without the plate"),
    Technique("raw", "As the plate reads", _not_normalised),
)
OUT_OF_VIEW = (
    careful("Watts measured, probe out of view of the elements"),
    Technique("in_view", "Probe in view of the elements", _sees_strips),
    Technique("plate_watts", "Watts off the plate", _plate_watts),
)
SWAPPED = (
    careful("Clamps swapped, both differences averaged"),
    Technique("one_way", "Clamps not swapped", _not_swapped),
)
SHADED = (
    careful("Coil in the shade"),
    Technique("sunny", "Sun on the coil", _sunny_coil),
)
SEALED = (
    careful("All registers and grilles sealed"),
    Technique("one_open", "One register overlooked", _one_register_open),
)
AT_ARM = (
    careful("Probe at arm's length, two minutes"),
    Technique("breath", "Probe close to the face", _breathing),
)
WHOLE_DAY = (
    careful("A whole day of the history"),
    Technique("one_cycle", "One cycle timed and scaled up", _one_cycle),
)
SEARCH = (
    careful("Slowly, below each joint, then soap on every alarm"),
    Technique("quick", "Quickly, with the fan running"),
)
