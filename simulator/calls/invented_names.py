"""People and places for versions of a call. All are invented; none is meant to be anybody."""

import tomllib
from importlib.resources import files
from zlib import crc32

_TABLES = tomllib.loads(
    (files("simulator.calls") / "invented_names.toml").read_bytes().decode("utf-8")
)
FIRST, LAST = (tuple(_TABLES["customer"][part]) for part in ("first", "last"))
STREETS, TOWNS = (tuple(_TABLES["address"][part]) for part in ("streets", "towns"))
TOGETHER, FLAT = _TABLES["customer"]["together"], _TABLES["address"]["flat"]
HIGHEST = 97  # house number [-]


def customer(like: str, call: str, number: int) -> str:
    """Somebody else, alone or as a pair like the parent's.

    Parameters
    ----------
    like : str
        The customer of the parent.
    call : str
        The parent's name; keeps versions of two calls apart.
    number : int
        Of the version. [-]

    Returns
    -------
    str

    Examples
    --------
    >>> customer("Ida Tavener", "tavener", 1) == customer("Ida Tavener", "tavener", 2)
    False
    """
    place = crc32(call.encode()) % 1000 + number
    first, last = FIRST[place % len(FIRST)], LAST[place * 5 % len(LAST)]
    if TOGETHER in like.split():
        return " ".join((first, TOGETHER, FIRST[(place + 7) % len(FIRST)], last))
    return f"{first} {last}"


def address(like: str, call: str, number: int) -> str:
    """Somewhere else, a flat where the parent is one.

    Parameters
    ----------
    like : str
        The address of the parent.
    call : str
        The parent's name.
    number : int
        Of the version. [-]

    Returns
    -------
    str
    """
    place = crc32(call.encode()) // 1000 % 1000 + number
    door = place * 13 % HIGHEST + 1
    street, town = STREETS[place * 4 % len(STREETS)], TOWNS[place * 3 % len(TOWNS)]
    if like.startswith(FLAT):
        return f"{FLAT} {door}, {street}, {town}"
    return f"{door} {street}, {town}"
