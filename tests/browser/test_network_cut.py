"""With the network cut every page stands whole: nothing is asked of any other computer.

No outside source: that a classroom needs no internet is this project's own promise.
"""

import threading
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, HTTPServer

import psutil
import pytest
from playwright.sync_api import Browser, Error, Page, Request, expect

from simulator.serve.paths import lessons_directory
from simulator.serve.web.notebooks import pages
from tests.browser.conftest import FLAGS, chromium
from tests.browser.test_debrief import played
from tests.scoring.played import hasty_capstone
from tests.serve.running import RunningBench

# No name is found and no address but the bench's own is reached.
CUT = [
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
    "--proxy-server=http://127.0.0.1:9",
    "--proxy-bypass-list=127.0.0.1",
]
WITHOUT_KERNEL = ("", "start/mallorn", "worksheet", "instructor/door", "nowhere")
OF_A_VISIT = ("call.ipynb", "debrief.ipynb")
NOTEBOOKS = sorted({page.notebook for page in pages(lessons_directory())} - {*OF_A_VISIT})
# Every sheet of style that the page names has arrived with rules in it.
STYLED = """() => [...document.querySelectorAll("link[rel=stylesheet]")]
  .every((link) => link.sheet && link.sheet.cssRules.length > 0)"""


@pytest.fixture(scope="module")
def cut(browser: Browser) -> Iterator[Browser]:
    """A browser whose network ends at this computer."""
    alone = browser.browser_type.launch(executable_path=chromium(), args=[*FLAGS, *CUT])
    yield alone
    alone.close()


@pytest.fixture
def lonely(cut: Browser, bench: RunningBench) -> Iterator[tuple[Page, list[str]]]:
    """A page, and the requests of it that found nobody."""
    context = cut.new_context(base_url=bench.address, viewport={"width": 1280, "height": 800})
    page = context.new_page()
    lost: list[str] = []

    def note(request: Request) -> None:
        # What was still under way when the page was left is not lost.
        if request.failure != "net::ERR_ABORTED":
            lost.append(f"{request.url}: {request.failure}")

    page.on("requestfailed", note)
    yield page, lost
    page.goto("about:blank")
    context.close()


class _Elsewhere(BaseHTTPRequestHandler):
    def do_GET(self) -> None:
        self.send_response(200)
        self.end_headers()

    def log_message(self, *_: object) -> None:
        return


def test_another_address_is_really_out_of_reach(lonely: tuple[Page, list[str]]) -> None:
    page, lost = lonely
    other = HTTPServer(("127.0.0.2", 0), _Elsewhere)
    threading.Thread(target=other.serve_forever, daemon=True).start()
    with pytest.raises(Error):
        page.goto(f"http://127.0.0.2:{other.server_port}/")
    other.shutdown()
    other.server_close()
    assert lost


@pytest.mark.parametrize("path", WITHOUT_KERNEL)
def test_a_page_without_a_kernel_is_whole(lonely: tuple[Page, list[str]], path: str) -> None:
    page, lost = lonely
    page.goto(f"/{path}")
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    assert page.evaluate(STYLED)
    assert lost == []


@pytest.mark.parametrize("notebook", NOTEBOOKS)
def test_a_page_with_a_kernel_is_whole(lonely: tuple[Page, list[str]], notebook: str) -> None:
    page, lost = lonely
    page.goto(f"/voila/render/{notebook}")
    expect(page.locator("main .bench").first).to_be_visible(timeout=30_000)
    expect(page.get_by_role("heading").first).to_be_visible()
    assert page.evaluate(STYLED)
    assert lost == []


def test_a_call_and_its_debrief_are_whole(
    lonely: tuple[Page, list[str]], bench: RunningBench, monkeypatch: pytest.MonkeyPatch
) -> None:
    page, lost = lonely
    page.goto("/start/mallorn")
    page.get_by_role("button", name="Take the call").click()
    expect(page.locator(".call[data-ready]")).to_be_visible(timeout=30_000)
    page.locator('[data-key="test-ask_when"]').click()
    expect(page.locator(".readings [data-seq]")).to_have_count(1)
    assert page.evaluate(STYLED)
    token = played(hasty_capstone, bench.data, monkeypatch)
    page.goto(f"/voila/render/debrief.ipynb?visit={token}")
    expect(page.get_by_role("heading", name="In short")).to_be_visible(timeout=60_000)
    assert page.evaluate(STYLED)
    assert lost == []
    # Nor does the bench itself speak to anybody else.
    server = psutil.Process(bench.process.pid)
    for process in (server, *server.children(recursive=True)):
        for line in process.net_connections(kind="inet"):
            assert not line.raddr or line.raddr.ip in ("127.0.0.1", "::1"), line
