"""``benchcall readings``: what the tools would read, without a browser."""

import argparse
import json
import os
import sys
from dataclasses import asdict
from typing import Any

from simulator.faults._catalogue import discover
from simulator.plant.catalogue import METERING
from simulator.quantities.entered import BadEntry
from simulator.quantities.kinds import KINDS
from simulator.serve import bench_readings
from simulator.serve.bench_readings import HEATING_READINGS, HEATING_TRUTH, READINGS, TRUTH
from simulator.serve.stand import house_day
from simulator.serve.stand.given import listed
from simulator.serve.stand.limits import (
    HEATING_LIMITS,
    HOUSES,
    LIMITS,
    MODES,
    MOTORS,
    REFRIGERANTS,
    STRIPS,
    UNITS,
    USUAL,
    ZONE_CALLS,
    ZONES,
)
from simulator.serve.stand.setting import Setting

# What is worked out from several fields has its kind here, the rest beside its field.
_FIELDS = READINGS | TRUTH | HEATING_READINGS | HEATING_TRUTH
_KINDS = (
    {name: kind for name, (_, kind) in _FIELDS.items()}
    | bench_readings.WORKED_OUT
    | house_day.KINDS
    | house_day.WINTER
    | bench_readings.STANDING
    | bench_readings.CYCLING
)
WORDS = (
    *("mode", "unit", "refrigerant", "metering", "motor"),
    *("zone", "house", "zone_call", "strips", "gauges"),
)
_YES_OR_NO = ("no", "yes")
_HUNDREDS = -2  # nobody can measure heat any closer


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Describe the options.

    Parameters
    ----------
    parser : ArgumentParser
        Of the subcommand.
    """
    parser.add_argument("--json", action="store_true", help="print JSON")
    parser.add_argument("--list-faults", action="store_true", help="list all faults and stop")
    default = Setting()
    own = "; the unit's own unless given"
    for option, usual, text in (
        ("mode", default.mode, listed(MODES)),
        ("unit", default.unit, f"what stands there: {', '.join(UNITS)}, or a file"),
        ("refrigerant", None, f"in the circuit: {', '.join(REFRIGERANTS)}{own}, nothing resized"),
        ("gauges", None, f"set to: {', '.join(REFRIGERANTS)}; what is in the circuit unless given"),
        ("metering", None, listed(METERING) + own),
        ("motor", None, f"blower: {listed(MOTORS)}{own}"),
        ("zone", None, f"around the ducts: {', '.join(ZONES)}; the house's own unless given"),
        ("house", default.house, f"{', '.join(HOUSES)}, or a file"),
        ("zone_call", default.zone_call, f"zones that call: {', '.join(ZONE_CALLS)}"),
        ("strips", default.strips, f"electric strips: {listed(STRIPS)}"),
    ):
        parser.add_argument(f"--{option.replace('_', '-')}", default=usual, help=text)
    for key, text in (
        ("outdoor", "outdoor dry bulb, °F"),
        ("outdoor_wb", "outdoor wet bulb, °F"),
        ("return_db", "dry bulb at the return grille, °F"),
        ("return_wb", "wet bulb at the return grille, °F"),
        ("airflow", "share of rated airflow"),
        ("altitude", "above sea level, ft"),
    ):
        option = f"--{key.replace('_', '-')}"
        parser.add_argument(option, default=None, help=text + _usual(key))
    parser.add_argument(
        "--fault", action="append", default=[], metavar="NAME=SEVERITY", help="may be repeated"
    )


def _usual(key: str) -> str:
    """The numbers that stand where none is given, and the ends of what can be."""
    ends = [limits[key][:2] for limits in (LIMITS, HEATING_LIMITS)]
    spans = [f"{low:g} to {high:g}" for low, high in ends]
    allowed = spans[0] if ends[0] == ends[1] else f"{spans[0]}, heating {spans[1]}"
    if key in USUAL["cooling"]:
        usual = " and ".join(f"{USUAL[mode][key]:g} {mode}" for mode in MODES)
        return f" ({allowed}; usually {usual})"
    return f" ({allowed})"


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
    except (TypeError, ValueError):  # two bare dashes arrive as an empty list
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
    given: dict[str, Any] = {
        key: number(text, f"--{key.replace('_', '-')}")
        for key in LIMITS
        if (text := getattr(args, key)) is not None
    }
    given |= {word: getattr(args, word) for word in WORDS}
    return Setting(faults=faults, **given)


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
    if kind == "flag":
        return _YES_OR_NO[round(value)]
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
        table = bench_readings.readings(**asdict(setting_from(args)))
    except BadEntry as problem:
        sys.stderr.write(f"{problem}\n")
        return 2
    if args.json:
        sys.stdout.write(json.dumps(table, ensure_ascii=False, indent=2) + "\n")
        return 0
    sys.stdout.write(f"state: {table['state']}\nmode: {table['mode']}\n")
    for note in table.get("notes", []):
        sys.stdout.write(f"note: {note}\n")
    for part in ("readings", "truth"):
        sys.stdout.write(f"\n{part}\n")
        for name, row in table[part].items():
            shown = rounded(name, row["value"])
            sys.stdout.write(f"  {name:32} {shown:>9} {row['unit']}".rstrip() + "\n")
    return 0
