// A chart of lines and marks from plain data: direct labels, few ticks, units on the axes.
// Roles: a guide is thin, healthy is thin and grey, what is so now is thick and inked.

let plotsDrawn = 0;

function plotChart(chart, width) {
  const size = { width, height: Math.round(Math.min(440, Math.max(266, width * 0.58))) };
  const widest = Math.max(...chart.y.ticks.map(([, text]) => text.length));
  const box = { left: 16 + 9 * widest, right: 14, top: 34, bottom: 50 };
  const scale = (axis, from, to) => {
    const bend = axis.log ? Math.log : (v) => v;
    const low = bend(axis.low), span = bend(axis.high) - low || 1;
    return (v) => from + ((bend(v) - low) / span) * (to - from);
  };
  const x = scale(chart.x, box.left, size.width - box.right);
  const y = scale(chart.y, size.height - box.bottom, box.top);
  const clip = `plot-${(plotsDrawn += 1)}`;
  const at = (p) => [x(p[0]), y(p[1])];
  const path = (line) => line.points.map((p, i) => `${i ? "L" : "M"}${at(p).map((v) => v.toFixed(1)).join(" ")}`).join("") + (line.closed ? "Z" : "");
  const order = { guide: 0, healthy: 1, now: 2 };
  const lines = chart.lines.filter((line) => line.points.length > 1).sort((a, b) => order[a.role] - order[b.role]);
  const places = new Places(size, box);
  for (const line of lines) if (line.role !== "guide") places.avoidPath(line.closed ? [...line.points, line.points[0]].map(at) : line.points.map(at));
  for (const mark of chart.marks) places.avoid(...at(mark.at), 6);
  const named = [
    ...chart.marks.filter((mark) => mark.text).map((mark) => ({ role: mark.role, text: mark.text, at: at(mark.at), side: mark.side })),
    ...lines.filter((line) => line.label).map((line) => ({
      role: line.role, text: line.label, side: "above",
      at: at(line.points[Math.min(line.at ?? line.points.length - 1, line.points.length - 1)]),
    })),
  ].sort((a, b) => order[b.role] - order[a.role]);
  return svg("svg", { viewBox: `0 0 ${size.width} ${size.height}`, role: "img", "aria-label": chart.summary, class: "chart plot" },
    svg("clipPath", { id: clip }, svg("rect", { x: box.left - 3, y: box.top - 3, width: size.width - box.left - box.right + 6, height: size.height - box.top - box.bottom + 6 })),
    chart.y.ticks.map(([value, text]) => [
      svg("line", { x1: box.left, x2: size.width - box.right, y1: y(value), y2: y(value), class: "grid" }),
      svg("text", { x: box.left - 8, y: y(value) + 5, "text-anchor": "end", class: "tick" }, text),
    ]),
    chart.x.ticks.map(([value, text]) => [
      svg("line", { x1: x(value), x2: x(value), y1: size.height - box.bottom, y2: size.height - box.bottom + 5, class: "grid" }),
      svg("text", { x: x(value), y: size.height - box.bottom + 21, "text-anchor": "middle", class: "tick" }, text),
    ]),
    svg("text", { x: size.width - box.right, y: size.height - 8, "text-anchor": "end", class: "axis" }, chart.x.label),
    svg("text", { x: 4, y: 16, class: "axis" }, chart.y.label),
    svg("g", { "clip-path": `url(#${clip})` }, lines.map((line) => svg("path", { d: path(line), class: `line ${line.role}${line.thin ? " thin" : ""}` }))),
    chart.marks.map((mark) => {
      const [cx, cy] = at(mark.at);
      return svg("circle", { cx, cy, r: mark.role === "now" ? 6 : 4, class: `mark ${mark.role}` });
    }),
    named.map((name) => {
      const found = places.put(name.at, name.text, name.side, name.role === "now" ? 16 : 14);
      return [
        found.isFar && svg("line", { x1: name.at[0], y1: name.at[1], x2: found.x, y2: found.y < name.at[1] ? found.y + 4 : found.y - 14, class: "leader" }),
        svg("text", { x: found.x, y: found.y, "text-anchor": found.anchor, class: `name ${name.role}` }, name.text),
      ];
    }));
}

// Where a word may stand: tried on all sides, off the edges, other words, lines and marks.
class Places {
  constructor(size, box) {
    this.bounds = [box.left + 2, 20, size.width - 4, size.height - box.bottom - 2];
    this.taken = [];
    this.dots = [];
  }

  avoid(x, y, r) { this.dots.push([x, y, r]); }

  avoidPath(points) {
    for (let i = 1; i < points.length; i += 1) {
      const [a, b] = [points[i - 1], points[i]];
      const steps = Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / 14));
      for (let k = 0; k < steps; k += 1) this.avoid(a[0] + ((b[0] - a[0]) * k) / steps, a[1] + ((b[1] - a[1]) * k) / steps, 3);
    }
  }

  put(at, text, side, size) {
    const width = text.length * size * (size > 14 ? 0.64 : 0.57), height = size;
    const drop = height * 0.8;
    const sides = { above: [0, -12, "middle"], below: [0, 12 + drop, "middle"], right: [12, height * 0.35, "start"], left: [-12, height * 0.35, "end"] };
    for (const away of [10, 30, 50]) {
      for (const [aside, dx, anchor] of [["", 0, "middle"], ["Left", -8, "end"], ["Right", 8, "start"]]) {
        if (away > 10 || aside) Object.assign(sides, { [`over${away}${aside}`]: [dx, -away, anchor], [`under${away}${aside}`]: [dx, away + drop, anchor] });
      }
    }
    const tried = [side, ...Object.keys(sides).filter((name) => name !== side)].map((name, rank) => {
      const [dx, dy, anchor] = sides[name];
      const x = at[0] + dx, y = at[1] + dy;
      const left = anchor === "middle" ? x - width / 2 : anchor === "end" ? x - width : x;
      const area = [left, y - height, left + width, y + 4];
      return { x, y, anchor, area, isFar: Math.abs(dy) >= 28, cost: this.cost(area) + rank * 0.4 };
    });
    const best = tried.reduce((a, b) => (b.cost < a.cost ? b : a));
    this.taken.push(best.area);
    return best;
  }

  cost([left, top, right, bottom]) {
    const [x0, y0, x1, y1] = this.bounds;
    const out = Math.max(0, x0 - left) + Math.max(0, right - x1) + Math.max(0, y0 - top) + Math.max(0, bottom - y1);
    const over = this.taken.filter((b) => left < b[2] + 4 && right > b[0] - 4 && top < b[3] && bottom > b[1]).length;
    const dots = this.dots.filter(([x, y, r]) => x > left - r && x < right + r && y > top - r && y < bottom + r).length;
    return out * 4 + over * 200 + dots * 2;
  }
}
