// The air's way, fan against ducts, and where the cooling goes: drawn from what the plant computed.

const CHART_NAMES = ["cycle", "air", "fan", "delivery"];

function airChart(data) {
  const at = (points, i) => points[i];
  const reach = [...data.healthy, ...data.now, ...data.curves[0].points.filter((p) => p[0] >= Math.min(...data.now.map((q) => q[0]), ...data.healthy.map((q) => q[0])) - 2)];
  const x = reach.map((p) => p[0]);
  const top = Math.max(...data.healthy.map((p) => p[1]), ...data.now.map((p) => p[1])) * 1.5;
  const range = [[Math.min(...x), 0], [Math.max(...x), top]];
  const round = (n) => n.toFixed(1);
  return [
    xyChart({
      x: data.x, y: data.y, range,
      summary: WORDS.airSummary(data.places.map((place, i) => `${place} ${round(at(data.now, i)[0])} ${data.x.unit}, ${round(at(data.now, i)[1])} ${data.y.unit}`).join("; ")),
      lines: [
        ...data.curves.map((curve) => ({ points: curve.points, class: "dome", label: curve.label, dx: -34, dy: 4 })),
        { points: data.healthy, class: "ghost" },
        { points: data.now, class: "now" },
      ],
      marks: [
        ...data.healthy.map((p) => ({ at: p, class: "ghostdot", r: 3 })),
        ...data.now.map((p, i) => ({ at: p, class: "dot", label: i === 1 ? null : data.places[i], anchor: i === 0 ? "end" : "start", dx: i === 0 ? 4 : 0, dy: i === 2 ? 26 : i === 0 ? -14 : -16 })),
      ],
    }),
    chartTable("air", [WORDS.place, `${data.x.name}, ${data.x.unit}`, `${data.y.name}, ${data.y.unit}`, WORDS.healthy],
      data.places.map((place, i) => [place, round(data.now[i][0]), round(data.now[i][1]), data.healthy[i].map(round).join(" / ")])),
  ];
}

function fanChart(data) {
  const [healthy, now] = data.cross;
  const differs = healthy.text !== now.text;
  const most = Math.max(...data.fan.flat().map((p) => p[0])) * 1.05;
  const high = Math.min(Math.max(...data.fan.flat().map((p) => p[1])), 2.2 * Math.max(healthy.at[1], now.at[1]));
  return [
    xyChart({
      x: data.x, y: data.y, range: [[0, 0], [most, high]],
      summary: WORDS.fanSummary(now.text, healthy.text),
      lines: [
        ...(differs ? [{ points: data.fan[0], class: "ghost" }, { points: data.ducts[0], class: "ghost" }] : []),
        { points: data.fan[1], class: "now", label: WORDS.blower, dx: -60, dy: -8 },
        { points: data.ducts[1].slice(0, 9), class: "now thin", label: WORDS.ducts, dx: -24, dy: -10 }, { points: data.ducts[1], class: "now thin" },
      ],
      marks: [
        ...(differs ? [{ at: healthy.at, class: "ghostdot", label: healthy.text, dx: -10, dy: 28, anchor: "end" }] : []),
        { at: now.at, class: "dot", label: now.text, dx: -10, dy: -14, anchor: "end" },
      ],
    }),
    chartTable("fan", ["", `${data.x.name}, ${data.x.unit}`, `${data.y.name}, ${data.y.unit}`],
      [[WORDS.now, ...now.at], [WORDS.healthy, ...healthy.at]].map(([name, q, p]) => [name, q.toFixed(0), p.toFixed(2)])),
  ];
}

// Two streams, as wide as what flows in them: from the coil to the rooms, less what leaves on the way.
function deliveryChart(data) {
  const scale = 96 / Math.max(data.healthy.coil.size, data.now.coil.size, 1);
  const part = (name) => WORDS.delivery[data.mode][name];
  const stream = (one, y, cls, name) => {
    const width = (of) => Math.max(one[of].size * scale, 0);
    const coil = width("coil"), rooms = Math.max(width("rooms"), 1);
    const d = `M2 ${y}H422V${y + rooms}H300C240 ${y + rooms} 220 ${y + coil} 170 ${y + coil}H2Z`;
    return svg("g", { class: cls },
      svg("text", { x: 2, y: y - 8, class: "name" }, name),
      svg("path", { d, class: "river" }),
      svg("text", { x: 12, y: y + 20 }, `${part("coil")} ${one.coil.text}`),
      svg("text", { x: 412, y: y + 20, "text-anchor": "end" }, `${one.rooms.text} ${part("rooms")}`),
      svg("text", { x: 412, y: y + coil + 18, "text-anchor": "end" }, `${one.blown.text} ${part("blown")}`),
      svg("text", { x: 412, y: y + coil + 36, "text-anchor": "end" }, `${one.walls.text} ${part("walls")}`));
  };
  return [
    svg("svg", { viewBox: "0 0 424 340", role: "img", class: "rivers", "aria-label": WORDS.deliverySummary(part("coil"), data.now.coil.text, data.now.rooms.text, data.healthy.rooms.text) },
      stream(data.now, 26, "now-river", WORDS.now), stream(data.healthy, 202, "healthy-river", WORDS.healthy)),
    chartTable("delivery", ["", WORDS.now, WORDS.healthy],
      ["coil", "blown", "walls", "rooms"].map((name) => [part(name), data.now[name].text, data.healthy[name].text])),
  ];
}

const MORE_CHARTS = { air: airChart, fan: fanChart, delivery: deliveryChart };
