// One bar a part: now thick and inked, healthy thin and grey, the number printed at its end.

function barChart(chart, width) {
  const row = chart.differs ? 50 : 38, room = 130;
  // Names have the room they need, up to a share of the chart; beyond it they are set closer.
  const needed = (part) => 8.7 * part.label.length;
  const left = Math.max(width < 420 ? 92 : 120, Math.min(0.42 * width, 12 + Math.max(...chart.rows.map(needed))));
  const closer = (part) => (needed(part) > left - 10 ? { textLength: (left - 12).toFixed(0), lengthAdjust: "spacingAndGlyphs" } : {});
  const wide = (value) => Math.max((value / (chart.most || 1)) * (width - left - room), value > 0 ? 2 : 0);
  return svg("svg", { viewBox: `0 0 ${width} ${row * chart.rows.length + 8}`, role: "img", "aria-label": chart.summary, class: "chart bars" },
    chart.rows.map((part, i) => {
      const y = 6 + i * row;
      return svg("g", { "data-part": part.part, class: part.part === "total" ? "total" : null },
        svg("text", { x: left - 10, y: y + 20, "text-anchor": "end", class: "name", ...closer(part) }, part.label),
        svg("rect", { x: left, y: y + 4, width: wide(part.now), height: 22, class: "bar now" }),
        svg("text", { x: left + wide(part.now) + 8, y: y + 21, class: "name now" }, part.now_text),
        chart.differs && svg("rect", { x: left, y: y + 30, width: wide(part.healthy), height: 8, class: "bar healthy" }),
        chart.differs && svg("text", { x: left + wide(part.healthy) + 8, y: y + 40, class: "name healthy" }, `${CHART_WORDS.healthy} ${part.healthy_text}`));
    }));
}
