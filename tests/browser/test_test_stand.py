"""The test stand as an instructor meets it: one address, no explanation."""

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

STAND = "/voila/render/test-stand.ipynb"


@pytest.fixture
def stand(page: Page) -> Page:
    """The test stand, ready."""
    page.goto("/")
    page.get_by_role("link", name="Test stand").first.click()
    expect(page.locator("[data-ready]")).to_be_visible(timeout=30_000)
    return page


def reading(stand: Page, name: str) -> str:
    """What one reading shows."""
    return stand.locator(f"[data-reading={name}]").inner_text()


def test_low_airflow_is_found_and_shown(stand: Page) -> None:
    before = reading(stand, "airflow")
    stand.get_by_label("Fault", exact=True).select_option(label="Loaded or too restrictive filter")
    expect(stand.locator("[data-reading=filter_drop]")).to_contain_text("above healthy")
    expect(stand.locator("[data-reading=airflow]")).to_contain_text("below healthy")
    expect(stand.locator("[data-reading=coil_drop]")).to_contain_text("below healthy")
    assert reading(stand, "airflow") != before


def test_the_keyboard_moves_a_slider(stand: Page) -> None:
    before = reading(stand, "liquid_pressure")
    slider = stand.get_by_role("slider", name="Outdoor air")
    slider.focus()
    for _ in range(5):
        stand.keyboard.press("ArrowRight")
    expect(stand.get_by_label("Outdoor air, °F")).to_have_value("100")
    expect(stand.locator("[data-reading=liquid_pressure]")).not_to_have_text(before)


def test_a_wrong_number_is_said_and_nothing_is_lost(stand: Page) -> None:
    box = stand.get_by_label("Return wet bulb, °F")
    box.fill("84")
    box.press("Tab")
    expect(stand.get_by_role("status").filter(has_text="cannot be above")).to_be_visible()
    assert reading(stand, "airflow")
    box.fill("66")
    box.press("Tab")
    expect(stand.get_by_role("status").filter(has_text="Running")).to_be_visible()


@pytest.mark.parametrize("width", [1280, 390])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_it_is_accessible_and_fits(stand: Page, width: int, scheme: str) -> None:
    stand.set_viewport_size({"width": width, "height": 844})
    stand.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
    expect(stand.locator("[data-part=total]")).to_be_visible()
    assert stand.evaluate("document.documentElement.scrollWidth") <= width
    grave = [
        (found["id"], found["nodes"][0]["html"])
        for found in Axe().run(stand).response["violations"]
        if found["impact"] in ("serious", "critical")
    ]
    assert grave == []


def test_the_bill_follows_the_fault_part_by_part(stand: Page) -> None:
    total = stand.locator("[data-part=total] td")
    expect(total).to_have_count(4)
    assert total.nth(0).inner_text() == total.nth(1).inner_text()
    stand.get_by_label("Fault", exact=True).select_option(label="Electric strips on during cooling")
    strips = stand.locator("[data-part=strips] td")
    expect(strips.nth(0)).not_to_have_text("0.0")
    assert strips.nth(1).inner_text() == "0.0"
    assert float(total.nth(2).inner_text()) > float(total.nth(3).inner_text())
