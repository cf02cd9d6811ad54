"""``benchcall bench``: the table of times that stands in the README."""

import argparse
import json
import sys

from simulator.serve.bench.timing import table

MOST_ROUNDS = 50


def rounds(text: str) -> int:
    """A number of rounds as typed.

    Parameters
    ----------
    text : str
        What follows ``--rounds``.

    Returns
    -------
    int
        From 1 to 50. [-]

    Raises
    ------
    argparse.ArgumentTypeError
        With what was wrong.
    """
    if not (text.isascii() and text.isdigit() and 1 <= int(text) <= MOST_ROUNDS):
        raise argparse.ArgumentTypeError(f"rounds are a whole number from 1 to 50, not {text!r}")
    return int(text)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Describe the options.

    Parameters
    ----------
    parser : ArgumentParser
        Of the subcommand.
    """
    parser.add_argument("--rounds", type=rounds, default=5, help="how often each (default: 5)")
    parser.add_argument("--json", action="store_true", help="the plant's figures, as JSON")
    parser.add_argument("--no-pages", action="store_true", help="time the plant only")


def run(args: argparse.Namespace) -> int:
    """Measure and print.

    Parameters
    ----------
    args : Namespace
        Parsed.

    Returns
    -------
    int
        Exit status. [-]
    """
    from simulator.serve.bench.solving import comparison, solving

    if args.json:
        sys.stdout.write(json.dumps(comparison(args.rounds), indent=2) + "\n")
        return 0
    timings = []
    if not args.no_pages:
        try:
            from simulator.serve.bench.browsing import browsing

            timings += browsing(args.rounds)
        except ImportError:
            sys.stderr.write("Timing pages needs the test extra: pip install benchcall[test].\n")
            return 1
    timings += solving(args.rounds)
    sys.stdout.write(table(timings) + "\n")
    figures = comparison(args.rounds)
    for size, rate in figures.pop("growth").items():
        sys.stdout.write(f"batch of {int(size):,}: {rate:,.0f} solutions a second\n")
    for name, value in figures.items():
        sys.stdout.write(f"{name}: {value:,.1f}\n")
    return 0
