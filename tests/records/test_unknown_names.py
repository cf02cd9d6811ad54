"""A stored event that names what there is not: one sentence, never an error while drawing."""

import json
import sqlite3
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from simulator.records.visit_records import RecordsError
from simulator.serve import paths
from simulator.serve.visits import visits
from tests.scoring.played import desk_for, do, good_capstone

SENTENCE = "An entry of this visit is damaged; the record was left as it is."
FREE = {"found", "words", "problems", "text"}  # what was seen, said or written
NAMES = {
    ("Moved", "place"), ("Prepared", "step"), ("Measured", "place"), ("Measured", "measurement"),
    ("Measured", "kind"),
    ("Measured", "technique"), ("Marked", "cause"), ("Marked", "mark"), ("Declared", "causes"),
    ("Declared", "sizes"),
    ("Repaired", "repair"),
}  # fmt: skip
Played = tuple[str, Path]


@pytest.fixture(scope="module")
def played(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Played]:
    """A whole visit to the capstone, closed: its token and its file."""
    folder = tmp_path_factory.mktemp("data")
    with pytest.MonkeyPatch.context() as patch:
        desk = desk_for("mallorn", folder, patch)
        do(desk, "mark", cause="undercharge", **{"as": "likely"})
        good_capstone(desk)
        (visit,) = visits.open_visits("trainee-of-the-tests")
        yield visit["token"], folder / paths.RECORDS_FILE
        visits.records.cache_clear()


def stored(file: Path) -> list[tuple[int, str, dict[str, Any]]]:
    """Number, kind and payload of every event."""
    connection = sqlite3.connect(file)
    found = connection.execute("select seq, kind, payload from events order by seq").fetchall()
    connection.close()
    return [(seq, kind, json.loads(payload)) for seq, kind, payload in found]


def put(file: Path, seq: int, payload: dict[str, Any]) -> None:
    """Write past the program."""
    connection = sqlite3.connect(file)
    connection.execute("update events set payload = ? where seq = ?", (json.dumps(payload), seq))
    connection.commit()
    connection.close()


def words(payload: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """Each text in a payload, with the payload that has another word in its place."""
    for key, value in payload.items():
        if isinstance(value, str):
            yield key, {**payload, key: "gremlins"}
        elif isinstance(value, list) and value and isinstance(value[0], str):
            yield key, {**payload, key: ["gremlins", *value[1:]]}
        elif isinstance(value, dict):
            for inner, changed in words(value):
                yield inner, {**payload, key: changed}


def test_every_name_of_every_event_is_looked_up_when_it_is_read(played: Played) -> None:
    token, file = played
    refused, tried = set(), set()
    for seq, kind, payload in stored(file):
        for key, changed in words(payload):
            tried.add((kind, key))
            if key in FREE:
                continue
            put(file, seq, changed)
            with pytest.raises(RecordsError) as problem:
                visits.open_desk(token)
            assert str(problem.value) == SENTENCE
            assert visits.open_visits("trainee-of-the-tests") == []
            refused.add((kind, key))
        put(file, seq, payload)
    assert refused == NAMES
    assert {key for _, key in tried - refused} <= FREE
    assert visits.open_desk(token).view("us")["visit"]["phase"] == "closed"


@pytest.mark.parametrize(
    ("kind", "change"),
    [
        ("Declared", {"cited": [0]}),
        ("Declared", {"cited": [999]}),
        ("Repaired", {"amount": 1.0}),
        ("Measured", {"reading": {"decimals": 10**9}}),
        ("Measured", {"reading": {"decimals": -1}}),
    ],
    ids=str,
)
def test_numbers_that_point_nowhere(played: Played, kind: str, change: dict[str, Any]) -> None:
    token, file = played
    seq, _, payload = next(row for row in stored(file) if row[1] == kind)
    inner = {
        key: {**payload[key], **value} if isinstance(value, dict) else value
        for key, value in change.items()
    }
    put(file, seq, {**payload, **inner})
    with pytest.raises(RecordsError, match="damaged"):
        visits.open_desk(token)
    put(file, seq, payload)
    visits.open_desk(token)


def test_words_for_people_may_be_any(played: Played) -> None:
    token, file = played
    whole = stored(file)
    for seq, _, payload in whole:
        for key, changed in words(payload):
            if key in FREE:
                put(file, seq, changed)
    desk = visits.open_desk(token)
    assert desk.view("si")["visit"]["phase"] == "closed"
    assert "debrief" in desk.debrief("us")
    for seq, _, payload in whole:
        put(file, seq, payload)
