"""The drawing is made from the house as built, and from nothing that is wrong with it."""

from dataclasses import replace

import pytest

from simulator.calls import call_file, sealed
from simulator.calls.house_drawing import house_drawing
from simulator.calls.site import Site
from simulator.instruments.places import SPACES
from simulator.plant import catalogue


def site(call: str) -> Site:
    """A call's site."""
    return Site(call=call_file.load(call), key=sealed.sealed(call), seed=3)


@pytest.mark.parametrize("call", call_file.names())
def test_a_house_is_drawn_as_it_is_built(call: str) -> None:
    there = site(call)
    drawn = house_drawing(there)
    built = catalogue.load_installation(house=there.call.house)
    assert drawn["supply_space"] == built.supply_zone.kind
    assert drawn["return_space"] == built.return_zone.kind
    assert len(drawn["rooms"]) == len(built.ducts.room_shares)
    assert drawn["supply_space"] in SPACES


@pytest.mark.parametrize("call", call_file.names())
def test_the_air_handler_is_drawn_where_the_work_order_says(call: str) -> None:
    """The place's own name, from the call file: "Air handler, hall closet" and the like."""
    there = site(call)
    said = there.call.place_names["air_handler"].lower().replace("knee wall", "attic")
    assert str(house_drawing(there)["air_handler"]).replace("_", " ") in said


def test_two_zones_are_told_apart() -> None:
    there = site(call_file.names()[0])
    drawn = house_drawing(replace(there, call=replace(there.call, house="two_zones")))
    assert drawn["rooms"] == [1, 1, 1, 2, 2, 2]


@pytest.mark.parametrize("call", call_file.names())
def test_what_is_wrong_is_not_in_it(call: str) -> None:
    """The same house without its faults gives the same drawing."""
    there = site(call)
    before = house_drawing(there)
    there.installation()
    assert house_drawing(there) == before
    assert set(before) == {"supply_space", "return_space", "air_handler", "is_upright", "rooms"}
