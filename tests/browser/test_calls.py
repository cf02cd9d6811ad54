"""Calls played in a real browser: well, hastily, and across a killed kernel."""

from collections.abc import Iterable
from importlib.resources import files

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser.desk import drawer, tick_cause
from tests.browser.looks import (
    holds_text_twice_as_large,
    is_accessible_and_fits,
    is_accessible_in_two_looks,
    is_whole_when_zoomed,
)
from tests.serve.running import RunningBench


def act(page: Page, key: str) -> None:
    """Press what carries a key and wait until the page is at rest."""
    page.locator(f'[data-key="{key}"]').click()
    expect(page.locator(".call[aria-busy]")).to_have_count(0)


def go(page: Page, place: str, steps: Iterable[str] = (), tests: Iterable[str] = ()) -> None:
    """Walk to a place, prepare, take readings."""
    act(page, f"place-{place}")
    for step in steps:
        act(page, f"step-{step}")
    for test in tests:
        act(page, f"test-{test}")


def problem(page: Page) -> Locator:
    """The sentence about what could not be done."""
    return page.locator(".notice.problem")


@pytest.fixture
def capstone(page: Page) -> Page:
    """The capstone taken from the home page."""
    page.goto("/")
    page.get_by_text("Bill up, sticky rooms").first.wait_for()
    page.goto("/start/mallorn")
    page.get_by_role("button", name="Take the call").click()
    expect(page.locator(".call[data-ready]")).to_be_visible(timeout=30_000)
    return page


def repair(page: Page, code: str, amount: str | None = None) -> None:
    """Choose a repair, give its amount, confirm."""
    act(page, f"repair-{code}")
    if amount is not None:
        page.locator(f'[data-key="amount-{code}"]').fill(amount)
    act(page, f"sure-{code}")


def close(page: Page, text: str) -> None:
    """Write to the customer and leave."""
    drawer(page, "write")
    page.locator('[data-key="write-text"]').fill(text)
    act(page, "write")
    act(page, "close")
    act(page, "close-sure")
    page.locator('[data-key="debrief"]').click()
    expect(page.locator(".debrief[data-ready]")).to_be_visible(timeout=60_000)


def total(page: Page) -> int:
    """Points of the debrief."""
    # It waits for the odds.
    expect(page.locator(".total")).to_contain_text(" of 100", timeout=60_000)
    return int(page.locator(".total").inner_text().split(":")[1].split()[0])


def test_the_capstone_from_home_to_debrief(capstone: Page) -> None:
    page = capstone
    expect(page.get_by_text("never get under 77")).to_be_visible()
    for test in ("ask_when", "ask_changed", "ask_touched", "ask_rooms", "read_bill"):
        act(page, f"test-{test}")
    act(page, "step-consent")
    go(page, "return_grille", ["match_probes"], ["grille_dry_bulb", "house_pressure"])
    go(
        page,
        "air_handler",
        ["hazard_look_air_handler", "drill_test_holes", "zero_manometer"],
        ["look_slot", "smoke_return", "return_dry_bulb", "supply_dry_bulb", "coil_airflow"],
    )
    go(page, "registers", (), ["register_sum"])
    go(page, "zone", ["hazard_look_zone"], ["smoke_supply"])
    expect(page.get_by_text("Register sum over airflow")).to_be_visible()
    drawer(page, "causes")
    act(page, "mark-supply_leak-likely")
    for cause in ("supply_leak", "return_leak"):
        tick_cause(page, cause)
    for box in page.locator('[data-key^="cited-"]').all():
        box.check()
    act(page, "declare")
    act(page, "stop")
    drawer(page, "repair")
    repair(page, "seal_supply")
    repair(page, "seal_return")
    act(page, "start")
    page.locator('[data-key="wait-minutes"]').fill("20")
    act(page, "wait")
    go(page, "registers", (), ["register_sum"])
    go(page, "return_grille", (), ["house_pressure"])
    close(
        page,
        "The supply collar in the attic and the platform return were open; both are sealed. "
        "Registers give 97 % of the coil's air now, 76 % before; house pressure 0 Pa. The charge "
        "was left alone. Have the water heater's draught checked and watch the next bill.",
    )
    expect(page.get_by_text("The supply trunk's collar")).to_be_visible()
    assert total(page) >= 75
    assert page.locator("h2", has_text="Harm").count() == 0


