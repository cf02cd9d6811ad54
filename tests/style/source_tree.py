"""The source as the style tests read it: files, public functions, public records."""

import ast
import re
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "simulator"
# Floors whose numbers carry units; screens and serving pass words and messages.
UNIT_FLOORS = (
    "quantities",
    "properties",
    "components",
    "plant",
    "instruments",
    "faults",
    "repairs",
)
NUMERIC = re.compile(r"\b(float|Values|ndarray|NDArray)\b")


@dataclass(frozen=True, slots=True)
class Documented:
    """A public function or record, with the numbers it takes or holds."""

    name: str
    docstring: str
    numbers: tuple[str, ...]
    is_tuple: bool
    gives_number: bool


def python_files() -> list[Path]:
    """All source files."""
    return sorted(SOURCE.rglob("*.py"))


def files_with_units() -> list[Path]:
    """All source files of the floors whose numbers carry units."""
    return [path for path in python_files() if path.relative_to(SOURCE).parts[0] in UNIT_FLOORS]


def short(path: Path) -> str:
    """A file as it is named inside the package."""
    return path.relative_to(SOURCE).as_posix()


def functions(path: Path) -> list[ast.FunctionDef | ast.AsyncFunctionDef]:
    """Every function of a file, methods and inner ones too."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return [
        node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
    ]


def body_length(node: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Lines of a function after its docstring."""
    body = node.body[1:] if ast.get_docstring(node) else node.body
    return (body[-1].end_lineno or 0) - body[0].lineno + 1 if body else 0


def public_numbers(text: str) -> list[Documented]:
    """Public functions, methods and records of a file that take, hold or give numbers."""
    found = []
    for node in ast.parse(text).body:
        if isinstance(node, ast.FunctionDef):
            found.append(_of_function(node, node.name))
        if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
            found.append(_of_record(node))
            found += [
                _of_function(inner, f"{node.name}.{inner.name}")
                for inner in node.body
                if isinstance(inner, ast.FunctionDef)
            ]
    return [item for item in found if item.numbers or item.gives_number]


def _of_function(node: ast.FunctionDef, name: str) -> Documented:
    if node.name.startswith("_"):
        return Documented(name, "", (), is_tuple=False, gives_number=False)
    arguments = [*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs]
    return Documented(
        name,
        ast.get_docstring(node) or "",
        tuple(item.arg for item in arguments if _is_number(item.annotation)),
        is_tuple=False,
        gives_number=_is_number(node.returns),
    )


def _of_record(node: ast.ClassDef) -> Documented:
    fields = tuple(
        item.target.id
        for item in node.body
        if isinstance(item, ast.AnnAssign)
        and isinstance(item.target, ast.Name)
        and "ClassVar" not in ast.unparse(item.annotation)
        and _is_number(item.annotation)
    )
    is_tuple = any(ast.unparse(base) == "NamedTuple" for base in node.bases)
    return Documented(
        node.name, ast.get_docstring(node) or "", fields, is_tuple=is_tuple, gives_number=False
    )


def _is_number(annotation: ast.expr | None) -> bool:
    if annotation is None:
        return False
    said = ast.unparse(annotation)
    return bool(NUMERIC.search(said)) and "Callable" not in said
