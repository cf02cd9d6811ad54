"""The test stand before a class: predict and reveal, a link, the projector, four charts."""

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

STAND = "/voila/render/test-stand.ipynb"


def opened(page: Page, words: str = "") -> Page:
    """The stand, ready, as a link opens it."""
    page.goto("about:blank")
    page.goto(STAND + words)
    expect(page.locator(".stand[data-ready]")).to_be_visible(timeout=30_000)
    expect(page.locator("[data-reading], .predictions").first).to_be_visible()
    return page


def press(page: Page, key: str) -> None:
    """What carries a key."""
    page.locator(f'[data-key="{key}"]').click()


def test_nothing_shows_before_the_reveal(page: Page) -> None:
    opened(page)
    press(page, "predict")
    page.select_option("#fault-0", "loaded_filter")
    expect(page.locator(".predictions")).to_be_visible()
    expect(page.locator("[data-reading]")).to_have_count(0)
    expect(page.locator(".stand-grid > :last-child")).to_be_hidden()
    page.locator('[data-key="p-airflow-down"]').check()
    page.locator('[data-key="p-suction_pressure-up"]').check()
    press(page, "reveal")
    verdicts = page.locator(".verdicts")
    expect(verdicts).to_contain_text("1 of 2 foreseen")
    expect(verdicts).to_contain_text("Airflow: you said down; so it is")
    expect(verdicts).to_contain_text("Suction pressure: you said up; it is not so")


def test_a_fault_by_chance_stays_hidden_until_then(page: Page) -> None:
    opened(page)
    press(page, "random")
    expect(page.get_by_text("hidden until you reveal it")).to_be_visible()
    expect(page.locator("#fault-0")).to_have_count(0)
    press(page, "reveal")
    assert page.locator("#fault-0").input_value() != ""


def test_a_link_brings_the_same_setting_back(page: Page) -> None:
    opened(page, "#outdoor=105&fault=undercharge:25&fault=supply_leak:20&chart=fan")
    expect(page.locator("#fault-1")).to_have_value("supply_leak")
    expect(page.locator('[data-key="box-outdoor"]')).to_have_value("105")
    expect(page.locator('[data-key="chart-fan"]')).to_have_attribute("aria-pressed", "true")
    reading = page.locator('[data-reading="superheat"] .value')
    before = reading.inner_text()
    press(page, "link")
    again = page.evaluate("window.location.hash")
    opened(page, again)
    expect(reading).to_have_text(before)


def test_a_link_that_asks_for_nonsense_gets_a_sentence(page: Page) -> None:
    opened(page, "#mode=sideways&outdoor=1e9&fault=nonsense:7")
    expect(page.locator(".notice.problem")).to_contain_text("mode must be")
    expect(page.locator('[data-key="box-outdoor"]')).to_have_value("95")


@pytest.mark.parametrize("name", ["cycle", "air", "fan", "delivery"])
@pytest.mark.parametrize("width", [1280, 390])
def test_each_chart_is_told_in_words_and_in_a_table(page: Page, name: str, width: int) -> None:
    page.set_viewport_size({"width": width, "height": 844})
    opened(page, f"#fault=loaded_filter:8&chart={name}")
    drawn = page.locator(".figure svg[role=img]")
    expect(drawn).to_be_visible()
    assert len(drawn.get_attribute("aria-label") or "") > 20
    page.locator(".figure details summary").first.click()
    expect(page.locator(".figure table").first).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth") <= width


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("state", ["#chart=delivery", "#fault=loaded_filter:8&chart=air"])
def test_the_projector_is_accessible(page: Page, scheme: str, state: str) -> None:
    page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
    page.set_viewport_size({"width": 1920, "height": 1080})
    opened(page, state)
    press(page, "projector")
    large = page.evaluate(
        "document.querySelector('[data-reading] .label').getBoundingClientRect().height"
    )
    assert large > 30
    assert page.evaluate("document.documentElement.scrollWidth") <= 1920
    grave = [
        (found["id"], found["nodes"][0]["html"][:200])
        for found in Axe().run(page).response["violations"]
        if found["impact"] in ("serious", "critical")
    ]
    assert grave == []
