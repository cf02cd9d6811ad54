"""Pages in a language of brackets, chosen on the home page: nothing stays in English.

No outside source: the aim is that a translation needs no code.
"""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from simulator.calls import call_file
from tests.serve.running import RunningBench, running_bench
from tests.words.artificial import CODE, left_in_english, written_to

TEXTS = """() => {
  const found = [];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const node = walk.currentNode;
    const own = "script, style, noscript, button[lang], #loading, tspan";
    const isOwn = node.parentElement.closest(own);
    if (!isOwn) found.push(node.data);
  }
  // What a drawing says in two rows is one text.
  for (const node of document.querySelectorAll("text:has(tspan)"))
    found.push([...node.children].map((row) => row.textContent).join(" "));
  for (const node of document.querySelectorAll("[aria-label], [title]"))
    found.push(node.getAttribute("aria-label") || "", node.getAttribute("title") || "");
  return found;
}"""


@pytest.fixture(scope="module")
def bracketed_bench(tmp_path_factory: pytest.TempPathFactory) -> Iterator[RunningBench]:
    """A bench that knows one language more."""
    folder = tmp_path_factory.mktemp("catalogues")
    written_to(folder)
    more = {"BENCHCALL_CATALOGUES": str(folder)}
    with running_bench(tmp_path_factory.mktemp("data"), **more) as running:
        yield running


@pytest.fixture
def reader(browser: Browser, bracketed_bench: RunningBench) -> Iterator[Page]:
    """Somebody who has just chosen that language."""
    context = browser.new_context(base_url=bracketed_bench.address)
    page = context.new_page()
    page.goto("/")
    page.get_by_role("button", name="⟦brackets⟧").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("⟦")
    yield page
    context.close()


def english_on(page: Page) -> list[str]:
    """Texts of a page that are English still; people and streets keep their names."""
    names = {
        name
        for call in map(call_file.load, call_file.names())
        for name in (call.customer, call.address)
    }
    left = []
    for text in page.evaluate(TEXTS):
        for name in names:
            text = text.replace(name, "")
        if left_in_english(text):
            left.append(text.strip())
    return left


def test_the_home_page(reader: Page) -> None:
    assert reader.evaluate("document.documentElement.lang") == CODE
    assert english_on(reader) == []


def test_the_work_order_and_a_wrong_address(reader: Page) -> None:
    for path in ("/start/mallorn", "/no/such/page"):
        reader.goto(path)
        assert english_on(reader) == []


def test_a_call_page(reader: Page) -> None:
    reader.get_by_role("button", name="⟦Take the call⟧").first.click()
    reader.wait_for_selector(".bench.call[data-ready]")
    for desk in ("here", "causes", "finding", "repair", "write"):
        reader.locator(f"[data-key=desk-{desk}]").click()
        assert english_on(reader) == []
    assert reader.evaluate("document.documentElement.lang") == CODE


@pytest.mark.parametrize("notebook", ["01-normal-today", "test-stand"])
def test_a_lesson_and_the_test_stand(reader: Page, notebook: str) -> None:
    reader.goto(f"/voila/render/{notebook}.ipynb")
    reader.wait_for_selector("[data-ready]", timeout=60_000)
    reader.wait_for_timeout(1500)
    assert english_on(reader) == []
