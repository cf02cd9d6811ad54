"""``benchcall bench``: the table of times that stands in the README."""

import argparse
import json
import sys

from simulator.serve.commands.timing.times import table

MOST_ROUNDS = 50
MOST_TRAINEES = 35


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


def trainees(text: str) -> int:
    """A number of trainees as typed.

    Parameters
    ----------
    text : str
        What follows ``--trainees``.

    Returns
    -------
    int
        From 2 to 35: the bench has 40 places. [-]

    Raises
    ------
    argparse.ArgumentTypeError
        With what was wrong.
    """
    if not (text.isascii() and text.isdigit() and 2 <= int(text) <= MOST_TRAINEES):
        raise argparse.ArgumentTypeError(f"a class has 2 to 35 trainees, not {text!r}")
    return int(text)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Describe the options.

    Parameters
    ----------
    parser : ArgumentParser
        Of the subcommand.
    """
    parser.add_argument(
        "what", nargs="?", choices=("class",), help="thirty trainees at once, beside hello pages"
    )
    parser.add_argument("--rounds", type=rounds, default=5, help="how often each (default: 5)")
    parser.add_argument("--trainees", type=trainees, default=30, help="of a class (default: 30)")
    parser.add_argument(
        "--json", action="store_true", help="for programs; of the plant alone without class"
    )
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
    if args.what == "class":
        return _class(args)
    from simulator.serve.commands.timing.solving import comparison, solving

    if args.json:
        sys.stdout.write(json.dumps(comparison(args.rounds), indent=2) + "\n")
        return 0
    timings = []
    if not args.no_pages:
        try:
            from simulator.serve.commands.timing.browsing import browsing

            timings += browsing(args.rounds)
        except ImportError:
            sys.stderr.write("Timing pages needs the test extra: pip install benchcall[test].\n")
            return 1
    timings += solving(args.rounds)
    sys.stdout.write(table(timings) + "\n")
    figures = comparison(args.rounds)
    for size, rate in figures.pop("growth").items():
        sys.stdout.write(f"batch of {int(size):,}: {rate:,.0f} solutions a second\n")
    rate, size = figures.pop("batch_solves_per_s"), figures.pop("batch_size")
    sys.stdout.write(f"batch_solves_per_s (batches of {size:,}, median): {rate:,.0f}\n")
    for name, value in figures.items():
        sys.stdout.write(f"{name}: {value:,.1f}\n")
    return 0


def _class(args: argparse.Namespace) -> int:
    try:
        from simulator.serve.commands import bench_class
        from simulator.serve.commands.timing.class_room import FAILURES
    except ImportError:
        sys.stderr.write("A class needs the test extra: pip install benchcall[test].\n")
        return 1
    try:
        return bench_class.run(args.trainees, args.rounds, args.json)
    except FAILURES as problem:
        sys.stderr.write(f"The class could not be measured to its end: {problem}.\n")
        return 2
