// A plain chart of lines and points: direct labels, few ticks, units on the axis, a table beside it.

function niceTicks(low, high, most) {
  const raw = (high - low) / most;
  const ten = 10 ** Math.floor(Math.log10(raw));
  const step = [1, 2, 5, 10].map((n) => n * ten).find((n) => n >= raw);
  const ticks = [];
  for (let tick = Math.ceil(low / step) * step; tick <= high + step * 1e-6; tick += step) ticks.push(tick);
  return { ticks, digits: Math.max(0, -Math.floor(Math.log10(step))) };
}

// lines: {points, class, label, at}; marks: {at, class, label}. Where points lie outside, they are cut.
function xyChart({ x, y, lines, marks, summary, range }) {
  const box = { left: 48, right: 16, top: 32, bottom: 52, width: 424, height: 330 };
  const all = range || [...lines.flatMap((line) => line.points), ...marks.map((mark) => mark.at)];
  const span = (i) => [Math.min(...all.map((p) => p[i])), Math.max(...all.map((p) => p[i]))];
  const [x0, x1] = span(0);
  const [y0, y1] = [Math.min(0, span(1)[0]), span(1)[1] * 1.06];
  const px = (v) => box.left + ((v - x0) / (x1 - x0 || 1)) * (box.width - box.left - box.right);
  const py = (v) => box.top + (1 - (v - y0) / (y1 - y0 || 1)) * (box.height - box.top - box.bottom);
  const inside = (p) => p[0] >= x0 - 1e-9 && p[0] <= x1 + 1e-9 && p[1] <= y1 && p[1] >= y0;
  const path = (points) => points.filter(inside).map((p, i) => `${i ? "L" : "M"}${px(p[0]).toFixed(1)} ${py(p[1]).toFixed(1)}`).join("");
  const horizontal = niceTicks(x0, x1, 5), vertical = niceTicks(y0, y1, 5);
  const text = (at, word, cls, dx, dy, anchor) => svg("text", { x: px(at[0]) + dx, y: py(at[1]) + dy, class: cls, "text-anchor": anchor || "start" }, word);
  return svg("svg", { viewBox: `0 0 ${box.width} ${box.height}`, role: "img", "aria-label": summary, class: "xy" },
    vertical.ticks.map((tick) => [
      svg("line", { x1: box.left, x2: box.width - box.right, y1: py(tick), y2: py(tick), class: "grid" }),
      svg("text", { x: box.left - 8, y: py(tick) + 5, "text-anchor": "end", class: "tick" }, tick.toFixed(vertical.digits)),
    ]),
    horizontal.ticks.map((tick) => svg("text", { x: px(tick), y: box.height - box.bottom + 20, "text-anchor": "middle", class: "tick" }, tick.toFixed(horizontal.digits))),
    svg("text", { x: box.width - box.right, y: box.height - 8, "text-anchor": "end", class: "axis" }, `${x.name}, ${x.unit}`),
    svg("text", { x: 4, y: 16, class: "axis" }, `${y.name}, ${y.unit}`),
    lines.map((line) => {
      const seen = line.points.filter(inside);
      const end = line.at === "start" ? seen[0] : seen[seen.length - 1];
      return [svg("path", { d: path(line.points), class: line.class }),
        line.label && end && text(end, line.label, `name ${line.class.split(" ")[0]}-name`, line.dx || 4, line.dy || -6, line.anchor)];
    }),
    marks.map((mark) => [svg("circle", { cx: px(mark.at[0]), cy: py(mark.at[1]), r: mark.r || 5, class: mark.class }),
      mark.label && text(mark.at, mark.label, mark.class === "dot" ? "name" : "name ghostly", mark.dx ?? 10, mark.dy ?? -10, mark.anchor)]));
}

// The same numbers for those who read rather than look.
function chartTable(key, heads, rows) {
  return el("details", { "data-keep": `table-${key}` },
    el("summary", { "data-key": `table-${key}` }, WORDS.chartTable),
    el("table", {},
      el("thead", {}, el("tr", {}, heads.map((head) => el("th", { scope: "col" }, head)))),
      el("tbody", {}, rows.map(([first, ...rest]) => el("tr", {},
        el("th", { scope: "row" }, first), rest.map((cell) => el("td", {}, cell)))))));
}
