"""Raw messages to a kernel: what is not a page's business goes unanswered."""

from collections.abc import Iterator
from typing import Any

import pytest

from tests.serve.conftest import SECRET
from tests.serve.raw_page import RawPage, raw_page
from tests.serve.running import Client, RunningBench

CODE = {
    "code": "open('mark', 'w')",
    "silent": False,
    "store_history": False,
    "user_expressions": {"leak": "1 + 1"},
    "allow_stdin": False,
    "stop_on_error": True,
}
AT = {"code": "pri", "cursor_pos": 3, "detail_level": 1}
UNANSWERED: list[tuple[str, str, dict[str, Any]]] = [
    ("execute_request", "shell", CODE),
    ("execute_request", "control", CODE),
    ("complete_request", "shell", AT),
    ("inspect_request", "shell", AT),
    ("is_complete_request", "shell", {"code": "1"}),
    ("history_request", "shell", {"hist_access_type": "tail", "n": 9, "output": True, "raw": True}),
    ("debug_request", "control", {"type": "request", "seq": 1, "command": "debugInfo"}),
    ("create_subshell_request", "control", {}),
    ("list_subshell_request", "control", {}),
    ("interrupt_request", "control", {}),
    ("usage_request", "control", {}),
    ("shutdown_request", "control", {"restart": False}),
    ("shutdown_request", "shell", {"restart": True}),
    ("apply_request", "shell", {}),
    ("input_reply", "stdin", {"value": "1"}),
]


@pytest.fixture
def talkative(test_bench: RunningBench) -> Iterator[RawPage]:
    """A line to a panel that breaks every rule."""
    with raw_page(Client(test_bench.address), "voila/render/talkative.ipynb") as page:
        yield page


def test_only_a_pages_own_business_is_answered(talkative: RawPage) -> None:
    sent = {
        (kind, channel): talkative.say(kind, content, channel)
        for kind, channel, content in UNANSWERED
    }
    known = talkative.say("kernel_info_request", {})
    talkative.listen(2.0)
    answered = [kind for kind, number in sent.items() if talkative.answers_to(number)]
    assert answered == []
    assert talkative.answers_to(known), "the line itself must be alive"


def test_what_a_callback_prints_logs_or_raises_stays_here(
    talkative: RawPage, test_bench: RunningBench
) -> None:
    panel = _panel(talkative)
    talkative.tell(panel, {"method": "custom", "content": {"do": "anything"}})
    talkative.listen(1.5)
    heard = talkative.everything()
    for leak in (SECRET, "Traceback", "ValueError", 'File \\"'):
        assert leak not in heard
    assert not [said for said in talkative.heard if said["msg_type"] in ("stream", "error")]
    assert test_bench.log("kernel").count(SECRET) >= 3


def test_a_made_up_model_is_refused_without_a_word(talkative: RawPage) -> None:
    state = {
        "_model_module": "anywidget",
        "_model_name": "AnyModel",
        "_view_module": "anywidget",
        "_view_name": "AnyView",
    }
    opening = {"comm_id": "made-up", "target_name": "jupyter.widget", "data": {"state": state}}
    talkative.say("comm_open", opening, metadata={"version": "2.1.0"})
    talkative.tell("no-such-model", {"method": "update", "state": {"shown": 100}})
    talkative.tell(_panel(talkative), {"method": "nonsense"})
    talkative.listen(1.5)
    heard = talkative.everything()
    for leak in ("Traceback", "site-packages", 'File \\"'):
        assert leak not in heard


def test_what_python_keeps_is_not_in_the_states(talkative: RawPage) -> None:
    states = talkative.states()
    assert states
    assert SECRET not in str(states)


def _panel(page: RawPage) -> str:
    return next(name for name, model in page.states().items() if "shown" in model["state"])
