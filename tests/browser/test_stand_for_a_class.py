"""The test stand before a class: predict and reveal, a link, the projector, charts, trends."""

import pytest
from playwright.sync_api import Page, expect

from tests.browser.looks import fits, grave, is_accessible_and_fits, looks

STAND = "/voila/render/test-stand.ipynb"
CHARTS = ("cycle", "air", "fan", "delivery", "bill", "run_time", "rooms", "after",
          "start_heat", "start_pressure", "start_air")  # fmt: skip


def opened(page: Page, words: str = "") -> Page:
    """The stand, ready, as a link opens it."""
    page.goto("about:blank")
    page.goto(STAND + words)
    expect(page.locator(".stand[data-ready]")).to_be_visible(timeout=30_000)
    expect(page.locator("[data-reading]").first).to_be_visible()
    return page


def press(page: Page, key: str) -> None:
    """What carries a key."""
    page.locator(f'[data-key="{key}"]').click()


def test_nothing_shows_before_the_reveal(page: Page) -> None:
    opened(page)
    press(page, "tab-predict")
    page.select_option("#to-come", "loaded_filter")
    page.select_option("#asked", "airflow")
    page.locator(".sign", has_text="go down").click()
    page.select_option("#asked", "suction_pressure")
    page.locator(".sign", has_text="go up").click()
    expect(page.locator(".moved")).to_have_count(0)
    expect(page.locator("figure .line.healthy")).to_have_count(1)
    assert page.locator("figure .line.healthy").get_attribute("d") == page.locator(
        "figure .line.now"
    ).get_attribute("d")
    press(page, "reveal")
    expect(page.locator("#verdict")).to_have_text("Loaded or too restrictive filter")
    expect(page.locator("#verdict")).to_be_focused()
    expect(page.locator(".tally")).to_have_text("1 of 2 readings went as the class said.")
    airflow = page.locator("[data-verdict=airflow]")
    expect(airflow).to_contain_text("As you said: it went down")
    expect(page.locator("[data-verdict=suction_pressure]")).to_contain_text("It went down")
    expect(page.locator("[data-reading=airflow]")).to_contain_text("below healthy")
    expect(page.locator("#chart-0")).to_have_value("fan")  # where the air has gone, its own chart


def test_a_prediction_is_made_by_keyboard_with_hands_counted(page: Page) -> None:
    opened(page)
    page.locator("#tab-fault").focus()
    page.keyboard.press("End")
    page.locator("#to-come").focus()
    page.keyboard.type("Low refrigerant charge")
    page.locator("#asked").focus()
    page.keyboard.type("Subcooling")
    page.locator("[data-key=sign-up]").focus()
    page.keyboard.press("ArrowDown")
    page.keyboard.press("ArrowDown")
    expect(page.locator("[data-said=subcooling]")).to_contain_text("go down")
    page.locator("[data-key=count-hands]").focus()
    page.keyboard.press("Enter")
    page.locator("#hands-down").fill("9")
    page.locator("#hands-up").fill("4")
    page.locator("[data-key=reveal]").focus()
    page.keyboard.press("Enter")
    expect(page.locator("[data-verdict=subcooling]")).to_contain_text("(9 of 13 hands)")


def test_a_fault_by_chance_is_told_only_then(page: Page) -> None:
    opened(page)
    press(page, "tab-predict")
    expect(page.get_by_text("drawn and hidden")).to_be_visible()
    expect(page.locator("#to-come")).to_have_value("?")
    press(page, "reveal")
    expect(page.get_by_role("status").filter(has_text="Mark at least one")).to_be_visible()
    page.locator(".sign").first.click()
    press(page, "reveal")
    title = page.locator("#verdict").inner_text()
    assert title
    press(page, "tab-fault")
    assert page.locator("#fault-0 option:checked").inner_text() == title


