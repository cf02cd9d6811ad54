"""Panels sync their script and style and nothing else; answers find their question."""

import pkgutil
from importlib import import_module
from typing import Any

import anywidget
import ipywidgets
import pytest

import simulator.widgets
from simulator.serve.pages import safe
from simulator.widgets.panel import Panel

# What every widget of the library syncs, and the code and style of a panel.
ALLOWED = set(ipywidgets.DOMWidget.class_trait_names(sync=True)) | {
    "_esm", "_css", "_anywidget_id",
    "language", "words",  # of the catalogue, the same for every call
}  # fmt: skip


def panels() -> list[type[Panel]]:
    """All panels, found by looking."""
    found = []
    for entry in pkgutil.iter_modules(simulator.widgets.__path__):
        if entry.ispkg and entry.name != "shared":
            module = import_module(f"simulator.widgets.{entry.name}.panel")
            found += [
                item
                for item in vars(module).values()
                if isinstance(item, type) and issubclass(item, Panel) and item is not Panel
            ]
    return found


EVERY = pytest.mark.parametrize("kind", panels(), ids=lambda kind: kind.__name__)


def test_there_are_panels() -> None:
    assert {kind.__name__ for kind in panels()} >= {"CallPanel", "DebriefPanel", "TestStandPanel"}


@EVERY
def test_nothing_is_synced_but_script_and_style(kind: type[Panel]) -> None:
    panel = kind(lambda message: {"secret": "never a trait"})
    assert set(panel.keys) <= ALLOWED
    state = panel.get_state()
    texts = {key: str(value) for key, value in state.items() if key not in ("_esm", "_css")}
    assert "never a trait" not in str(texts)


@EVERY
def test_an_answer_carries_the_number_of_its_question(
    kind: type[Panel], monkeypatch: pytest.MonkeyPatch
) -> None:
    sent: list[Any] = []
    panel = kind(lambda message: {"echo": message["do"]})
    monkeypatch.setattr(panel, "send", lambda content, buffers=None: sent.append(content))
    panel._receive(panel, {"do": "look_around", "id": 7}, [])
    panel._receive(panel, "not a message", [])
    assert sent == [{"echo": "look_around", "id": 7}]


def test_a_fault_of_ours_becomes_a_ticket() -> None:
    def breaks(message: dict[str, Any]) -> dict[str, Any]:
        raise RuntimeError("supply_leak 0.22 in /somewhere/secret.py")

    answer = safe(breaks)({"do": "look_around"})
    assert set(answer) == {"problem"}
    assert "ticket" in answer["problem"]
    assert "secret" not in answer["problem"]
    assert "supply_leak" not in answer["problem"]


@EVERY
def test_the_script_sets_text_and_never_markup(kind: type[Panel]) -> None:
    script = str(kind._esm)
    for forbidden in ("innerHTML", "outerHTML", "insertAdjacentHTML", "document.write", "eval("):
        assert forbidden not in script
    assert "http://" not in script.replace("http://www.w3.org/2000/svg", "")
    assert "https://" not in script


def test_anywidget_is_the_bridge() -> None:
    assert issubclass(Panel, anywidget.AnyWidget)
