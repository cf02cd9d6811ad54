"""The page on which weather and faults are set and readings watched."""

from simulator.widgets.panel import Panel, bundle

CHARTS = (
    "words",
    "places",
    "plot",
    "flow",
    "bars",
    "figure",
)  # in order: later ones use earlier ones
OWN = ("words", "settings", "predict", "readings", "figures", "share", "panel")


class TestStandPanel(Panel):
    """Settings, readings beside their healthy ghosts, charts."""

    __test__ = False  # the name is the trade's, not pytest's

    _esm = bundle(
        "test_stand",
        "shared/dom.js",
        *(f"shared/charts/{name}.js" for name in CHARTS),
        *(f"{name}.js" for name in OWN),
    )
    _css = bundle("test_stand", "shared/panel.css", "shared/charts/charts.css", "panel.css")
