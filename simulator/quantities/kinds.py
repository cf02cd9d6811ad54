"""Kinds of quantity: the SI unit inside, the unit shown in each system, its decimals."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Display:
    """How one system shows a kind: ``shown = (si - offset) / scale``.

    Parameters
    ----------
    unit : str
        As printed.
    scale : float
        One printed unit in SI. [-]
    offset : float
        SI value of a printed zero. [-]
    decimals : int
        Usual number of them.
    """

    unit: str
    scale: float
    offset: float = 0.0
    decimals: int = 1


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of quantity.

    Parameters
    ----------
    si : str
        Unit inside.
    us, metric : Display
        Technician's units.
    """

    si: str
    us: Display
    metric: Display


def _same(si: str, display: Display) -> Kind:
    return Kind(si, display, display)


PSI = 6894.757293168
INCH_OF_WATER = 249.08891
CFM = 0.3048**3 / 60.0
BTU_PER_HOUR = 0.29307107017
POUND = 0.45359237

# A temperature and a temperature difference are different kinds, as are a gauge pressure
# (already less the barometer) and a static pressure against the room.
KINDS: dict[str, Kind] = {
    "temperature": Kind("K", Display("°F", 5 / 9, 459.67 * 5 / 9), Display("°C", 1.0, 273.15)),
    "temperature_difference": Kind("delta K", Display("°F", 5 / 9), Display("K", 1.0)),
    "gauge_pressure": Kind("Pa", Display("psig", PSI), Display("kPa", 1000.0, decimals=0)),
    "pressure_difference": Kind("Pa", Display("psi", PSI), Display("kPa", 1000.0)),
    "static_pressure": Kind(
        "Pa", Display("in wc", INCH_OF_WATER, decimals=2), Display("Pa", 1.0, decimals=0)
    ),
    "house_pressure": _same("Pa", Display("Pa", 1.0)),
    "airflow": Kind("m³/s", Display("cfm", CFM, decimals=0), Display("L/s", 0.001, decimals=0)),
    "current": _same("A", Display("A", 1.0)),
    "voltage": _same("V", Display("V", 1.0)),
    "voltage_drop": _same("V", Display("mV", 0.001, decimals=0)),
    "resistance": _same("ohm", Display("Ω", 1.0)),
    "insulation_resistance": _same("ohm", Display("MΩ", 1e6, decimals=0)),
    "capacitance": _same("F", Display("µF", 1e-6)),
    "power": _same("W", Display("W", 1.0, decimals=0)),
    "electric_load": _same("W", Display("kW", 1000.0)),
    "energy": _same("J", Display("kWh", 3.6e6)),
    "heat_rate": Kind(
        "W", Display("Btu/h", BTU_PER_HOUR, decimals=0), Display("kW", 1000.0, decimals=2)
    ),
    "mass": Kind("kg", Display("lb", POUND, decimals=2), Display("kg", 1.0, decimals=2)),
    "small_mass": Kind("kg", Display("oz", POUND / 16.0), Display("g", 0.001, decimals=0)),
    "mass_flow": Kind("kg/s", Display("lb/min", POUND / 60.0, decimals=2), Display("g/s", 0.001)),
    "condensate_rate": Kind("kg/s", Display("lb/h", POUND / 3600.0), Display("kg/h", 1 / 3600.0)),
    "humidity_ratio": Kind("kg/kg", Display("gr/lb", 1 / 7000.0), Display("g/kg", 0.001)),
    "relative_humidity": _same("-", Display("%", 0.01, decimals=0)),
    "concentration": _same("-", Display("ppm", 1e-6, decimals=0)),
    "fraction": _same("-", Display("%", 0.01, decimals=0)),
    "ratio": _same("-", Display("", 1.0, decimals=2)),
    "duration": _same("s", Display("min", 60.0, decimals=0)),
    "money": _same("$", Display("$", 1.0, decimals=0)),
    "area": Kind("m²", Display("in²", 0.0254**2, decimals=0), Display("cm²", 1e-4, decimals=0)),
    "rotational_speed": _same("rad/s", Display("rpm", 0.10471975512, decimals=0)),
}
