"""One name, one label, one kind for everything an instrument could reach."""

import dataclasses
import tomllib
from importlib.resources import files

import pytest

from simulator.plant.operating_point import OperatingPoint
from simulator.quantities.kinds import KINDS
from simulator.serve.bench_readings import READINGS, TRUTH
from simulator.serve.stand_page.scales import SCALES

GLOSSARY: dict[str, dict[str, str]] = tomllib.loads(
    files("simulator.quantities").joinpath("glossary.toml").read_text(encoding="utf-8")
)
# Words, and the barometer that gauge pressures are counted from: no readings.
NOT_READINGS = {"state", "mode", "pressure"}
# Worked out from two fields of the operating point.
WORKED_OUT = {"temperature_split"}


def test_every_field_is_explained_and_nothing_else() -> None:
    fields = {field.name for field in dataclasses.fields(OperatingPoint)}
    assert set(GLOSSARY) == fields - NOT_READINGS | WORKED_OUT


@pytest.mark.parametrize("name", GLOSSARY)
def test_an_entry_is_whole(name: str) -> None:
    entry = GLOSSARY[name]
    assert set(entry) == {"label", "kind", "meaning"}
    assert entry["kind"] in KINDS
    assert entry["label"][0].isupper()
    assert entry["meaning"].endswith(".")
    assert len(entry["meaning"]) <= 110


def test_no_two_readings_share_a_label() -> None:
    labels = [entry["label"] for entry in GLOSSARY.values()]
    assert len(set(labels)) == len(labels)


def test_a_difference_is_never_a_temperature() -> None:
    for name in ("superheat", "coil_superheat", "subcooling", "temperature_split"):
        assert GLOSSARY[name]["kind"] == "temperature_difference"


@pytest.mark.parametrize(("field", "kind"), [*READINGS.values(), *TRUTH.values()])
def test_the_bench_shows_the_same_kind(field: str, kind: str) -> None:
    assert GLOSSARY[field]["kind"] == kind


@pytest.mark.parametrize("name", SCALES)
def test_the_stand_uses_the_same_label(name: str) -> None:
    assert GLOSSARY[name]["label"] == SCALES[name][1]
