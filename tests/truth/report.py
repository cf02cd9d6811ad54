"""The report: what is asked, what came out, and a page of it."""

import html
from dataclasses import dataclass
from itertools import groupby

from simulator.plant import catalogue
from tests.truth import (
    bars,
    charging_rule,
    fault_signs,
    published,
    scenarios,
    severity,
    sign_grid,
    size_anchors,
)
from tests.truth.benches import Bench, units
from tests.truth.field import Field
from tests.truth.smell import smelt
from tests.truth.smells import SMELLS
from tests.truth.verdict import Verdict

STYLE = """
body{font:15px/1.45 system-ui,sans-serif;max-width:76rem;margin:2rem auto;padding:0 1rem;
color:#1c2328;background:#fff} table{border-collapse:collapse;width:100%;margin:.5rem 0 1.5rem}
td,th{border-bottom:1px solid #d5dade;padding:.3rem .5rem;text-align:left;vertical-align:top}
th{border-bottom:2px solid #1c2328} .misses,.absent{background:#fdecea;font-weight:600}
td.source,td.note{font-size:13px;color:#4a555c} .plot svg{max-width:100%;height:auto}
@media print{body{margin:0}tr{break-inside:avoid}}
"""
HEAD = ("no.", "what", "where", "source", "expected", "got", "tolerance", "verdict", "note")


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One part of the report."""

    title: str
    about: str
    verdicts: list[Verdict]
    plots: tuple[str, ...] = ()

    @property
    def held(self) -> int:
        """How many hold."""
        return sum(item.holds for item in self.verdicts)

    @property
    def line(self) -> str:
        """In one line."""
        return f"{self.title}: {self.held} of {len(self.verdicts)} hold"


def benches() -> list[Bench]:
    """Every unit with every device."""
    return [Bench(unit, metering) for unit in units() for metering in catalogue.METERING]


def parts(*, quick: bool) -> list[Part]:
    """All parts; quick draws a tenth and walks the sample of the grid."""
    from tests.truth import plots

    sweeps = severity.sweeps()
    orifices = [Bench(unit, "orifice") for unit in units()]
    field = Field.sample() if quick else Field.whole()
    drawn = scenarios.drawn(2000 if quick else 20_000)
    return [
        Part(
            title="Published checks",
            about="Each row of tests/data/published_checks.csv, one parameter set, no switch per "
            "check. 'From memory' stands in the source where it applies.",
            verdicts=published.all_checked(benches()),
        ),
        Part(
            title="From memory",
            about="Each row of tests/data/published_checks_from_memory.csv: written down from "
            "memory after the plant was fitted, not looked up again. Many are other points of the "
            "same curves and charging table; M53 stands in the plant's own tests too.",
            verdicts=published.all_checked(benches(), published.MEMORY),
        ),
        Part(
            title="Fixed-orifice superheat over weather",
            about="Nothing in the plant knows the rule.",
            verdicts=[item for bench in orifices for item in charging_rule.rule_verdicts(bench)],
            plots=tuple(plots.rule_plot(charging_rule.rule_grid(b), b.label) for b in orifices),
        ),
        Part(
            title="Signs of faults",
            about="At the rating point and a middling severity.",
            verdicts=fault_signs.all_checked(),
        ),
        Part(
            title="Signs over severities and weather",
            about="The same rows at half a middling severity, a middling one and the worst, at "
            "four weathers that cool and three that heat; cells that a cut-out stops are left out.",
            verdicts=sign_grid.all_checked(),
        ),
        Part(
            title="Sizes of faults",
            about="Each row of tests/data/size_anchors.csv on the reference unit: a rough model's "
            "changes, within 40 % or the smallest change that counts as one.",
            verdicts=size_anchors.all_checked(),
        ),
        Part(
            title="Severity",
            about="Head, suction and capacity as a fault grows over its range. "
            f"{severity.summed(sweeps)} Each miss has its reason in its note.",
            verdicts=[severity.checked(sweep) for sweep in sweeps],
            plots=tuple(
                plots.sweep_plot(list(own)) for _, own in groupby(sweeps, lambda one: one.fault)
            ),
        ),
        Part(
            title="Smell tests",
            about=f"What makes an instructor laugh; {len(field.keys):,} cells of fault, severity, "
            "weather, device and unit. 'absent': the plant has no such part.",
            verdicts=[smelt(smell, field) for smell in SMELLS],
        ),
        Part(
            title="Random scenarios",
            about=f"{scenarios.RANGES}. Ran: {drawn.running:,}; tripped: "
            + ", ".join(f"{name.replace('_', ' ')} {n:,}" for name, n in drawn.tripped.items())
            + f"; neither: {drawn.unsolved}.",
            verdicts=scenarios.verdicts(drawn),
        ),
        *own_bars(quick=quick),
    ]


def own_bars(*, quick: bool) -> list[Part]:
    """Tables, speed and diagnosis."""
    return [
        Part(
            title="Tables, and the same physics by other means",
            about="Refrigerant tables from −20 °F to 150 °F or the table's end; readings of four "
            "installations against the same balances solved by SciPy on CoolProp itself.",
            verdicts=[*bars.tables(), *bars.same_physics()],
        ),
        Part(
            title="Speed",
            about="On the machine this page was made on, one core; it wants nothing beside it.",
            verdicts=bars.speed(1 if quick else 5),
        ),
        Part(
            title="Diagnosis",
            about="Houses drawn with units that the evidence engine was not made with, readings "
            "chosen for their bits; three conditions noted first are not counted. A quick sample "
            "proves no bar.",
            verdicts=bars.diagnosis(quick=quick),
        ),
    ]


def page(found: list[Part]) -> str:
    """One file, nothing fetched."""
    items = "".join(f"<li>{html.escape(part.line)}</li>" for part in found)
    misses = [item for part in found for item in part.verdicts if not item.holds]
    return (
        '<!doctype html><html lang="en"><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width">'
        f"<title>How truthful the plant is</title><style>{STYLE}</style>"
        f"<h1>How truthful the plant is</h1><ul>{items}</ul>"
        f"<h2>What misses ({len(misses)})</h2>{table(misses)}" + "".join(map(section, found))
    )


def section(part: Part) -> str:
    """One part with its table and plots."""
    return (
        f"<h2>{html.escape(part.title)}</h2><p>{html.escape(part.about)}</p>"
        f"{table(part.verdicts)}{''.join(part.plots)}"
    )


def table(verdicts: list[Verdict]) -> str:
    """Rows as they are, misses marked in words and colour."""
    head = "".join(f"<th>{name}</th>" for name in HEAD)
    rows = []
    for item in verdicts:
        cells = (item.id, item.about, item.where, item.source, item.expected, item.got,
                 item.tolerance, item.state, item.note)  # fmt: skip
        shown = "".join(
            f'<td class="{name}">{html.escape(text)}</td>'
            for name, text in zip(HEAD, cells, strict=True)
        )
        rows.append(f'<tr class="{item.state}">{shown}</tr>')
    return f"<table><thead><tr>{head}</tr></thead><tbody>{''.join(rows)}</tbody></table>"


def summary(found: list[Part]) -> str:
    """The same in text: every part in a line, every miss in a line."""
    lines = []
    for part in found:
        lines.append(part.line)
        lines += [
            f"  {item.state}: {item.id} {item.where}, {item.about}: expected {item.expected}, "
            f"got {item.got}" + (f" ({item.note})" if item.note else "")
            for item in part.verdicts
            if not item.holds
        ]
    return "\n".join(lines)
