"""How long the plant takes: one state, and five thousand at once."""

from simulator.faults import _catalogue as faults
from simulator.plant import catalogue, steady
from simulator.plant.conditions import Conditions, from_wet_bulb
from simulator.plant.installation import Installation
from simulator.serve.bench.timing import Timing, timed

BATCH = 5000
SEVERITIES = 40


def solving(times: int) -> list[Timing]:
    """Time one solution and a batch.

    Parameters
    ----------
    times : int
        How often the batch is solved; the single one ten times as often. [-]

    Returns
    -------
    list of Timing
        Two lines.
    """
    installations, conditions = scenarios(BATCH)
    one = timed(lambda: steady.solve(installations[1], conditions[1]), 10 * times)
    many = timed(lambda: steady.solve_many(installations, conditions), times)
    return [
        Timing(what="one solution of the plant", seconds=one),
        Timing(what=f"{BATCH:,} solutions in one batch", seconds=many),
    ]


def scenarios(count: int) -> tuple[list[Installation], list[Conditions]]:
    """Every fault in turn, from hardly any to its highest, over the cooling season.

    Parameters
    ----------
    count : int
        How many. [-]

    Returns
    -------
    tuple of list
        Installations and conditions.
    """
    healthy = catalogue.load_installation()
    kinds = sorted(faults.discover().items())
    installations, conditions = [], []
    for number in range(count):
        name, kind = kinds[number % len(kinds)]
        share = (number // len(kinds) % SEVERITIES + 1) / SEVERITIES
        fault = faults.named(name, kind.low + share * (kind.high - kind.low))
        installations.append(fault.applied_to(healthy))
        conditions.append(
            from_wet_bulb(
                outdoor=295.0 + 20.0 * (number % 97) / 96,
                return_temperature=296.0 + 5.0 * (number % 89) / 88,
                return_wet_bulb=290.0 + 4.0 * (number % 83) / 82,
            )
        )
    return installations, conditions
