"""``benchcall readings``: what the tools would read, without a browser."""

import argparse
import json
import sys
from dataclasses import asdict
from typing import Any

from simulator.faults._catalogue import discover
from simulator.quantities.entered import BadEntry
from simulator.serve import bench_readings
from simulator.serve.bench_readings import Setting


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
    parser.add_argument("--metering", default=default.metering, help="txv or orifice")
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
    out = sys.stdout.write
    if args.list_faults:
        listed = fault_list()
        if args.json:
            out(json.dumps(listed, ensure_ascii=False, indent=2) + "\n")
        else:
            for row in listed:
                unit = "" if row["unit"] == "-" else f" {row['unit']}"
                out(f"{row['name']:26} 0 to {row['high']:g}{unit}: {row['severity']}\n")
        return 0
    try:
        setting = setting_from(args)
        bench_readings.checked(setting)
    except BadEntry as problem:
        sys.stderr.write(f"{problem}\n")
        return 2
    table = bench_readings.readings(**asdict(setting))
    if args.json:
        out(json.dumps(table, ensure_ascii=False, indent=2) + "\n")
        return 0
    out(f"state: {table['state']}\n")
    for part in ("readings", "truth"):
        out(f"\n{part}\n")
        for name, row in table[part].items():
            out(f"  {name:32} {row['value']:12.3f} {row['unit']}\n")
    return 0
