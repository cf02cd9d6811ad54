// A chart of lines and marks from plain data: direct labels, few ticks, units on the axes.
// Roles: a guide is thin, healthy is thin and grey, what is so now is thick and inked.

let plotsDrawn = 0;

function plotChart(chart, width, isLow) {
  const least = isLow ? 266 : width < 400 ? 360 : 300; // words of a narrow one need the height
  const size = { width, height: Math.round(Math.min(440, Math.max(least, width * 0.58))) };
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
  const ends = [box.left + 4, 22, size.width - 4, size.height - box.bottom - 4];
  const places = new Places(ends);
  const drawn = new Map(lines.map((line) => [line, (line.closed ? [...line.points, line.points[0]] : line.points).map(at)]));
  for (const [line, points] of drawn) places.curve(line.role, points);
  for (const mark of chart.marks) places.dot(...at(mark.at), 6);
  const named = [
    ...chart.marks.filter((mark) => mark.text).map((mark) => ({ role: mark.role, text: mark.text, at: at(mark.at), side: mark.side })),
    ...lines.filter((line) => line.label).map((line) => ({
      role: line.role, text: line.label, side: "above", along: drawn.get(line),
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
    places.putAll(named).map((found, i) => {
      const name = named[i];
      return [
        found.leader && svg("line", { x1: found.leader[0][0], y1: found.leader[0][1], x2: found.leader[1][0], y2: found.leader[1][1], class: "leader" }),
        svg("text", { x: found.x, y: found.y, "text-anchor": found.anchor, class: `name ${name.role}` }, found.rows.length === 1 ? name.text
          : found.rows.map((row, down) => svg("tspan", { x: found.x, dy: down ? `${LINE}em` : null }, row))),
      ];
    }));
}
