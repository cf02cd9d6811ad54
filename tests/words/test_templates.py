"""Pages say everything through the catalogue; no outside source: this project's own promise."""

import re
from pathlib import Path

import pytest

from simulator.serve.paths import TEMPLATES

PAGES = sorted((TEMPLATES / "pages").glob("*.html"))
JINJA = re.compile(r"\{%.*?%\}|\{\{.*?\}\}|\{#.*?#\}", re.DOTALL)
READ_OUT = re.compile(r'(?:aria-label|title|placeholder|alt)="([^"]*)"')
TAG = re.compile(r"<(style|script|code)\b.*?</\1>|<[^>]*>", re.DOTALL)
OWN = "Benchcall"  # a name is the same in every language


def bare_words(source: str) -> list[str]:
    """Words that a page shows or reads out as they stand in it."""
    shown = JINJA.sub(" ", source)
    heard = " ".join(READ_OUT.findall(shown))
    words = re.findall(r"[^\W\d_]{2,}", TAG.sub(" ", shown) + " " + heard)
    return [word for word in words if word != OWN]


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_no_page_speaks_english_by_itself(page: Path) -> None:
    assert bare_words(page.read_text(encoding="utf-8")) == []


def test_a_bare_word_would_be_found() -> None:
    assert bare_words('<p aria-label="Board">{{ say("Marks") }} and</p>') == ["and", "Board"]
