"""What a tool and the way it was used put between the truth and the reading."""

from typing import NamedTuple

import numpy as np

from simulator.instruments.measurement import Measurement
from simulator.instruments.session import battery_drift
from simulator.instruments.take import UNMATCHED, technique_of
from simulator.instruments.techniques import UNZEROED, Felt
from simulator.instruments.tools import TOOLS
from simulator.plant.operating_point import OperatingPoint
from simulator.quantities.shown import from_display
from simulator.quantities.values import Array

DRAWS = (0.1, 0.3, 0.5, 0.7, 0.9)  # of a visit, level from 0 to 1 [-]
_DRIFTS = [battery_drift(float(x)) - 1.0 for x in np.linspace(0.0, 1.0, 101)]
DRIFT_MEAN, DRIFT_SPREAD = float(np.mean(_DRIFTS)), float(np.std(_DRIFTS))


class Error(NamedTuple):
    """Standard deviations in SI of the measurement's kind, or in proportion to the reading.

    ``own`` stays with one measurement through a visit, ``added`` and ``scaled`` with one tool,
    ``drift`` with all meters on one battery, ``fresh`` is new with every take.
    """

    tool: str
    own: float
    added: float
    scaled: float
    drift: float
    fresh: float
    drifted: float


def error_of(item: Measurement, prepared: frozenset[str]) -> Error:
    """Errors of a careful take.

    Parameters
    ----------
    item : Measurement
        What is taken.
    prepared : frozenset
        Steps done before.

    Returns
    -------
    Error
    """
    tool = TOOLS[item.tool_id]
    digit = abs(
        from_display(10.0**-tool.decimals, tool.kind, "us") - from_display(0.0, tool.kind, "us")
    )
    own, added = 0.0, tool.bias
    if tool is TOOLS["manometer"] and "zero_manometer" not in prepared:
        added = float(np.hypot(added, _unzeroed_spread()))
    elif tool.kind == "temperature" and "match_probes" not in prepared:
        own = UNMATCHED / np.sqrt(3.0)
    weak = tool.has_meter_battery and "check_batteries" not in prepared
    return Error(
        tool=item.tool_id,
        own=own,
        added=added,
        scaled=tool.relative_bias,
        drift=DRIFT_SPREAD if weak else 0.0,
        fresh=float(np.hypot(tool.noise, digit / np.sqrt(12.0))),
        drifted=1.0 + (DRIFT_MEAN if weak else 0.0),
    )


def _unzeroed_spread() -> float:
    point: OperatingPoint = None  # type: ignore[assignment]
    sizes = [UNZEROED(Felt(0.0, point, float(x))) for x in np.linspace(0.01, 0.99, 50)]
    return float(np.sqrt(np.mean(np.square(sizes))))


def felt(
    item: Measurement, technique: str, mean: Array, point: OperatingPoint
) -> tuple[Array, Array]:
    """What a technique makes of true values, over the draws a visit may have.

    Parameters
    ----------
    item : Measurement
        What is taken.
    technique : str
        How.
    mean : array
        True values, in SI. [-]
    point : OperatingPoint
        The sound house, for what surrounds the tool.

    Returns
    -------
    tuple
        Mean and standard deviation of what is felt, in SI. [-]
    """
    way = technique_of(item, technique)
    if technique == item.techniques[0].id:
        return mean, np.zeros_like(mean)
    found = np.array([[way.felt(Felt(float(x), point, d)) for d in DRAWS] for x in mean])
    return found.mean(axis=1), found.std(axis=1)
