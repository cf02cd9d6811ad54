"""One bench with lessons made for these tests."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.serve.running import (
    Client,
    RunningBench,
    lesson_block,
    running_bench,
    write_notebook,
)

SECRET = "the-fan-capacitor-is-open"

# A panel that breaks every rule: it prints, logs and raises in its callback.
TALKATIVE = f"""
import logging
import anywidget
import traitlets
from IPython.display import display

class Talkative(anywidget.AnyWidget):
    _esm = "export default {{ render() {{}} }}"
    shown = traitlets.Int(1, read_only=True).tag(sync=True)

    def __init__(self):
        super().__init__()
        self.kept = {SECRET!r}
        self.on_msg(self.blurt)

    def blurt(self, *_):
        print(self.kept)
        logging.error(self.kept)
        raise ValueError(self.kept)

def show():
    display(Talkative())
"""


@pytest.fixture(scope="session")
def test_lessons(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A lessons folder with what may be opened, and much that may not."""
    folder = tmp_path_factory.mktemp("lessons")
    write_notebook(
        folder / "plain.ipynb",
        "import os\nfrom IPython.display import HTML, display",
        "display(HTML('seen: ' + ' '.join(sorted(os.environ))))",
        **lesson_block("Plain"),
    )
    write_notebook(
        folder / "broken.ipynb",
        f"secret = {SECRET!r}\nprint(secret)\nraise ValueError(secret)",
        **lesson_block("Broken"),
    )
    write_notebook(folder / "talkative.ipynb", TALKATIVE, "show()", **lesson_block("Talkative"))
    write_notebook(folder / "draft.ipynb", "1")
    for name in ("key.csv", "visits.sqlite", "secret.py", ".env", "picture.png"):
        (folder / name).write_text(SECRET, encoding="utf-8")
    return folder


@pytest.fixture(scope="session")
def test_bench(
    test_lessons: Path, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[RunningBench]:
    """A bench that serves them."""
    data = tmp_path_factory.mktemp("data")
    with running_bench(data, lessons=test_lessons, SOME_PASSWORD=SECRET) as bench:
        yield bench


@pytest.fixture
def client(test_bench: RunningBench) -> Client:
    """A browser that has never been here."""
    return Client(test_bench.address)
