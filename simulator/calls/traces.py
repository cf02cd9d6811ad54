"""What carelessness leaves behind in a unit: gas in hoses, a filter beside its slot, a jumper."""

from collections.abc import Iterable
from dataclasses import replace

from simulator.calls.events import Event, Measured, Prepared, Repaired
from simulator.instruments.part_looks import BRIDGED
from simulator.instruments.steps import LONG_HOSES
from simulator.plant.installation import Installation
from simulator.repairs._catalogue import discover

FILTER_OUT, JUMPER_ON, GAS_LOST = "filter_left_out", "jumper_left_on", "gas_lost_to_hoses"
OUNCE = 0.0283495  # [kg]
CONNECTIONS = 2
# Of each connection, the project's background on the trade: 1 to 2 oz.
LEAST_LOST, MOST_LOST = CONNECTIONS * OUNCE, 2.0 * CONNECTIONS * OUNCE  # [kg]
LEAST_LEFT = 0.05  # of the plate's charge [-]
TEST_INTERVAL = 600.0  # between defrosts while the pins are bridged; common practice [s]
MOVES_GAS = frozenset({"add_refrigerant", "recover_refrigerant"})


def left_after(left: frozenset[str], event: Event) -> frozenset[str]:
    """What is still there after one more event.

    Parameters
    ----------
    left : frozenset
        What was there before it.
    event : Event
        What happened.

    Returns
    -------
    frozenset
    """
    match event:
        case Prepared(step=step) if step == LONG_HOSES:
            return left | {GAS_LOST}
        case Measured(reading=reading) if reading.measurement == "look_filter":
            is_out = reading.technique != "careful"
            return left | {FILTER_OUT} if is_out else left - {FILTER_OUT}
        case Measured(reading=reading) if (reading.words or "").startswith(BRIDGED):
            is_on = reading.technique != "careful"
            return left | {JUMPER_ON} if is_on else left - {JUMPER_ON}
        case Repaired(repair="replace_filter"):
            return left - {FILTER_OUT}
        case Repaired(repair=code) if code not in MOVES_GAS:
            act = discover().get(code)
            return left - {GAS_LOST} if act is not None and act.disturbs_charge else left
        case _:
            return left


def acts_along(events: Iterable[Event]) -> tuple[tuple[str, float | None], ...]:
    """Repairs and what carelessness did, as a site needs them.

    Parameters
    ----------
    events : iterable
        Oldest first.

    Returns
    -------
    tuple
        Code and amount, oldest first; what can be put back by hand is last while it lasts.
    """
    acts: list[tuple[str, float | None]] = []
    left: frozenset[str] = frozenset()
    for event in events:
        left = left_after(left, event)
        if isinstance(event, Repaired):
            acts.append((event.repair, event.amount))
        elif isinstance(event, Prepared) and event.step == LONG_HOSES:
            acts.append((GAS_LOST, None))
    return (*acts, *((code, None) for code in (FILTER_OUT, JUMPER_ON) if code in left))


def traced(code: str, installation: Installation, draw: float) -> Installation | None:
    """A unit with one trace of carelessness.

    Parameters
    ----------
    code : str
        Of a trace, or of a repair.
    installation : Installation
        As it stood.
    draw : float
        The visit's own, from 0 to 1. [-]

    Returns
    -------
    Installation or None
        None where the code is a repair's.
    """
    unit = installation.unit
    if code == GAS_LOST:
        gone = LEAST_LOST + (MOST_LOST - LEAST_LOST) * draw
        charge = max(unit.charge - gone, LEAST_LEFT * unit.plate_charge)
        return replace(installation, unit=replace(unit, charge=charge))
    if code == FILTER_OUT:
        return replace(installation, ducts=replace(installation.ducts, filter_loading=0.0))
    if code == JUMPER_ON:
        often = replace(installation.controls, defrost_interval=TEST_INTERVAL, defrost_demand=0.0)
        return replace(installation, controls=often)
    return None
