// The section drawing of this call's house; places are pressed on it.

const PERIOD = 1200; // of one dash, in ms: air and refrigerant drift on through a redraw

function siteDrawing(view, ui, act) {
  const at = layOut(view.drawing, ui.isNarrow);
  const isRunning = view.system.state === "running";
  const points = spots(view.drawing, at);
  const site = el("div", {
    class: `site ${isRunning ? "runs" : "rests"}`,
    style: `--aspect:${at.w}/${at.h};--since:-${Math.round(performance.now() % PERIOD)}ms`,
  },
  svg("svg", { viewBox: `0 0 ${at.w} ${at.h}`, "aria-hidden": "true", focusable: "false" },
    ground(at), shell(at), rooms(at, view.drawing), ducts(at), refrigerant(at, view.system.mode === "heating"),
    cabinet(at), outdoors(at), household(at, points)),
  el("ul", { class: "places", "aria-label": WORDS.house },
    view.places.map((place) => spot(place, points[place.id], at, view, ui, act))));
  new ResizeObserver(() => keepClear(site)).observe(site); // once before it is first seen, too
  return site;
}

const asPath = (points) => points.map(([x, y], i) => `${i ? "L" : "M"}${x} ${y}`).join("");

function stream(kind, points, width) {
  return svg("g", { class: kind },
    svg("path", { class: "pipe", d: asPath(points), "stroke-width": width }),
    svg("path", { class: "flow", d: asPath(points), "stroke-width": Math.max(1.6, width / 4) }));
}

function ground(at) {
  const grade = at.floor + 2;
  return svg("g", { class: "earth" },
    svg("path", { class: "hatched", d: `M0 ${grade}H${at.left}V${at.deep + 4}H${at.right}V${grade}H${at.w}V${at.h}H0Z` }),
    svg("path", { class: "edge", d: `M0 ${grade}H${at.left}M${at.right} ${grade}H${at.w}` }));
}

function shell(at) {
  const { left, right, floor, deep, ceiling, ridge } = at;
  const eave = ceiling - 8;
  const roof = at.isFlat
    ? `M${left - 6} ${ceiling - 34}H${right + 6}`
    : `M${left - 10} ${eave + 4}L${(left + right) / 2} ${ridge}L${right + 10} ${eave + 4}`;
  return svg("g", { class: "shell" },
    at.cellar && svg("path", { class: "space", d: `M${left} ${floor}H${right}V${deep}H${left}Z` }),
    !at.isFlat && svg("path", { class: "space", d: `M${left} ${ceiling}L${left} ${eave}L${(left + right) / 2} ${ridge}L${right} ${eave}V${ceiling}Z` }),
    at.isFlat && svg("path", { class: "space", d: `M${left} ${ceiling - 34}H${right}V${ceiling}H${left}Z` }),
    svg("path", { class: "room-air", d: `M${left} ${ceiling}H${at.roomsRight}V${floor}H${left}Z` }),
    at.side > 0 && svg("path", { class: "space", d: `M${at.roomsRight} ${ceiling}H${right}V${floor}H${at.roomsRight}Z` }),
    svg("path", { class: "wall", d: `${roof}M${left} ${at.isFlat ? ceiling - 34 : eave}V${deep}M${right} ${at.isFlat ? ceiling - 34 : eave}V${deep}M${left} ${ceiling}H${right}M${left} ${floor}H${right}` }),
    at.side > 0 && svg("path", { class: "wall", d: `M${at.roomsRight} ${ceiling}V${floor}` }),
    deep > floor && svg("path", { class: "wall", d: `M${left} ${deep}H${right}` }));
}

function rooms(at, house) {
  const doors = at.rooms.slice(1).map((room) => svg("path", {
    class: house.rooms[0] !== room.zone && room.zone !== at.rooms[at.rooms.indexOf(room) - 1].zone ? "partition bold" : "partition",
    d: `M${room.x0} ${at.ceiling}V${at.floor - 76}`,
  }));
  const zones = [...new Set(house.rooms)];
  const names = zones.length > 1 && zones.map((zone) => {
    const own = at.rooms.filter((room) => room.zone === zone);
    return svg("text", { x: (own[0].x0 + own[own.length - 1].x1) / 2, y: at.floor - 8, "text-anchor": "middle" }, put(WORDS.zone, { n: zone }));
  });
  return svg("g", {}, doors, names);
}

function ducts(at) {
  const opening = at.isUnder ? at.floor : at.ceiling;
  const out = at.isUnder ? -1 : 1;
  const grille = at.back.grille;
  return svg("g", {},
    stream("supply-air", at.trunk, 12),
    at.rooms.map((room) => {
      const x = (room.x0 + room.x1) / 2;
      return svg("g", { class: "supply-air" },
        svg("path", { class: "pipe", d: `M${x} ${at.trunkY}V${opening}`, "stroke-width": 6 }),
        svg("path", { class: "slot", d: `M${x - 8} ${opening}H${x + 8}` }),
        svg("path", { class: "flow", d: `M${x} ${opening}V${opening + out * 26}`, "stroke-width": 2 }));
    }),
    stream("return-air", at.back.path, 12),
    svg("path", { class: "return-air slot", d: grille.isWall ? `M${grille.x} ${grille.y}V${grille.y + 22}` : `M${grille.x - 12} ${grille.y}H${grille.x + 12}` }));
}

