"""The worked example for contributors is the file it shows, letter by letter."""

import re

from tests.faults.signs import ROWS
from tests.style.source_tree import ROOT, SOURCE

GUIDE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
SECTION = GUIDE.split("## Adding a fault\n")[1].split("\n## ")[0]


def shown(language: str) -> str:
    """The one block of a language in the section."""
    (block,) = re.findall(rf"^```{language}\n(.*?)^```$", SECTION, flags=re.MULTILINE | re.DOTALL)
    return str(block)


def test_the_example_is_a_real_file_and_its_real_rows() -> None:
    (name,) = re.findall(r'^    id="(\w+)",$', shown("python"), flags=re.MULTILINE)
    assert shown("python") == (SOURCE / "faults" / f"{name}.py").read_text(encoding="utf-8")
    assert shown("csv") == (ROWS / f"{name}.csv").read_text(encoding="utf-8")
    assert f"`simulator/faults/{name}.py`" in SECTION
    assert f"`tests/data/fault_signs/{name}.csv`" in SECTION
