"""The finding in a real browser: how large a cause is, asked beside it and kept."""

from pathlib import Path

from playwright.sync_api import Page, expect

from tests.browser.desk import drawer, tick_cause
from tests.browser.looks import is_accessible_and_fits
from tests.browser.test_calls import act, capstone

__all__ = ["capstone"]


def test_how_large_is_asked_beside_a_cause_and_survives_a_reload(
    capstone: Page, pictures: Path
) -> None:
    page = capstone
    drawer(page, "finding")
    size = page.locator('[data-key="size-supply_leak"]')
    expect(size).to_have_count(0)
    tick_cause(page, "supply_leak")
    # Focus stays with the box that was ticked.
    assert page.evaluate("document.activeElement.dataset.key") == "found-supply_leak"
    expect(size).to_have_attribute(
        "aria-label", "How large: Supply duct leaking outside the rooms, share of the fan flow lost"
    )
    assert size.locator("option").all_inner_texts() == [
        "not stated", "slight: up to 24\u00a0%", "moderate: 24\u00a0% to 42\u00a0%",
        "severe: over 42\u00a0%",
    ]  # fmt: skip
    size.select_option("slight")
    tick_cause(page, "disconnected_run")  # it is off or it is not
    expect(page.locator('[data-key="size-disconnected_run"]')).to_have_count(0)
    for width in (1280, 390):
        page.set_viewport_size({"width": width, "height": 844})
        page.screenshot(path=pictures / f"finding-{width}.png", full_page=True)
    is_accessible_and_fits(page)
    page.set_viewport_size({"width": 1280, "height": 844})
    page.reload()
    expect(page.locator(".call[data-ready]")).to_be_visible(timeout=30_000)
    drawer(page, "finding")
    expect(size).to_have_value("slight")
    act(page, "declare")
    act(page, "declare-guess")
    expect(page.locator(".stated")).to_contain_text("Supply duct leaking")
    page.evaluate("window.localStorage.clear()")
    page.reload()
    expect(page.locator(".call[data-ready]")).to_be_visible(timeout=30_000)
    drawer(page, "finding")
    expect(size).to_have_value("slight")
