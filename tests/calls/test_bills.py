"""The bills a customer shows: made by the house that stands there, and no more than a bill."""

import json
import re
from pathlib import Path

import pytest

from simulator.calls import call_file, sealed
from simulator.calls.site import Site
from simulator.plant import energy
from simulator.plant.energy import Day, Parts
from tests.scoring.played import desk_for, go

CALLS = pytest.mark.parametrize("call", call_file.names())
JOULES = 3.6e6  # in a kilowatt hour, by definition
_YEAR = r"[A-Z][a-z]+ {} year: ([\d,]+) kWh, \$(\d+)\."
# Of any house: each changes what is drawn on a bill by little.
SCATTERED = (1, 2)


def site_of(call: str, seed: int = SCATTERED[0]) -> Site:
    """A site as a visit opens it."""
    return Site(call_file.load(call), sealed.sealed(call), seed)


def days(site: Site) -> tuple[Day, Day]:
    """Healthy, as last year; and as found."""
    call = site.call
    return (
        energy.day(site.healthy(), call.weather, call.setpoint, call.mode),
        energy.day(site.installation(), call.weather, call.setpoint, call.mode),
    )


def bills(call: str) -> list[tuple[float, float]]:
    """Last year's and this year's, in kWh and $, as the customer's papers say."""
    text = call_file.load(call).answers["read_bill"]
    read = [re.search(_YEAR.format(year), text) for year in ("last", "this")]
    return [(float(r[1].replace(",", "")), float(r[2])) for r in read if r]


@CALLS
@pytest.mark.parametrize("seed", SCATTERED)
def test_the_bill_rose_by_what_the_fault_costs(call: str, seed: int) -> None:
    """Within 3 %, from the bill itself: it says that degree-days differ by up to 2 %.

    What is paid follows from the price, by arithmetic.
    """
    (before, paid), (after, pays) = bills(call)
    healthy, found = days(site_of(call, seed))
    rise = (found.energy - healthy.energy) * energy.DAYS_IN_MONTH / JOULES
    assert after - before == pytest.approx(rise, rel=0.03)
    # Dollars are whole, so each bill's are asked for rather than the few that they differ by.
    price = healthy.cost_per_month / healthy.energy / energy.DAYS_IN_MONTH * JOULES
    for used, cost in ((before, paid), (after, pays)):
        assert cost == pytest.approx(used * price, abs=0.5)


@CALLS
def test_the_rest_of_the_bill_is_the_house_itself(call: str) -> None:
    """Cooling and what warms the rooms from inside make the bill within 10 %.

    Of what a house draws some never warms its rooms (drains, dryer, porch), and people warm
    them without a meter: common practice, no source.
    """
    site = site_of(call)
    inside = float(site.healthy().house.internal_gain) * 86400.0
    for (billed, _), day in zip(bills(call), days(site), strict=True):
        whole = (day.energy + inside) * energy.DAYS_IN_MONTH / JOULES
        assert billed == pytest.approx(whole, rel=0.10)


@CALLS
def test_dollars_are_kilowatt_hours_at_the_house_price(call: str) -> None:
    """By arithmetic, to the dollar; the complaint says the same dollars where it says any."""
    price = float(site_of(call).healthy().house.electricity_price) * JOULES
    printed = bills(call)
    assert len(printed) == 2
    for used, paid in printed:
        assert paid == pytest.approx(used * price, abs=0.6)
    said = {float(amount) for amount in re.findall(r"\$(\d+)", call_file.load(call).complaint)}
    assert said <= {paid for _, paid in printed}


@CALLS
def test_repaired_the_day_is_the_healthy_one(call: str) -> None:
    """Within 1 %, from the issue: run time, and energy and money of every part."""
    site = site_of(call)
    key = site.key.opened()
    acts = tuple((codes[0], None) for codes in key.repairs.values())
    left = energy.day(
        site.installation(acts), site.call.weather, site.call.setpoint, site.call.mode
    )
    healthy, found = days(site)
    assert left.mean_run_fraction == pytest.approx(healthy.mean_run_fraction, rel=0.01)
    assert left.energy_by_part == pytest.approx(healthy.energy_by_part, rel=0.01)
    assert left.cost == pytest.approx(healthy.cost, rel=0.01)
    # A twentieth at least, or no bill would show it; a sound house costs the same.
    assert (found.cost > 1.05 * left.cost) == bool(key.causes)


@CALLS
def test_a_bill_has_no_parts(call: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A meter counts the whole house (by its nature): no part of it reaches the customer's card."""
    desk = desk_for(call, tmp_path, monkeypatch)
    go(desk, "customer", "consent", "ask_when ask_changed ask_touched ask_rooms read_bill")
    answers = {e.reading.measurement: e.reading for e in desk.visit.readings}
    said = " ".join(call_file.load(call).answers.values()).lower()
    assert "read_bill" in answers
    for part in Parts._fields:
        assert f"{part}_energy" not in json.dumps(desk.view("us"))
        assert f"{part}_cost" not in json.dumps(desk.view("us"))
    bill = call_file.load(call).answers["read_bill"].lower()
    assert said.count("kwh") == bill.count("kwh") == 2
    for word in ("compressor", "blower", "fan", "strip", "coil", "duct"):
        assert word not in bill
