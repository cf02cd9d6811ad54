"""The cycle of frosting and defrost: what it leaves of capacity, and what it costs.

References
----------
.. [1] 10 CFR 430, subpart B, appendix M: without a frosting test, capacity at 35 °F is taken as
   0.90 of that on the line from 17 °F to 47 °F, power as 0.985; a demand board is credited with 3 %
   of the season at most over defrosts each 90 minutes; a start after 24 minutes of standing loses
   75 s of heat by the default coefficient of degradation of 0.25, 30 s by the 0.10 that units
   test to (all from memory; seconds by arithmetic).
.. [2] Zhu, Sun, Wang, Deng, Ge, Li, Applied Thermal Engineering, 2015, as the AixLib library tells
   it: defrosts each 30, 60 and 165 minutes suit severe, moderate and mild frosting.
"""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from simulator.plant.conditions import Conditions
from simulator.plant.frosting import (
    FREEZING,
    MELTING_HEAT,
    STEP,
    Frosting,
    board,
    frosting,
    grown,
    is_enabled,
)
from simulator.plant.installation import Installation
from simulator.quantities.values import Array

ICE_HEAT = 2100.0  # of ice below freezing [J/(kg K)], CRC Handbook of Chemistry and Physics
# What warms metal and ice, over all heat brought to them; the rest leaves with air, steam and
# warm melt. Dong, Deng, Jiang, Xia, Yao, Applied Energy 96, 2012: 60 % of it melts the ice
# (from memory), and metal takes some more: after an hour of frost at 35 °F these come to 59 %.
MELTING_SHARE = 0.8
# Each turn of the valve costs before and after it, however little ice there is. O'Neal, Peterson,
# Anand, Schliesing, ASHRAE Transactions 95(2), 1989, from memory: pressures cross over first, and
# charge and heat come back to the indoor coil slowly. Sizes chosen; the second within [1].
TURNING = 20.0  # neither coil is heated [s]
RECOVERY = 40.0  # of a clean coil's heat missed after each [s]
METAL = 1.0  # of the coil, per watt nominal; 12 kg on 3 tons, common practice [J/(K W)]
STANDS = 1.0  # what takes less does not run [W]
LAST_HOUR = 3600.0  # without a defrost, this much of the end is averaged [s]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cycle:
    """From one defrost to the end of the next, compressor called for throughout.

    Parameters
    ----------
    seconds : array
        Since the last defrost. [s]
    frost : array
        On the coil at each of them. [kg]
    clean_capacity, clean_power : float
        Delivered, and of the whole system without strips, with no frost. [W]
    mean_capacity, mean_power : float
        The same over the cycle, defrost counted; strips are in neither. [W]
    compressor_share, fan_share, blower_share : float
        Mean power of each part over that with no frost. [-]
    tempering : float
        Mean power of strips that make good what a defrost takes from the rooms. [W]
    defrosts_per_hour : float
        Started in an hour of running. [-]
    defrost_seconds : float
        Length of one. [s]
    ice_left : float
        On the coil at the end. [kg]
    """

    seconds: Array
    frost: Array
    clean_capacity: float
    clean_power: float
    mean_capacity: float
    mean_power: float
    compressor_share: float
    fan_share: float
    blower_share: float
    tempering: float
    defrosts_per_hour: float
    defrost_seconds: float
    ice_left: float

    @property
    def defrost_share(self) -> float:
        """Part of the time spent in defrost.

        Returns
        -------
        float
            [-]
        """
        return self.defrosts_per_hour * self.defrost_seconds / 3600.0


class _Melt(NamedTuple):
    """One defrost: how long, how much of it with hot gas outdoors [s], ice left [kg]."""

    seconds: float
    hot: float
    left: float


def cycle(installation: Installation, conditions: Conditions) -> Cycle:
    """The settled cycle of frosting and defrost.

    Parameters
    ----------
    installation : Installation
        Floats.
    conditions : Conditions
        Floats, heating.

    Returns
    -------
    Cycle
        The last of those it takes until ice left over repeats itself. With no defrost, frost
        over six hours of running, and means over the last of them.
    """
    return cycles(installation, frosting(installation, [conditions]))[0]


