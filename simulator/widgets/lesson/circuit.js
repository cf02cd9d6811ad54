// The circuit, drawn: outdoors above, indoors below, low side left, high side right. The same
// stands in a sentence for those who listen.

const WIDE = 360, TALL = 526;
const LEFT = 40, RIGHT = WIDE - 40; // the two lines between the coils
const UPPER = 92, LOWER = 430, WALL = 268; // middles of the coils, and the wall between
const COIL = { from: 76, to: WIDE - 76, half: 28 };

function circuit(part) {
  const { labels } = part;
  const text = (x, y, key, name = "", anchor = "start") => svg("text", { x, y, "text-anchor": anchor, class: name }, labels[key]);
  const pipe = (d, side) => svg("path", { d, class: `pipe ${side}` });
  // The tip of an arrow, the way that it points in degrees from the right, clockwise.
  const tip = (x, y, turn, side) => svg("path", { d: "M-7 -7L7 0L-7 7Z", transform: `translate(${x} ${y}) rotate(${turn})`, class: `tip ${side}` });
  return el("figure", { class: "circuit" },
    el("figcaption", {}, part.title),
    svg("svg", { viewBox: `0 0 ${WIDE} ${TALL}`, role: "img", "aria-label": part.told },
      svg("line", { x1: 0, x2: WIDE, y1: WALL, y2: WALL, class: "wall" }),
      text(WIDE / 2, WALL - 8, "outdoors", "place", "middle"), text(WIDE / 2, WALL + 19, "indoors", "place", "middle"),
      pipe(`M${COIL.from} ${LOWER}H${LEFT}V214`, "cold"), tip(LEFT, 350, -90, "cold"),
      pipe(`M${LEFT} 166V${UPPER}H${COIL.from}`, "hot"), tip(LEFT, 132, -90, "hot"),
      pipe(`M${COIL.to} ${UPPER}H${RIGHT}V364`, "hot"), tip(RIGHT, 132, 90, "hot"),
      pipe(`M${RIGHT} 388V${LOWER}H${COIL.to}`, "cold"),
      coil(UPPER, "high"), coil(LOWER, "low"),
      text(WIDE / 2, UPPER - 4, "outdoor_coil", "part", "middle"), text(WIDE / 2, UPPER + 16, "condenses", "high", "middle"),
      text(WIDE / 2, LOWER - 4, "indoor_coil", "part", "middle"), text(WIDE / 2, LOWER + 16, "boils", "low", "middle"),
      air(UPPER), text(WIDE / 2, 28, "outdoor_off", "", "middle"), text(WIDE / 2, 164, "outdoor_air", "", "middle"),
      air(LOWER), text(WIDE / 2, 372, "supply_air", "", "middle"), text(WIDE / 2, 504, "return_air", "", "middle"),
      svg("circle", { cx: LEFT, cy: 190, r: 24, class: "machine" }), svg("path", { d: `M${LEFT - 15} 203L${LEFT - 7} 169M${LEFT + 15} 203L${LEFT + 7} 169`, class: "machine" }),
      text(72, 208, "compressor", "part"), text(52, 140, "hot_gas"),
      text(RIGHT - 12, 190, "liquid", "part high", "end"), text(RIGHT - 12, 208, "liquid_pressure", "", "end"), text(RIGHT - 12, 226, "subcooling", "", "end"),
      svg("path", { d: `M${RIGHT - 11} 364H${RIGHT + 11}L${RIGHT - 11} 388H${RIGHT + 11}Z`, class: "machine" }),
      text(RIGHT - 12, 354, "metering", "part", "end"),
      text(52, 300, "suction", "part low"), text(52, 318, "suction_pressure"), text(52, 336, "superheat")));
}

// A coil with its fins at both ends, and room for its name.
function coil(middle, side) {
  const { from, to, half } = COIL;
  const fins = [6, 12, 18].flatMap((step) => [from + step, to - step]);
  return svg("g", { class: `coil ${side}` },
    svg("rect", { x: from, y: middle - half, width: to - from, height: 2 * half, rx: 6 }),
    fins.map((x) => svg("line", { x1: x, x2: x, y1: middle - half, y2: middle + half })));
}

// Air rises through a coil on both sides of its name.
function air(middle) {
  return [COIL.from + 72, COIL.to - 72].map((x) => svg("g", { class: "air" },
    [middle + COIL.half + 22, middle - COIL.half - 4].map((y) => svg("path", { d: `M${x} ${y}v-14m-5 6l5 -7l5 7` }))));
}
