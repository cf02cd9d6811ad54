"""Many parameter sets as one parameter set of arrays, and back."""

from collections.abc import Sequence
from dataclasses import fields, is_dataclass
from typing import Any, TypeVar

import numpy as np

Item = TypeVar("Item")


def stacked(items: Sequence[Item]) -> Item:
    """One dataclass whose numbers are arrays of shape (n,).

    Parameters
    ----------
    items : sequence
        Dataclasses of one type; a number equal in all of them stays a number.

    Returns
    -------
    dataclass
        Words are taken from the first item.
    """
    first = items[0]
    if len(items) == 1:
        return first
    return _stack(list(items))  # type: ignore[no-any-return]


def _stack(items: list[Any]) -> Any:
    first = items[0]
    if is_dataclass(first) and not isinstance(first, type):
        parts = {
            field.name: _stack([getattr(item, field.name) for item in items])
            for field in fields(first)
        }
        return type(first)(**parts)
    if isinstance(first, tuple):
        return tuple(_stack(list(column)) for column in zip(*items, strict=True))
    if isinstance(first, str):
        return first
    if all(item is first for item in items):
        return first
    column = np.array(items, dtype=float)
    return float(first) if bool(np.all(column == column[0])) else column


def chosen(item: Item, index: Any) -> Item:
    """The same dataclass for some members of the batch, or for one.

    Parameters
    ----------
    item : dataclass
        Numbers are floats or arrays of shape (n,).
    index : int or array
        Which members.

    Returns
    -------
    dataclass
        Floats stay floats.
    """
    return _choose(item, index)  # type: ignore[no-any-return]


def _choose(item: Any, index: Any) -> Any:
    if is_dataclass(item) and not isinstance(item, type):
        parts = {field.name: _choose(getattr(item, field.name), index) for field in fields(item)}
        return type(item)(**parts)
    if isinstance(item, tuple):
        return tuple(_choose(part, index) for part in item)
    if isinstance(item, np.ndarray) and item.ndim:
        picked = item[index]
        return picked if isinstance(picked, np.ndarray) and picked.ndim else picked.item()
    return item
