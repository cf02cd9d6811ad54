"""What is said of a version where numbers are in it: bills, registers, the plate."""

import re
from collections.abc import Mapping
from typing import Any, NamedTuple

from simulator.calls.call_table import CallFileError
from simulator.plant import energy, parameter_file
from simulator.plant.installation import Installation
from simulator.plant.parameter_file import Table
from simulator.variants.subject import Subject

JOULES = 3.6e6  # in a kilowatt hour, by definition
SECONDS = 86400.0  # in a day
TON = 3516.85  # 12,000 Btu/h [W]
COUNTED = ("Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten")
A2L = frozenset({"R-454B", "R-32"})  # of the fluids there are
_USED = r"{} year: ([\d,]+) kWh, \$(\d+)"
_REGISTERS = re.compile(rf"\b({'|'.join(COUNTED)})( \w+)? registers", re.IGNORECASE)
_PLATE = re.compile(r"[A-Z][a-z]+ \d+ (split [^,]+), [\d.]+ tons, R-[^,(]+(\([^)]*\))?,")


class Bills(NamedTuple):
    """Of the same month, last year and this."""

    before: float
    after: float

    @property
    def ratio(self) -> float:
        """Growth from the one to the other, [-]."""
        return self.after / self.before


def bills_said(subject: Subject) -> Bills:
    """What the customer's papers say.

    Parameters
    ----------
    subject : Subject
        The call.

    Returns
    -------
    Bills
        In kWh. [-]

    Raises
    ------
    CallFileError
        If they say nothing of the kind.
    """
    text = subject.call.answers["read_bill"]
    read = [re.search(_USED.format(year), text) for year in ("last", "this")]
    if not all(read):
        raise CallFileError(f"The bill of call {subject.call.id} names no two years.")
    return Bills(*(float(one[1].replace(",", "")) for one in read if one))


def bills_due(subject: Subject, like: Subject) -> Bills:
    """What the plant makes of a version's bills, with the parent's share of what it cannot know.

    Of what a house draws some never warms its rooms: that share is the parent's, as printed
    over as computed.

    Parameters
    ----------
    subject, like : Subject
        The version and its parent.

    Returns
    -------
    Bills
        In kWh. [-]
    """
    printed, (sound, _) = bills_said(like), _used(like)
    healthy, found = _used(subject)
    before = healthy * printed.before / sound
    return Bills(before, before + found - healthy)


def _used(subject: Subject) -> tuple[float, float]:
    """A month in the sound house and in the house as found, its own inside load too, in kWh."""
    call, (healthy, found) = subject.call, subject.plants()

    def month(plant: Installation) -> float:
        day = energy.day(plant, call.weather, call.setpoint, call.mode)
        inside = float(healthy.house.internal_gain) * SECONDS
        return (day.energy + inside) * energy.DAYS_IN_MONTH / JOULES

    sound = month(healthy)
    return sound, month(found) if subject.key.faults else sound


def bill_words(subject: Subject, like: Subject, due: Bills) -> dict[str, str]:
    """Old words to new ones for both bills, and for their dollars wherever they are said.

    Parameters
    ----------
    subject, like : Subject
        The version and its parent.
    due : Bills
        Of the version.

    Returns
    -------
    dict
    """
    text = like.call.answers["read_bill"]
    house = parameter_file.read("sites", subject.call.house).table("house")
    price = house.numbers(electricity_price="$/J")["electricity_price"] * JOULES
    instead = {}
    for year, used in (("last", due.before), ("this", due.after)):
        found = re.search(_USED.format(year), text)
        if found is None:
            continue
        dollars = f"${round(used) * price:.0f}"
        instead[f"{found[1]} kWh, ${found[2]}"] = f"{round(used):,} kWh, {dollars}"
        if f"${found[2]}" in like.call.complaint:
            instead[f"${found[2]}"] = dollars
    return instead


def site_words(tables: Mapping[str, Any], house: str, unit: str) -> dict[str, str]:
    """Old words to new ones where another house or unit is described.

    Parameters
    ----------
    tables : mapping
        Of the parent.
    house, unit : str
        Of the version.

    Returns
    -------
    dict
    """
    instead: dict[str, str] = {}
    for line in tables["work_order"]["equipment"]:
        registers = _REGISTERS.search(line)
        if house != tables["site"]["house"] and registers:
            shares = parameter_file.read("sites", house).table("ducts").bare_column("room_shares")
            count = COUNTED[len(shares) - 2]
            count = count if registers[1][0].isupper() else count.lower()
            instead[registers[0]] = f"{count}{registers[2] or ''} registers"
        plate = _PLATE.match(line)
        if unit != tables["site"]["unit"] and plate:
            instead[plate[0]] = _plate(parameter_file.read("equipment", unit), plate[1])
    return instead


def _plate(file: Table, kind: str) -> str:
    plate = file.table("plate")
    fluid = plate.word("refrigerant")
    if "nominal_tons" in plate.rows:
        tons = float(plate.rows["nominal_tons"]["value"])
    else:
        tons = round(2.0 * float(plate.rows["nominal_capacity"]["value"]) / TON) / 2.0
    flammable = " (A2L, mildly flammable)" if fluid in A2L else ""
    return f"{plate.word('name')} {kind}, {tons:g} tons, {fluid}{flammable},"
