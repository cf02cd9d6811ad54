"""The test stand on a projector, in a link for a class, and in large letters."""

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.looks import CUT, DRAWN, fits, grave
from tests.browser.test_stand_for_a_class import opened, press

PROJECTORS = ((1920, 1080), (1280, 800), (1280, 1024))
IN_VIEW = """(node) => { const box = node.getBoundingClientRect();
  const top = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
  return box.top >= 0 && box.bottom <= innerHeight && node.contains(top); }"""


def projected(page: Page, size: tuple[int, int], words: str = "") -> Page:
    """The stand in projector size."""
    page.set_viewport_size({"width": size[0], "height": size[1]})
    opened(page, words)
    press(page, "projector")
    return page


@pytest.mark.parametrize("size", PROJECTORS)
def test_reveal_is_in_view_while_a_class_predicts(page: Page, size: tuple[int, int]) -> None:
    projected(page, size)
    press(page, "tab-predict")
    reveal = page.locator("[data-key=reveal]")
    assert reveal.evaluate(IN_VIEW)
    page.get_by_label("Find a fault by a word").fill("low airflow")
    found = page.get_by_role("listbox", name="Fault to come")
    expect(found).to_be_visible()
    page.evaluate(DRAWN)
    # As tall as what is in it, and no taller.
    assert found.evaluate("(list) => list.clientHeight <= list.scrollHeight + 2")
    assert reveal.evaluate(IN_VIEW)
    page.keyboard.press("Enter")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Tab")  # what the keyboard leaves folds up
    expect(found).to_have_count(0)
    expect(page.locator("#to-come")).not_to_have_value("?")
    assert reveal.evaluate(IN_VIEW)


def test_reveal_is_in_view_on_a_telephone(page: Page) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    opened(page)
    press(page, "tab-predict")
    page.evaluate(DRAWN)
    assert page.locator("[data-key=reveal]").evaluate(IN_VIEW)
    # Healthy readings under the finger say nothing while a class predicts.
    expect(page.locator(".pulse")).to_be_hidden()
    page.locator(".sign").first.click()
    assert page.locator("[data-key=reveal]").evaluate(IN_VIEW)
    press(page, "reveal")
    expect(page.locator(".pulse")).to_be_visible()


@pytest.mark.parametrize("size", PROJECTORS)
def test_a_projector_says_what_it_shows_and_shows_the_rest(
    page: Page, size: tuple[int, int]
) -> None:
    projected(page, size, "#fault=loaded_filter:8&chart=fan")
    shown = page.locator("[data-reading]:visible")
    few, every = shown.count(), page.locator("[data-reading]").count()
    assert 6 <= few < every
    said = page.locator(".part p")
    expect(said).to_have_text(
        f"{few} of {every} readings: the usual ones and those that moved most."
    )
    press(page, "every")
    expect(shown).to_have_count(every)
    expect(page.locator("figure:visible")).to_have_count(0)
    assert fits(page)
    assert grave(page) == []
    if size == PROJECTORS[0]:  # the whole sheet at one look
        assert shown.evaluate_all(
            "(all) => all.every((row) => row.getBoundingClientRect().bottom <= innerHeight)"
        )
    press(page, "every")
    expect(shown).to_have_count(few)
    expect(page.locator("figure[data-chart=fan] svg")).to_be_visible()


def test_a_link_for_a_class_opens_in_predict_and_hides_the_fault(page: Page) -> None:
    opened(page, "#outdoor=101&fault=loaded_filter:6&chart=cycle")
    press(page, "tab-predict")
    expect(page.locator("#to-come")).to_have_value("loaded_filter")  # what was set is to come
    press(page, "class-link")
    field = page.locator("[data-key=class-link-text]")
    expect(field).to_have_value(re.compile(r"predict=\w{6}$"))
    said = page.locator(".class-link [role=status]")
    expect(said).to_contain_text(re.compile("link is marked|link for the class is copied", re.I))
    assert said.evaluate(IN_VIEW)
    link = field.input_value()
    assert "fault" not in link
    assert "filter" not in link
    opened(page, "#" + link.split("#")[1])
    expect(page.locator("#tab-predict")).to_have_attribute("aria-selected", "true")
    expect(page.locator("#to-come")).to_have_value("link")
    expect(page.locator(".moved")).to_have_count(0)
    page.locator("#asked").select_option("airflow")
    page.locator(".sign", has_text="go down").click()
    assert "fault" not in page.url
    page.reload()  # and again: the address still holds it
    expect(page.locator("#to-come")).to_have_value("link", timeout=30_000)
    page.locator("#asked").select_option("airflow")
    page.locator(".sign", has_text="go down").click()
    press(page, "reveal")
    expect(page.locator("#verdict")).to_have_text("Loaded or too restrictive filter")
    press(page, "tab-fault")
    expect(page.locator("[data-key=sev-box-0]")).to_have_value("6")
    press(page, "tab-weather")
    expect(page.locator('[data-key="box-outdoor"]')).to_have_value("101")
    assert "predict=" not in page.url
    opened(page, "#predict=NOBODY")
    expect(page.get_by_role("alert")).to_contain_text("No fault is kept here")


