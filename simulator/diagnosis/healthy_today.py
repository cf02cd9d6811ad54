"""What a sound unit of a call would show today: the plant's own answer, not the unit's.

The unit that stands there is never asked: only the call's public file is.
"""

from simulator.calls.call_file import CallFile
from simulator.calls.sound_units import sound_unit
from simulator.calls.visit import Visit
from simulator.diagnosis.expected import Expected, conditions_of
from simulator.diagnosis.likelihood import When, take_of, variance
from simulator.instruments import sight
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.tools import TOOLS
from simulator.plant import standing
from simulator.quantities.shown import show

ORDINARY = 2.0  # standard deviations either way that nobody should wonder at [-]
STEADY = 60.0  # in minutes


def healthy_words(
    measurement: str, is_running: bool, visit: Visit, call: CallFile, table: Expected, system: str
) -> str:
    """What a sound unit would show, in a sentence.

    Parameters
    ----------
    measurement : str
        Taken with care, steady.
    is_running : bool
        Whether the system runs for it.
    visit : Visit
        Gives the minute and what was prepared.
    call : CallFile
        The public part.
    table : Expected
        Of the call.
    system : str
        Units, ``us`` or ``si``.

    Returns
    -------
    str
    """
    item = MEASUREMENTS[measurement]
    installation = sound_unit(call.unit, call.metering, call.house)
    point = table.sound
    if not is_running:
        point = standing.at_rest(installation, conditions_of(call))
    if not item.has_number:
        said = sight.words(measurement, installation, point, {})
        return f"On a sound system of this kind you would find: {said}"
    if item.unfit is not None and (unfit := item.unfit(point)) is not None:
        return f"A sound system gives no number for it here today: {unfit}"
    middle, low, high = expected_range(measurement, is_running, visit, call, table)
    decimals = TOOLS[item.tool_id].decimals if system == "us" else None
    around, least, most = (show(x, item.kind, system, decimals) for x in (middle, low, high))
    return (
        f"With everything sound, expect about {around} here today, steady; "
        f"from {least.text} to {most} is still ordinary."
    )


def expected_range(
    measurement: str, is_running: bool, visit: Visit, call: CallFile, table: Expected
) -> tuple[float, float, float]:
    """The middle of what sound units show, and what lies within the ordinary.

    Parameters
    ----------
    measurement : str
        With a number.
    is_running : bool
        Whether the system runs for it.
    visit : Visit
        Gives the minute and what was prepared.
    call : CallFile
        The public part.
    table : Expected
        Of the call.

    Returns
    -------
    tuple
        Middle, lowest and highest, in SI. [-]
    """
    when = When(visit.minute, is_running, STEADY, visit.prepared, "careful", visit.left)
    take = take_of(measurement, when, table, call)
    sound = [
        cell for cell, owner in enumerate(table.owner.tolist()) if not table.listed[owner].causes
    ]
    cell = max(sound, key=lambda one: table.weight[one])
    middle = float(take.mean[cell])
    wide = ORDINARY * float(variance(take)[cell]) ** 0.5
    return middle, middle - wide, middle + wide
