"""The page on which weather and faults are set and readings watched."""

from simulator.widgets.panel import Panel, bundle


class TestStandPanel(Panel):
    """Settings, readings beside their healthy ghosts, the cycle."""

    __test__ = False  # the name is the trade's, not pytest's

    _esm = bundle(
        "test_stand",
        "shared/dom.js",
        "shared/charts/xy.js",
        "words.js",
        "chart.js",
        "more_charts.js",
        "bill.js",
        "predict.js",
        "link.js",
        "panel.js",
    )
    _css = bundle("test_stand", "shared/panel.css", "panel.css")
