"""Candidates for an equal version: weather and site drawn, severity solved for."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from simulator.calls.versions import Recipe, followed
from simulator.faults._catalogue import discover
from simulator.variants.bounds import Bounds
from simulator.variants.difficulty import words_to_read
from simulator.variants.equality import is_near
from simulator.variants.separation import separation
from simulator.variants.subject import Subject, subject
from simulator.variants.wording import bill_words, bills_due, site_words

# How far a candidate's weather and rooms go from the parent's; chosen. Units of the call file.
WATER = 0.04  # either way, of outdoor and room humidity [-]
ROOM = 0.5  # either way [delta °F]
SUN = 0.03  # either way [-]
HOURS = (-0.5, 0.0, 0.5)
VOLTS = 2.0  # either way [V]
HALVINGS = 6  # of the severities that are searched [-]
CLOSE = 0.03  # of the parent's d′; well inside what is allowed [-]


class Unequal(ValueError):
    """Why a candidate is none, found before anybody played it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Parent:
    """What candidates are drawn about.

    Parameters
    ----------
    name : str
        Of the call.
    tables : mapping
        Its file as read.
    subject : Subject
        The call.
    bounds : Bounds
        Within what they may differ.
    separation : float
        Its d′. [-]
    """

    name: str
    tables: Mapping[str, Any]
    subject: Subject
    bounds: Bounds
    separation: float


def candidate(parent: Parent, chance: np.random.Generator) -> Recipe:
    """One candidate, whose severity gives it the parent's d′ and whose bills are its own.

    Parameters
    ----------
    parent : Parent
        Of which call.
    chance : Generator
        Draws weather and site.

    Returns
    -------
    Recipe

    Raises
    ------
    Unequal
        If no severity does, or the words of the story would no longer be true.
    """
    drawn = _drawn(parent, chance)
    solved = _as_far(parent, drawn, float(chance.uniform()))
    return worded(parent, solved)


def made(parent: Parent, recipe: Recipe) -> Subject:
    """The call that a recipe makes.

    Parameters
    ----------
    parent : Parent
        Of which call.
    recipe : Recipe
        What is otherwise.

    Returns
    -------
    Subject
    """
    return subject(parent.name, followed(parent.tables, recipe))


def _drawn(parent: Parent, chance: np.random.Generator) -> Recipe:
    day, arrival = parent.tables["day"], parent.tables["arrival"]
    warmer = float(chance.uniform(*parent.bounds.outdoor))
    wetter, damper, sunnier = 1.0 + chance.uniform(-1.0, 1.0, 3) * (WATER, WATER, SUN)
    return Recipe(
        house=str(chance.choice(parent.bounds.houses)),
        unit=str(chance.choice(parent.bounds.units)),
        day={
            "high": round(day["high"]["value"] + warmer, 1),
            "low": round(day["low"]["value"] + warmer, 1),
            "humidity_ratio": round(day["humidity_ratio"]["value"] * wetter, 1),
            "noon_sun": round(day["noon_sun"]["value"] * sunnier),
        },
        arrival={
            "hour": arrival["hour"]["value"] + float(chance.choice(HOURS)),
            "room_temperature": round(
                arrival["room_temperature"]["value"] + chance.uniform(-ROOM, ROOM), 1
            ),
            "room_humidity_ratio": round(arrival["room_humidity_ratio"]["value"] * damper, 1),
            "voltage": round(arrival["voltage"]["value"] + chance.uniform(-VOLTS, VOLTS), 1),
        },
    )


def _as_far(parent: Parent, drawn: Recipe, first: float) -> Recipe:
    """The drawn candidate with severities that stand as far from their look-alike."""

    def at(place: float) -> tuple[Recipe, float]:
        recipe = replace(drawn, faults=_severities(parent, place))
        return recipe, separation(made(parent, recipe))

    def is_close(apart: float) -> bool:
        return abs(apart - parent.separation) <= CLOSE * parent.separation

    recipe, apart = at(first)
    if is_close(apart) or not _has_degrees(parent):
        return _if_near(parent, recipe, apart)
    (least, low), (most, high) = at(0.0), at(1.0)
    tried = [(recipe, apart), (least, low), (most, high)]
    if min(low, high) < parent.separation < max(low, high):
        ends = (0.0, 1.0) if low < high else (1.0, 0.0)
        for _ in range(HALVINGS):
            middle = 0.5 * (ends[0] + ends[1])
            recipe, apart = at(middle)
            tried.append((recipe, apart))
            if is_close(apart):
                break
            ends = (middle, ends[1]) if apart < parent.separation else (ends[0], middle)
    nearest = min(tried, key=lambda one: abs(one[1] - parent.separation))
    return _if_near(parent, *nearest)


def _if_near(parent: Parent, recipe: Recipe, apart: float) -> Recipe:
    if not is_near("separation", parent.separation, apart):
        raise Unequal(
            f"d' to look-alike: {apart:.2f} beside {parent.separation:.2f}, whatever the severity"
        )
    return recipe


def _has_degrees(parent: Parent) -> bool:
    return any(_degrees(name) for name in parent.bounds.severity)


def _degrees(fault: str) -> bool:
    return not discover()[fault].is_all_or_nothing


def _severities(parent: Parent, place: float) -> dict[str, float]:
    """All faults at the same place of what each may have."""
    return {
        name: round(low + place * (high - low), 4)
        for name, (low, high) in parent.bounds.severity.items()
        if _degrees(name)
    }


def worded(parent: Parent, recipe: Recipe) -> Recipe:
    """A recipe with words that fit it, whatever it said before.

    Parameters
    ----------
    parent : Parent
        Of which call.
    recipe : Recipe
        What is otherwise.

    Returns
    -------
    Recipe

    Raises
    ------
    Unequal
        If the words of the story would not be true.
    """
    said = site_words(parent.tables, recipe.house, recipe.unit)
    version = made(parent, recipe)
    due = bills_due(version, parent.subject)
    allowed = parent.bounds.bill
    if allowed is not None and not allowed[0] <= due.ratio <= allowed[1]:
        raise Unequal(
            f"bill: {due.ratio:.2f} of last year's, but the customer's words are true "
            f"from {allowed[0]:.2f} to {allowed[1]:.2f}"
        )
    said |= bill_words(version, parent.subject, due)
    told = replace(recipe, said=said)
    mine, theirs = (words_to_read(one.call) for one in (parent.subject, made(parent, told)))
    if not is_near("words", mine, theirs):
        raise Unequal(f"words to read: {theirs} beside {mine}")
    return told
