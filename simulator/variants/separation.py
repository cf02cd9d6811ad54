"""How far a call's truth stands from its nearest look-alike, by one careful round of readings."""

from collections.abc import Mapping

import numpy as np

from simulator.calls.choice import NO_FAULT
from simulator.diagnosis.expected import Expected, conditions_of, expected_at
from simulator.diagnosis.likelihood import (
    UNSEEN,
    Take,
    When,
    running_score,
    take_of,
)
from simulator.diagnosis.seen_parts import plain
from simulator.instruments import sight
from simulator.instruments.measurement import Measurement, Seen
from simulator.instruments.measurements import MEASUREMENTS
from simulator.plant import steady
from simulator.quantities.values import Array
from simulator.variants.subject import Subject

# What is in every bag: thermometers, pipe clamps, manometer, gauges, clamp and volt meter, hood,
# and eyes. Common practice, no source.
STANDARD_KIT = (
    "room_temperature", "look_thermostat", "run_time", "grille_dry_bulb", "grille_wet_bulb",
    "return_dry_bulb", "supply_dry_bulb", "near_register_temperature", "register_sum",
    "house_pressure", "static_before_filter", "static_after_filter", "static_after_coil",
    "static_supply", "coil_airflow", "look_filter", "look_slot", "look_indoor_coil", "look_drain",
    "outdoor_temperature", "outdoor_leaving_temperature", "look_outdoor_coil", "look_frost",
    "suction_line_temperature", "liquid_line_temperature", "liquid_after_drier_temperature",
    "discharge_temperature", "reversing_valve_rise", "suction_pressure", "liquid_pressure",
    "outdoor_current", "air_handler_current", "voltage",
)  # fmt: skip
STEPS = frozenset({"match_probes", "check_batteries", "zero_manometer"})
SETTLED = 60.0  # since the last change, in minutes
MINUTE = 60.0  # of the round; where the engine's table stands, in minutes
# Confused once in a million; farther apart is not easier. Two equal normals, from theory. [-]
FARTHEST = 10.0
NEAREST = 0.5  # below this the kit tells nothing, and something else must [-]


def separation(subject: Subject) -> float:
    """Of the truth from its nearest look-alike, as d′.

    Readings are the plant's own, without error. What the engine makes of them is a ratio of
    likelihoods between the true set of causes and each other; for two normals of equal spread
    its logarithm is half the square of d′, which is taken as the definition here.

    Parameters
    ----------
    subject : Subject
        The call.

    Returns
    -------
    float
        From 0.5 to 10. Sets that hold the truth and more are no look-alikes, and what the kit
        cannot tell from it at all (a load, a setting) is left to other tests. [-]

    References
    ----------
    .. [1] Green and Swets, Signal Detection Theory and Psychophysics, 1966, chapter 3 (from
       memory).
    """
    table = expected_at(subject.call)
    by_set = _by_set(_scored(subject, table), table)
    return apart(by_set, frozenset(subject.key.causes))


def apart(by_set: Mapping[frozenset[str], float], truth: frozenset[str]) -> float:
    """Of one set of causes from the nearest other.

    Parameters
    ----------
    by_set : mapping
        Natural logarithm of the likelihood of error-free readings under each set. [-]
    truth : frozenset
        The set they come from.

    Returns
    -------
    float
        d′; 0 for a set that is not thought of. [-]

    Examples
    --------
    Two normals whose means lie three standard deviations apart:

    >>> apart({frozenset({"one"}): 0.0, frozenset({"other"}): -(3.0**2) / 2}, frozenset({"one"}))
    3.0
    """
    if truth not in by_set:
        return 0.0
    distances = [
        float(np.sqrt(2.0 * max(by_set[truth] - other, 0.0)))
        for causes, other in by_set.items()
        if causes != truth and not (truth and causes >= truth)
    ]
    told = [one for one in distances if one >= NEAREST]
    return min(min(told, default=FARTHEST), FARTHEST)


def _scored(subject: Subject, table: Expected) -> Array:
    """Logarithm of the likelihood of the whole round in each cell."""
    call, (_, found) = subject.call, subject.plants()
    point = steady.solve(found, conditions_of(call))
    when = When(MINUTE, True, SETTLED, STEPS, "careful")
    logs = np.zeros(table.owner.size)
    takes: list[Take] = []
    values: list[float] = []
    for name in STANDARD_KIT:
        item = MEASUREMENTS[name]
        answer = _answer(item, Seen(installation=found, point=point), call.answers)
        told = table.words.get((name, True))
        if told is not None:
            share = (
                told.words.get(answer, np.zeros(logs.size))
                if isinstance(answer, str)
                else told.number
            )
            logs = logs + np.log(UNSEEN + (1.0 - 2.0 * UNSEEN) * share)
        if not isinstance(answer, str):
            takes.append(take_of(name, when, table, call))
            values.append(answer)
    scored: Array = logs + running_score(takes, values).sum(axis=0)
    return scored


def _answer(item: Measurement, seen: Seen, texts: Mapping[str, str]) -> float | str:
    if not item.has_number:
        return plain(sight.told(item.id, seen, texts))
    if item.unfit is not None and (said := item.unfit(seen.point)) is not None:
        return plain(said)
    return float(item.true_value(seen.installation, seen.point))


def _by_set(logs: Array, table: Expected) -> dict[frozenset[str], float]:
    """Logarithm of the mean likelihood over the cells of each set of causes."""
    groups: dict[frozenset[str], list[int]] = {}
    for place, owner in enumerate(table.owner):
        groups.setdefault(frozenset(table.listed[owner].causes), []).append(place)
    found = {}
    for causes, places in groups.items():
        score, weight = logs[places], table.weight[places]
        top = float(score.max())
        found[causes - {NO_FAULT}] = top + float(
            np.log((weight * np.exp(score - top)).sum() / weight.sum())
        )
    return found
