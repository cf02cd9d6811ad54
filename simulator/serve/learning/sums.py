"""Sums of a lesson: plain arithmetic over its numbers and the plant's readings."""

import ast
import operator
from collections.abc import Callable

_OPERATORS: dict[type[ast.operator], Callable[[float, float], float]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
    ast.Pow: operator.pow,
}


class BadSum(ValueError):
    """A sum in a lesson file that is not plain arithmetic, in one sentence."""


def worked(text: str, named: Callable[[str], float], read: Callable[[str, str], float]) -> float:
    """The value of a sum.

    Parameters
    ----------
    text : str
        Numbers, names, ``state.reading``, brackets and the signs + - * / **.
    named : callable
        A number of the lesson by name.
    read : callable
        A reading of a state, by state and reading.

    Returns
    -------
    float
        In whatever unit the sum gives. [-]

    Raises
    ------
    BadSum
        For anything else.
    """

    def value(node: ast.expr) -> float:
        match node:
            case ast.Constant(value=int() | float() as plain) if not isinstance(plain, bool):
                return float(plain)
            case ast.Name(id=name):
                return named(name)
            case ast.Attribute(value=ast.Name(id=state), attr=reading):
                return read(state, reading)
            case ast.UnaryOp(op=ast.USub(), operand=inner):
                return -value(inner)
            case ast.BinOp(left=left, op=sign, right=right) if type(sign) in _OPERATORS:
                return _OPERATORS[type(sign)](value(left), value(right))
            case _:
                raise BadSum(f"{text!r} is not plain arithmetic.")

    try:
        tree = ast.parse(text, mode="eval")
    except SyntaxError as error:
        raise BadSum(f"{text!r} cannot be read as a sum.") from error
    return value(tree.body)
