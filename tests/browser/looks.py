"""One page in every look: both widths, light and dark, held against axe, and zoomed."""

import os
from collections.abc import Iterator, Sequence

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

WIDTHS = (1280, 390)
SCHEMES = ("light", "dark")
GRAVE = ("serious", "critical")
ZOOMED = (640, 320)  # CSS px: a desk of 1280 at 200 % and at 400 %
# Text that is cut, or stands beside the screen. The first two lines of a complaint on the home
# page lead to the whole of it; tables may scroll in their own frame.
CUT = """() => [...document.querySelectorAll("main *")].filter((node) => {
    const own = [...node.childNodes].some((kid) => kid.nodeType === 3 && kid.textContent.trim());
    if (!own || !node.checkVisibility() || node.closest(".visually-hidden, .brief, select, svg"))
      return false;
    const style = getComputedStyle(node), box = node.getBoundingClientRect();
    const hides = (way) => ["hidden", "clip"].includes(way);
    return (hides(style.overflowX) && node.scrollWidth > node.clientWidth + 1)
      || (hides(style.overflowY) && node.scrollHeight > node.clientHeight + 2)
      || (box.right > document.documentElement.clientWidth + 1 && !node.closest("table"));
  }).map((node) => node.outerHTML.slice(0, 120))"""
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


def is_accessible_in_two_looks(page: Page) -> None:
    """The same in light on a desk and in dark on a telephone; BENCHCALL_WHOLE=1: in all four."""
    if os.environ.get("BENCHCALL_WHOLE"):
        is_accessible_and_fits(page)
        return
    for width, scheme in zip(WIDTHS, SCHEMES, strict=True):
        for look in looks(page, (width,), (scheme,)):
            assert fits(page), (page.url, look)
            assert grave(page) == [], (page.url, look)


def is_whole_when_zoomed(page: Page) -> None:
    """WCAG 2.2, 1.4.4 Resize Text and 1.4.10 Reflow: nothing is cut, nothing scrolls sideways."""
    for look in looks(page, ZOOMED, ("light",)):
        assert fits(page), (page.url, look)
        assert page.evaluate(CUT) == [], (page.url, look)
    page.set_viewport_size({"width": WIDTHS[0], "height": 844})


def holds_text_twice_as_large(page: Page) -> None:
    """On a telephone whose owner reads large text: it is large, and nothing scrolls sideways."""
    page.set_viewport_size({"width": 390, "height": 844})
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    page.evaluate(DRAWN)
    size = page.evaluate("getComputedStyle(document.querySelector('.bench')).fontSize")
    assert size == "32px"
    assert fits(page)
    page.evaluate("document.documentElement.style.fontSize = ''")
