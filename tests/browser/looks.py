"""One page in every look: both widths, light and dark, held against axe."""

from collections.abc import Iterator, Sequence

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

WIDTHS = (1280, 390)
SCHEMES = ("light", "dark")
GRAVE = ("serious", "critical")
# What watches its own size has drawn itself anew after two frames.
DRAWN = "() => new Promise((on) => requestAnimationFrame(() => requestAnimationFrame(on)))"


def looks(
    page: Page, widths: Sequence[int] = WIDTHS, schemes: Sequence[str] = SCHEMES
) -> Iterator[str]:
    """Turn the page to each look in turn; what is asserted names it."""
    for width in widths:
        page.set_viewport_size({"width": width, "height": 844 if width < 1900 else 1080})
        for scheme in schemes:
            page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
            page.evaluate(DRAWN)
            yield f"{scheme}-{width}"


def fits(page: Page) -> bool:
    """Whether nothing scrolls sideways."""
    return bool(
        page.evaluate("document.documentElement.scrollWidth")
        <= (page.viewport_size or {"width": 0})["width"]
    )


def grave(page: Page) -> list[tuple[str, str]]:
    """What axe holds against the page that is serious or critical."""
    return [
        (found["id"], found["nodes"][0]["html"][:200])
        for found in Axe().run(page).response["violations"]
        if found["impact"] in GRAVE
    ]


def is_accessible_and_fits(page: Page, widths: Sequence[int] = WIDTHS) -> None:
    """No serious violation, and no wider than the screen, in every look."""
    for look in looks(page, widths):
        assert fits(page), look
        assert grave(page) == [], look
