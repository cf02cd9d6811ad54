"""Three calls played whole as people play them: by keyboard, by touch, and across a bad line."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from tests.browser.cut_line import CutLine
from tests.serve.running import RunningBench

STOPS = 400  # of the Tab key, at most, to anything on a page
HELD = "document.activeElement?.dataset?.key ?? ''"


def at_rest(page: Page) -> None:
    """Wait until the last act is answered."""
    expect(page.locator(".call[aria-busy]")).to_have_count(0)


def reach(page: Page, key: str) -> None:
    """Tab to what carries a key, from wherever the keyboard is."""
    for _ in range(STOPS):
        if page.evaluate(HELD) == key:
            return
        page.keyboard.press("Tab")
    raise AssertionError(f"the keyboard does not reach {key}")


def press(page: Page, *keys: str) -> None:
    """Reach each and press Enter."""
    for key in keys:
        reach(page, key)
        page.keyboard.press("Enter")
        at_rest(page)


def ready(page: Page) -> Page:
    """The call page, drawn."""
    expect(page.locator(".call[data-ready]")).to_be_visible(timeout=30_000)
    return page


def total(page: Page) -> int:
    """Points of the debrief."""
    expect(page.locator(".debrief[data-ready]")).to_be_visible(timeout=60_000)
    # It waits for the odds.
    expect(page.locator(".total")).to_contain_text(" of 100", timeout=60_000)
    return int(page.locator(".total").inner_text().split(":")[1].split()[0])


def test_a_call_by_keyboard_alone(page: Page) -> None:
    page.goto("/start/rooke")
    page.get_by_role("button", name="Take the call").focus()
    page.keyboard.press("Enter")
    ready(page)
    press(page, "test-ask_when", "test-ask_changed", "test-ask_touched", "test-read_bill")
    press(page, "step-consent", "start", "place-air_handler", "step-hazard_look_air_handler")
    press(page, "place-electrical_panel", "step-prove_meter")
    press(page, "test-air_handler_current", "test-strip_current", "test-voltage")
    # After three readings the page asks for odds; they stand after a reload.
    press(page, "probe")
    reach(page, "probe-first")
    page.keyboard.type("Electric strips on")
    reach(page, "probe-first-percent")
    page.keyboard.type("90")
    press(page, "probe-keep")
    expect(page.locator(".probe")).to_have_count(0)
    expect(page.locator('[data-key="desk-here"]')).to_be_focused()
    page.reload()
    expect(ready(page).locator(".probe")).to_have_count(0)
    press(page, "desk-causes")
    # A group of radio buttons is one stop; the arrows choose in it.
    reach(page, "mark-strips_on-open")
    page.keyboard.press("ArrowRight")
    at_rest(page)
    expect(page.locator('[data-key="mark-strips_on-likely"]')).to_be_checked()
    press(page, "desk-finding")
    reach(page, "found-strips_on")
    page.keyboard.press("Space")
    for box in page.locator('[data-key^="cited-"]').all():
        reach(page, box.get_attribute("data-key") or "")
        page.keyboard.press("Space")
    press(page, "declare", "stop", "place-air_handler", "step-lock_out_air_handler")
    press(page, "desk-repair", "repair-replace_sequencer")
    press(page, "sure-replace_sequencer", "start")
    reach(page, "wait-minutes")
    page.keyboard.press("ControlOrMeta+a")
    page.keyboard.type("20")
    press(page, "wait", "place-electrical_panel")
    press(page, "test-air_handler_current", "test-strip_current", "desk-write")
    reach(page, "write-text")
    page.keyboard.type(
        "A strip stayed on because its sequencer had welded shut; the air handler drew 20 A more "
        "than its blower needs. The sequencer is replaced and the strip draws 0 A now. Watch the "
        "next bill: it should be near last year's."
    )
    press(page, "write", "close", "close-sure")
    expect(page.locator('[data-key="debrief"]')).to_be_focused()
    page.keyboard.press("Enter")
    assert total(page) >= 75
    expect(page.locator(".timeline")).to_contain_text("Thought likeliest: Electric strips on")
    expect(page.locator(".parts")).to_contain_text("Your odds at minute")


@pytest.fixture
def phone(browser: Browser, bench: RunningBench) -> Iterator[Page]:
    """A telephone: 390 px wide, touched and never clicked."""
    owner = browser.new_context(
        base_url=bench.address, viewport={"width": 390, "height": 844}, has_touch=True,
        is_mobile=True, reduced_motion="reduce",
    )  # fmt: skip
    page = owner.new_page()
    yield page
    page.goto("about:blank")
    owner.close()


def tap(page: Page, *keys: str) -> None:
    """Touch each; what is touched is wide enough for a finger and the page no wider than it."""
    for key in keys:
        thing = page.locator(f'[data-key="{key}"]')
        thing.tap()
        at_rest(page)
        assert page.evaluate("document.documentElement.scrollWidth") <= 390, key


def assert_at_its_beginning(page: Page, heading: str) -> None:
    """What was turned to is seen from its heading on."""
    expect(page.locator(heading)).to_be_in_viewport()


def test_a_call_on_a_telephone_by_touch(phone: Page) -> None:
    page = phone
    page.goto("/start/mallorn")
    page.get_by_role("button", name="Take the call").tap()
    ready(page)
    tap(page, "test-ask_when", "test-ask_changed", "test-ask_touched", "test-read_bill")
    tap(page, "step-consent", "place-return_grille", "step-match_probes")
    tap(page, "test-grille_dry_bulb", "test-grille_wet_bulb", "test-house_pressure")
    tap(page, "place-air_handler", "step-hazard_look_air_handler", "step-drill_test_holes")
    tap(page, "step-zero_manometer", "test-look_slot", "test-smoke_return")
    tap(page, "test-return_dry_bulb", "test-return_wet_bulb", "test-coil_airflow")
    tap(page, "place-registers", "test-register_sum", "place-zone", "step-hazard_look_zone")
    assert_at_its_beginning(page, "#h-card")
    tap(page, "test-smoke_supply", "tab-sheet")
    assert_at_its_beginning(page, "#h-sheet")
    expect(page.get_by_text("Register sum over airflow")).to_be_visible()
    tap(page, "tab-causes")
    assert_at_its_beginning(page, "#h-causes")
    tap(page, "mark-supply_leak-likely", "mark-return_leak-likely", "tab-finish")
    tap(page, "found-supply_leak", "found-return_leak")
    for box in page.locator('[data-key^="cited-"]').all():
        box.tap()
    tap(page, "declare", "stop", "desk-repair")
    for code in ("seal_supply", "seal_return"):
        tap(page, f"repair-{code}", f"sure-{code}")
    # The next thing to do stands where the repair was told.
    expect(page.locator('[data-key="start-after"]')).to_be_in_viewport()
    tap(page, "start-after")
    page.locator('[data-key="wait-minutes"]').fill("20")
    tap(page, "wait", "tab-house", "place-registers", "test-register_sum")
    tap(page, "place-return_grille", "test-house_pressure", "tab-finish", "desk-write")
    page.locator('[data-key="write-text"]').fill(
        "The supply collar in the attic and the platform return were open; both are sealed. "
        "Registers give 97 % of the coil's air now, 76 % before; house pressure 0 Pa. The charge "
        "was left alone. Have the water heater's draught checked and watch the next bill."
    )
    # What is written is left, saved before or not.
    tap(page, "close", "close-sure")
    page.locator('[data-key="debrief"]').tap()
    assert total(page) >= 75
    expect(page.locator(".timeline")).to_contain_text("Wrote to the customer")


@pytest.fixture
def line(bench: RunningBench) -> Iterator[CutLine]:
    """A line to the bench that can be cut."""
    with CutLine(int(bench.address.rsplit(":", 1)[1].strip("/"))) as cut:
        yield cut


def readings(page: Page) -> list[str]:
    """All numbers on the sheet."""
    return page.locator(".readings .value").all_inner_texts()


def test_a_call_across_a_lost_line_and_a_killed_kernel(
    browser: Browser, bench: RunningBench, line: CutLine
) -> None:
    learner = browser.new_context(base_url=line.address, viewport={"width": 1280, "height": 800})
    page = learner.new_page()
    page.goto("/start/mallorn")
    page.get_by_role("button", name="Take the call").click()
    ready(page)

    def act(*keys: str) -> None:
        for key in keys:
            page.locator(f'[data-key="{key}"]').click()
            at_rest(page)

    act("test-ask_when", "test-read_bill", "step-consent", "place-return_grille")
    act("step-match_probes", "test-grille_dry_bulb", "test-house_pressure")
    before = readings(page)

    line.cut()
    banner: Locator = page.locator(".connection-lost")
    expect(banner).to_be_visible(timeout=20_000)
    line.mend()
    # The same kernel answers again, without a reload.
    expect(banner).to_be_hidden(timeout=60_000)
    assert readings(page) == before
    act("place-air_handler", "step-hazard_look_air_handler", "step-drill_test_holes")
    act("step-zero_manometer", "test-look_slot", "test-smoke_return", "test-return_dry_bulb")
    act("test-coil_airflow", "desk-write")
    page.locator('[data-key="write-text"]').fill("Half a sentence")
    before = readings(page)
    minutes = page.locator(".clock .big").inner_text()

    max(bench.kernels(), key=lambda kernel: float(kernel.create_time())).kill()
    expect(banner).to_be_visible(timeout=20_000)
    page.reload()
    ready(page)
    assert readings(page) == before
    assert page.locator(".clock .big").inner_text() == minutes
    act("desk-write")
    expect(page.locator('[data-key="write-text"]')).to_have_value("Half a sentence")

    act("place-registers", "test-register_sum", "place-zone", "step-hazard_look_zone")
    act("test-smoke_supply", "desk-causes", "mark-supply_leak-likely", "mark-return_leak-likely")
    act("desk-finding", "found-supply_leak", "found-return_leak")
    for box in page.locator('[data-key^="cited-"]').all():
        box.check()
    act("declare", "stop", "desk-repair", "repair-seal_supply", "sure-seal_supply")
    act("repair-seal_return", "sure-seal_return", "start", "wait", "wait")
    act("place-registers", "test-register_sum", "place-return_grille", "test-house_pressure")
    act("desk-write")
    page.locator('[data-key="write-text"]').fill(
        "Both leaks, in the attic and at the platform, are sealed: 97 % of the air arrives, 76 % "
        "before; house pressure 0 Pa. The charge was left alone. Have the water heater checked."
    )
    act("write", "close", "close-sure", "debrief")
    assert total(page) >= 70
    page.goto("about:blank")
    learner.close()