// Cooling: cold gas in the large pipe to the outdoor unit. Heating: hot gas the other way.
function refrigerant(at, isHeating) {
  const turned = (points) => points.slice().reverse();
  return svg("g", {},
    stream(isHeating ? "high-side" : "low-side", isHeating ? at.pipes.large : turned(at.pipes.large), 5),
    stream("high-side", isHeating ? turned(at.pipes.small) : at.pipes.small, 2.5));
}

function cabinet(at) {
  const { x, y, w, h, isUpright } = at.handler;
  return svg("g", { class: "machine" },
    svg("rect", { x, y, width: w, height: h, rx: 3 }),
    // A coil as two slabs, a blower wheel, a filter at the return end.
    isUpright
      ? [svg("path", { d: `M${x + 8} ${y + 34}L${x + w / 2} ${y + 10}L${x + w - 8} ${y + 34}` }), svg("circle", { cx: x + w / 2, cy: y + 56, r: 13 }), svg("circle", { cx: x + w / 2, cy: y + 56, r: 3 }), svg("path", { class: "mesh", d: `M${x + 4} ${y + h - 7}H${x + w - 4}` })]
      : [svg("path", { d: `M${x + 30} ${y + 6}L${x + 10} ${y + h / 2}L${x + 30} ${y + h - 6}` }), svg("circle", { cx: x + w * 0.62, cy: y + h / 2, r: 12 }), svg("circle", { cx: x + w * 0.62, cy: y + h / 2, r: 3 }), svg("path", { class: "mesh", d: `M${x + w - 7} ${y + 4}V${y + h - 4}` })]);
}

function outdoors(at) {
  const { x, y, w, h } = at.outdoor;
  const middle = x + w / 2;
  const fins = [];
  for (let fin = x + 8; fin < x + w - 6; fin += 7) fins.push(`M${fin} ${y + 12}V${y + h - 8}`);
  return svg("g", { class: "machine" },
    svg("rect", { class: "pad", x: x - 6, y: y + h, width: w + 12, height: 6 }),
    svg("rect", { x, y: y + 6, width: w, height: h - 6, rx: 3 }),
    svg("path", { class: "mesh", d: fins.join("") }),
    svg("path", { d: `M${middle - 22} ${y + 6}a22 6 0 0 1 44 0` }),
    svg("path", { class: "flow air", d: `M${middle - 10} ${y - 2}v-18M${middle + 10} ${y - 2}v-18`, "stroke-width": 2 }));
}

// What hangs on a wall hangs where its name stands, never under it.
function household(at, points) {
  const [first] = at.rooms;
  const x = (first.x0 + first.x1) / 2;
  const foot = at.floor - 1;
  const [wall, beam] = points.thermostat;
  const panel = [at.right + 2, Math.max(points.electrical_panel[1] - 14, at.ceiling - 4)];
  return svg("g", { class: "machine" },
    svg("g", { "data-thing": "customer" }, svg("path", { class: "person", d: `M${x} ${foot - 34}v16m0 0l-5 17m5 -17l5 17m-5 -31l-8 10m8 -10l8 10` }),
    svg("circle", { class: "person", cx: x, cy: foot - 40, r: 5.5 })),
    svg("rect", { "data-thing": "thermostat", x: wall - 5, y: beam - (at.isNarrow ? 33 : 37), width: 10, height: 14, rx: 2 }),
    svg("g", { "data-thing": "electrical_panel", transform: `translate(${panel.join(" ")})` },
      svg("rect", { width: 14, height: 24, rx: 2 }), svg("path", { d: "M8 5l-4 8h5l-4 7" })));
}

// What was measured last at a place stands on the drawing where it was measured.
function spot(place, [x, y], at, view, ui, act) {
  const isHere = place.id === view.here;
  const open = isOpen(view);
  const rows = view.sheet.filter((row) => row.place === place.id);
  const latest = new Map(rows.filter((row) => row.shown !== null).map((row) => [row.name, row]));
  const shown = [...latest.values()].slice(at.isNarrow ? -1 : -2);
  return el("li", { class: `place place-${place.id}`, style: `left:${(100 * x) / at.w}%;top:${(100 * y) / at.h}%` },
    el("button", {
      "data-key": `place-${place.id}`, "aria-current": isHere ? "location" : null, disabled: !open,
      title: place.name,
      "aria-label": `${place.name}: ${isHere ? WORDS.here : WORDS.walk}${rows.length ? `, ${counted(WORDS.readings, rows.length)}` : ""}`,
      onclick: () => (isHere ? ui.turnTo("here", `place-${place.id}`) : act({ do: "go", place: place.id })),
    }, place.short, rows.length > 0 && el("span", { class: "count" }, String(rows.length))),
    shown.length > 0 && el("span", { class: "tags", "aria-hidden": "true" },
      shown.map((row) => el("span", { class: row.after_repair ? "tag after" : "tag" }, withUnit(row.shown, row.unit)))));
}
