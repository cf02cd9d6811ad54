"""A ten-coefficient map read over its envelope with the refrigerant's own tables."""

import numpy as np

from simulator.components import compressor_map
from simulator.components.compressor_map import CompressorMap, Efficiencies
from simulator.plant import refrigerant_side as side
from simulator.plant.parameter_file import ParameterFileError
from simulator.properties import refrigerant
from simulator.quantities.shown import from_display
from simulator.quantities.values import Array

# Dew points over which a map is read [°F]: where such a machine spends its life.
SUCTION = (10.0, 20.0, 30.0, 40.0, 50.0)
DISCHARGE = (80.0, 95.0, 110.0, 125.0)


def efficiencies_of(machine: CompressorMap, fluid_name: str, unloaded: float) -> Efficiencies:
    """Efficiencies that say what the map says.

    Parameters
    ----------
    machine : CompressorMap
        Ten coefficients twice.
    fluid_name : str
        The refrigerant they were measured with.
    unloaded : float
        Volumetric efficiency at a pressure ratio of one. [-]

    Returns
    -------
    Efficiencies
        With how far they stray from the map.

    Raises
    ------
    ParameterFileError
        If the map is of no compressor.
    """
    suction, discharge = (one.ravel() for one in np.meshgrid(SUCTION, DISCHARGE))
    flow = np.asarray(compressor_map.polynomial(machine.mass_flow, suction, discharge))
    power = np.asarray(compressor_map.polynomial(machine.power, suction, discharge))
    if flow.min() <= 0.0 or power.min() <= 0.0:
        raise ParameterFileError(
            "The compressor's ten coefficients give a negative flow or power inside "
            f"{SUCTION[0]:g} to {SUCTION[-1]:g} °F suction and {DISCHARGE[0]:g} to "
            f"{DISCHARGE[-1]:g} °F discharge."
        )
    fluid = refrigerant.load(fluid_name)
    low, high = (
        fluid.dew_pressure(from_display(dew, "temperature")) for dew in (suction, discharge)
    )
    boiling = fluid.saturation(np.log(low))

    gas = side.vapour_side(
        fluid,
        np.log(low),
        boiling,
        boiling.vapour_enthalpy + machine.superheat * _heat_capacity(fluid, low),
    )
    port = fluid.saturation(np.log(high))
    lift = np.asarray(side.isentropic_lift(fluid, np.log(high), port, gas, boiling))
    said = compressor_map.efficiencies(
        flow * compressor_map.POUND_PER_HOUR,
        power,
        np.asarray(gas.density),
        lift,
        np.asarray(high / low),
        unloaded,
    )
    if said is None or not 0.4 <= said.best_efficiency <= 0.85 or said.volumetric_slope < -0.02:
        raise ParameterFileError(
            "The compressor's ten coefficients are of no compressor: their efficiency over "
            "pressure ratio has no sound peak; look for swapped or missing coefficients."
        )
    return said


def _heat_capacity(fluid: refrigerant.Refrigerant, pressure: Array) -> Array:
    """Mean over the first ten kilojoules above the dew line [J/(kg K)]."""
    line = fluid.saturation(np.log(pressure))
    warmer = side.vapour_side(fluid, np.log(pressure), line, line.vapour_enthalpy + 1.0e4)
    return np.asarray(1.0e4 / (warmer.temperature - line.dew_temperature))
