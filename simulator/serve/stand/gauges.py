"""Tables of another refrigerant: in the gauges; and where those of the circuit's own end."""

from simulator.plant.case import TABLES_LEFT
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.properties import refrigerant
from simulator.properties.moist_air import STANDARD_PRESSURE
from simulator.quantities.shown import show

GAUGE_FED = ("superheat", "subcooling")  # worked out in the gauges, by the refrigerant set there


def by_gauges(name: str, point: OperatingPoint, gauges: str) -> float:
    """Superheat or subcooling by the pressures of the refrigerant that the gauges are set to.

    Parameters
    ----------
    name : str
        One of ``GAUGE_FED``.
    point : OperatingPoint
        Floats.
    gauges : str
        Whose table they use.

    Returns
    -------
    float
        What the display says. [delta K]
    """
    fluid = refrigerant.load(gauges)
    if name == "superheat":
        pressure = max(float(point.suction_pressure), fluid.lowest_pressure)
        return float(point.suction_line_temperature - fluid.dew_temperature(pressure))
    pressure = min(float(point.liquid_pressure), fluid.highest_pressure)
    return float(fluid.bubble_temperature(pressure) - point.liquid_line_temperature)


def gauges_said(gauges: str | None, circuit: str) -> list[str]:
    """What a table that is not the circuit's own does to the figures.

    Parameters
    ----------
    gauges : str or None
        Refrigerant that the gauges are set to; None for what is in the circuit.
    circuit : str
        What is in the circuit.

    Returns
    -------
    list
        One sentence, or none.
    """
    if gauges is None or gauges == circuit:
        return []
    return [
        f"The gauges are set to {gauges}, in the circuit is {circuit}: superheat and subcooling "
        "are worked out with the wrong table."
    ]


def beyond_said(point: OperatingPoint, gauges: str | None, system: str = "us") -> list[str]:
    """That the head stands above the table the gauges are set to.

    Parameters
    ----------
    point : OperatingPoint
        Floats.
    gauges : str or None
        Refrigerant that the gauges are set to; None for what is in the circuit.
    system : str
        ``us`` or ``si``: in whose units the sentence speaks.

    Returns
    -------
    list
        One sentence, or none.
    """
    if gauges is None:
        return []
    end = refrigerant.load(gauges).highest_pressure
    if float(point.liquid_pressure) <= end:
        return []
    told = show(end - STANDARD_PRESSURE, "gauge_pressure", system, decimals=0)
    return [f"The table of {gauges} ends at {told}: subcooling is worked out with its last row."]


def limit_said(point: OperatingPoint) -> list[str]:
    """That the strips' own limit opens and closes.

    Parameters
    ----------
    point : OperatingPoint
        Floats.

    Returns
    -------
    list
        One sentence, or none.
    """
    duty = float(point.strip_duty)
    if duty >= 1.0:
        return []
    return [
        f"The strips' limit opens and closes: they are on {100.0 * duty:.0f} % of the time, and "
        "amps and watts are means over that."
    ]


def switch_said(built: Installation, state: str, system: str = "us") -> list[str]:
    """That a trip is told below the unit's own switch, where another refrigerant's tables end.

    Parameters
    ----------
    built : Installation
        As it stands.
    state : str
        Of the operating point.
    system : str
        ``us`` or ``si``: in whose units the sentence speaks.

    Returns
    -------
    list
        One sentence, or none.
    """
    fluid, own = built.unit.refrigerant, float(built.unit.high_cut_out)
    end = refrigerant.load(fluid).highest_pressure - TABLES_LEFT
    if state != "high_pressure_trip" or end >= own:
        return []
    known, switch = (
        str(show(pressure - STANDARD_PRESSURE, "gauge_pressure", system, decimals=0))
        for pressure in (end, own)
    )
    return [
        f"The tables of {fluid} end at {known} and this unit's switch opens at {switch}: a head "
        "above the tables is told as a trip, never as a number."
    ]
