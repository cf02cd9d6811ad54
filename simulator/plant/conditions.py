"""What surrounds the installation."""

from dataclasses import dataclass

from simulator.properties import moist_air
from simulator.quantities.values import Values


@dataclass(frozen=True, slots=True, kw_only=True)
class Conditions:
    """Weather, rooms and supply, held while the plant settles.

    Parameters
    ----------
    outdoor_temperature : float
        In the shade. [K]
    outdoor_humidity_ratio : float
        [kg/kg]
    indoor_temperature : float
        At the return grille. [K]
    indoor_humidity_ratio : float
        At the return grille. [kg/kg]
    solar : float
        On a horizontal surface. [W/m²]
    voltage : float
        At the equipment. [V]
    pressure : float
        Barometric. [Pa]
    mode : str
        What the thermostat calls for: ``cooling`` or ``heating``.
    auxiliary_call : float
        Part of the strips called for. [-]
    zone_call : float
        Which zone calls: 0 both, 1 or 2. [-]
    compressor_call : float
        0 where the thermostat leaves the compressor out. [-]
    """

    outdoor_temperature: Values
    outdoor_humidity_ratio: Values
    indoor_temperature: Values
    indoor_humidity_ratio: Values
    solar: Values = 800.0
    voltage: Values = 240.0
    pressure: Values = 101325.0
    mode: str = "cooling"
    auxiliary_call: Values = 0.0
    zone_call: Values = 0.0
    compressor_call: Values = 1.0


def from_wet_bulb(
    *,
    outdoor: float,
    return_temperature: float,
    return_wet_bulb: float,
    outdoor_humidity: float = 0.40,
    pressure: float = 101325.0,
    mode: str = "cooling",
) -> Conditions:
    """Conditions as a technician names them.

    Parameters
    ----------
    outdoor : float
        Outdoor dry bulb. [K]
    return_temperature, return_wet_bulb : float
        At the return grille. [K]
    outdoor_humidity : float
        Relative. [-]
    pressure : float
        Barometric. [Pa]
    mode : str
        What the thermostat calls for.

    Returns
    -------
    Conditions
        With strong sun and nominal voltage.
    """
    return Conditions(
        outdoor_temperature=outdoor,
        outdoor_humidity_ratio=float(moist_air.humidity_ratio(outdoor, outdoor_humidity, pressure)),
        indoor_temperature=return_temperature,
        indoor_humidity_ratio=float(
            moist_air.humidity_ratio_from_wet_bulb(return_temperature, return_wet_bulb, pressure)
        ),
        pressure=pressure,
        mode=mode,
    )
