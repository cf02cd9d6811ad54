"""What all tests share: reference tables that carry their source."""

import csv
import tomllib
from pathlib import Path

import pytest

DATA = Path(__file__).parent / "data"


def reference_table(name: str) -> list[dict[str, str]]:
    """Rows of a reference table; a table without its source cannot be used."""
    source = DATA / f"{name}.source.toml"
    if not source.is_file():
        pytest.fail(f"tests/data/{name}.csv has no {source.name} that says where it is from")
    tomllib.loads(source.read_text(encoding="utf-8"))
    with (DATA / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.fixture(scope="session")
def published() -> dict[str, dict[str, str]]:
    """The published checks by their number."""
    return {row["id"]: row for row in reference_table("published_checks")}
