"""Every miss by name in one Markdown table, a line for each check and its units beside it."""

from itertools import groupby

from tests.truth import bars
from tests.truth.report import Part
from tests.truth.verdict import Verdict

HEAD = "| check | asked | found |\n|---|---|---|"


def misses(parts: list[Part]) -> str:
    """What does not hold but for the machine's own times; a check that several miss stands once."""
    lines = [HEAD]
    for part in parts:
        told = (item for item in part.verdicts if item.where != bars.HERE)
        missed = sorted((item for item in told if not item.holds), key=_check)
        lines += [_line(list(same)) for _, same in groupby(missed, key=_check)]
    return "\n".join(lines)


def _check(item: Verdict) -> tuple[str, str]:
    return item.id, item.about


def _line(same: list[Verdict]) -> str:
    first = same[0]
    asked = first.expected if first.tolerance == "as asked" else first.tolerance
    if first.expected.startswith(("≥", "≤")) or first.expected == "one way":
        asked = first.expected
    found = "; ".join(_found(item) for item in same)
    return f"| {first.id}: {first.about} | {asked} | {found} |".replace("_", " ")


def _found(item: Verdict) -> str:
    if item.where.endswith(("looked at", "drawn")):
        # Of a smell test the number of cells and their names; of a draw its figure.
        return f"{item.got.split('; ')[0]}: {item.note}" if item.note else item.got
    # Of a sweep that turns back its reason, which the note begins with; the rest is the report's.
    reason = (
        f", because {item.note.split('. ')[0]}" if item.expected == "one way" and item.note else ""
    )
    return f"{item.where} {item.got}{reason}"