def test_a_link_brings_the_same_setting_back(page: Page) -> None:
    opened(page, "#outdoor=105&fault=undercharge:25&fault=supply_leak:20&chart=fan")
    expect(page.locator("#fault-1")).to_have_value("supply_leak")
    expect(page.locator("#chart-0")).to_have_value("fan")
    press(page, "tab-weather")
    expect(page.locator('[data-key="box-outdoor"]')).to_have_value("105")
    page.locator('[data-key="box-outdoor"]').fill("101")
    page.keyboard.press("Tab")
    reading = page.locator('[data-reading="liquid_pressure"] .value')
    expect(page.locator(".stand")).to_have_attribute("data-answered", "2")
    before = reading.inner_text()
    again = page.evaluate("window.location.hash")
    assert "outdoor=101" in again
    page.get_by_text("Link and units").click()
    assert page.locator("[data-key=link-text]").input_value().endswith(again)
    press(page, "copy-link")
    expect(page.get_by_role("status").filter(has_text="link is")).to_be_visible()
    opened(page, again)
    expect(reading).to_have_text(before)


def test_a_link_that_asks_for_nonsense_gets_a_sentence(page: Page) -> None:
    opened(page, "#mode=sideways&outdoor=1e9&fault=nonsense:7")
    expect(page.get_by_role("alert")).to_contain_text("The mode must be")
    press(page, "tab-weather")
    expect(page.locator('[data-key="box-outdoor"]')).to_have_value("95")


OUTSIDE = """(drawing) => [...drawing.querySelectorAll("text")].filter((text) => {
  const box = text.getBoundingClientRect();
  return box.right > innerWidth || box.left < 0;
}).map((text) => text.textContent)"""


def test_each_chart_is_told_in_words_and_in_a_table(page: Page) -> None:
    opened(page, "#fault=supply_leak:30&chart=cycle")
    for name in CHARTS:
        page.select_option("#chart-0", name)
        figure = page.locator(f"figure[data-chart={name}]:not(.stale)")
        drawn = figure.locator("svg[role=img]")
        expect(drawn).to_be_visible()
        assert len(drawn.get_attribute("aria-label") or "") > 20
        figure.locator("details summary").click()
        expect(figure.locator("table").first).to_be_visible()
        for look in looks(page, schemes=("light",)):
            assert fits(page), (name, look)
            assert drawn.evaluate(OUTSIDE) == [], (name, look)


OVER_EACH_OTHER = """(drawing) => {
  const words = [...drawing.querySelectorAll("text.name")];
  const boxOf = (word) => word.getBoundingClientRect();
  const meet = (a, b) => a.left < b.right && b.left < a.right
    && a.top + 6 < b.bottom && b.top + 6 < a.bottom;
  return words.flatMap((one, i) => words.slice(i + 1)
    .filter((other) => meet(boxOf(one), boxOf(other)))
    .map((other) => `${one.textContent} / ${other.textContent}`));
}"""


def test_no_word_of_a_chart_lies_over_another(page: Page) -> None:
    """Common practice of drawing, no source; lines may be closer than letters are tall."""
    for fault in ("loaded_filter:8", "weak_blower:40", "supply_leak:30"):
        opened(page, f"#fault={fault}&chart=fan&chart=air")
        for name in ("fan", "air"):
            drawn = page.locator(f"figure[data-chart={name}] svg[role=img]")
            expect(drawn).to_be_visible()
            for look in looks(page, schemes=("light",)):
                assert drawn.evaluate(OVER_EACH_OTHER) == [], (fault, name, look)


def test_trends_come_while_the_page_lives_on(page: Page) -> None:
    opened(page, "#fault=supply_leak:30&chart=run_time&chart=after")
    press(page, "tab-weather")
    slider = page.locator("#d-outdoor")
    before = page.locator("[data-reading=liquid_pressure] .value").inner_text()
    slider.focus()
    page.keyboard.press("ArrowRight")
    expect(page.locator("[data-reading=liquid_pressure] .value")).not_to_have_text(before)
    for name in ("run_time", "after"):
        figure = page.locator(f"figure[data-chart={name}]:not(.stale)")
        expect(figure.locator(".line.now")).to_be_visible(timeout=15_000)
        expect(figure.locator(".line.healthy")).to_be_visible()
    expect(page.get_by_text("back at the setpoint after")).to_be_visible()


