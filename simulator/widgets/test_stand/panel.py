"""The page on which weather and faults are set and readings watched."""

from simulator.widgets.panel import Panel, bundle


class TestStandPanel(Panel):
    """Settings, readings beside their healthy ghosts, the cycle."""

    __test__ = False  # the name is the trade's, not pytest's

    _esm = bundle("test_stand", "shared/dom.js", "words.js", "chart.js", "bill.js", "panel.js")
    _css = bundle("test_stand", "shared/panel.css", "panel.css")
