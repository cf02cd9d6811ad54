"""Public docstrings give units, from one closed list."""

import ast
import re
from pathlib import Path

import pytest

SOURCE = Path(__file__).resolve().parents[2] / "simulator"
# Floors whose numbers carry units; screens and serving pass words and messages.
FLOORS = ("components", "plant", "properties", "instruments", "quantities")
UNITS = {
    "-",
    "K",
    "delta K",
    "Pa",
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
NUMERIC = re.compile(r"^    (\w[\w, ]*) : (float|array|float or array|int)\b")


def modules() -> list[Path]:
    """All Python files of the floors with units."""
    return [path for floor in FLOORS for path in sorted((SOURCE / floor).glob("*.py"))]


def documented(path: Path) -> list[tuple[str, str]]:
    """Public things and their docstrings."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return [
        (node.name, ast.get_docstring(node, clean=True) or "")
        for node in ast.walk(tree)
        if isinstance(node, ast.FunctionDef | ast.ClassDef) and not node.name.startswith("_")
    ]


@pytest.mark.parametrize("path", modules(), ids=lambda path: f"{path.parent.name}/{path.name}")
def test_units_are_known_ones(path: Path) -> None:
    for name, text in documented(path):
        for unit in re.findall(r" \[([^\]\d_][^\]]*|-)\]$", text, flags=re.MULTILINE):
            assert unit in UNITS, (name, unit)


@pytest.mark.parametrize("path", modules(), ids=lambda path: f"{path.parent.name}/{path.name}")
def test_each_number_says_its_unit(path: Path) -> None:
    for name, text in documented(path):
        lines = text.splitlines()
        for index, line in enumerate(lines):
            entry = re.match(r"^(\w[\w, ]*) : (float|array)\b", line)
            if not entry:
                continue
            block = []
            for later in lines[index + 1 :]:
                if later and not later.startswith(" "):
                    break
                block.append(later)
            said = " ".join(part.strip() for part in block)
            assert re.search(r"\[[^\]]+\]|minutes|\bshape\b|°F", said), (name, line)
