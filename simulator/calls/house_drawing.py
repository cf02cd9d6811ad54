"""How a house is built, as anyone sees who walks round it: what a drawing needs, no more."""

from typing import Any

from simulator.calls.site import Site
from simulator.plant import parameter_file

UPRIGHT = ("garage", "basement", "closet")  # spaces in which an air handler stands


def house_drawing(site: Site) -> dict[str, Any]:
    """Spaces, rooms and where the air handler stands.

    Parameters
    ----------
    site : Site
        Gives the house; nothing that is wrong with it is looked at.

    Returns
    -------
    dict
        Plain data: the kinds of space around supply and return, the air handler's place,
        the zone of each room.
    """
    file = parameter_file.read("sites", site.call.house)
    named = file.table("site")
    back = named.word("return_zone")
    ducts = file.table("ducts")
    rooms = len(ducts.bare_column("room_shares"))
    zones = ducts.bare_column("room_zones") if "room_zones" in ducts.rows else (1.0,) * rooms
    stands = named.word("air_handler") if "air_handler" in named.rows else back
    return {
        "supply_space": named.word("supply_zone"),
        "return_space": back,
        "air_handler": stands,
        "is_upright": stands in UPRIGHT,
        "rooms": [int(zone) for zone in zones],
    }
