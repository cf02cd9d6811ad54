// Streams as wide as what flows in them: what gives on the left, what takes on the right.

const LETTER = { now: 9, healthy: 7.8 }; // px: a letter of a name, bold and plain
const THIN = 24, UNDER = 24; // px: a band too thin for words, and the room for them below it

function flowChart(chart, width) {
  const many = chart.streams.length;
  const gap = 30, top = 8, narrow = width < 440;
  const most = narrow ? 120 : 150;
  const drawn = [];
  let y = top;
  for (const [index, stream] of chart.streams.entries()) {
    const full = (index === 0 ? most : most * 0.5) * (stream.whole / chart.whole || 0);
    const shown = stream.takes.filter((end) => end.told);
    const line = index > 0 ? 20 : 40;
    const height = Math.max(shown.reduce((sum, end) => sum + Math.max((end.size / (stream.whole || 1)) * full, line), 0), stream.gives.filter((end) => end.told).length * 44, 44);
    drawn.push(streamDrawn(stream, { y, full, height, width, narrow, line, quiet: index > 0 }));
    y += height + gap + (stream.gives.filter((end) => end.told).length > 1 ? UNDER : 0);
  }
  return svg("svg", { viewBox: `0 0 ${width} ${y - gap + top + (many ? 6 : 0)}`, role: "img", "aria-label": chart.summary, class: "chart flow" }, drawn);
}

function streamDrawn(stream, space) {
  const { width, quiet } = space;
  const role = quiet ? "healthy" : "now";
  const from = width * (space.narrow ? 0.3 : 0.29);
  // Names on the right keep their room: in another language they may be longer.
  const names = Math.max(...stream.takes.filter((end) => end.told).map((end) => nameOf(end, role).length), 0) * LETTER[role];
  const to = Math.max(Math.min(width * (space.narrow ? 0.46 : 0.58), width - 32 - names), from + 60);
  const sizeOf = (end) => (stream.whole > 0 ? (end.size / stream.whole) * space.full : 0);
  const middle = space.y + space.height / 2;
  const parts = [], words = [];
  let inner = middle - space.full / 2;
  // Left: what gives, stacked without a gap where there is only one.
  const left = stream.gives.filter((end) => end.told);
  const spread = (list, gap) => list.reduce((sum, end) => sum + Math.max(sizeOf(end), 2), 0) + gap * (list.length - 1);
  let outer = middle - spread(left, 24) / 2;
  for (const end of left) {
    const size = Math.max(sizeOf(end), 2);
    parts.push(band([0, outer], [from, inner], size, `band ${role} ${end.part === "coil" ? "whole" : "extra"}`));
    words.push(size < THIN && outer > space.y ? under(end, outer + size + 18, role) : twoLines(end, outer + size / 2, size, role));
    outer += size + 24;
    inner += size;
  }
  parts.push(svg("rect", { x: from - 0.5, y: middle - space.full / 2, width: to - from - 40 + 1, height: Math.max(space.full, 2), class: `band ${role} whole` }));
  const right = stream.takes.filter((end) => end.told);
  const room = (end) => Math.max(sizeOf(end), space.line);
  const tall = right.reduce((sum, end) => sum + room(end), 0);
  let out = Math.max(space.y, middle - tall / 2);
  inner = middle - space.full / 2;
  for (const end of right) {
    const size = Math.max(sizeOf(end), 2);
    const where = out + room(end) / 2;
    parts.push(band([to - 40, inner], [to + 22, where - size / 2], size, `band ${role} ${end.part === "rooms" ? "rooms" : "loss"}`));
    words.push(beside(end, [to + 30, where], role, width - to - 32));
    inner += size;
    out += room(end);
  }
  return svg("g", { class: role, "data-stream": stream.name }, parts, words);
}

function band([x0, y0], [x1, y1], size, name) {
  const bend = (x0 + x1) / 2;
  const n = (v) => v.toFixed(1);
  return svg("path", { class: name, d: `M${n(x0)} ${n(y0)}C${n(bend)} ${n(y0)} ${n(bend)} ${n(y1)} ${n(x1)} ${n(y1)}L${n(x1)} ${n(y1 + size)}C${n(bend)} ${n(y1 + size)} ${n(bend)} ${n(y0 + size)} ${n(x0)} ${n(y0 + size)}Z` });
}

// Under a thin band, where nothing runs through it.
function under(end, y, role) {
  return [svg("text", { x: 0, y, class: `name ${role}` }, end.label), svg("text", { x: 0, y: y + 17, class: "tick" }, end.text)];
}

// Inside a broad band, beside a narrow one.
function twoLines(end, y, size, role) {
  const name = `name ${role}${size >= 42 || role === "healthy" ? " on" : ""}`;
  const label = role === "healthy" && end.part === "coil" ? `${end.label}, ${CHART_WORDS.healthy}` : end.label;
  return [
    svg("text", { x: 8, y: y - 4, class: name }, label),
    svg("text", { x: 8, y: y + 15, class: name }, end.text),
  ];
}

// Healthy has one line, now has two.
function beside(end, [x, y], role, room) {
  const name = nameOf(end, role);
  // What is longer still is set closer, and not cut.
  const fit = (wide) => (wide > room ? { textLength: room.toFixed(0), lengthAdjust: "spacingAndGlyphs" } : {});
  const closer = fit(name.length * LETTER[role]), amount = `${end.text}${shareOf(end)}`;
  if (role === "healthy") return svg("text", { x, y: y + 5, class: `name ${role}`, ...closer }, name);
  return [
    svg("text", { x, y: y - 2, class: `name ${role}`, ...closer }, name),
    svg("text", { x, y: y + 15, class: "tick", ...fit(measure(amount, 14, false)) }, amount),
  ];
}

function shareOf(end) {
  return end.share ? `, ${end.share}` : "";
}

function nameOf(end, role) {
  return role === "healthy" ? `${end.label}${shareOf(end)}` : end.label;
}
