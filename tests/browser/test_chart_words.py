"""Words of a chart keep clear of what it draws: measured on the drawing, for every fault."""

from importlib.resources import files
from typing import Any

import pytest
from playwright.sync_api import Page

from simulator.faults._catalogue import discover
from simulator.serve.stand_page import stand
from simulator.serve.stand_page.link import opened

SCRIPTS = ("dom.js", *(f"charts/{n}.js" for n in ("words", "places", "plot", "flow", "bars")),
           "charts/figure.js")  # fmt: skip
# Units of a drawing: a telephone, a column of the desk, the whole of a tablet.
WIDTHS = (358, 395, 452, 640)
PROJECTED = (395, 468)  # the charts' column at 1280 and at 1920 px, lower than on the desk
# Each curve is walked in steps of two units; a letter's box has air above and below.
OVER = """(drawing) => {
  const words = [...drawing.querySelectorAll("text.name")].map((word) => [word.textContent, word.getBBox()]);
  const frame = +drawing.querySelector("clipPath rect").getAttribute("y");
  const found = [];
  for (const curve of drawing.querySelectorAll("path.line:not(.guide)")) {
    const half = parseFloat(getComputedStyle(curve).strokeWidth) / 2;
    for (let at = 0; at <= curve.getTotalLength(); at += 2) {
      const { x, y } = curve.getPointAtLength(at);
      if (y < frame) continue;
      for (const [text, box] of words) {
        const isOver = x > box.x - half && x < box.x + box.width + half
          && y > box.y + 3 - half && y < box.y + box.height - 2 + half;
        if (isOver && !found.includes(`${text} on a line`)) found.push(`${text} on a line`);
      }
    }
  }
  const wide = drawing.viewBox.baseVal.width;
  words.forEach(([text, box], i) => {
    if (box.x < 0 || box.x + box.width > wide || box.y < 0) found.push(`${text} outside`);
    for (const [other, area] of words.slice(i + 1)) {
      if (box.x < area.x + area.width && area.x < box.x + box.width
        && box.y + 3 < area.y + area.height - 3 && area.y + 3 < box.y + box.height - 3) found.push(`${text} on ${other}`);
    }
  });
  return found;
}"""  # noqa: E501
ALL = """([charts, widths, isLow]) => {
  const host = document.getElementById("here"), found = [];
  for (const [name, chart] of charts) for (const width of widths) {
    const drawing = plotChart(chart, width, isLow);
    drawing.style.width = `${width}px`;
    host.replaceChildren(drawing);
    const over = OVER(drawing);
    if (over.length) found.push([name, width, over]);
  }
  return found;
}"""


def charts_of(mode: str, pair: str) -> list[tuple[str, dict[str, Any]]]:
    """Quick charts of a mode: healthy, and with each fault as large as it usually is."""
    drawn: list[tuple[str, dict[str, Any]]] = []
    for name, kind in [("", None), *discover().items()]:
        size = kind.typical * (100.0 if kind.unit == "-" else 1.0) if kind else 0.0
        link = f"mode={mode}{pair}" + (f"&fault={name}:{size:g}" if name else "")
        found = stand.answer({"do": "set", "listed": True, **opened(link)})
        # What means nothing in this mode has a sentence and no chart.
        drawn += [
            (f"{name} {key}", c) for key, c in found.get("stand", {}).get("charts", {}).items()
        ]
    return drawn


@pytest.fixture
def canvas(page: Page) -> Page:
    """An empty page with the stand's own charts and letters."""
    root = files("simulator.widgets").joinpath("shared")

    def text(name: str) -> str:
        return root.joinpath(*name.split("/")).read_text(encoding="utf-8")

    style = text("panel.css") + text("charts/charts.css")
    page.set_content(f"<style>{style}</style><div class='bench' id='here'></div>")
    page.add_script_tag(content="\n".join([*map(text, SCRIPTS), f"const OVER = {OVER};"]))
    return page


@pytest.mark.parametrize("mode", ["cooling", "heating"])
@pytest.mark.parametrize("pair", ["&chart=fan&chart=air", "&chart=cycle"])
def test_no_word_lies_on_a_curve_or_on_a_word(canvas: Page, mode: str, pair: str) -> None:
    drawn = charts_of(mode, pair)
    assert len(drawn) > 40
    assert canvas.evaluate(ALL, [drawn, list(WIDTHS), False]) == []
    assert canvas.evaluate(ALL, [drawn, list(PROJECTED), True]) == []


def test_a_word_on_a_curve_is_found(canvas: Page) -> None:
    """The measure itself: a word that is moved onto the curve is reported."""
    chart = charts_of("cooling", "&chart=fan")[0][1]
    moved = """([chart]) => {
      const drawing = plotChart(chart, 452);
      document.getElementById("here").replaceChildren(drawing);
      const mark = drawing.querySelector("circle.mark.now");
      const word = drawing.querySelector("text.name");
      word.replaceChildren(word.textContent);
      word.setAttribute("x", mark.getAttribute("cx"));
      word.setAttribute("y", mark.getAttribute("cy"));
      return OVER(drawing);
    }"""
    assert any("on a line" in row for row in canvas.evaluate(moved, [chart]))
