"""One part of a lesson: prose with computed numbers, a table, questions."""

from simulator.widgets.panel import Panel, bundle


class LessonPanel(Panel):
    """Shows what the server gives and asks it about each answer."""

    _esm = bundle("lesson", "shared/dom.js", "words.js", "what_if.js", "circuit.js", "panel.js")
    _css = bundle("lesson", "shared/panel.css", "panel.css")
