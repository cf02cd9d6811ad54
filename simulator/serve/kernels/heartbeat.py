"""The banner that says when the page has lost its kernel."""

from pathlib import Path
from typing import Any

import anywidget
from traitlets import Unicode

from simulator.words.catalogue import Catalogue


class Heartbeat(anywidget.AnyWidget):
    """Answers the page's question whether anyone is there.

    Parameters
    ----------
    words : Catalogue
        Of the page's language.
    """

    _esm = Path(__file__).parent / "heartbeat.js"

    lost = Unicode().tag(sync=True)
    again = Unicode().tag(sync=True)

    def __init__(self, words: Catalogue) -> None:
        super().__init__(
            lost=words.say("Connection lost. What you recorded is kept: reload to resume."),
            again=words.say("Reload"),
        )
        self.on_msg(self._answer)

    def _answer(self, _: object, message: Any, __: object) -> None:
        if message == "there?":
            self.send("here")