def test_a_chart_that_a_reveal_brought_up_does_not_go_along(page: Page) -> None:
    opened(page, "#fault=loaded_filter:6")
    press(page, "tab-predict")
    page.locator("#asked").select_option("airflow")
    page.locator(".sign", has_text="go down").click()
    press(page, "reveal")
    expect(page.locator("figure[data-chart=fan]")).to_be_visible()
    press(page, "again")
    press(page, "class-link")
    field = page.locator("[data-key=class-link-text]")
    expect(field).to_have_value(re.compile(r"predict=\w{6}$"))
    assert "chart=" not in field.input_value()
    page.locator("#asked").select_option("airflow")
    page.locator(".sign", has_text="go down").click()
    press(page, "reveal")
    page.locator("#chart-0").select_option("air")  # what is chosen by hand goes along
    press(page, "again")
    press(page, "class-link")
    expect(field).to_have_value(re.compile(r"chart=air.*predict=\w{6}$"))


def test_what_is_set_beside_a_link_is_to_come_and_the_link_stays(page: Page) -> None:
    opened(page, "#fault=loaded_filter:6&chart=cycle")
    press(page, "tab-predict")
    press(page, "class-link")
    field = page.locator("[data-key=class-link-text]")
    expect(field).to_have_value(re.compile(r"predict=\w{6}$"))
    opened(page, "#" + field.input_value().split("#")[1])
    to_come = page.locator("#to-come")
    expect(to_come).to_have_value("link")
    press(page, "tab-fault")
    page.locator("#fault-0").select_option("undercharge")
    press(page, "tab-predict")
    expect(to_come).to_have_value("undercharge")
    expect(page.locator(".moved")).to_have_count(0)
    press(page, "tab-fault")  # looked at again, and taken out: the link's own is to come
    expect(page.locator("#fault-0")).to_have_value("undercharge")
    press(page, "healthy")
    press(page, "tab-predict")
    expect(to_come).to_have_value("link")
    press(page, "tab-fault")
    page.locator("#fault-0").select_option("undercharge")
    press(page, "tab-predict")
    page.locator(".sign", has_text="go down").click()
    press(page, "reveal")
    expect(page.locator("#verdict")).to_have_text("Low refrigerant charge")
    press(page, "again")
    expect(to_come).to_have_value("link")
    page.locator(".sign", has_text="go down").click()
    press(page, "reveal")
    expect(page.locator("#verdict")).to_have_text("Loaded or too restrictive filter")


def test_while_another_unit_is_worked_out_the_old_readings_are_said_to_be_old(page: Page) -> None:
    opened(page)
    charge = page.locator(".charge-test")
    expect(charge).to_have_text("A charge test counts here: air, coil and weather allow it.")
    press(page, "tab-unit")
    page.locator("#c-unit").select_option("bittern_60")  # fitted to its data sheet first
    notice = page.locator(".stand > .notice[role=status]")
    expect(notice).to_contain_text("still the setting before")
    expect(page.locator("section.stale [data-reading=airflow]")).to_be_visible()
    expect(notice).to_have_text("Running and settled.")
    expect(page.locator(".stand .stale")).to_have_count(0)


def test_low_airflow_is_found_foretold_revealed_and_sent_by_keyboard(page: Page) -> None:
    opened(page)

    def tab_to(key: str) -> None:
        at = "document.activeElement?.dataset?.key"
        for _ in range(60):
            if page.evaluate(at) == key:
                return
            page.keyboard.press("Tab")
        raise AssertionError(key)

    tab_to("tab-fault")
    page.keyboard.press("End")
    tab_to("find")
    page.keyboard.type("low airflow")
    expect(page.get_by_text("7 faults fit")).to_be_visible()
    page.keyboard.press("Enter")
    expect(page.locator("#to-come")).to_be_focused()
    page.keyboard.type("loaded")
    page.keyboard.press("Enter")
    expect(page.locator("#to-come")).to_have_value("loaded_filter")
    expect(page.get_by_role("listbox")).to_have_count(0)
    tab_to("sign-up")
    page.keyboard.press("ArrowUp")  # round to the last: down
    expect(page.get_by_text("It stays if it ends within")).to_be_visible()
    tab_to("reveal")
    page.keyboard.press("Enter")
    expect(page.locator("#verdict")).to_be_focused()
    expect(page.locator("[data-verdict]")).to_have_count(1)
    expect(page.locator("figure[data-chart=fan] svg")).to_be_visible()
    tab_to("share")
    page.keyboard.press("Enter")
    tab_to("copy-link")
    page.keyboard.press("Enter")
    expect(page.get_by_role("status").filter(has_text="link is")).to_be_visible()
    assert "fault=loaded_filter" in page.locator("[data-key=link-text]").input_value()


@pytest.mark.parametrize("width", [1280, 390])
def test_large_letters_are_large_everywhere_and_nothing_scrolls_sideways(
    page: Page, width: int
) -> None:
    """WCAG 2.2, 1.4.4 Resize Text: letters twice as large, as a browser may be told."""
    page.set_viewport_size({"width": width, "height": 900})
    opened(page, "#fault=loaded_filter:8&chart=fan&chart=delivery")
    sizes = """() => [...document.querySelectorAll(".stand *")]
      .filter((node) => node.checkVisibility() && !node.closest("svg")
        && [...node.childNodes].some((kid) => kid.nodeType === 3 && kid.textContent.trim()))
      .map((node) => [node.outerHTML.slice(0, 60), parseFloat(getComputedStyle(node).fontSize)])"""
    assert min(size for _, size in page.evaluate(sizes)) >= 13
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    page.evaluate("dispatchEvent(new Event('resize'))")
    for name in ("fault", "weather", "house", "unit", "predict"):
        press(page, f"tab-{name}")
        page.evaluate(DRAWN)
        small = [row for row in page.evaluate(sizes) if row[1] < 27]
        assert small == [], name
        assert fits(page), name
        assert page.evaluate(CUT) == [], name
