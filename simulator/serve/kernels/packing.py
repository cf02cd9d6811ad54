"""A kernel's messages as JSON, part by part.

The encoder of Python 3.11 holds every token of what it encodes until it is through, six times
the text of a call page's view; a process keeps what it once held. In parts it holds those of one.
"""

import json
from collections.abc import Iterator
from typing import Any

from jupyter_client.jsonutil import json_default
from jupyter_client.session import json_packer

DEEPEST = 5  # a message, its data, the answer in it, the view in that, and its tables [-]
ROWS = 4  # of a table, encoded at once [-]
_encoded = json.JSONEncoder(default=json_default, ensure_ascii=False, allow_nan=False).encode


def packed(message: Any) -> bytes:
    """A part of a message, as the front end reads it.

    Parameters
    ----------
    message : object
        Plain data, and what ``jupyter_client`` makes plain.

    Returns
    -------
    bytes
        The same as its own packer gives.
    """
    text = bytearray()
    try:
        for part in _parts(message, DEEPEST):
            text += part.encode("utf-8", errors="surrogateescape")
    except (TypeError, ValueError):
        return bytes(json_packer(message))
    return bytes(text)


def _parts(value: Any, deep: int) -> Iterator[str]:
    if deep and type(value) is dict and value and all(type(key) is str for key in value):
        before = "{"
        for key, inner in value.items():
            yield f"{before}{_encoded(key)}: "
            yield from _parts(inner, deep - 1)
            before = ", "
        yield "}"
    elif deep and type(value) is list and len(value) > ROWS:
        before = "["
        for first in range(0, len(value), ROWS):
            yield before + _encoded(value[first : first + ROWS])[1:-1]
            before = ", "
        yield "]"
    else:
        yield _encoded(value)
