"""What a refrigerant's tables answer."""

from typing import NamedTuple

from simulator.quantities.values import Values


class Saturation(NamedTuple):
    """Both saturation lines at one pressure: [K], [J/kg], [kg/m³], [J/(kg K)]."""

    dew_temperature: Values
    bubble_temperature: Values
    vapour_enthalpy: Values
    liquid_enthalpy: Values
    vapour_density: Values
    liquid_density: Values
    vapour_entropy: Values
    liquid_entropy: Values
    vapour_heat_capacity: Values
    liquid_heat_capacity: Values


class Vapour(NamedTuple):
    """Superheated state: [K], [kg/m³], [J/(kg K)]."""

    temperature: Values
    density: Values
    entropy: Values


class Liquid(NamedTuple):
    """Subcooled state: [K], [kg/m³]."""

    temperature: Values
    density: Values
