"""What the call page says in time: spoken readings, one main button, leaving, a lost answer."""

from playwright.sync_api import Page, expect

from tests.browser.desk import drawer, tick_cause
from tests.browser.test_calls import act, capstone, go, problem

__all__ = ["capstone"]  # the fixture

# One message of the panel is swallowed on its way out when the page asks for it.
SWALLOW = """
const send = WebSocket.prototype.send;
WebSocket.prototype.send = function (data) {
  const text = data instanceof ArrayBuffer || ArrayBuffer.isView(data)
    ? new TextDecoder().decode(data) : String(data);
  if (window.swallow && text.includes('"do"') && text.includes("ask_when")) {
    window.swallow = false;
    return;
  }
  send.call(this, data);
};
"""


def test_a_reading_is_spoken_with_its_place_and_steadiness(capstone: Page) -> None:
    page = capstone
    spoken = page.locator('.call .notice[role="status"][aria-live="polite"]')
    go(page, "outdoor_unit", ["connect_gauges"], ["suction_pressure"])
    expect(spoken).to_contain_text("Suction pressure at outdoor unit")
    expect(spoken).to_contain_text("psig, steady")
    act(page, "stop")
    act(page, "test-suction_pressure")
    expect(spoken).to_contain_text("psig, system off")


def test_a_repair_says_what_it_needs_before_it_is_confirmed(capstone: Page) -> None:
    page = capstone
    drawer(page, "repair")
    act(page, "repair-seal_supply")
    expect(page.locator('[data-key="terms-seal_supply"]')).to_contain_text("Stop the system first")
    expect(page.locator('[data-key="sure-seal_supply"]')).to_be_disabled()
    assert page.locator(".call .main:visible").count() == 1
    act(page, "first-seal_supply")
    # A second Enter must not carry out the repair.
    assert page.evaluate("document.activeElement.dataset.key") == "terms-seal_supply"
    expect(page.locator('[data-key="sure-seal_supply"]')).to_contain_text("77 min in all")
    act(page, "sure-seal_supply")
    expect(page.locator('[data-key="place-zone"]')).to_have_attribute("aria-current", "location")


def test_leaving_names_what_is_missing_and_ends_at_the_debrief(capstone: Page) -> None:
    page = capstone
    act(page, "stop")
    tick_cause(page, "no_fault")
    act(page, "declare")
    act(page, "declare-guess")
    drawer(page, "write")
    act(page, "close")
    missing = page.locator('[data-key="leaving"] .caution')
    expect(missing).to_contain_text("no write-up")
    expect(missing).to_contain_text("system is off")
    assert page.locator(".call .main:visible").all_inner_texts() == ["Leave the site"]
    act(page, "close-sure")
    expect(page.locator(".call-state")).to_contain_text("This visit is closed.")
    expect(page.locator('.call-state [data-key="debrief"]')).to_be_focused()
    assert page.locator(".call .main:visible").all_inner_texts() == ["Open the debrief"]


def test_in_the_dark_it_prints_ink_on_white(capstone: Page) -> None:
    page = capstone
    page.emulate_media(color_scheme="dark", media="print")
    shades = page.evaluate(
        """[getComputedStyle(document.querySelector(".call h1")).color,
        getComputedStyle(document.documentElement).backgroundColor,
        getComputedStyle(document.body).backgroundColor]"""
    )
    assert shades == ["rgb(0, 0, 0)", "rgb(255, 255, 255)", "rgb(255, 255, 255)"]


def test_after_a_lost_message_the_page_asks_again_by_itself(page: Page) -> None:
    page.add_init_script(SWALLOW)
    page.goto("/start/mallorn")
    page.get_by_role("button", name="Take the call").click()
    expect(page.locator(".call[data-ready]")).to_be_visible(timeout=30_000)
    page.evaluate("window.swallow = true")
    page.locator('[data-key="test-ask_when"]').click()
    # The panel waits 15 s for an answer, shared/dom.js.
    expect(page.locator(".notice")).to_contain_text("the page asked again", timeout=20_000)
    expect(problem(page)).to_have_count(0)
    assert page.evaluate("window.swallow") is False
    act(page, "test-ask_when")
    expect(page.locator(".notice")).to_contain_text("Ask when it started")


def test_a_finding_without_a_reading_is_asked_about_once(capstone: Page) -> None:
    page = capstone
    tick_cause(page, "supply_leak")
    act(page, "declare")
    expect(page.locator(".drawer .caution", has_text="counts as a guess")).to_be_visible()
    expect(page.locator(".stated")).to_have_count(0)
    assert page.evaluate("document.activeElement.dataset.key") == "declare-guess"
    act(page, "declare-guess")
    expect(page.locator(".stated")).to_be_visible()
    expect(page.locator('[data-key="declare-guess"]')).to_have_count(0)
