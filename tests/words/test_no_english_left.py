"""What the bench answers in Spanish has no word that only its English texts have.

No outside source: the vocabulary is the catalogue's own. BENCHCALL_WHOLE=1 sweeps every fault of
the test stand and a hurried visit to every call; a sample of the stand is always looked at.
"""

import os
import re
from functools import lru_cache
from pathlib import Path
from typing import Any

import pytest

from simulator.calls import call_file
from simulator.faults._catalogue import discover
from simulator.instruments.measurements import MEASUREMENTS
from simulator.serve.stand_page import stand
from simulator.words import __main__ as renewing
from simulator.words import po
from simulator.words.answers import CODES, OWN_WORDS, TOLD, spoken
from simulator.words.catalogue import catalogue
from simulator.words.sentences import HOLE
from tests.scoring.played import desk_for, do, take_all

WHOLE = bool(os.environ.get("BENCHCALL_WHOLE"))
WORD = re.compile(r"[^\W\d_]{2,}")
NAME = re.compile(r"[a-z0-9_]+")
# Words that an answer holds for a program, and what people and streets are called.
UNSAID = CODES | OWN_WORDS | {"name", "role", "link"}
SEASONS = {
    "cooling": {"mode": "cooling", "outdoor": "95", "return_db": "80", "return_wb": "67"},
    "heating": {"mode": "heating", "outdoor": "40", "return_db": "70", "return_wb": "55"},
}
CHARTS = (("cycle", "air"), ("fan", "delivery"))


@lru_cache
def english_only() -> frozenset[str]:
    """Words of the English texts that no Spanish text has."""
    said = po.read((renewing.FOLDER / "es.po").read_text(encoding="utf-8"))
    english, spanish = (
        {word.lower() for text in texts for word in WORD.findall(HOLE.sub(" ", text))}
        for texts in (said.keys(), said.values())
    )
    return frozenset(english - spanish)


def left(answer: Any, key: str = "") -> list[str]:
    """Texts of an answer that hold such a word."""
    if isinstance(answer, dict):
        return [t for name, value in answer.items() for t in left(value, str(name))]
    if isinstance(answer, list | tuple):
        return [t for value in answer for t in left(value, key)]
    # One small word is a name on the wire unless its key is told to people.
    if not isinstance(answer, str) or key in UNSAID or (NAME.fullmatch(answer) and key not in TOLD):
        return []
    return [answer] if english_only() & {w.lower() for w in WORD.findall(answer)} else []


def in_spanish(answer: dict[str, Any]) -> list[str]:
    """What of an answer is English once it was said in Spanish."""
    return left(spoken(answer, catalogue("es")))


def on_the_stand(fault: str, season: str, charts: tuple[str, str]) -> dict[str, Any]:
    """The stand with a fault in the middle of its range."""
    middle = (discover()[fault].low + discover()[fault].high) / 2.0
    setting = {**SEASONS[season], "metering": "", "airflow": "100", "units": "us"}
    entry = {"name": fault, "severity": f"{middle:g}"}
    return stand.answer({"do": "set", "faults": [entry], "charts": list(charts), **setting})


def test_english_would_be_found() -> None:
    assert left({"text": "The filter", "id": "the"}) == ["The filter"]


@pytest.mark.parametrize("season", SEASONS)
@pytest.mark.parametrize("charts", CHARTS)
def test_the_stand(season: str, charts: tuple[str, str]) -> None:
    faults = tuple(discover()) if WHOLE else ("loaded_filter", "blocked_drain")
    for fault in faults:
        assert in_spanish(on_the_stand(fault, season, charts)) == [], fault


def test_what_was_typed_wrongly() -> None:
    for wrong in ({"outdoor": "999"}, {"outdoor": "x"}, {"return_wb": "90"}, {"airflow": "1"}):
        setting = {**SEASONS["cooling"], "metering": "", "airflow": "100", "units": "us"}
        answer = stand.answer({"do": "set", "faults": [], **setting, **wrong})
        assert "problem" in answer
        assert in_spanish(answer) == [], wrong


@pytest.mark.skipif(not WHOLE, reason="minutes; a sweep over every call")
@pytest.mark.parametrize("call", call_file.names())
def test_a_hurried_visit(call: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    desk = desk_for(call, tmp_path, monkeypatch)
    take_all(desk, set(MEASUREMENTS) - {"duct_leakage"})
    do(desk, "declare", causes=["undercharge"], cited=[desk.visit.readings[-1].seq])
    desk.act({"do": "repair", "repair": "add_refrigerant", "amount": "8", "units": "us"})
    do(desk, "write_up", text="Listo.")
    do(desk, "close")
    for system in ("us", "si"):
        found = {**desk.view(system), **desk.debrief(system), **desk.odds(system)}
        assert in_spanish(found) == []
