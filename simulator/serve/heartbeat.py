"""The banner that says when the page has lost its kernel."""

from pathlib import Path
from typing import Any

import anywidget


class Heartbeat(anywidget.AnyWidget):
    """Answers the page's question whether anyone is there."""

    _esm = Path(__file__).parent / "heartbeat.js"

    def __init__(self) -> None:
        super().__init__()
        self.on_msg(self._answer)

    def _answer(self, _: object, message: Any, __: object) -> None:
        if message == "there?":
            self.send("here")
