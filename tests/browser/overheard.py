"""All that a browser hears while a call is played, and the playing of it."""

import json
import struct
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any

from playwright.sync_api import Page, Route, expect

from simulator.instruments.measurement import Measurement
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.places import PLACES
from simulator.instruments.steps import STEPS
from tests.browser.desk import drawer, tick_cause
from tests.browser.test_calls import act, repair
from tests.serve.running import Answer

DRAWERS = ("causes", "finding", "repair")  # looked into last
WRONG_CAUSE, WRONG_REPAIR = "weak_blower", "replace_capacitor"  # in no key of the library
STORED = """async () => ({ local: { ...localStorage }, session: { ...sessionStorage },
    databases: await indexedDB.databases(), caches: await caches.keys() })"""


@dataclass
class Eavesdropper:
    """All that reaches a browser: frames, answers, console, and the page as it stands."""

    frames: list[dict[str, Any]] = field(default_factory=list)
    answers: list[Answer] = field(default_factory=list)
    console: list[str] = field(default_factory=list)
    pages: list[str] = field(default_factory=list)
    storage: list[str] = field(default_factory=list)

    def listen(self, page: Page) -> None:
        page.on("websocket", lambda line: line.on("framereceived", self._frame))
        page.route("**/*", self._answer)
        page.on("console", lambda said: self.console.append(said.text))
        page.on("pageerror", lambda error: self.console.append(str(error)))

    def _frame(self, frame: str | bytes) -> None:
        if frame:
            self.frames.append(_message(frame))

    def _answer(self, route: Route) -> None:
        # Fetched here, for a browser forgets an answer's body as soon as it goes elsewhere.
        reply = route.fetch(max_redirects=0)
        self.answers.append(Answer(reply.status, reply.text(), reply.headers))
        route.fulfill(response=reply)

    def look(self, page: Page) -> None:
        """Keep the page's markup and what the browser has stored."""
        self.pages.append(page.content())
        self.storage.append(json.dumps([page.evaluate(STORED), page.context.cookies()]))

    def views(self) -> list[dict[str, Any]]:
        """What the panel was told, oldest first."""
        told = [frame["content"].get("data", {}).get("content", {}) for frame in self.frames]
        return [dict(said["view"]) for said in told if "view" in said]

    def coached(self) -> list[dict[str, Any]]:
        """What the coach said, oldest first."""
        told = [frame["content"].get("data", {}).get("content", {}) for frame in self.frames]
        return [
            dict(said["coach"]) for said in told if isinstance(said, dict) and said.get("coach")
        ]

    def told(self) -> str:
        """Every message of the kernel but the lists that all calls offer alike."""
        return json.dumps([_pruned(frame["content"]) for frame in self.frames], ensure_ascii=False)

    def everything(self) -> str:
        """All of it as text."""
        frames = json.dumps(self.frames, ensure_ascii=False)
        answers = [f"{reply.headers}\n{reply.body}" for reply in self.answers]
        kept = [*answers, *self.console, *self.pages, *self.storage]
        return "\n".join([frames, *kept])


def _message(frame: str | bytes) -> dict[str, Any]:
    """A kernel's message, as JSON or in the binary form of Jupyter's websocket protocol v1."""
    if isinstance(frame, str):
        return dict(json.loads(frame))
    (count,) = struct.unpack_from("<Q", frame)
    marks = struct.unpack_from(f"<{count}Q", frame, 8)
    parts = [frame[start:end] for start, end in pairwise(marks)]
    names = ("header", "parent_header", "metadata", "content")
    read = dict(zip(names, map(json.loads, parts[1:5]), strict=True))
    return {**read, "buffers": [part.decode(errors="replace") for part in parts[5:]]}


def _pruned(told: Any) -> Any:
    """Without the lists of causes and repairs, the tools' numbers and the page's own script."""
    if isinstance(told, dict):
        left_out = {"causes", "repairs", "shown", "_esm", "_css"}
        return {key: _pruned(item) for key, item in told.items() if key not in left_out}
    return [_pruned(item) for item in told] if isinstance(told, list) else told


def play(
    page: Page, call: str, key: Mapping[str, Any], ears: Eavesdropper, *, asks_coach: bool = False
) -> list[str]:
    """All but the last step of a call, with a wrong finding and a wrong repair besides the right.

    The coach is asked on the way where that is wished. Returns the repairs done.
    """
    ears.listen(page)
    page.goto("/")
    page.goto(f"/start/{call}")
    page.get_by_role("button", name="Take the call").click()
    expect(page.locator(".call[data-ready]")).to_be_visible(timeout=30_000)
    ears.look(page)
    if not page.locator('[data-key="stop"]').count():
        act(page, "start")
    proof = {test for tests in key["proof"].values() for test in tests}
    for place in PLACES:
        here = [item for item in MEASUREMENTS.values() if item.place == place]
        walk(page, [item for item in here if item.id in proof or not item.needs][:8], ears)
    if asks_coach:
        ask_coach(page, ears, rungs=1)  # on what comes before any reading
        _stand_at(page, "customer")
        act(page, "step-consent")
        ask_coach(page, ears, rungs=5)  # on what the readings leave open
    drawer(page, "causes")
    page.locator(f'[data-key="mark-{WRONG_CAUSE}-likely"]').check()
    tick_cause(page, WRONG_CAUSE)
    page.locator('[data-key^="cited-"]').first.check()
    act(page, "declare")
    if asks_coach:
        ask_coach(page, ears, rungs=2)
    ears.look(page)
    act(page, "stop")
    drawer(page, "repair")
    done = [WRONG_REPAIR, *(codes[0] for codes in list(key["repairs"].values())[:1])]
    for code in done:
        repair(page, code)
        ears.look(page)
    act(page, "start")
    page.locator('[data-key="wait-minutes"]').fill("20")
    act(page, "wait")
    walk(page, [MEASUREMENTS[test] for test in sorted(proof)], ears)
    for system in ("si", "us"):
        act(page, f"units-{system}")
        ears.look(page)
    drawer(page, "write")
    page.locator('[data-key="write-text"]').fill("Looked at, worked on, measured again.")
    act(page, "write")
    ears.look(page)
    for name in DRAWERS:
        drawer(page, name)
        ears.look(page)
    return done


def ask_coach(page: Page, ears: Eavesdropper, rungs: int) -> None:
    """Hints one after another, waiting for each."""
    for _ in range(rungs):
        page.locator('[data-key="coach"]').click()
        expect(page.locator('[data-key="coach"]:not([aria-disabled])')).to_be_visible(
            timeout=60_000
        )
        ears.look(page)


def walk(page: Page, items: Sequence[Measurement], ears: Eavesdropper) -> None:
    """Take readings, each at its place and prepared."""
    for item in items:
        for step in (STEPS[need] for need in item.needs):
            if step.id not in _done(ears):
                _stand_at(page, step.place)
                act(page, f"step-{step.id}")
        _stand_at(page, item.place)
        act(page, f"test-{item.id}")


def _stand_at(page: Page, place: str) -> None:
    # Pressing the place where one stands opens what can be done there.
    act(page, f"place-{place}")


def _done(ears: Eavesdropper) -> set[str]:
    steps = [step for place in ears.views()[-1]["places"] for step in place["steps"]]
    return {step["id"] for step in steps if step["done"]}
