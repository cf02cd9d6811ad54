"""``benchcall readings``: what the tools would read, without a browser."""

import argparse
import json
import os
import sys
from dataclasses import asdict
from typing import Any

from simulator.faults._catalogue import discover
from simulator.plant.catalogue import METERING, MOTORS
from simulator.quantities.entered import BadEntry
from simulator.quantities.kinds import KINDS
from simulator.serve import bench_readings, house_day
from simulator.serve.bench_readings import READINGS, TRUTH, Setting
from simulator.serve.given import listed

# What is worked out from several fields has its kind here, the rest beside its field.
_KINDS = {name: kind for name, (_, kind) in {**READINGS, **TRUTH}.items()} | {
    "temperature_split": "temperature_difference",
    "cop": "ratio",
    "sensible_heat_ratio": "ratio",
    **house_day.KINDS,
}
_HUNDREDS = -2  # nobody can measure heat any closer


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Describe the options.

    Parameters
    ----------
    parser : ArgumentParser
        Of the subcommand.
    """
    default = Setting()
    parser.add_argument("--json", action="store_true", help="print JSON")
    parser.add_argument("--list-faults", action="store_true", help="list all faults and stop")
    parser.add_argument("--mode", default=default.mode, help="cooling")
    parser.add_argument("--metering", default=default.metering, help=listed(METERING))
    parser.add_argument("--motor", default=default.motor, help=f"blower: {listed(MOTORS)}")
    parser.add_argument(
        "--zone", default=default.zone, help=f"around the ducts: {', '.join(bench_readings.ZONES)}"
    )
    for option, text in (
        ("outdoor", "outdoor dry bulb, °F"),
        ("return-db", "dry bulb at the return grille, °F"),
        ("return-wb", "wet bulb at the return grille, °F"),
        ("airflow", "share of rated airflow"),
    ):
        key = option.replace("-", "_")
        parser.add_argument(f"--{option}", default=str(getattr(default, key)), help=text)
    parser.add_argument(
        "--fault", action="append", default=[], metavar="NAME=SEVERITY", help="may be repeated"
    )


def number(text: str, name: str) -> float:
    """A number as typed.

    Parameters
    ----------
    text : str
        What was typed.
    name : str
        What it is for.

    Returns
    -------
    float
        [-]

    Raises
    ------
    BadEntry
        If it is not a number.
    """
    try:
        return float(text)
    except ValueError:
        raise BadEntry(f"{name} needs a number, not {text!r}.") from None


def setting_from(args: argparse.Namespace) -> Setting:
    """The setting that was typed.

    Parameters
    ----------
    args : Namespace
        Parsed.

    Returns
    -------
    Setting
        Not yet checked.

    Raises
    ------
    BadEntry
        For text where a number belongs.
    """
    faults: dict[str, float] = {}
    for text in args.fault:
        name, equals, amount = text.partition("=")
        if not equals:
            raise BadEntry(f"--fault needs NAME=SEVERITY, such as undercharge=0.2, not {text!r}.")
        if name in faults:
            raise BadEntry(f"The fault {name} is given twice; give it once.")
        faults[name] = number(amount, name)
    return Setting(
        mode=args.mode,
        metering=args.metering,
        motor=args.motor,
        zone=args.zone,
        faults=faults,
        **{
            key: number(getattr(args, key), f"--{key.replace('_', '-')}")
            for key in bench_readings.LIMITS
        },
    )


def fault_list() -> list[dict[str, Any]]:
    """All faults with what their severity means.

    Returns
    -------
    list
        One entry a fault.
    """
    return [
        {
            "name": name,
            "title": kind.title,
            "severity": kind.measure,
            "unit": kind.unit,
            "low": kind.low,
            "high": kind.high,
            "typical": kind.typical,
        }
        for name, kind in discover().items()
    ]


def rounded(name: str, value: float) -> str:
    """A value as closely as a technician's tool shows it.

    Parameters
    ----------
    name : str
        Of the reading or the truth.
    value : float
        In the technician's unit. [-]

    Returns
    -------
    str
        Heat rates to hundreds; never a zero with a sign.

    Examples
    --------
    >>> rounded("subcooling", -0.003), rounded("gross_capacity", 35958.0)
    ('0.0', '36000')
    """
    kind = _KINDS[name]
    # A day's money is small: cents.
    places = {"heat_rate": _HUNDREDS, "money": 2}.get(kind, KINDS[kind].us.decimals)
    return f"{round(value, places) + 0.0:.{max(places, 0)}f}"


def run(args: argparse.Namespace) -> int:
    """Print what was asked for.

    Parameters
    ----------
    args : Namespace
        Parsed.

    Returns
    -------
    int
        0, or 2 after a sentence on what was wrong.
    """
    try:
        status = _list_faults(args.json) if args.list_faults else _print_readings(args)
        sys.stdout.flush()
    except BrokenPipeError:
        # Whoever read has seen enough; what is left must not complain when Python ends.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    return status


def _list_faults(as_json: bool) -> int:
    listing = fault_list()
    if as_json:
        sys.stdout.write(json.dumps(listing, ensure_ascii=False, indent=2) + "\n")
        return 0
    for row in listing:
        unit = "" if row["unit"] == "-" else f" {row['unit']}"
        sys.stdout.write(f"{row['name']:26} 0 to {row['high']:g}{unit}: {row['severity']}\n")
    return 0


def _print_readings(args: argparse.Namespace) -> int:
    try:
        setting = bench_readings.checked(setting_from(args))
    except BadEntry as problem:
        sys.stderr.write(f"{problem}\n")
        return 2
    table = bench_readings.readings(**asdict(setting))
    if args.json:
        sys.stdout.write(json.dumps(table, ensure_ascii=False, indent=2) + "\n")
        return 0
    sys.stdout.write(f"state: {table['state']}\n")
    for part in ("readings", "truth"):
        sys.stdout.write(f"\n{part}\n")
        for name, row in table[part].items():
            shown = rounded(name, row["value"])
            sys.stdout.write(f"  {name:32} {shown:>9} {row['unit']}".rstrip() + "\n")
    return 0
