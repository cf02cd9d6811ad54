"""TESPy's nearest cycle: four parts, pressures from two temperatures, one flow."""

import logging
from typing import Any

from tespy.components import Compressor, CycleCloser, SimpleHeatExchanger, Valve
from tespy.connections import Connection
from tespy.networks import Network


def cycle(fluid: str = "R410A", evaporating: float = 8.5, condensing: float = 45.0) -> Any:
    """A network ready to be solved; temperatures in °C."""
    logging.getLogger("TESPyLogger").setLevel(logging.CRITICAL)
    network = Network(iterinfo=False)
    network.units.set_defaults(
        temperature="degC", pressure="bar", enthalpy="kJ/kg", pressure_difference="bar"
    )
    closer, compressor, condenser, valve, evaporator = (
        CycleCloser("closer"),
        Compressor("compressor"),
        SimpleHeatExchanger("condenser"),
        Valve("valve"),
        SimpleHeatExchanger("evaporator"),
    )
    suction = Connection(closer, "out1", compressor, "in1", label="suction")
    hot = Connection(compressor, "out1", condenser, "in1", label="hot")
    liquid = Connection(condenser, "out1", valve, "in1", label="liquid")
    cold = Connection(valve, "out1", evaporator, "in1", label="cold")
    back = Connection(evaporator, "out1", closer, "in1", label="back")
    network.add_conns(suction, hot, liquid, cold, back)
    compressor.set_attr(eta_s=0.7)
    condenser.set_attr(pr=0.98, Q=-13000)
    evaporator.set_attr(pr=0.98)
    suction.set_attr(fluid={fluid: 1}, td_dew=5.5, T_dew=evaporating)
    liquid.set_attr(td_bubble=5.5, T_bubble=condensing)
    return network


def solve(network: Any) -> None:
    """One design solution."""
    network.solve("design")
