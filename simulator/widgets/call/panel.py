"""The page on which a service call is worked."""

from simulator.widgets.panel import Panel, bundle


class CallPanel(Panel):
    """Strip, house, reading sheet, causes, finding, repair, write-up."""

    _esm = bundle(
        "call",
        "shared/dom.js",
        "words.js",
        "strip.js",
        "drawing_layout.js",
        "drawing_clear.js",
        "drawing.js",
        "house.js",
        "sheet.js",
        "finish.js",
        "coach.js",
        "probe.js",
        "panel.js",
    )
    _css = bundle("call", "shared/panel.css", "panel.css", "drawing.css")
