"""What the stand says of a state, and of what the readings add up to."""

from simulator.plant import parameter_file
from simulator.plant.operating_point import OperatingPoint
from simulator.plant.parameter_file import ParameterFileError
from simulator.quantities.shown import show
from simulator.serve.bench_readings import frost_of
from simulator.serve.stand.limits import UNITS
from simulator.serve.stand.notes import NOT_FOUND
from simulator.serve.stand.own_files import source_of
from simulator.serve.stand_page.delivery import heat

WATTS_PER_TON = 3516.85  # by definition [W]
STATES = {
    "running": "Running and settled.",
    "high_pressure_trip": "The high-pressure switch has opened: the compressor stands.",
    "low_pressure_trip": "The low-pressure switch has opened: the compressor stands.",
    "overload_trip": "The compressor ran too hot: its overload protector has opened.",
    "compressor_off": "The compressor stands; the blower runs.",
    "off": "Everything stands.",
    "no_solution": NOT_FOUND,
}


def unit_said(unit: str) -> str:
    """A unit as its plate has it, so that one can be chosen by size and refrigerant.

    Parameters
    ----------
    unit : str
        Equipment file, shipped or one's own.

    Returns
    -------
    str
    """
    try:
        plate = parameter_file.read("equipment", source_of("unit", unit)).table("plate")
        if "nominal_tons" in plate.rows:
            tons = plate.number("nominal_tons", "ton")
        else:
            tons = plate.number("nominal_capacity", "W") / WATTS_PER_TON
        own = "" if unit in UNITS else f" ({unit}.toml)"
        return f"{plate.word('name')}, {tons:.3g} tons, {plate.word('refrigerant')}{own}"
    except ParameterFileError:
        return unit  # one's own, which says what is wrong with it when it is chosen


def state_text(now: OperatingPoint, called: str) -> str:
    """The state in a sentence.

    Parameters
    ----------
    now : OperatingPoint
        As it is.
    called : str
        Mode that the thermostat calls for.

    Returns
    -------
    str
    """
    if now.state == "running" and now.mode != called:
        return f"Running and settled, but {now.mode} where {called} is called for."
    # A state that has no sentence yet still has its name.
    return STATES.get(now.state, f"The compressor stands: {now.state.replace('_', ' ')}.")


def meaning(now: OperatingPoint, ghost: OperatingPoint, called: str, system: str) -> list[str]:
    """What the readings add up to, in sentences.

    Parameters
    ----------
    now, ghost : OperatingPoint
        With faults, and without.
    called : str
        Mode that the thermostat calls for.
    system : str
        ``us`` or ``si``.

    Returns
    -------
    list
        Sentences.
    """
    if now.state != "running":
        return [state_text(now, called)]

    def share(name: str) -> str:
        fine = float(getattr(ghost, name))
        if ghost.state != "running" or now.mode != ghost.mode or fine <= 0.0:
            return "which healthy does not"
        return f"{100 * float(getattr(now, name)) / fine:.0f} % of healthy"

    coil, rooms = heat(float(now.gross_capacity), system), float(now.delivered_capacity)
    watts = show(float(now.outdoor_power + now.air_handler_power), "power", system)
    part = share("gross_capacity")
    first = f"The coil takes {coil} from the air, {part}."
    if now.mode == "heating":
        first = f"The coil gives {coil} to the air, {part}."
    said = [first]
    if now.mode != called:
        said.append(f"The thermostat calls for {called}.")
    else:
        said.append(f"{heat(rooms, system)} reach the rooms, {share('delivered_capacity')}.")
    said.append(f"For that the house draws {watts} while it runs.")
    if called == "heating":
        said.append(_frost(now, system))
    return said


def _frost(now: OperatingPoint, system: str) -> str:
    found = frost_of(now)
    if found["collecting_frost"]["value"]:
        rate = show(float(now.frost_rate), "condensate_rate", system, decimals=2)
        return f"The outdoor coil is below freezing and collects {rate} of frost."
    if found["coil_below_freezing"]["value"]:
        return "The outdoor coil is below freezing; the air is too dry to frost it."
    return "The outdoor coil is above freezing: no frost."
