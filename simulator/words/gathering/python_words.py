"""Texts for people in Python source: told from names, keys and docstrings by how they look."""

import ast
import re
from collections.abc import Iterator

from simulator.words.sentences import has_words

# Words that stand alone in small letters look like codes; these are said to people too.
SMALL_WORDS = frozenset(
    (
        *("running", "off", "before", "after", "above", "below", "steady", "not steady"),
        *("cooling", "heating", "healthy", "usual", "now", "measuring", "repaired", "closed"),
        *("mastic", "insulation", "and", "or", "kWh/day", "$/day"),
        *("liquid", "suction", "return", "supply", "superheat", "subcooling", "up"),
        *("setpoint", "saturated", "blower", "slight", "moderate", "severe"),
    )
)
_PHRASE = re.compile(r"^an? [a-z]|[^\W\d_]{2,}.* .*[^\W_]|[A-Z][a-z]+\b")
_PROGRAM = re.compile(
    r"[|]|^[a-z_]+[.:/]|^[\w.-]+$(?<![a-z])(?<![a-z]\.)|[<>=]{2}|<\w|%\(|\\|://"
    # An address with a pattern in it, a header's name, a script, a note on a source.
    r"|/\(\[|^[A-Z][a-z]+(?:-[A-Z][a-z]+)+$|^export default|no source$"
)
# Where a text is a person's whatever it looks like.
NAMING = frozenset(("name", "title", "short", "measure", "counted_in", "amount_name"))
# Where a text is no person's: notes on sources, patterns, headers, errors of a programmer.
_NOTES = frozenset(("source", "href", "help", "server_default", "metadata", "samesite"))
_CALLS = frozenset(
    (
        *(
            "compile",
            "set_header",
            "set_cookie",
            "getLogger",
            "split",
            "HTTPError",
            "execute",
            "text",
        ),
        *("TypeError", "ValueError", "LookupError", "RuntimeError", "BadSum", "DamagedEvent"),
        *("error", "warning", "info", "debug", "TypeAlias", "TypeVar", "add_argument"),
        *("Thread", "by_name", "NeverEnds"),
    )
)


def texts(source: str) -> list[str]:
    """Texts of one file that people read.

    Parameters
    ----------
    source : str
        Python.

    Returns
    -------
    list
        In the order in which they stand, holes of f-strings as ``{name}``.
    """
    tree = ast.parse(source)
    unsaid = {id(text) for text in _unsaid(tree)}
    found = _texts(tree, unsaid, is_named=False)
    return list(dict.fromkeys(found))


def _unsaid(tree: ast.AST) -> Iterator[ast.AST]:
    """Texts that are a statement of their own, and types that stand in quotes."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            yield node.value
        elif isinstance(node, ast.FunctionDef) and isinstance(node.returns, ast.Constant):
            yield node.returns


def _texts(node: ast.AST, unsaid: set[int], is_named: bool) -> Iterator[str]:
    if isinstance(node, ast.JoinedStr):
        yield from _joined(node, unsaid)
    elif isinstance(node, ast.Constant):
        if isinstance(node.value, str) and id(node) not in unsaid:
            yield from _shown(node.value, is_named)
    elif not _is_programming(node):
        named = (isinstance(node, ast.keyword) and node.arg in NAMING) or _is_naming(node)
        for child in ast.iter_child_nodes(node):
            yield from _texts(child, unsaid, named or (is_named and _passes_on(node)))


def _joined(node: ast.JoinedStr, unsaid: set[int]) -> Iterator[str]:
    message = ""
    holes: dict[str, str] = {}
    for part in node.values:
        if isinstance(part, ast.FormattedValue):
            code = ast.unparse(part.value)
            holes.setdefault(code, _hole(part.value, set(holes.values())))
            message += f"{{{holes[code]}}}"
            yield from _texts(part.value, unsaid, is_named=False)
        elif isinstance(part, ast.Constant):
            message += str(part.value)
    yield from _shown(message, is_named=False)


def _hole(value: ast.expr, taken: set[str]) -> str:
    """A name that tells a translator what will stand in the hole."""
    names = [
        node.id if isinstance(node, ast.Name) else node.attr
        for node in ast.walk(value)
        if isinstance(node, ast.Name | ast.Attribute)
    ]
    plain = [name for name in names if name not in ("lower", "join", "show", "self", "text")]
    name = (plain or ["word"])[0].strip("_").lower()
    count = 1
    while (numbered := name if count == 1 else f"{name}_{count}") in taken:
        count += 1
    return numbered


def _shown(text: str, is_named: bool) -> Iterator[str]:
    if not has_words(text):
        return
    text = text.strip()
    looks_so = bool(_PHRASE.search(text)) and not _PROGRAM.search(text)
    if looks_so or (is_named and "_" not in text) or text in SMALL_WORDS:
        yield text


def _is_programming(node: ast.AST) -> bool:
    match node:
        case ast.keyword(arg=name):
            return name in _NOTES
        case ast.Call(func=ast.Name(id=name) | ast.Attribute(attr=name)):
            return name in _CALLS
        case ast.Compare() | ast.Import() | ast.ImportFrom() | ast.Subscript():
            return True
        case ast.AnnAssign(annotation=annotation):
            return "Literal" in ast.unparse(annotation)
        case ast.Assign(value=ast.Subscript()):
            return True
    return False


def _is_naming(node: ast.AST) -> bool:
    """A class attribute or constant that names something: ``title: ClassVar[str] = …``."""
    return (
        isinstance(node, ast.AnnAssign)
        and isinstance(node.target, ast.Name)
        and node.target.id in NAMING
    )


def _passes_on(node: ast.AST) -> bool:
    return isinstance(node, ast.IfExp | ast.BoolOp | ast.BinOp)
