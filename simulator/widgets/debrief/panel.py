"""The page that tells what was true, what was found and what it was worth."""

from simulator.widgets.panel import Panel, bundle


class DebriefPanel(Panel):
    """A story from top to bottom, printable."""

    _esm = bundle("debrief", "shared/dom.js", "words.js", "causes.js", "trying.js", "panel.js")
    _css = bundle("debrief", "shared/panel.css", "panel.css")