def cycles(installation: Installation, frosted: Frosting, thaw: Array | None = None) -> list[Cycle]:
    """The settled cycle at each of the conditions.

    Parameters
    ----------
    installation : Installation
        Floats.
    frosted : Frosting
        As solved.
    thaw : array, optional
        Frost that melts between calls at each of them, over running time. [kg/s]

    Returns
    -------
    list
        One cycle a row.
    """
    thawed = np.zeros(len(frosted.rate)) if thaw is None else thaw
    return [_settled(installation, frosted, row, float(melts)) for row, melts in enumerate(thawed)]


def _settled(installation: Installation, frosted: Frosting, row: int, thaw: float) -> Cycle:
    starts = board(installation)._replace(thaw=thaw)
    if not is_enabled(installation):
        frost = grown(frosted, row, starts)
        return _summed(frosted, row, frost, _Melt(0.0, 0.0, float(frost[-1])))
    melt = _Melt(0.0, 0.0, 0.0)
    for _ in range(6):
        frost = grown(frosted, row, starts._replace(standing=melt.left))
        cold = float(np.interp(frost[-1], frosted.masses, frosted.evaporating[row]))
        # The board counts only while its sensor is below freezing.
        if cold >= FREEZING:
            return _summed(frosted, row, frost, _Melt(0.0, 0.0, float(frost[-1])))
        before, melt = melt, _melted(installation, frosted, float(frost[-1]), cold)
        if abs(melt.left - before.left) < 1e-3:
            break
    return _summed(frosted, row, frost, melt)


def _melted(installation: Installation, frosted: Frosting, frost: float, cold: float) -> _Melt:
    """Heat for coil and ice: up to freezing, through melting, up to the end temperature."""
    metal = METAL * float(np.asarray(installation.unit.nominal_capacity))
    end = float(np.asarray(installation.controls.defrost_end_temperature))
    limit = float(np.asarray(installation.controls.defrost_limit))
    warming = (metal + ICE_HEAT * frost) * max(min(FREEZING, end) - cold, 0.0)
    melting = MELTING_HEAT * frost if end > FREEZING else 0.0
    after = metal * max(end - FREEZING, 0.0)
    power = MELTING_SHARE * max(frosted.reversed_heat, 1.0)
    hot = min((warming + melting + after) / power, max(limit - TURNING, 0.0))
    molten = np.clip((power * hot - warming) / MELTING_HEAT, 0.0, frost)
    return _Melt(TURNING + hot, hot, float(frost - molten) if end > FREEZING else frost)


def _summed(frosted: Frosting, row: int, frost: Array, melt: _Melt) -> Cycle:
    """Means over heating and defrost; without one, over the last hour.

    A compressor that stands with a clean coil gathers no frost and is never reversed: all stays
    as it is.
    """
    if float(frosted.compressor[row, 0]) < STANDS:
        frost, melt = 0.0 * frost, _Melt(0.0, 0.0, 0.0)
    along = frost if melt.seconds > 0.0 else frost[-1 - round(LAST_HOUR / STEP) :]
    heating = STEP * (len(along) - 1)
    whole = heating + melt.seconds

    def mean(table: Array, in_defrost: float, seconds: float = melt.seconds) -> float:
        now = np.interp(along, frosted.masses, table[row])
        return float((np.trapezoid(now, dx=STEP) + in_defrost * seconds) / whole)

    clean = (frosted.compressor[row, 0], frosted.fan[row, 0], frosted.blower[row, 0])
    parts = (
        mean(frosted.compressor, frosted.reversed_power),
        mean(frosted.fan, 0.0),  # the fan stands while the coil melts
        mean(frosted.blower, float(frosted.blower[row, 0])),
    )
    missed = RECOVERY * float(frosted.capacity[row, 0]) if melt.seconds > 0.0 else 0.0
    shares = [
        float(now / one) if one >= STANDS else 1.0 for now, one in zip(parts, clean, strict=True)
    ]
    return Cycle(
        seconds=np.asarray(STEP * np.arange(len(frost)), dtype=np.float64),
        frost=frost,
        clean_capacity=float(frosted.capacity[row, 0]),
        clean_power=float(sum(clean)),
        mean_capacity=mean(frosted.capacity, -frosted.reversed_cooling, melt.hot) - missed / whole,
        mean_power=float(sum(parts)),
        compressor_share=shares[0],
        fan_share=shares[1],
        blower_share=shares[2],
        tempering=max(frosted.reversed_cooling, 0.0) * melt.hot / whole,
        defrosts_per_hour=3600.0 / whole if melt.seconds > 0.0 else 0.0,
        defrost_seconds=melt.seconds,
        ice_left=melt.left,
    )
