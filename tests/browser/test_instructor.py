"""The instructor's corner in a real browser: readable by all, live, and paper that prints."""

import os
import subprocess
import sys

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from tests.browser.looks import fits, looks
from tests.serve.running import RunningBench

PASSWORD = "four plain words here"


@pytest.fixture
def instructor(page: Page, bench: RunningBench) -> Page:
    """Signed in."""
    command = [sys.executable, "-m", "simulator.serve.command", "password", "--stdin"]
    data = os.environ | {"BENCHCALL_DATA": str(bench.data)}
    subprocess.run(command, input=f"{PASSWORD}\n", text=True, env=data, check=True)
    page.goto("/instructor")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    page.get_by_role("heading", name="Open a class").wait_for()
    return page


def is_clean(page: Page) -> None:
    """No violation at all, and no wider than the screen, in every look."""
    for look in looks(page):
        found = Axe().run(page).response["violations"]
        assert [violation["id"] for violation in found] == [], (page.url, look)
        assert fits(page), (page.url, look)


def test_its_pages_are_accessible_and_fit(instructor: Page) -> None:
    page = instructor
    is_clean(page)
    page.get_by_label("Name of the class").fill("Tuesday")
    page.locator("input[name=call]").first.check()
    page.get_by_role("button", name="Open the class").click()
    is_clean(page)
    page.get_by_role("heading", name="Tuesday").wait_for()
    own, call = page.url, page.get_by_role("link", name="Class debrief").first.get_attribute("href")
    page.goto(f"{own}/terms")
    page.get_by_label("Test").first.check()
    page.get_by_label("Minutes on site empty for no limit").first.fill("90")
    page.get_by_role("button", name="Assign").first.press("Enter")
    page.get_by_role("button", name="Release the scores").wait_for()
    is_clean(page)
    for path in (f"{own}/marks", str(call), "/instructor/key/mallorn"):
        page.goto(path)
        is_clean(page)


def test_the_board_follows_a_trainee(
    instructor: Page, browser: Browser, bench: RunningBench
) -> None:
    page = instructor
    page.get_by_label("Name of the class").fill("Tuesday")
    for box in page.locator("input[name=call]").all():
        box.check()
    page.get_by_role("button", name="Open the class").click()
    code = page.locator(".join .code").inner_text()
    learner = browser.new_context(base_url=bench.address)
    trainee = learner.new_page()
    trainee.goto("/")
    trainee.get_by_label("Code on the instructor's board").fill(code)
    trainee.get_by_label("Your name").fill("Ana")
    trainee.get_by_role("button", name="Join the class").click()
    trainee.locator("section[aria-labelledby=joined] button").first.click()
    expect(trainee.locator(".call[data-ready]")).to_be_visible(timeout=30_000)
    trainee.locator('[data-key="test-ask_when"]').click()
    row = page.locator(".board tbody tr")
    expect(row).to_contain_text("looking round", timeout=10_000)
    expect(row).to_contain_text("Seat 1")
    expect(row).not_to_contain_text("Ana")
    page.get_by_role("button", name="Pause the class").click()
    page.get_by_role("button", name="Let the class go on").wait_for()
    expect(trainee.locator('[data-key="terms"]')).to_contain_text("paused", timeout=15_000)
    expect(trainee.locator(".notice.problem")).to_contain_text("paused the class")
    # Nothing looks as if it could be pressed; looking and what was typed stay.
    for key in ("test-ask_changed", "place-thermostat", "stop", "start", "wait", "step-consent"):
        for button in trainee.locator(f'[data-key="{key}"]').all():
            expect(button).to_be_disabled()
    assert trainee.locator(".call .main:not(:disabled)").count() == 0
    expect(trainee.locator('[data-key="coach"]')).to_have_attribute("aria-disabled", "true")
    trainee.locator('[data-key="desk-write"]').click()
    trainee.locator('[data-key="write-text"]').fill("Half a sentence")
    expect(trainee.locator('[data-key="close"]')).to_be_disabled()
    trainee.locator('[data-key="desk-here"]').click()
    page.get_by_role("button", name="Let the class go on").click()
    page.get_by_role("button", name="Pause the class").wait_for()
    expect(trainee.locator('[data-key="terms"]')).to_have_count(0, timeout=15_000)
    expect(trainee.locator(".notice")).to_contain_text("The class goes on.")
    trainee.locator('[data-key="test-ask_changed"]').click()
    expect(trainee.locator(".call[aria-busy]")).to_have_count(0)
    expect(trainee.locator(".readings [data-seq]")).to_have_count(2)
    # A call begun as a test has no coach on its page.
    page.goto(f"/instructor/class/{code}/terms")
    section = page.locator("main section").nth(1)
    section.get_by_label("Test", exact=True).check()
    section.get_by_role("button", name="Assign").click()
    expect(section).to_contain_text("scores not released")
    trainee.goto("/")
    trainee.locator("section[aria-labelledby=joined] button").first.click()
    expect(trainee.locator(".call[data-ready]")).to_be_visible(timeout=30_000)
    expect(trainee.locator('[data-key="terms"]')).to_contain_text("a test")
    expect(trainee.locator('[data-key="coach"]')).to_have_count(0)
    trainee.goto("about:blank")
    learner.close()
