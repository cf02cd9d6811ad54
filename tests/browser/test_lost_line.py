"""When its kernel is gone the page says so, and a reload brings another."""

import psutil
import pytest
from playwright.sync_api import Page, expect

from tests.serve.running import RunningBench

STAND = "/voila/render/test-stand.ipynb"


@pytest.fixture
def stand(page: Page) -> Page:
    """The test stand, ready."""
    page.goto(STAND)
    expect(page.locator("[data-reading]").first).to_be_visible(timeout=30_000)
    return page


def test_a_killed_kernel_is_noticed_and_replaced(stand: Page, bench: RunningBench) -> None:
    _youngest(bench).kill()
    banner = stand.locator(".connection-lost")
    expect(banner).to_be_visible(timeout=12_000)
    expect(banner).to_contain_text("reload to resume")
    expect(banner).to_have_attribute("role", "status")
    banner.get_by_role("button", name="Reload").click()
    expect(stand.locator("[data-reading]").first).to_be_visible(timeout=30_000)
    expect(stand.locator(".connection-lost")).to_be_hidden()


def test_a_quiet_page_raises_no_false_alarm(stand: Page) -> None:
    stand.wait_for_timeout(6_000)
    expect(stand.locator(".connection-lost")).to_be_hidden()


def test_the_skeleton_goes_when_the_panel_comes(stand: Page) -> None:
    expect(stand.locator("#loading")).to_have_count(0)


def _youngest(bench: RunningBench) -> psutil.Process:
    return max(bench.kernels(), key=lambda kernel: float(kernel.create_time()))
