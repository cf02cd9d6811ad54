"""The home page in a real browser: readable, reachable, and never wider than the screen."""

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import BrowserContext, Page, expect

from tests.browser.looks import fits, is_whole_when_zoomed, looks
from tests.serve.running import RunningBench, soon

PAGES = ["/", "/start/mallorn", "/no/such/page", "/worksheet", "/instructor/door"]


@pytest.mark.parametrize("path", PAGES)
def test_a_page_without_a_kernel_is_accessible_and_fits(page: Page, path: str) -> None:
    page.goto(path)
    for look in looks(page):
        found = Axe().run(page).response["violations"]
        assert [violation["id"] for violation in found] == [], look
        assert fits(page), look
    is_whole_when_zoomed(page)


@pytest.mark.parametrize(
    "path",
    ["/", "/worksheet", "/voila/render/test-stand.ipynb", "/voila/render/01-normal-today.ipynb"],
)
def test_in_the_dark_it_prints_ink_on_white(page: Page, path: str) -> None:
    page.emulate_media(color_scheme="dark", media="print")
    page.goto(path)
    page.locator("h1").first.wait_for(timeout=30_000)
    shades = page.evaluate(
        """[getComputedStyle(document.querySelector("h1")).color,
        getComputedStyle(document.documentElement).backgroundColor]"""
    )
    assert shades == ["rgb(0, 0, 0)", "rgb(255, 255, 255)"]


def test_the_first_stop_of_the_keyboard_skips_the_strip(page: Page) -> None:
    page.goto("/")
    page.keyboard.press("Tab")
    expect(page.get_by_role("link", name="Skip to the page")).to_be_focused()


def test_a_call_is_taken_by_keyboard_and_found_again(page: Page) -> None:
    page.goto("/")
    page.get_by_role("button", name="Take the call").first.focus()
    page.keyboard.press("Enter")
    page.wait_for_url("**/voila/render/call.ipynb?visit=*")
    expect(page.get_by_role("main")).to_be_visible()
    page.get_by_role("link", name="Benchcall").click()
    expect(page.get_by_role("link", name="Go on")).to_be_visible()


def test_leaving_a_page_frees_its_kernel(context: BrowserContext, bench: RunningBench) -> None:
    # Kernels of earlier tests may still be ending: only those begun here count.
    earlier = {kernel.pid for kernel in bench.kernels()}

    def begun_here() -> int:
        return sum(kernel.pid not in earlier for kernel in bench.kernels())

    page = context.new_page()
    page.goto("/voila/render/test-stand.ipynb")
    expect(page.locator("[data-reading]").first).to_be_visible(timeout=30_000)
    for _ in range(3):
        page.reload()
        expect(page.locator("[data-reading]").first).to_be_visible(timeout=30_000)
    assert soon(lambda: begun_here() == 1)
    page.goto("/")
    assert soon(lambda: begun_here() == 0)
