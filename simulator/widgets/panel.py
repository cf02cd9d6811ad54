"""A panel: synced are its script and its style, everything else travels as messages."""

from collections.abc import Callable, Mapping
from importlib.resources import files
from typing import Any

import anywidget
from traitlets import Dict, Unicode

_EVERYWHERE = ("shared/words.js", "shared/speak.js")
Handle = Callable[[dict[str, Any]], dict[str, Any]]


def bundle(folder: str, *names: str) -> str:
    """Several files of the front end as one.

    Parameters
    ----------
    folder : str
        Of the panel, inside this floor.
    *names : str
        In order, scripts after the words that all panels share; a name with a slash is taken
        from this floor itself.

    Returns
    -------
    str
        Their text.
    """
    root = files("simulator.widgets")
    texts = []
    for name in (*(_EVERYWHERE if names[0].endswith(".js") else ()), *names):
        path = root.joinpath(*name.split("/")) if "/" in name else root.joinpath(folder, name)
        texts.append(path.read_text(encoding="utf-8"))
    return "\n".join(texts)


class Panel(anywidget.AnyWidget):
    """Passes each message of the browser to a handler, and its answer back.

    Parameters
    ----------
    handle : callable
        Takes a message, gives an answer; it must not raise.
    language : str
        Of the page.
    words : mapping, optional
        What the script says in it, by its English words.
    """

    _esm = "export default {}"
    language = Unicode("en").tag(sync=True)
    words = Dict().tag(sync=True)

    def __init__(
        self, handle: Handle, language: str = "en", words: Mapping[str, str] | None = None
    ) -> None:
        super().__init__(language=language, words=dict(words or {}))
        self._handle = handle
        self.on_msg(self._receive)

    def _receive(self, _: object, message: Any, __: object) -> None:
        if not isinstance(message, dict):
            return
        answer = self._handle(message)
        self.send({**answer, "id": message.get("id")})
