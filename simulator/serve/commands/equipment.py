"""``benchcall equipment FILE``: how a unit from published data was fitted."""

import argparse
import sys
from importlib.resources import files
from pathlib import Path

from simulator.plant import catalogue, unit_report
from simulator.plant.parameter_file import ParameterFileError
from simulator.serve.stand.limits import UNITS

# The reference unit is described part by part: no sheet states what it would be held to.
WITH_SHEET = tuple(unit for unit in UNITS if unit != catalogue.REFERENCE)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Describe the options.

    Parameters
    ----------
    parser : ArgumentParser
        Of the subcommand.
    """
    parser.add_argument(
        "file", metavar="FILE", help=f"a TOML file, or one of {', '.join(WITH_SHEET)}"
    )
    parser.add_argument(
        "--copy-to", metavar="NEW", help="write the data sheet to a new file, to start one from"
    )


def run(args: argparse.Namespace) -> int:
    """Print the report, or copy the sheet.

    Parameters
    ----------
    args : Namespace
        Parsed.

    Returns
    -------
    int
        0 if every row is met, 1 if not, 2 after a sentence on what was wrong. [-]
    """
    listed = ", ".join(WITH_SHEET)
    if args.file == catalogue.REFERENCE:
        return _refuse(
            f"{args.file} is described part by part and has no data sheet; "
            f"name a TOML file, or one of {listed}."
        )
    if args.file not in WITH_SHEET and not args.file.endswith(".toml"):
        return _refuse(f"{args.file} is neither a TOML file nor one of {listed}.")
    if args.copy_to is not None:
        if args.file not in WITH_SHEET:
            return _refuse(f"Only a shipped data sheet is copied; name one of {listed}.")
        return _copy(args.file, Path(args.copy_to))
    try:
        fit = catalogue.fit_of(args.file)
    except ParameterFileError as problem:
        return _refuse(str(problem))
    sys.stdout.write(unit_report.text(fit))
    return 0 if all(row.met for row in unit_report.rows(fit)) else 1


def _copy(unit: str, new: Path) -> int:
    sheet = files("simulator.plant").joinpath("equipment", f"{unit}.toml")
    text = sheet.read_text(encoding="utf-8")
    try:
        with new.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except FileExistsError:
        return _refuse(f"{new} is there already; name a new file.")
    except (OSError, ValueError) as problem:
        why = (getattr(problem, "strerror", None) or str(problem)).lower()
        return _refuse(f"{new} cannot be written: {why}.")
    return 0


def _refuse(sentence: str) -> int:
    sys.stderr.write(f"{sentence}\n")
    return 2