def test_the_hasty_way_is_graded_lower_and_its_harm_named(capstone: Page) -> None:
    page = capstone
    go(page, "outdoor_unit", ["connect_gauges"], ["suction_pressure", "liquid_pressure"])
    tick_cause(page, "undercharge")
    act(page, "declare")
    act(page, "declare-guess")
    drawer(page, "repair")
    act(page, "repair-add_refrigerant")
    act(page, "sure-add_refrigerant")
    expect(problem(page)).to_contain_text("missing")
    page.locator('[data-key="amount-add_refrigerant"]').fill("lots")
    act(page, "sure-add_refrigerant")
    expect(problem(page)).to_contain_text("must be a number")
    page.locator('[data-key="amount-add_refrigerant"]').fill("8")
    act(page, "sure-add_refrigerant")
    close(page, "Topped off.")
    assert total(page) <= 40
    expect(page.locator("section", has=page.locator("h2", has_text="Harm"))).to_contain_text(
        "before the air was proven"
    )
    expect(page.get_by_text("Airflow was not proven first").first).to_be_visible()


def test_a_killed_kernel_loses_nothing(capstone: Page, bench: RunningBench) -> None:
    page = capstone
    act(page, "test-ask_when")
    go(page, "return_grille", ["match_probes"], ["grille_dry_bulb", "grille_wet_bulb"])
    before = page.locator(".readings .value").all_inner_texts()
    minutes = page.locator(".clock .big").inner_text()
    drawer(page, "write")
    page.locator('[data-key="write-text"]').fill("Half a sentence")
    max(bench.kernels(), key=lambda kernel: kernel.create_time()).kill()
    expect(page.locator(".connection-lost")).to_be_visible(timeout=15_000)
    page.reload()
    expect(page.locator(".call[data-ready]")).to_be_visible(timeout=30_000)
    assert page.locator(".readings .value").all_inner_texts() == before
    assert page.locator(".clock .big").inner_text() == minutes
    drawer(page, "write")
    expect(page.locator('[data-key="write-text"]')).to_have_value("Half a sentence")
    drawer(page, "here")
    act(page, "test-house_pressure")
    assert len(page.locator(".readings .value").all_inner_texts()) == len(before) + 1


def test_by_keyboard_a_reading_is_taken_and_focus_stays(capstone: Page) -> None:
    page = capstone
    page.locator('[data-key="place-thermostat"]').focus()
    page.keyboard.press("Enter")
    expect(page.locator('[data-key="test-room_temperature"]')).to_be_visible()
    page.locator('[data-key="test-room_temperature"]').focus()
    page.keyboard.press("Enter")
    expect(page.locator(".notice")).to_contain_text("Room temperature:")
    assert page.evaluate("document.activeElement.dataset.key") == "test-room_temperature"


def test_by_keyboard_the_coach_is_asked_and_put_away(capstone: Page) -> None:
    page = capstone
    heard = page.locator(".coach [aria-live=polite]")
    button = page.locator('[data-key="coach"]')
    button.focus()
    for rung in (1, 2):
        page.keyboard.press("Enter")
        expect(heard).to_contain_text(f"Hint {rung} of 4")
        assert page.evaluate("document.activeElement.dataset.key") == "coach"
    expect(heard).to_contain_text("Where: With the customer")
    # An act, another drawer and another width leave the hint as it is; nothing is charged for it.
    act(page, "step-consent")
    drawer(page, "causes")
    page.set_viewport_size({"width": 390, "height": 844})
    expect(heard).to_contain_text("Hint 2 of 4")
    page.locator('[data-key="coach-fold"]').focus()
    page.keyboard.press("Enter")
    expect(page.locator(".coach-said")).to_be_hidden()
    page.reload()
    expect(page.locator(".call[data-ready]")).to_be_visible(timeout=30_000)
    page.locator('[data-key="coach-fold"]').click()
    expect(heard).to_contain_text("Hint 2 of 4")
    button.click()
    expect(heard).to_contain_text("Hint 1 of 4")


def test_the_call_page_is_accessible_and_fits(capstone: Page) -> None:
    act(capstone, "test-ask_when")
    capstone.locator('[data-key="coach"]').click()
    expect(capstone.locator(".coach-head")).to_have_text("Hint 1 of 4")
    is_accessible_and_fits(capstone)
    act(capstone, "place-outdoor_unit")
    act(capstone, "test-outdoor_temperature")
    is_whole_when_zoomed(capstone)
    holds_text_twice_as_large(capstone)
    for name in ("causes", "finding", "repair", "write"):
        capstone.set_viewport_size({"width": 1280, "height": 800})
        drawer(capstone, name)
        is_accessible_in_two_looks(capstone)
        is_whole_when_zoomed(capstone)


def test_unknown_visits_get_a_sentence(page: Page) -> None:
    page.goto("/voila/render/call.ipynb?visit=nobody-has-this-token")
    expect(page.get_by_text("There is no visit at this address")).to_be_visible(timeout=30_000)


