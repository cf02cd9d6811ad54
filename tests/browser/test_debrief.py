"""The debrief in a real browser: short first, and every point leads to its moment.

No outside source: the order of the page and its links are this project's own promise.
"""

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from simulator.serve.classes.files import overrides
from simulator.serve.visits import visits
from simulator.serve.visits.visits import CallDesk
from simulator.serve.web.handlers import COOKIE
from tests.browser.looks import fits, grave, looks
from tests.scoring.played import desk_for, do, go, hasty_capstone
from tests.serve.running import RunningBench

OWNER = "trainee-of-the-tests"


def hurried_pair(desk: CallDesk) -> None:
    """A reading before and one too soon after."""
    go(desk, "return_grille", "", "grille_dry_bulb")
    do(desk, "declare", causes=["supply_leak"], cited=[])
    do(desk, "stop")
    do(desk, "repair", repair="seal_supply", amount=None)
    do(desk, "start")
    go(desk, "return_grille", "", "grille_dry_bulb")
    do(desk, "close")


@pytest.fixture
def debrief(
    page: Page, bench: RunningBench, monkeypatch: pytest.MonkeyPatch
) -> Callable[[Callable[[CallDesk], None]], Page]:
    """Opens the debrief of a visit played into the bench's own records."""

    def opened(play: Callable[[CallDesk], None]) -> Page:
        token = played(play, bench.data, monkeypatch)
        page.context.add_cookies([{"name": COOKIE, "value": OWNER, "url": bench.address}])
        page.goto(f"/voila/render/debrief.ipynb?visit={token}")
        expect(page.locator(".debrief[data-ready]")).to_be_visible(timeout=60_000)
        return page

    return opened


def played(play: Callable[[CallDesk], None], folder: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    """The token of a closed visit."""
    desk = desk_for("mallorn", folder, monkeypatch)
    play(desk)
    return next(
        row["token"]
        for row in visits.open_visits(OWNER)
        if row["number"] == desk.debrief("us")["debrief"]["visit"]["number"]
    )


def test_a_question_and_three_sentences_stand_first(debrief: Callable[..., Page]) -> None:
    page = debrief(hasty_capstone)
    asked = page.locator("section").first
    expect(asked.locator("h2")).to_have_text("First, in your own words")
    expect(asked).to_contain_text("You stated: Low refrigerant charge.")
    short = page.locator("section.short")
    expect(short.locator("h2")).to_have_text("In short")
    expect(short.locator(".total")).to_have_text("Together: 4 of 100", timeout=60_000)
    expect(short.locator("li")).to_have_count(3)


def test_points_that_the_instructor_set_stand_with_their_reason(
    page: Page, bench: RunningBench, monkeypatch: pytest.MonkeyPatch
) -> None:
    token = played(hasty_capstone, bench.data, monkeypatch)
    overrides().add(token, 62.5, "the meter in the room was broken")
    page.goto(f"/voila/render/debrief.ipynb?visit={token}")
    short = page.locator("section.short")
    expect(short.locator(".total")).to_have_text("Together: 62.5 of 100", timeout=60_000)
    expect(short).to_contain_text("Set by the instructor: the meter in the room was broken")
    expect(short).to_contain_text("By the rubric: 4 of 100", timeout=60_000)


def test_the_timeline_stands_before_the_points(debrief: Callable[..., Page]) -> None:
    headings = debrief(hasty_capstone).locator("h2").all_inner_texts()
    assert headings.index("What you did, and when") < headings.index("Points by part")


def test_every_reason_leads_to_its_moment_by_keyboard(debrief: Callable[..., Page]) -> None:
    page = debrief(hasty_capstone)
    expect(page.locator(".parts")).not_to_contain_text("being worked out", timeout=60_000)
    reasons = page.locator(".parts .dashes li")
    assert reasons.count() >= 15
    assert page.locator(".parts .dashes li .to-step").count() == reasons.count()
    link = page.locator(".parts .dashes li", has_text="Add refrigerant at minute").locator(
        ".to-step"
    )
    link.focus()
    page.keyboard.press("Enter")
    step = page.locator(".timeline li:focus")
    expect(step).to_contain_text("Add refrigerant, 8.0 oz")
    expect(step).to_be_in_viewport()


def test_a_trainee_explains_and_measures_again_by_keyboard(debrief: Callable[..., Page]) -> None:
    """A replay says what it is, nonsense gets a sentence, and paper shows no form."""
    page = debrief(hasty_capstone)
    page.locator("#own-answer").fill("The circuit was never low.")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    expect(page.locator(".explain [role=status]")).to_have_text("Kept with this visit, not graded.")
    page.locator("#replay-minute").fill("900")
    page.locator("#replay-test").select_option("smoke_return")
    page.locator("[data-key=replay]").focus()
    page.keyboard.press("Enter")
    part = page.locator(".replay-part")
    expect(part.locator("[role=alert]")).to_contain_text("must be 0 to 28 min", timeout=60_000)
    page.locator("#replay-minute").fill("5")
    expect(part.locator(".by-then")).to_contain_text("To: outdoor unit")
    page.locator("[data-key=replay]").focus()
    page.keyboard.press("Enter")
    expect(part.locator(".replay")).to_contain_text("Smoke is snatched", timeout=60_000)
    expect(part.locator(".replay")).to_contain_text("no part of your record")
    expect(page.locator("[data-key=replay]")).to_be_focused()
    expect(page.locator(".causes-part")).to_contain_text("You stated it. It was not so.")
    page.emulate_media(media="print")
    expect(page.locator(".explain .only-print")).to_have_text("The circuit was never low.")
    for hidden in (".replay-form", "#own-answer", ".path-part", "[data-key=print]"):
        expect(page.locator(hidden)).to_be_hidden()


def test_what_is_folded_opens_on_paper(debrief: Callable[..., Page]) -> None:
    page = debrief(hasty_capstone)
    folded = page.locator("details", has_text="could and could not show")
    expect(folded.locator("li").first).to_be_hidden()
    page.evaluate(
        "addEventListener('beforeprint', () => { window.open_then = "
        "document.querySelectorAll('details:not([open])').length; })"
    )
    page.pdf()
    assert page.evaluate("window.open_then") == 0
    expect(folded.locator("li").first).to_be_hidden()


def test_a_pair_says_why_it_is_no_proof(debrief: Callable[..., Page]) -> None:
    page = debrief(hurried_pair)
    pair = page.locator("tr", has=page.locator("th", has_text="Return dry bulb at the grille"))
    expect(pair).to_contain_text("Not counted as proof: the one after was taken less than 15 min")


def test_it_is_accessible_and_fits(debrief: Callable[..., Page]) -> None:
    page = debrief(hurried_pair)
    for look in looks(page):
        page.locator(".parts .to-step").first.click()
        assert fits(page), look
        assert grave(page) == [], look
