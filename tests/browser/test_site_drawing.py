"""The section drawing: every kind of house, both widths, all places pressable."""

from itertools import combinations

import pytest
from playwright.sync_api import Page

from simulator.instruments.places import PLACES, SPACES
from simulator.widgets.call.panel import CallPanel
from simulator.words.catalogue import catalogue

HOUSES = {
    "attic and garage": ("attic", "garage", "garage", 7),
    "all in the attic": ("attic", "attic", "attic", 6),
    "flat": ("ceiling", "ceiling", "closet", 4),
    "crawl space": ("crawl_space", "crawl_space", "crawl_space", 5),
    "closet over a crawl space": ("crawl_space", "crawl_space", "closet", 5),
    "basement": ("basement", "basement", "basement", 8),
    "closet under an attic": ("attic", "closet", "closet", 6),
}
DRAW = """async ([house, spaces, width, kind = "button"]) => {
  const places = spaces.map(([id, name, short]) => ({ id, name, short, steps: [], tests: [] }));
  const sheet = [...places, ...places].map((place, i) => ({ seq: i, place: place.id,
    name: `${place.name} ${i}`, shown: "1,234", unit: "cfm", after_repair: i % 2 }));
  const view = { drawing: house, places, sheet, here: places[0].id,
    system: { state: "running" }, visit: { phase: "open" } };
  const host = document.createElement("div");
  host.className = "bench call";
  host.style.width = `${width}px`;
  window.pressed = [];
  host.append(siteDrawing(view, { isNarrow: width < 560 }, (act) => window.pressed.push(act)));
  document.body.replaceChildren(host);
  // What watches its own size has been heard after two frames.
  await new Promise((on) => requestAnimationFrame(() => requestAnimationFrame(on)));
  const frame = host.firstChild.getBoundingClientRect();
  return [...host.querySelectorAll(kind.startsWith("[") ? kind : `.place ${kind}`)].map((part) => {
    const box = part.getBoundingClientRect();
    const of = part.dataset.thing || part.closest(".place").querySelector("button").dataset.key;
    return [of, box.left - frame.left, box.top - frame.top, box.width, box.height,
      frame.width, frame.height];
  });
}"""


@pytest.fixture
def paper(page: Page) -> Page:
    """An empty page that knows the call panel's script and style."""
    page.set_content("<!doctype html><body style='margin:0'></body>")
    page.add_style_tag(content="body{font:16px/1.5 sans-serif}" + str(CallPanel._css))
    script = str(CallPanel._esm).replace("export default { render };", "")
    page.add_script_tag(content=script + "\nwindow.siteDrawing = siteDrawing;")
    return page


def built(kind: str, tongue: str = "en") -> tuple[dict[str, object], list[list[str]]]:
    """A house of a kind, and the names of its places."""
    supply, back, stands, rooms = HOUSES[kind]
    house: dict[str, object] = {
        "supply_space": supply, "return_space": back, "air_handler": stands,
        "is_upright": stands in ("garage", "basement", "closet"), "rooms": [1] * rooms,
    }  # fmt: skip
    said = catalogue(tongue).message
    return house, [
        [p.id, said(p.name), said(SPACES.get(supply, p.short) if p.id == "zone" else p.short)]
        for p in PLACES.values()
    ]


def are_apart(one: list[float], other: list[float]) -> bool:
    """Whether two boxes share nothing: name, left, top, width, height."""
    return (
        one[1] + one[3] <= other[1] or other[1] + other[3] <= one[1]
        or one[2] + one[4] <= other[2] or other[2] + other[4] <= one[2]
    )  # fmt: skip


@pytest.mark.parametrize("tongue", ["en", "es"])
@pytest.mark.parametrize("kind", HOUSES)
def test_places_are_pressable_and_nothing_is_covered(paper: Page, kind: str, tongue: str) -> None:
    for width in (709, 690, 640, 560, 540, 460, 390, 358):
        paper.set_viewport_size({"width": width, "height": 844})
        house, names = built(kind, tongue)
        buttons, tags, things = (
            paper.evaluate(DRAW, [house, names, width, part])
            for part in ("button", ".tag", "[data-thing]")
        )
        assert len(buttons) == len(PLACES)
        tags = [tag for tag in tags if tag[3] > 0]
        assert len(tags) == (2 if width >= 700 else 1) * len(PLACES)
        assert len(things) == 3
        are_pressable(buttons)
        # A customer is asked, never measured.
        tags = [tag for tag in tags if tag[0] != "place-customer"]
        boxes = [*buttons, *tags, *things]
        covered = [
            (width, one[0], other[0])
            for one, other in combinations(boxes, 2)
            if one[0] != other[0] and not are_apart(one, other)
        ]
        assert covered == []
    paper.locator('[data-key="place-outdoor_unit"]').click()
    assert paper.evaluate("window.pressed") == [{"do": "go", "place": "outdoor_unit"}]


def are_pressable(boxes: list[list[float]]) -> None:
    """Large enough, and on the drawing."""
    for key, left, top, wide, high, across, down in boxes:
        # WCAG 2.2, 2.5.8 Target Size (Minimum): 24 by 24 CSS pixels.
        assert min(wide, high) >= 24, key
        assert left >= -1, (key, left)
        assert left + wide <= across + 1, (key, left + wide, across)
        assert top >= -1, (key, top)
        assert top + high <= down + 30, (key, top, down)


def test_air_stands_still_where_motion_is_unwelcome(paper: Page) -> None:
    house = {
        "supply_space": "attic", "return_space": "garage", "air_handler": "garage",
        "is_upright": True, "rooms": [1, 1, 2],
    }  # fmt: skip
    names = [[p.id, p.name, p.short] for p in PLACES.values()]
    moves = "getComputedStyle(document.querySelector('.supply-air .flow')).animationName"
    paper.emulate_media(reduced_motion="no-preference")
    paper.evaluate(DRAW, [house, names, 700])
    assert paper.evaluate(moves) == "drift"
    paper.emulate_media(reduced_motion="reduce")
    assert paper.evaluate(moves) == "none"
