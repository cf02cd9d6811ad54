"""Plots of the report, as inline SVG."""

import io
from typing import Any

import matplotlib as mpl
import numpy as np

mpl.use("svg")
from matplotlib.figure import Figure

from simulator.faults._catalogue import discover
from tests.truth.charging_rule import OUTDOORS, WET_BULBS, RuleGrid
from tests.truth.severity import KEYS, Sweep


def svg(figure: Figure, words: str) -> str:
    """A figure as an element of a page, with what it shows in words."""
    page = io.StringIO()
    # A fixed salt and no date: the same numbers give the same page.
    with mpl.rc_context({"svg.hashsalt": "truth", "svg.fonttype": "none"}):
        figure.savefig(page, format="svg", metadata={"Date": None}, bbox_inches="tight")
    text = page.getvalue()
    return f'<div class="plot" role="img" aria-label="{words}">{text[text.index("<svg") :]}</div>'


def rule_plot(grid: RuleGrid, label: str) -> str:
    """Superheat over its target, and over weather beside the rule."""
    figure = Figure(figsize=(10, 3.8))
    left, right = figure.subplots(1, 2)
    target, found = grid.pairs
    left.plot([5, 40], [5, 40], color="black", lw=1)
    left.fill_between([5, 40], [0, 35], [10, 45], color="0.9", label="±5 °F")
    left.plot(target, found, ".", color="#0b6e99", label="cells with a target ≥ 5 °F")
    left.set(xlabel="target superheat [°F]", ylabel="superheat [°F]")
    left.legend(frameon=False)
    for color, wet in zip(("#0b6e99", "#b3541e", "#3b7d3b"), (61, 67, 73), strict=True):
        row = WET_BULBS.index(wet)
        right.plot(OUTDOORS, grid.superheat[row], color=color, label=f"{wet} °F wet bulb")
        right.plot(OUTDOORS, np.maximum(grid.target[row], 0.0), "--", color=color)
    right.set(xlabel="outdoor [°F]", ylabel="superheat [°F], dashed: rule")
    right.legend(frameon=False)
    return svg(figure, f"Superheat of {label} against the charging rule")


def sweep_plot(own: list[Sweep]) -> str:
    """One fault: key readings over severity, a line for each device and mode."""
    kind = discover()[own[0].fault]
    figure = Figure(figsize=(12, 4.2))
    axes: Any = list(figure.subplots(2, 5).flat)
    for place, (name, (_, _, unit)) in zip(axes, KEYS.items(), strict=False):
        for sweep in own:
            style = "-" if sweep.metering == "txv" else "--"
            color = "#0b6e99" if sweep.mode == "cooling" else "#b3541e"
            place.plot(sweep.amounts, sweep.reading(name), style, color=color, lw=1.3)
        place.set_title(f"{name.replace('_', ' ')} [{unit}]", fontsize=8)
        place.tick_params(labelsize=7)
    for place in axes[len(KEYS) :]:
        place.axis("off")
    figure.supxlabel(f"{kind.measure} [{kind.unit}]; solid: valve, dashed: orifice", fontsize=8)
    figure.suptitle(kind.title, fontsize=10)
    figure.tight_layout()
    return svg(figure, f"Key readings over the severity of {own[0].fault}")
