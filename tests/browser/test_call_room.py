"""What stands in reach on the call page, in a low window, on a telephone and on paper."""

from playwright.sync_api import Page, expect

from tests.browser.desk import drawer
from tests.browser.test_calls import act, capstone, go

__all__ = ["capstone"]  # the fixture

# Upright and flat houses, short and long work orders.
TAKEN = ("hollingbury", "winterbourne", "rooke")
ASKED = ("ask_when", "ask_changed", "ask_touched", "ask_rooms", "read_bill", "read_history")
# The page ends where its foot ends.
SURPLUS = """() => {
  const end = document.querySelector(".call").getBoundingClientRect().bottom + scrollY;
  return document.documentElement.scrollHeight - Math.max(innerHeight, end);
}"""


def take(page: Page, call: str) -> None:
    """Take a call from its own page."""
    page.goto(f"/start/{call}")
    page.get_by_role("button", name="Take the call").click()
    expect(page.locator(".call[data-ready]")).to_be_visible(timeout=30_000)


def stands_above_the_foot(page: Page, key: str) -> bool:
    """Whether a button is whole in sight, with nothing scrolled."""
    button = page.locator(f'[data-key="{key}"]').bounding_box()
    foot = page.locator(".foot").bounding_box()
    assert button, key
    assert foot
    assert page.evaluate("scrollY") == 0
    return button["y"] >= 0 and button["y"] + button["height"] <= foot["y"]


def test_the_first_act_stands_in_sight_when_a_call_opens(page: Page) -> None:
    for call in TAKEN:
        page.set_viewport_size({"width": 1280, "height": 800})
        take(page, call)
        expect(page.locator("details", has_text="Work order")).to_have_attribute("open", "")
        assert stands_above_the_foot(page, "step-consent"), call
        page.set_viewport_size({"width": 1280, "height": 1024})
        assert stands_above_the_foot(page, "step-consent"), call


def test_a_very_low_window_folds_the_work_order(page: Page) -> None:
    page.set_viewport_size({"width": 1366, "height": 625})
    take(page, "rooke")
    order = page.locator("details", has_text="Work order")
    expect(order).not_to_have_attribute("open", "")
    order.locator("summary").click()
    expect(page.get_by_text("Quail 36")).to_be_visible()


def test_clock_and_waiting_stay_and_the_page_ends_at_its_foot(capstone: Page) -> None:
    page = capstone
    for test in ASKED:
        act(page, f"test-{test}")
    go(page, "outdoor_unit", ["connect_gauges"], ["suction_pressure", "liquid_pressure"])
    page.locator('[data-key="coach"]').click()
    expect(page.locator(".coach-head")).to_be_visible(timeout=60_000)
    for name in ("write", "here"):
        drawer(page, name)
        page.evaluate("window.scrollTo(0, document.documentElement.scrollHeight)")
        expect(page.locator(".clock .big")).to_be_in_viewport(ratio=1)
        expect(page.locator('[data-key="wait"]')).to_be_in_viewport(ratio=1)
        assert page.evaluate(SURPLUS) <= 1, name


def test_a_reading_stands_with_place_time_tool_and_steadiness(capstone: Page) -> None:
    page = capstone
    go(page, "outdoor_unit", ["connect_gauges"], ["suction_pressure"])
    where = page.locator(".readings .where").first
    expect(where).to_contain_text("Outdoor unit · min ")
    expect(where).to_contain_text("Low-side pressure probe")
    expect(where).to_contain_text("running · steady")
    act(page, "stop")
    act(page, "test-suction_pressure")
    expect(where).to_contain_text("off, ")
    expect(where).not_to_contain_text("steady")
    # Words are heard or seen, not read off a tool that settles.
    go(page, "customer", (), ["ask_when"])
    said = page.locator(".readings li", has_text="Ask when it started").locator(".where")
    expect(said).not_to_contain_text("steady")


def test_the_sheet_is_printed_unfolded_and_without_buttons(capstone: Page) -> None:
    page = capstone
    go(page, "return_grille", ["match_probes"], ["grille_dry_bulb"])
    go(page, "registers", (), ["near_register_temperature"])
    page.evaluate("window.print = () => { window.printed = true; }")
    page.locator('[data-key="print"]').click()
    assert page.evaluate("window.printed")
    page.evaluate("window.dispatchEvent(new Event('beforeprint'))")
    page.emulate_media(media="print")
    expect(page.get_by_text("Hold all temperature probes").last).to_be_visible()
    expect(page.locator(".readings details p").first).to_be_visible()
    assert page.locator(".call button:visible").count() == 0
    page.emulate_media(media="screen")
    page.evaluate("window.dispatchEvent(new Event('afterprint'))")
    expect(page.locator(".readings details[open]")).to_have_count(0)


def test_the_first_act_stands_in_sight_on_a_telephone(page: Page) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    take(page, "mallorn")
    assert stands_above_the_foot(page, "step-consent")
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
