"""Public docstrings name each number and give its unit, from one closed list."""

import re
from pathlib import Path

import pytest

from tests.style.source_tree import Documented, files_with_units, public_numbers, short

UNITS = {
    "-",
    "K",
    "delta K",
    "Pa",
    "ohm",
    "F",
    "kg",
    "kg/s",
    "kg/kg",
    "kg/m³",
    "m³/s",
    "m³/s/Pa^0.65",
    "m³/s/Pa^0.5",
    "m³",
    "m²",
    "m",
    "W",
    "W/K",
    "W/m²",
    "J",
    "J/K",
    "J/kg",
    "J/(kg K)",
    "A",
    "V",
    "s",
    "h",
    "rad/s",
    "mol",
    "1/Pa",
    "1/K",
    "N m",
    "N m s",
    "K m²/W",
    "Pa s²/m⁶",
    "Pa (s/m³)^1.8",
    "$",
    "$/J",
}
BRACKET = re.compile(r"(?<!\w)\[([^\]]+)\](?!_)")
# A reference, an index, a list of values: brackets that are no units.
NO_UNIT = re.compile(r"^\d+$|['\"=,:]|^\w+\]?$")
# Numbers of any quantity: a data file, an amount in a measure of its own.
ANY_QUANTITY = {
    "plant/parameter_file.py Table.number",
    "plant/parameter_file.py Table.numbers",
    "faults/_base.py Fault",
    "repairs/_base.py Repair",
    "instruments/techniques.py Felt",
}
# Tuples inside the solver that do not say their units yet; the list may only become shorter.
UNITS_OWED = {
    "components/indoor_coil.py CoilAir",
    "plant/refrigerant_side.py Inventory",
}
EACH = pytest.mark.parametrize("path", files_with_units(), ids=short)


def brackets(text: str) -> list[str]:
    """What stands in brackets and can only be meant as a unit."""
    return [
        unit for unit in BRACKET.findall(text) if unit in UNITS or not NO_UNIT.search(unit)
    ] + re.findall(r"\[([^\]\d][^\]]*)\]$", text, flags=re.MULTILINE)


def entry(item: Documented, name: str) -> str | None:
    """What the docstring says of one number, down to the next entry."""
    lines = item.docstring.splitlines()
    for index, line in enumerate(lines):
        if re.match(rf"^([\w, ]*\b)?{re.escape(name)}\b[\w, ]* : ", line):
            block = [line]
            for later in lines[index + 1 :]:
                if later and not later.startswith(" "):
                    break
                block.append(later.strip())
            return " ".join(block)
    return None


def offences(text: str, where: str) -> list[str]:
    """Every number of a file that is not said with its unit."""
    found = []
    for item in public_numbers(text):
        label = f"{where} {item.name}"
        if not set(brackets(item.docstring)) & UNITS and "minutes" not in item.docstring:
            found.append(f"{label}: no unit")
        if item.is_tuple:
            continue
        for name in item.numbers:
            said = entry(item, name)
            if said is None:
                found.append(f"{label}: {name} is not described")
            elif not re.search(r"\[[^\]]+\]|minutes|\bshape\b|°F|\bkind\b", said):
                found.append(f"{label}: {name} has no unit")
    return found


@EACH
def test_units_are_known_ones(path: Path) -> None:
    for item in public_numbers(path.read_text(encoding="utf-8")):
        assert set(brackets(item.docstring)) <= UNITS, item.name


@EACH
def test_each_public_number_says_its_unit(path: Path) -> None:
    excused = ANY_QUANTITY | UNITS_OWED
    found = offences(path.read_text(encoding="utf-8"), short(path))
    assert not [said for said in found if said.split(":")[0] not in excused]


def test_nothing_is_excused_without_need() -> None:
    found = [
        said
        for path in files_with_units()
        for said in offences(path.read_text("utf-8"), short(path))
    ]
    assert {said.split(":")[0] for said in found} >= ANY_QUANTITY | UNITS_OWED


BARE = '''
def pressure(depth: float) -> float:
    """Pressure under water.

    Parameters
    ----------
    depth : float
        Under the surface.{unit}

    Returns
    -------
    float
        [Pa]
    """
'''


def test_a_forgotten_unit_is_found() -> None:
    assert offences(BARE.format(unit=""), "x.py") == ["x.py pressure: depth has no unit"]
    assert not offences(BARE.format(unit=" [m]"), "x.py")


def test_an_invented_unit_is_found() -> None:
    item = public_numbers(BARE.format(unit=" [fathom]"))[0]
    assert set(brackets(item.docstring)) - UNITS == {"fathom"}
