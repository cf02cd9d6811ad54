"""Sound installations are worked out once for all pages of a bench, and are what they were."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from simulator.calls import sound_units
from simulator.calls.kept_tables import FOLDER, QUEUE, kept
from simulator.calls.sound_units import sound_unit
from simulator.plant.catalogue import REFERENCE, load_installation

UNIT = "martlet_24", "txv", "reference"


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    monkeypatch.setenv(FOLDER, str(tmp_path))
    sound_unit.cache_clear()
    yield tmp_path
    sound_unit.cache_clear()


def test_a_second_page_does_not_draw_a_published_unit_again(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    drawn = sound_unit(*UNIT)
    assert drawn == load_installation(*UNIT)
    assert len(list(folder.glob("*.table"))) == 1
    sound_unit.cache_clear()  # as in another page's process

    def again(*_: object) -> None:
        raise AssertionError("drawn again")

    monkeypatch.setattr(sound_units, "load_installation", again)
    assert sound_unit(*UNIT) == drawn


def test_the_house_and_the_device_are_told_apart(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sound_units, "load_installation", lambda *one: one)
    asked = [UNIT, ("martlet_24", "orifice", "reference"), ("martlet_24", "txv", "other")]
    for _ in range(2):
        assert [sound_unit(*one) for one in asked] == asked
        sound_unit.cache_clear()
    assert len(list(folder.glob("*.table"))) == 3


def test_the_reference_unit_is_at_hand_and_not_stored(folder: Path) -> None:
    assert sound_unit(REFERENCE, "txv", "reference") is load_installation(
        unit=REFERENCE, metering="txv", house="reference"
    )
    assert not list(folder.glob("*.table"))


def test_a_unit_is_had_while_a_table_is_being_worked_out(folder: Path) -> None:
    # Within one queue this would wait for ever.
    assert (
        kept("a table", lambda: sound_unit(*UNIT).unit.name, QUEUE)
        == load_installation(*UNIT).unit.name
    )
