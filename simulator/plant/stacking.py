"""Many parameter sets as one parameter set of arrays, and back."""

from collections.abc import Sequence
from dataclasses import fields, is_dataclass
from functools import lru_cache
from itertools import pairwise
from typing import Any, TypeVar

import numpy as np

Item = TypeVar("Item")


@lru_cache(maxsize=64)
def _names(kind: type) -> tuple[str, ...]:
    return tuple(field.name for field in fields(kind))


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
            name: _stack([getattr(item, name) for item in items]) for name in _names(type(first))
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


def merged(parts: Sequence[tuple[Sequence[int], Item]]) -> Item:
    """One dataclass of arrays from several, each for its own members of a batch.

    Parameters
    ----------
    parts : sequence
        Members' numbers and a dataclass whose arrays have one value for each.

    Returns
    -------
    dataclass
        Arrays of shape (n,), in the order of the numbers.
    """
    order = np.concatenate([np.asarray(index) for index, _ in parts])
    first = parts[0][1]
    if not is_dataclass(first) or isinstance(first, type):
        raise TypeError("only dataclasses of arrays can be merged")
    back = np.argsort(order, kind="stable")

    def column(name: str) -> Any:
        values = [getattr(item, name) for _, item in parts]
        if isinstance(values[0], tuple):
            return tuple(
                _joined([value[place] for value in values], parts)[back]
                for place in range(len(values[0]))
            )
        return _joined(values, parts)[back]

    return type(first)(**{name: column(name) for name in _names(type(first))})


def _joined(values: list[Any], parts: Sequence[tuple[Sequence[int], Any]]) -> Any:
    return np.concatenate(
        [
            np.broadcast_to(np.asarray(v), len(index))
            for v, (index, _) in zip(values, parts, strict=True)
        ]
    )


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
        was = {name: getattr(item, name) for name in _names(type(item))}
        parts = {name: _choose(part, index) for name, part in was.items()}
        # What holds no array stays the same object.
        if all(part is was[name] for name, part in parts.items()):
            return item
        return type(item)(**parts)
    if isinstance(item, tuple):
        found = tuple(_choose(part, index) for part in item)
        return item if all(part is old for part, old in zip(found, item, strict=True)) else found
    if isinstance(item, np.ndarray) and item.ndim:
        picked = item[index]
        return picked if isinstance(picked, np.ndarray) and picked.ndim else picked.item()
    return item


def joined(items: Sequence[Item], counts: Sequence[int]) -> Item:
    """One batch from several of one type.

    Parameters
    ----------
    items : sequence
        Dataclasses whose numbers are floats or arrays of each batch's own length.
    counts : sequence
        Those lengths. [-]

    Returns
    -------
    dataclass
        A number equal in all of them stays a number; words are taken from the first.
    """
    return _join(list(items), counts)  # type: ignore[no-any-return]


def _join(items: list[Any], counts: Sequence[int]) -> Any:
    first = items[0]
    if all(item is first for item in items) and not _holds_arrays(first):
        return first
    if is_dataclass(first) and not isinstance(first, type):
        parts = {
            name: _join([getattr(item, name) for item in items], counts)
            for name in _names(type(first))
        }
        return type(first)(**parts)
    if isinstance(first, tuple):
        return tuple(_join(list(column), counts) for column in zip(*items, strict=True))
    if isinstance(first, str):
        return first
    if all(np.ndim(item) == 0 for item in items):
        level = np.array(items, dtype=float)
        return float(first) if np.all(level == level[0]) else np.repeat(level, counts)
    ends = np.cumsum([0, *counts]).tolist()
    whole = np.empty(ends[-1])
    for item, (low, high) in zip(items, pairwise(ends), strict=True):
        whole[low:high] = item
    return whole


def _holds_arrays(item: Any) -> bool:
    if is_dataclass(item) and not isinstance(item, type):
        return any(_holds_arrays(getattr(item, name)) for name in _names(type(item)))
    if isinstance(item, tuple):
        return any(_holds_arrays(part) for part in item)
    return np.ndim(item) > 0 if not isinstance(item, str) else False


def apart(item: Item, count: int) -> list[Item]:
    """The members of a batch one by one.

    Parameters
    ----------
    item : dataclass
        Numbers are floats or arrays of shape (n,).
    count : int
        That length. [-]

    Returns
    -------
    list
        Dataclasses of floats.
    """
    return _apart(item, count)


def _apart(item: Any, count: int) -> list[Any]:
    if not _holds_arrays(item):
        return [item] * count
    if is_dataclass(item) and not isinstance(item, type):
        kind = type(item)
        names = _names(kind)
        columns = [_apart(getattr(item, name), count) for name in names]
        return [kind(**dict(zip(names, row, strict=True))) for row in zip(*columns, strict=True)]
    if isinstance(item, tuple):
        return list(zip(*(_apart(part, count) for part in item), strict=True))
    return list(item.tolist())
