"""``benchcall variants``: versions of a call that are as hard as the call itself."""

import argparse
import json
import sys
import time
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any

from simulator.calls import call_file, invented_names
from simulator.calls.call_table import CallFileError
from simulator.calls.versions import Recipe, recipes
from simulator.variants.candidates import Parent, Unequal, made, worded
from simulator.variants.difficulty import NAMES
from simulator.variants.equality import SAID, Measured, differences, measured, shown
from simulator.variants.plays import PLAYS
from simulator.variants.search import parent_of, tried
from simulator.variants.store import keep

MINUTES = 10.0  # of searching for one call, in minutes
WIDTH = 24  # least of a column [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """Versions of one call.

    Parameters
    ----------
    parent : Parent
        The call.
    own : Measured
        What it was measured at.
    versions : tuple
        Recipe, measures and what speaks against each.
    rejected : tuple
        Sentences on candidates that were not as hard.
    """

    parent: Parent
    own: Measured
    versions: tuple[tuple[Recipe, Measured, tuple[str, ...]], ...]
    rejected: tuple[str, ...]


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Describe the options.

    Parameters
    ----------
    parser : ArgumentParser
        Of the subcommand.
    """
    parser.add_argument("calls", metavar="CALL", nargs="*", help="calls; all without any")
    parser.add_argument("--count", type=int, default=1, help="versions wanted of each (default 1)")
    parser.add_argument("--json", action="store_true", help="print data instead of tables")
    parser.add_argument(
        "--from", dest="start", type=int, default=1, help="number of the first draw (default 1)"
    )
    parser.add_argument(
        "--plays", type=int, default=PLAYS, help=f"of each simulated trainee (default {PLAYS})"
    )
    parser.add_argument(
        "--minutes", type=float, default=MINUTES, help="of searching at most for each call"
    )
    parser.add_argument("--keep", action="store_true", help="store those as hard for classes")
    parser.add_argument(
        "--stored", action="store_true", help="measure the stored versions instead of searching"
    )


def run(args: argparse.Namespace) -> int:
    """Search or measure, and print.

    Parameters
    ----------
    args : Namespace
        Parsed.

    Returns
    -------
    int
        0; 1 where fewer were found than wanted or a stored one is not as hard; 2 after a
        sentence on what was wrong. [-]
    """
    told, is_short = [], False
    try:
        for call in args.calls or call_file.names():
            found = _measured_again(call, args) if args.stored else _searched(call, args)
            wanted = len(found.versions) if args.stored else args.count
            good = [one for one in found.versions if not one[2]]
            is_short |= len(good) < wanted
            if args.keep and good:
                keep(call, args.plays, found.own, [one[:2] for one in good])
            told.append(found)
            if not args.json:
                sys.stdout.write(table(found) + "\n")
    except CallFileError as problem:
        sys.stderr.write(f"{problem}\n")
        return 2
    if args.json:
        sys.stdout.write(json.dumps([data(found) for found in told], indent=1) + "\n")
    return int(is_short)


def _searched(call: str, args: argparse.Namespace) -> Found:
    """Candidates until there are enough or time is up."""
    begun = time.monotonic()
    until = begun + 60.0 * args.minutes
    parent = parent_of(call)
    own = measured(parent.subject, named=call, plays=args.plays)
    found: list[tuple[Recipe, Measured, tuple[str, ...]]] = []
    rejected: list[str] = []
    for one in tried(parent, own, start=args.start, plays=args.plays, until=until):
        if one.recipe is not None and one.measured is not None and not one.reasons:
            found.append((one.recipe, one.measured, ()))
            said = "as hard"
        else:
            said = "; ".join(one.reasons)
            rejected.append(said)
        _progress(f"{call}: candidate {one.number}: {said}")
        if len(found) >= args.count:
            break
    _progress(
        f"{call}: {len(found)} of {args.count} wanted, {len(rejected)} rejected, "
        f"{time.monotonic() - begun:.0f} s"
    )
    return Found(parent=parent, own=own, versions=tuple(found), rejected=tuple(rejected))


def _measured_again(call: str, args: argparse.Namespace) -> Found:
    parent = parent_of(call)
    own = measured(parent.subject, named=call, plays=args.plays)
    versions = []
    for number, recipe in enumerate(recipes(call), start=1):
        said: tuple[str, ...] = ()
        try:
            recipe = worded(parent, recipe)
        except Unequal as reason:
            said = (str(reason),)
        now = measured(made(parent, recipe), named=call, plays=args.plays)
        against = (*said, *differences(own, now))
        versions.append((recipe, now, against))
        _progress(f"{call}.{number}: {'; '.join(against) or 'as hard'}")
    return Found(parent=parent, own=own, versions=tuple(versions), rejected=())


def _progress(line: str) -> None:
    sys.stderr.write(f"{line}\n")
    sys.stderr.flush()


def table(found: Found) -> str:
    """A call and its versions side by side.

    Parameters
    ----------
    found : Found
        Of one call.

    Returns
    -------
    str
        Lines.
    """
    call, columns = found.parent.name, [found.own, *(one[1] for one in found.versions)]
    heads = [call, *(f"{call}.{number}" for number in range(1, len(columns)))]
    rows: list[tuple[str, Sequence[str]]] = [("", heads)]
    rows += [
        (SAID[name], [shown(getattr(one.difficulty, name)) for one in columns]) for name in NAMES
    ]
    rows += [(who, [f"{one.scores[who]:.1f}" for one in columns]) for who in found.own.scores]
    sites = [_told_of(found.parent, None, 0)]
    sites += [_told_of(found.parent, one[0], place) for place, one in enumerate(found.versions, 1)]
    rows += [(name, [site[name] for site in sites]) for name in sites[0]]
    width = max(WIDTH, 2 + max(len(cell) for _, cells in rows for cell in cells))
    lines = [name.ljust(18) + "".join(cell.rjust(width) for cell in cells) for name, cells in rows]
    lines += [f"Not as hard: {reason}" for reason in dict.fromkeys(found.rejected)]
    lines += [f"Not as hard now: {'; '.join(one[2])}" for one in found.versions if one[2]]
    return "\n".join(lines) + "\n"


def _told_of(parent: Parent, recipe: Recipe | None, number: int) -> Mapping[str, str]:
    """What a version has otherwise, for people who may see the key."""
    tables = parent.tables
    order, own = tables["work_order"], tables["sealed"]["faults"]
    faults = own | dict(recipe.faults) if recipe else own
    day = {row: entry["value"] for row, entry in tables["day"].items()}
    day |= dict(recipe.day) if recipe else {}
    customer = order["customer"]
    if recipe:
        customer = invented_names.customer(customer, parent.name, number)
    return {
        "house": recipe.house if recipe else tables["site"]["house"],
        "unit": recipe.unit if recipe else tables["site"]["unit"],
        "outdoor high, °F": f"{day['high']:.1f}",
        **{name: f"{size:g}" for name, size in faults.items()},
        "customer": customer,
    }


def data(found: Found) -> dict[str, Any]:
    """The same as plain data.

    Parameters
    ----------
    found : Found
        Of one call.

    Returns
    -------
    dict
    """
    return {
        "call": found.parent.name,
        "parent": asdict(found.own),
        "versions": [
            {"recipe": asdict(recipe), **asdict(now), "reasons": list(against)}
            for recipe, now, against in found.versions
        ],
        "rejected": list(found.rejected),
    }
