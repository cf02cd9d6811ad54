"""Suction line, liquid line and what else holds refrigerant."""

from dataclasses import dataclass

import numpy as np

from simulator.quantities.values import Values


@dataclass(frozen=True, slots=True, kw_only=True)
class RefrigerantLines:
    """What joins the two coils.

    Parameters
    ----------
    suction_volume : float
        Of the suction line. [m³]
    suction_pressure_drop : float
        At rated flow. [Pa]
    suction_conductance : float
        From the air around it. [W/K]
    liquid_volume : float
        Of the liquid line. [m³]
    liquid_pressure_drop : float
        At rated flow, clean drier included. [Pa]
    restriction : float
        Pressure drop of an obstruction in the liquid line at rated flow. [Pa]
    suction_restriction : float
        Pressure drop of an obstruction in the suction line at rated flow of suction gas; while
        heating that pipe carries hot gas. [Pa]
    lift : float
        Height of the indoor coil over the outdoor unit. [m]
    compensator_volume : float
        Of the vessel that fills with liquid while heating. [m³]
    accumulator_volume : float
        Liquid the suction accumulator holds below the mouth of its outlet. [m³]
    accumulator_return : float
        Liquid its oil hole lets through when it is full. [kg/s]
    discharge_volume : float
        Of the discharge line and the high side of the shell. [m³]
    shell_volume : float
        Low side of the compressor shell. [m³]
    oil_mass : float
        In the compressor. [kg]
    oil_solubility : float
        Refrigerant dissolved in oil per unit of suction pressure. [1/Pa]
    """

    suction_volume: Values
    suction_pressure_drop: Values
    suction_conductance: Values
    liquid_volume: Values
    liquid_pressure_drop: Values
    restriction: Values
    suction_restriction: Values
    lift: Values
    compensator_volume: Values
    accumulator_volume: Values
    accumulator_return: Values
    discharge_volume: Values
    shell_volume: Values
    oil_mass: Values
    oil_solubility: Values

    @property
    def large_pipe_drop(self) -> Values:
        """Of the suction line with what obstructs it, at rated suction gas.

        Returns
        -------
        float
            [Pa]
        """
        return self.suction_pressure_drop + self.suction_restriction


def square_law_drop(drop_at_rated: Values, flow_over_rated: Values) -> Values:
    """Turbulent pressure drop at another flow.

    Parameters
    ----------
    drop_at_rated : float
        [Pa]
    flow_over_rated : float
        [-]

    Returns
    -------
    float
        [Pa]
    """
    return drop_at_rated * flow_over_rated**2


def line_gain(
    conductance: Values, surroundings: Values, inlet: Values, capacity_rate: Values
) -> Values:
    """Heat a pipe takes from the air around it.

    Parameters
    ----------
    conductance : float
        [W/K]
    surroundings, inlet : float
        Temperatures. [K]
    capacity_rate : float
        Mass flow times heat capacity inside. [W/K]

    Returns
    -------
    float
        [W]
    """
    return capacity_rate * (surroundings - inlet) * -np.expm1(-conductance / capacity_rate)


def accumulated(lines: RefrigerantLines, liquid_flow: Values, liquid_density: Values) -> Values:
    """Refrigerant in the suction accumulator of a unit in a steady state.

    What arrives as liquid leaves through the oil hole, the faster the higher it stands; once
    it stands at the outlet's mouth the rest goes over.

    Parameters
    ----------
    lines : RefrigerantLines
        Tell the vessel and its hole.
    liquid_flow : float
        Arriving with the suction gas. [kg/s]
    liquid_density : float
        [kg/m³]

    Returns
    -------
    float
        [kg]
    """
    level = np.minimum(liquid_flow / lines.accumulator_return, 1.0)
    return level * lines.accumulator_volume * liquid_density