def test_the_projector_is_remembered_and_has_a_key(page: Page) -> None:
    page.set_viewport_size({"width": 1920, "height": 1080})
    opened(page, "#fault=supply_leak:25&chart=delivery")
    page.keyboard.press("Alt+p")
    button = page.locator('[data-key="projector"]')
    expect(button).to_have_attribute("aria-pressed", "true")
    opened(page, "#chart=delivery")
    expect(button).to_have_attribute("aria-pressed", "true")
    button.click()
    expect(button).to_have_attribute("aria-pressed", "false")


@pytest.mark.parametrize("state", ["#chart=delivery", "#fault=loaded_filter:8&chart=air"])
def test_the_projector_is_accessible(page: Page, state: str) -> None:
    page.set_viewport_size({"width": 1920, "height": 1080})
    opened(page, state)
    before = page.locator("[data-reading] .label").first.bounding_box()
    press(page, "projector")
    after = page.locator("[data-reading] .label").first.bounding_box()
    assert before is not None
    assert after is not None
    assert after["height"] == pytest.approx(1.6 * before["height"], rel=0.05)
    is_accessible_and_fits(page, widths=(1920,))


SMALL = """() => [...document.querySelectorAll(".stand :is(button, select, summary, .sign)")]
  .filter((node) => node.checkVisibility())
  .map((node) => [node.textContent.slice(0, 20), node.getBoundingClientRect()])
  .filter(([, box]) => box.width < 24 || box.height < 24).map(([text]) => text)"""


def test_predicting_is_accessible_and_targets_are_large(page: Page) -> None:
    opened(page)
    press(page, "tab-predict")
    page.locator(".sign").first.click()
    for look in looks(page):
        # WCAG 2.2, success criterion 2.5.8: 24 by 24 CSS pixels.
        assert page.evaluate(SMALL) == [], look
    is_accessible_and_fits(page)
    press(page, "reveal")
    expect(page.locator("#verdict")).to_be_visible()
    is_accessible_and_fits(page)


def test_a_small_projector_shows_all_in_its_place(page: Page) -> None:
    page.set_viewport_size({"width": 1280, "height": 800})
    opened(page, "#fault=undercharge:25&fault=supply_leak:20&chart=cycle&chart=delivery")
    press(page, "projector")
    expect(page.locator("figure[data-chart=delivery]:not(.stale) svg")).to_be_visible()
    outside = page.evaluate(
        """() => [...document.querySelectorAll(".stand text, .stand .label, .stand .value")]
          .filter((node) => node.checkVisibility()
            && node.getBoundingClientRect().right > innerWidth)
          .map((node) => node.textContent)"""
    )
    assert outside == []
    beneath = page.evaluate(
        """() => [...document.querySelectorAll("[data-reading]")].filter((row) => {
          if (!row.checkVisibility()) return false;
          const range = document.createRange();
          range.selectNodeContents(row.querySelector(".label"));
          const name = range.getBoundingClientRect();
          const scale = row.querySelector(".scale").getBoundingClientRect();
          return name.right > scale.left && name.bottom > scale.bottom;
        }).map((row) => row.dataset.reading)"""
    )
    assert beneath == []
    chart = page.locator("figure[data-chart=cycle] svg").bounding_box()
    assert chart is not None
    assert chart["y"] + chart["height"] < 830  # the first chart stands in the first view
    assert grave(page) == []


def test_a_link_with_opposites_gets_a_sentence(page: Page) -> None:
    opened(page, "#fault=undercharge:25&fault=overcharge:20")
    expect(page.get_by_role("alert")).to_contain_text("cannot both be there")


def test_what_means_nothing_here_is_said(page: Page) -> None:
    opened(page, "#fault=no_defrost:50")
    said = page.get_by_role("status").filter(has_text="is left out: it shows only while heating")
    expect(said).to_be_visible()
    expect(page.locator("#fault-0")).to_have_value("")
    page.locator("#fault-0").select_option("undercharge")
    page.locator("#fault-1").select_option("overcharge")
    expect(page.get_by_role("status").filter(has_text="cannot both be there")).to_be_visible()
    page.locator("#fault-1").select_option("")
    expect(page.get_by_role("status").filter(has_text="Running")).to_be_visible()
