"""A re-test in other weather, by the plant: what the weather did is told and taken off.

The 3 K is the rubric's own.
"""

from pathlib import Path

import pytest

from simulator.calls.sealed import sealed
from simulator.diagnosis.likelihood import outdoor_at
from simulator.instruments.measurements import MEASUREMENTS
from simulator.scoring.grounds import ALIKE, weather
from simulator.scoring.part import Part
from simulator.scoring.scorecard import score
from simulator.serve.visits.visits import CallDesk
from tests.scoring.played import desk_for, do, mend, take_all, told

TEST = "liquid_pressure"
CALL = "sorrel"  # a dirty coil outdoors: the pressure goes with the weather and the dirt


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> CallDesk:
    found = desk_for(CALL, tmp_path, monkeypatch)
    if not found.visit.is_running:
        do(found, "start")
    do(found, "wait", minutes="60")
    take_all(found, {TEST})
    return found


def later(desk: CallDesk, *, mended: bool) -> Part:
    """Mended or not, then the same reading when the evening has cooled the air."""
    do(desk, "declare", causes=["dirty_outdoor_coil"], cited=[])
    key = sealed(CALL).opened()
    if mended:
        mend(desk, key)
    else:
        do(desk, "stop")
        do(desk, "repair", repair="replace_filter", amount=None)
    do(desk, "start")
    call, first = desk._site.call, desk.visit.readings[0]
    while abs(outdoor_at(call, desk.visit.minute) - outdoor_at(call, first.minute)) <= ALIKE + 0.5:
        do(desk, "wait", minutes="60")
    take_all(desk, {TEST})
    do(desk, "close")
    card = score(desk.visit.events, key, weather(desk.visit, desk._site))
    return next(part for part in card.parts if part.name == "Re-test")


def test_a_pair_in_other_weather_counts_once_it_is_corrected(desk: CallDesk) -> None:
    proven = later(desk, mended=True)
    assert proven.points == proven.of
    assert "weather" in proven.because[0].text
    assert proven.because[0].seq == desk.visit.readings[-1].seq
    (row,) = [row for row in told(desk)["pairs"] if row["name"] == MEASUREMENTS[TEST].name]
    assert "Left as found" in row["note"]
    before, after = (e.reading.value for e in desk.visit.readings)
    known = weather(desk.visit, desk._site).untouched
    alone = known[desk.visit.readings[-1].seq]
    # The dirt is off: well below what it would have read by then left as found.
    assert after is not None
    assert before is not None
    assert after < alone - 0.05 * alone


def test_what_nobody_mended_reads_as_the_weather_has_it(desk: CallDesk) -> None:
    """Within a hundredth of the pressure, for two takes of the tool and a new filter."""
    later(desk, mended=False)
    first, last = desk.visit.readings[0], desk.visit.readings[-1]
    known = weather(desk.visit, desk._site).untouched
    assert first.reading.value is not None
    assert last.reading.value is not None
    moved = last.reading.value - first.reading.value
    assert moved == pytest.approx(known[last.seq] - known[first.seq], abs=0.01 * last.reading.value)
