"""``benchcall equipment FILE``: how a unit from published data was fitted."""

import argparse
import sys

from simulator.plant import catalogue, unit_report
from simulator.plant.parameter_file import ParameterFileError


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Describe the options.

    Parameters
    ----------
    parser : ArgumentParser
        Of the subcommand.
    """
    parser.add_argument("file", metavar="FILE", help="a TOML file, or the name of a shipped unit")


def run(args: argparse.Namespace) -> int:
    """Print the report.

    Parameters
    ----------
    args : Namespace
        Parsed.

    Returns
    -------
    int
        0 if every row is met, 1 if not, 2 after a sentence on what was wrong. [-]
    """
    try:
        fit = catalogue.fit_of(args.file)
    except ParameterFileError as problem:
        sys.stderr.write(f"{problem}\n")
        return 2
    sys.stdout.write(unit_report.text(fit))
    return 0 if all(row.met for row in unit_report.rows(fit)) else 1
