"""``benchcall policies``: every call played by four simulated trainees, and what they score."""

import argparse
import json
import sys
from collections.abc import Mapping, Sequence
from typing import Any
from zlib import crc32

import numpy as np

from simulator.calls import call_file
from simulator.calls.call_table import CallFileError
from simulator.calls.visit import Visit
from simulator.diagnosis.trainees import TRAINEES
from simulator.serve.visits.closed_visits import simulated
from simulator.serve.visits.solved import solved

REFERENCE = "reference"  # trainee who shows whether a call can be solved at all
SEED = 1  # of the first play of each call [-]


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Describe the options.

    Parameters
    ----------
    parser : ArgumentParser
        Of the subcommand.
    """
    parser.add_argument("calls", metavar="CALL", nargs="*", help="calls to play; all without any")
    parser.add_argument("--json", action="store_true", help="print data instead of a table")
    parser.add_argument("--plays", type=int, default=1, help="how often each call is played")


def run(args: argparse.Namespace) -> int:
    """Play and print.

    Parameters
    ----------
    args : Namespace
        Parsed.

    Returns
    -------
    int
        0, or 2 after a sentence on what was wrong. [-]
    """
    try:
        found = played_by_all(args.calls or call_file.names(), max(args.plays, 1))
    except CallFileError as problem:
        sys.stderr.write(f"{problem}\n")
        return 2
    sys.stdout.write(json.dumps(found, indent=1) + "\n" if args.json else table(found))
    return 0


def played_by_all(calls: Sequence[str], plays: int = 1) -> dict[str, Any]:
    """Scores of all trainees on all calls.

    Parameters
    ----------
    calls : sequence
        Names.
    plays : int
        How often each is played, each time with other tools and another unit of the kind. [-]

    Returns
    -------
    dict
        ``mean_score`` by trainee, ``calls`` with scores, minutes and findings of each, and
        ``unsolved``: calls that the reference did not solve in the time allowed, each with what it
        is hardest to tell from.
    """
    rows: dict[str, dict[str, Any]] = {call: {} for call in calls}
    unsolved: list[dict[str, Any]] = []
    for call in calls:
        for who, trainee in TRAINEES.items():
            seen = []
            for play in range(plays):
                chance = np.random.default_rng((SEED + play, crc32(f"{who} {call}".encode())))
                seen.append(simulated(call, trainee, SEED + play, chance))
            if who == REFERENCE:
                unsolved += _unsolved(call, [visit for visit, _ in seen])
            last = seen[-1][0]
            rows[call][who] = {
                "score": round(sum(card.total for _, card in seen) / plays, 1),
                "minutes": round(sum(visit.minute for visit, _ in seen) / plays),
                "found": list(last.finding.causes) if last.finding else [],
            }
    mean = {
        who: round(sum(row[who]["score"] for row in rows.values()) / len(rows), 1)
        for who in TRAINEES
    }
    return {"mean_score": mean, "plays": plays, "calls": rows, "unsolved": unsolved}


def _unsolved(call: str, played: Sequence[Visit]) -> list[dict[str, Any]]:
    """The first play that went wrong or took too long; none is the rule."""
    judged = [solved(call, visit) for visit in played]
    return [
        {
            "call": call,
            "is_right": one.is_right,
            "minutes": round(one.minutes),
            "allowed": round(one.allowed),
            "look_alike": one.look_alike,
        }
        for one in judged
        if not one.is_solved
    ][:1]


def table(found: Mapping[str, Any]) -> str:
    """The same for people.

    Parameters
    ----------
    found : mapping
        As ``played_by_all`` gave it.

    Returns
    -------
    str
        Lines.
    """
    names = list(found["mean_score"])
    widest = max(len(call) for call in found["calls"])
    lines = ["call".ljust(widest) + "".join(f"{name:>14}" for name in names)]
    for call, row in found["calls"].items():
        lines.append(call.ljust(widest) + "".join(f"{row[name]['score']:14.1f}" for name in names))
    mean = found["mean_score"]
    lines.append("mean".ljust(widest) + "".join(f"{mean[name]:14.1f}" for name in names))
    lines += [
        f"Not solved in time: {one['call']}, {one['minutes']} of {one['allowed']} min; hardest to "
        f"tell from: {one['look_alike']}."
        for one in found["unsolved"]
    ]
    return "\n".join(lines) + "\n"
