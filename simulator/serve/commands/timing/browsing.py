"""How long a page takes to be ready, and a slider to be answered, in a real browser."""

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

from simulator.serve.commands.timing.servers import our_server, plain_server
from simulator.serve.commands.timing.times import Timing

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page, Route

FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking"]
CHROMIUM = ("chromium", "chromium-browser", "google-chrome")
STAND = "voila/render/test-stand.ipynb"
STAND_READY = "[data-reading]"
HELLO_READY = ".widget-label"
MOVES = 40

# Notes, in the page's own clock, when what was waited for is first there.
_NOTE_READY = """
(selector) => {
  const look = () => {
    if (window.readyAt === undefined && document.querySelector(selector)) {
      window.readyAt = performance.now();
    }
  };
  const all = { childList: true, subtree: true, attributes: true };
  new MutationObserver(look).observe(document, all);
}
"""
_READY_AT = """
() => new Promise((done) => {
  const look = () => (window.readyAt === undefined ? setTimeout(look, 20) : done(window.readyAt));
  look();
})
"""
# Moves a slider and waits until its answer has been painted.
_MOVE = """
([value, knob, stand]) => new Promise((done) => {
  const slider = document.querySelector(knob);
  const watcher = new MutationObserver(() => {
    watcher.disconnect();
    requestAnimationFrame(() => done(performance.now() - begun));
  });
  watcher.observe(document.querySelector(stand), { attributeFilter: ["data-answered"] });
  slider.value = value;
  const begun = performance.now();
  slider.dispatchEvent(new Event("input", { bubbles: true }));
})
"""


def browsing(times: int) -> list[Timing]:
    """Time pages and sliders.

    Parameters
    ----------
    times : int
        How often each page is opened, the two kinds in turn. [-]

    Returns
    -------
    list of Timing
        A plain page, the test stand, a slider.
    """
    with (
        TemporaryDirectory() as folder,
        our_server(Path(folder)) as our,
        plain_server(Path(folder)) as other,
        a_browser() as browser,
    ):
        ours, plain = our.address, other.address
        _opened(browser, plain, HELLO_READY)
        _opened(browser, ours + STAND, STAND_READY)
        plain_times, our_times = [], []
        for _ in range(times):
            plain_times.append(_opened(browser, plain, HELLO_READY))
            our_times.append(_opened(browser, ours + STAND, STAND_READY))
        moves = _moves(browser, ours + STAND)
    hello = Timing(what="a Voila page that says hello, ready", seconds=tuple(plain_times))
    return [
        hello,
        Timing(
            what="the test stand, ready",
            seconds=tuple(our_times),
            against=hello.typical,
            bar="≤ 1.3 × hello",
        ),
        Timing(what="a slider of the test stand, answered", seconds=moves, bar="≤ 150 ms"),
    ]


def _opened(browser: "Browser", address: str, selector: str) -> float:
    """Open a page in a browser that has no cache; the time is the page's own."""
    with a_page(browser, address) as page:
        return time_to(page, address, selector)


def time_to(page: "Page", address: str, selector: str) -> float:
    """Go to an address and wait for something to be there.

    Parameters
    ----------
    page : Page
        Blank.
    address : str
        Where to go.
    selector : str
        What to wait for.

    Returns
    -------
    float
        By the page's own clock. [s]
    """
    page.add_init_script(f"({_NOTE_READY})({selector!r})")
    page.goto(address, wait_until="commit")
    return float(page.evaluate(_READY_AT)) / 1e3


def _moves(browser: "Browser", address: str) -> tuple[float, ...]:
    with a_page(browser, address) as page:
        page.goto(address)
        page.wait_for_selector(STAND_READY)
        page.click("#tab-weather")
        taken = []
        for number in range(MOVES):
            outdoor = 85 + (7 * number) % 30
            asked = [outdoor, "#d-outdoor", "[data-answered]"]
            taken.append(float(page.evaluate(_MOVE, asked)) / 1e3)
            page.wait_for_timeout(50)
        return tuple(taken[1:])


@contextmanager
def a_page(browser: "Browser", address: str) -> "Iterator[Page]":
    """A page of a new browser profile, which hears nobody but the server.

    Parameters
    ----------
    browser : Browser
        Running.
    address : str
        Of the server.

    Yields
    ------
    Page
        Blank; left at the end, so that its kernel is freed.
    """
    home = urlsplit(address).netloc

    def keep_home(route: "Route") -> None:
        # The stock page asks other servers for icons; waiting for them would flatter us.
        asked = urlsplit(route.request.url)
        if asked.netloc == home:
            route.continue_()
        else:
            route.abort()

    context = browser.new_context()
    context.route(lambda url: urlsplit(url).netloc != home, keep_home)
    page = context.new_page()
    try:
        yield page
    finally:
        # Leaving frees the kernel, whose end must not fall into the next page's time.
        page.goto("about:blank")
        page.wait_for_timeout(500)
        context.close()


@contextmanager
def a_browser() -> "Iterator[Browser]":
    """Chromium without a screen.

    Yields
    ------
    Browser
    """
    from playwright.sync_api import sync_playwright

    named = os.environ.get("BENCHCALL_CHROMIUM")
    found = named or next((path for name in CHROMIUM if (path := shutil.which(name))), None)
    with sync_playwright() as player:
        browser = player.chromium.launch(executable_path=found, args=FLAGS)
        try:
            yield browser
        finally:
            browser.close()
