// The refrigeration cycle over the saturation dome; logarithmic pressure.

// The table ends short of the critical point, so the dome is drawn as its two lines.
function sides(dome) {
  return [dome.slice(0, dome.length / 2), dome.slice(dome.length / 2)];
}

function cycleChart(chart) {
  const box = { left: 52, right: 12, top: 16, bottom: 48, width: 424, height: 320 };
  const cycle = [...chart.healthy, ...(chart.now || [])];
  const ps = [...chart.dome, ...cycle].map((p) => p[1]);
  // A cycle that stands leaves the dome alone, from its foot up.
  const p0 = cycle.length ? Math.min(...cycle.map((p) => p[1])) * 0.6 : Math.min(...ps);
  const hs = [...chart.dome.filter((p) => p[1] >= p0), ...cycle].map((p) => p[0]);
  const h0 = Math.min(...hs), h1 = Math.max(...hs);
  const p1 = Math.max(...ps);
  const x = (h) => box.left + ((h - h0) / (h1 - h0)) * (box.width - box.left - box.right);
  const y = (p) => box.top + (1 - Math.log(p / p0) / Math.log(p1 / p0)) * (box.height - box.top - box.bottom);
  const path = (points, close) => points.map((p, i) => `${i ? "L" : "M"}${x(p[0]).toFixed(1)} ${y(Math.max(p[1], p0)).toFixed(1)}`).join("") + (close ? "Z" : "");
  const ticksP = [20, 50, 100, 200, 300, 400, 600, 1000, 2000, 3000, 4000].filter((p) => p > p0 && p < p1);
  const step = h1 - h0 > 300 ? 100 : h1 - h0 > 120 ? 40 : 20;
  const ticksH = [];
  for (let h = Math.ceil(h0 / step) * step; h <= h1; h += step) ticksH.push(h);
  const label = (points, word, cls, dy) => {
    const top = points.reduce((best, p) => (p[1] > best[1] ? p : best));
    return svg("text", { x: x(top[0]) - 4, y: y(top[1]) + dy, class: cls, "text-anchor": "end" }, word);
  };
  // The name of the higher cycle stands above it, that of the lower one inside.
  const top = (points) => Math.max(0, ...(points || []).map((p) => p[1]));
  const isHigher = top(chart.now) >= top(chart.healthy);
  const drawn = svg("svg", { viewBox: `0 0 ${box.width} ${box.height}`, role: "img", "aria-label": chart.summary, class: "cycle" },
    ticksP.map((p) => [
      svg("line", { x1: box.left, x2: box.width - box.right, y1: y(p), y2: y(p), class: "grid" }),
      svg("text", { x: box.left - 8, y: y(p) + 5, "text-anchor": "end", class: "tick" }, String(p)),
    ]),
    ticksH.map((h) => svg("text", { x: x(h), y: box.height - box.bottom + 20, "text-anchor": "middle", class: "tick" }, String(h))),
    svg("text", { x: box.width - box.right, y: box.height - 6, "text-anchor": "end", class: "axis" }, `${WORDS.enthalpy}, ${chart.h_unit}`),
    svg("text", { x: box.left + 4, y: box.top + 6, class: "axis" }, `${WORDS.pressure}, ${chart.p_unit}`),
    sides(chart.dome).map((side) => svg("path", { d: path(side.filter((p) => p[1] >= p0)), class: "dome" })),
    chart.healthy.length > 0 && svg("path", { d: path(chart.healthy, true), class: "ghost" }),
    chart.now && svg("path", { d: path(chart.now, true), class: "now" }),
    chart.now && chart.now.map((p) => svg("circle", { cx: x(p[0]), cy: y(p[1]), r: 4, class: "dot" })),
    chart.now && label(chart.now, WORDS.now, "name", isHigher ? -8 : 20),
    chart.differs && chart.healthy.length > 0 && label(chart.healthy, WORDS.healthy, "name ghostly", isHigher ? 20 : -8));
  const cycles = [[WORDS.now, chart.now], [WORDS.healthy, chart.healthy]].filter(([, points]) => points && points.length);
  const table = el("details", { "data-keep": "chart-table" },
    el("summary", { "data-key": "chart-table" }, WORDS.chartTable),
    cycles.map(([name, points]) => el("table", {},
      el("caption", {}, name),
      el("thead", {}, el("tr", {}, el("th", { scope: "col" }, WORDS.state),
        el("th", { scope: "col" }, `${WORDS.pressure}, ${chart.p_unit}`), el("th", { scope: "col" }, `${WORDS.enthalpy}, ${chart.h_unit}`))),
      el("tbody", {}, points.map((p, i) => el("tr", {},
        el("th", { scope: "row" }, WORDS.points[chart.mode][i] || ""), el("td", {}, p[1].toFixed(0)), el("td", {}, p[0].toFixed(1))))))));
  return [drawn, table];
}
