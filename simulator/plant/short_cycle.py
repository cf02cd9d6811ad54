"""On and off again: a unit whose high-pressure switch opens and resets by itself."""

from dataclasses import dataclass, replace

import numpy as np

from simulator.components import outdoor_coil
from simulator.plant import balance, newton, steady
from simulator.plant.case import Case, chosen_case, high_limit, prepared
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.plant.stubborn import HEAD
from simulator.quantities.values import Array, Index, Mask

STEPS = 12
# Copper, aluminium and refrigerant of the condensing side that must warm before the switch
# opens, per watt of nominal capacity; common practice, no source [J/(K W)].
HEAT_CAPACITY = 2.5
RESET_DROP = 17.0  # condensing temperature below the cut-out at which it closes [delta K]
LEAST_HEAD = 2.0  # condensing over air from which a start is followed [delta K]
LEAST_OFF_TIME = 180.0  # anti-short-cycle timer, three minutes, common practice [s]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShortCycle:
    """One turn of a unit that trips and resets.

    Parameters
    ----------
    on_seconds, off_seconds : float
        From start to trip; from trip to the next start. [s]
    mean_capacity : float
        Over the turn, as if each moment were steady. [W]
    """

    on_seconds: float
    off_seconds: float
    mean_capacity: float

    @property
    def run_share(self) -> float:
        """Part of the time that the compressor runs.

        Returns
        -------
        float
            [-]
        """
        return self.on_seconds / (self.on_seconds + self.off_seconds)


def short_cycle(installation: Installation, conditions: Conditions) -> ShortCycle | None:
    """How a unit cycles on its high-pressure switch.

    The condensing side is one lump of heat capacity. Between start and trip it warms by
    what the coil falls short of shedding at each head; stopped, it cools by its air side.

    Parameters
    ----------
    installation : Installation
        As it stands.
    conditions : Conditions
        Weather, rooms, call.

    Returns
    -------
    ShortCycle or None
        None where the unit settles, or cannot start at all.
    """
    if steady.solve(installation, conditions).state != "high_pressure_trip":
        return None
    conditions = steady.actual(installation, conditions)
    case = prepared(installation, conditions)
    unit, fluid = installation.unit, case.fluid
    top = float(fluid.bubble_temperature(high_limit(case) - unit.outdoor_coil.pressure_drop))
    heating = conditions.mode == "heating"
    air = float(conditions.indoor_temperature if heating else conditions.outdoor_temperature)
    if top <= air + LEAST_HEAD:
        return None
    heads = np.linspace(air + LEAST_HEAD, top, STEPS)
    shortfall, capacity, balanced = _at_heads(installation, conditions, heads)
    if not balanced.any():
        return None
    rate = np.maximum(shortfall[balanced], 1.0)
    lump = HEAT_CAPACITY * float(unit.nominal_capacity)
    step = lump * (top - heads[0]) / balanced.sum()
    on = float(np.sum(step / rate))
    seconds = step / rate
    air_side = float(outdoor_coil.air_conductance(unit.outdoor_coil))
    if heating:
        air_side = float(unit.indoor_coil.dry_conductance)
    cooled = np.log((top - air) / max(top - RESET_DROP - air, 0.5))
    off = max(lump / air_side * float(cooled), LEAST_OFF_TIME)
    mean = float(np.sum(seconds * capacity[balanced])) / (on + off)
    return ShortCycle(on_seconds=on, off_seconds=off, mean_capacity=mean)


def _at_heads(
    installation: Installation, conditions: Conditions, heads: Array
) -> tuple[Array, Array, Mask]:
    """What the condensing coil falls short of [W], capacity [W], and where it balanced."""
    count = len(heads)
    around = replace(conditions, indoor_temperature=np.full(count, conditions.indoor_temperature))
    case: Case = prepared(installation, around)
    level = np.log(case.fluid.bubble_pressure(heads))

    def held(unknowns: Array, columns: Index) -> Array:
        value = balance.residuals(unknowns, chosen_case(case, columns))
        value[HEAD.balance] = unknowns[HEAD.unknown] - level[columns]
        return value

    start = steady.first_guess(case, count)
    start[HEAD.unknown] = level
    outcome = newton.solve(held, start, steady.search_box(case), tolerance=steady.TOLERANCE)
    now = balance.evaluate(outcome.unknowns, case).circuit
    gross = now.condenser_heat if conditions.mode == "heating" else now.evaporator_heat
    return (
        np.asarray(now.condensing_needed - now.condensing_available),
        np.broadcast_to(np.asarray(gross), count),
        outcome.converged,
    )
