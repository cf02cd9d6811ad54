"""Files, functions and names keep their size and their floor."""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "simulator"
LONGEST_FILE = 380
LONGEST_BODY = 75
FORBIDDEN_NAMES = {"utils", "helpers", "common", "manager", "misc"}
UNIT_SUFFIXES = ("_psig", "_psi", "_f", "_cfm", "_tons", "_btu", "_inwc")
EDGE = {"quantities", "widgets", "serve"}


def python_files() -> list[Path]:
    """All source files."""
    return sorted(SOURCE.rglob("*.py"))


@pytest.mark.parametrize("path", python_files(), ids=lambda path: str(path.relative_to(SOURCE)))
def test_files_and_functions_stay_small(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert len(text.splitlines()) <= LONGEST_FILE
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.FunctionDef):
            body = node.body[1:] if ast.get_docstring(node) else node.body
            length = (body[-1].end_lineno or 0) - body[0].lineno + 1 if body else 0
            assert length <= LONGEST_BODY, (node.name, length)


def test_no_file_is_a_drawer() -> None:
    assert not {path.stem for path in python_files()} & FORBIDDEN_NAMES


def test_packages_export_nothing_by_the_back_door() -> None:
    for path in SOURCE.rglob("__init__.py"):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        assert len(tree.body) <= 1, path


@pytest.mark.parametrize("path", python_files(), ids=lambda path: str(path.relative_to(SOURCE)))
def test_units_are_not_in_names_inside(path: Path) -> None:
    if path.relative_to(SOURCE).parts[0] in EDGE:
        return
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        for name in (getattr(node, "id", None), getattr(node, "arg", None)):
            assert not (isinstance(name, str) and name.endswith(UNIT_SUFFIXES)), (path, name)


def test_every_table_names_its_source() -> None:
    data = ROOT / "tests" / "data"
    tables = sorted(data.glob("*.csv"))
    assert tables
    for table in tables:
        assert table.with_name(f"{table.stem}.source.toml").is_file(), table
