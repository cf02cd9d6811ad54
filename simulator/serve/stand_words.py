"""What the stand says of a state, and of what the readings add up to."""

from simulator.plant.operating_point import OperatingPoint
from simulator.quantities.shown import show
from simulator.serve.bench_readings import frost_of
from simulator.serve.stand_delivery import heat

STATES = {
    "running": "Running and settled.",
    "high_pressure_trip": "The high-pressure switch has opened: the compressor stands.",
    "low_pressure_trip": "The low-pressure switch has opened: the compressor stands.",
    "overload_trip": "The compressor ran too hot: its overload protector has opened.",
    "compressor_off": "The compressor stands; the blower runs.",
    "off": "Everything stands.",
    "no_solution": "No steady state was found for this setting; the readings are those at rest.",
}


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
        return f"The outdoor coil boils below freezing and collects {rate} of frost."
    if found["coil_below_freezing"]["value"]:
        return "The outdoor coil boils below freezing; the air is too dry to frost it."
    return "The outdoor coil boils above freezing: no frost."
