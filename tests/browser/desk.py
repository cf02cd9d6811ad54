"""The drawers of the call page, opened as a trainee opens them."""

from playwright.sync_api import Page, expect


def drawer(page: Page, name: str) -> None:
    """Open one, whatever was open before."""
    tab = page.locator(f'[data-key="desk-{name}"]')
    tab.click()
    expect(tab).to_have_attribute("aria-pressed", "true")


def tick_cause(page: Page, cause: str) -> None:
    """Tick a cause in the finding; unfold the whole list where it is not among the likely ones."""
    drawer(page, "finding")
    box = page.locator(f'[data-key="found-{cause}"]')
    if not box.is_visible():
        page.locator('[data-key="all-causes"]').click()
    box.check()