def test_debrief_record_and_lessons_are_accessible_and_fit(capstone: Page) -> None:
    page = capstone
    tick_cause(page, "no_fault")
    act(page, "declare")
    act(page, "declare-guess")
    close(page, "Nothing found.")
    is_accessible_in_two_looks(page)
    is_whole_when_zoomed(page)
    page.goto(page.url.replace("voila/render/debrief.ipynb", "record"))
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    is_accessible_and_fits(page)
    parts = files("simulator.serve.learning") / "lesson_parts"
    lessons = [part.name[:-5] for part in parts.iterdir() if part.name.endswith(".toml")]
    assert len(lessons) >= 7
    for name in lessons:
        page.goto(f"/voila/render/{name}.ipynb")
        expect(page.locator("[data-question]").first).to_be_visible(timeout=30_000)
        is_accessible_in_two_looks(page)
        is_whole_when_zoomed(page)


def test_marks_made_in_a_hurry_are_all_kept(capstone: Page) -> None:
    page = capstone
    drawer(page, "causes")
    causes = ("loaded_filter", "weak_blower", "undercharge", "overcharge")
    page.evaluate(
        """(causes) => { for (const cause of causes)
        document.querySelector(`[data-key="mark-${cause}-likely"]`).click(); }""",
        list(causes),
    )
    expect(page.locator(".call[aria-busy]")).to_have_count(0)
    page.wait_for_timeout(500)
    page.reload()
    expect(page.locator(".call[data-ready]")).to_be_visible(timeout=30_000)
    drawer(page, "causes")
    for cause in causes:
        expect(page.locator(f'[data-key="mark-{cause}-likely"]')).to_be_checked()


def test_a_lesson_answer_is_judged_with_a_reason(page: Page) -> None:
    page.goto("/voila/render/air-before-refrigerant.ipynb")
    button = page.locator('[data-question="moved"]')
    expect(button).to_be_visible(timeout=30_000)
    question = page.locator(".question", has=button)
    question.locator("input").fill("0")
    button.click()
    expect(question.locator(".verdict")).to_contain_text("The valve holds it")
    # No verdict stands beside another answer than its own.
    question.locator("input").fill("5")
    expect(question.locator(".verdict")).to_be_empty()


def test_a_write_up_survives_a_browser_that_stores_nothing(page: Page) -> None:
    page.add_init_script(
        """Object.defineProperty(window, "localStorage",
        { get() { throw new Error("refused"); } });"""
    )
    page.goto("/start/mallorn")
    page.get_by_role("button", name="Take the call").click()
    expect(page.locator(".call[data-ready]")).to_be_visible(timeout=30_000)
    drawer(page, "write")
    page.locator('[data-key="write-text"]').fill("Two leaks, both sealed.")
    drawer(page, "here")
    act(page, "test-ask_when")
    drawer(page, "write")
    expect(page.locator('[data-key="write-text"]')).to_have_value("Two leaks, both sealed.")
    act(page, "write")
    expect(problem(page)).to_have_count(0)
    expect(page.locator(".notice")).to_contain_text("Saved")


def test_a_stated_finding_stands_ticked_after_a_reload(capstone: Page) -> None:
    page = capstone
    act(page, "test-ask_when")
    tick_cause(page, "supply_leak")
    page.locator('[data-key^="cited-"]').first.check()
    act(page, "declare")
    page.reload()
    expect(page.locator(".call[data-ready]")).to_be_visible(timeout=30_000)
    drawer(page, "finding")
    expect(page.locator('[data-key="found-supply_leak"]')).to_be_checked()
    expect(page.locator('[data-key^="cited-"]').first).to_be_checked()


def test_ticks_of_a_finding_not_yet_stated_stand_after_a_reload(capstone: Page) -> None:
    page = capstone
    act(page, "test-ask_when")
    tick_cause(page, "supply_leak")
    page.locator('[data-key^="cited-"]').first.check()
    page.reload()
    expect(page.locator(".call[data-ready]")).to_be_visible(timeout=30_000)
    tick_cause(page, "return_leak")
    expect(page.locator('[data-key="found-supply_leak"]')).to_be_checked()
    expect(page.locator('[data-key^="cited-"]').first).to_be_checked()


def test_an_amount_is_not_carried_over_to_other_units(capstone: Page) -> None:
    page = capstone
    drawer(page, "repair")
    act(page, "repair-add_refrigerant")
    page.locator('[data-key="amount-add_refrigerant"]').fill("8")
    act(page, "units-si")
    expect(page.locator('[data-key="amount-add_refrigerant"]')).to_have_value("")


def test_the_keyboard_keeps_its_place_when_a_step_is_done(capstone: Page) -> None:
    page = capstone
    page.locator('[data-key="step-consent"]').focus()
    page.keyboard.press("Enter")
    expect(page.locator(".call .done")).to_be_visible()
    assert page.evaluate("document.activeElement.id") == "h-card"
    page.locator('[data-key="stop"]').focus()
    page.keyboard.press("Enter")
    expect(page.locator('[data-key="start"]')).to_be_focused()
