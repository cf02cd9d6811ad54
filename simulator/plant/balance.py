"""All balances of a running installation for one guess of seven unknowns."""

from typing import NamedTuple

import numpy as np

from simulator.plant import circuit, coil_duty
from simulator.plant.air_states import AirStates, air_states, coil_air, entering_coil
from simulator.plant.case import Case
from simulator.plant.circuit import CircuitState, Guess, Surroundings
from simulator.plant.fixed_air import FixedAir, fixed_air
from simulator.plant.zone_balance import ZoneAir
from simulator.quantities.values import Array, Values

GRAM = 1000.0  # humidity is solved for in g/kg so that all unknowns are of like size


class Evaluation(NamedTuple):
    """One guess worked out."""

    circuit: CircuitState
    air: AirStates
    mixed: ZoneAir


def evaluate(unknowns: Array, case: Case, fixed: FixedAir | None = None) -> Evaluation:
    """Work a guess out.

    Parameters
    ----------
    unknowns : array
        Shape (7, ...). [-]
    case : Case
        What is held.
    fixed : FixedAir, optional
        Of the same case, where it is at hand.

    Returns
    -------
    Evaluation
        Balanced only at a solution.
    """
    unit, conditions = case.installation.unit, case.conditions
    fixed = fixed or fixed_air(case)
    guess = Guess(*(unknowns[index] for index in range(5)))
    air = coil_air(case, unknowns[5], unknowns[6] / GRAM)
    heating = conditions.mode == "heating"
    ratio = case.path.airflow / unit.rated_airflow
    indoors = coil_duty.indoors(unit, air, ratio, boiling=not heating)
    around = Surroundings(case.fluid, conditions, indoors, fixed.outdoors)
    state = circuit.evaluate(guess, unit, around)
    if heating:
        states = air_states(case, air, -state.condenser_heat, -state.condenser_heat, fixed)
    else:
        states = air_states(case, air, state.evaporator_heat, state.sensible_heat, fixed)
    mixed = entering_coil(case, states.return_zone, states.plenum, fixed)
    return Evaluation(state, states, mixed)


def residuals(unknowns: Array, case: Case, fixed: FixedAir | None = None) -> Array:
    """Seven balances of order one.

    Parameters
    ----------
    unknowns : array
        Shape (7, ...). [-]
    case : Case
        What is held.
    fixed : FixedAir, optional
        Of the same case, where it is at hand.

    Returns
    -------
    array
        Flow through compressor and metering device (logarithms), heat of both coils, charge,
        entering air; shape (7, ...). [-]
    """
    return imbalances(unknowns, case, evaluate(unknowns, case, fixed))


def imbalances(unknowns: Array, case: Case, done: Evaluation) -> Array:
    """What ``residuals`` gives, of a guess that is worked out already.

    Parameters
    ----------
    unknowns : array
        Shape (7, ...). [-]
    case : Case
        What is held.
    done : Evaluation
        Of these unknowns.

    Returns
    -------
    array
        Shape (7, ...). [-]
    """
    now, unit = done.circuit, case.installation.unit
    flow = unknowns[4]
    found = np.empty_like(unknowns)
    found[0] = np.log(now.swept_flow) - flow
    found[1] = np.log(now.metered_flow) - flow
    found[2], found[3], found[4], found[5] = _heat_and_air(unknowns, done, unit.nominal_capacity)
    found[6] = (now.charge - unit.charge) / unit.plate_charge
    return found


def _heat_and_air(
    unknowns: Array, done: Evaluation, nominal: Values
) -> tuple[Values, Values, Values, Values]:
    now = done.circuit
    return (
        (now.condensing_available - now.condensing_needed) / nominal,
        (now.boiling_available - now.boiling_needed) / nominal,
        (done.mixed.temperature - unknowns[5]) / 10.0,
        (done.mixed.humidity_ratio * GRAM - unknowns[6]) / 10.0,
    )


def sizing_residuals(unknowns: Array, case: Case, superheat: float, subcooling: float) -> Array:
    """The same balances with superheat and subcooling given instead of device and charge.

    Parameters
    ----------
    unknowns : array
        Shape (7, ...). [-]
    case : Case
        The reference point.
    superheat : float
        At the coil outlet. [delta K]
    subcooling : float
        At the liquid port. [delta K]

    Returns
    -------
    array
        Shape (7, ...). [-]
    """
    done = evaluate(unknowns, case)
    now = done.circuit
    reached = now.coil_outlet.temperature - now.low.dew_temperature
    cooled = now.high.bubble_temperature - now.liquid.temperature
    return np.stack(
        np.broadcast_arrays(
            np.log(now.swept_flow) - unknowns[4],
            (reached - superheat) / 10.0,
            *_heat_and_air(unknowns, done, case.installation.unit.nominal_capacity),
            (cooled - subcooling) / 10.0,
        )
    )
