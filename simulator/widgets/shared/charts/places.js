// Where a word of a chart may stand: near what it names, clear of every curve, mark and word.

const CLEAR = 4; // px between a letter and anything drawn
const SPOTS = 14; // places along a curve that may carry its name
const GAPS = [3, 9, 18, 30, 46, 66, 90, 120, 155];
const LINE = 1.15; // of a letter, from one row of a word to the next
const UP = 0.8, DOWN = 0.25; // of a letter, over and under its line
const CROWDED = 100; // a cost at which something is run over
const STEP = 12; // px
const ROUNDS = 3;
const FAR = 16; // px; a word further from what it names is joined to it
// Across and down: at the sides and corners of a word, and between.
const WAYS = [0, 0.5, -0.5, 1, -1].flatMap((n) => [[n, -1], [n, 1], [1, n], [-1, n]]);
const SIDE = { above: [0, -1], below: [0, 1], right: [1, 0], left: [-1, 0] };
const COST = { out: 40, word: 500, leader: 90, dot: 130, now: 150, healthy: 120, guide: 24, gap: 0.5, along: 10, way: 3, row: 4, joined: 8 };

// Pixels that a word is wide, by the page's own letters.
const measure = (() => {
  let pen = null;
  return (text, size, isBold) => {
    pen ??= document.createElement("canvas").getContext("2d");
    const face = getComputedStyle(document.querySelector(".bench") || document.body).fontFamily;
    pen.font = `${isBold ? 600 : 400} ${size}px ${face}`;
    return pen.measureText(text).width;
  };
})();

// Whether a stroke passes through an area (Liang and Barsky's clipping of a line).
function passes([ax, ay], [bx, by], [left, top, right, bottom]) {
  if (Math.max(ax, bx) < left || Math.min(ax, bx) > right || Math.max(ay, by) < top || Math.min(ay, by) > bottom) return false;
  const dx = bx - ax, dy = by - ay;
  let from = 0, to = 1;
  for (const [step, room] of [[-dx, ax - left], [dx, right - ax], [-dy, ay - top], [dy, bottom - ay]]) {
    if (step === 0) { if (room < 0) return false; continue; }
    const t = room / step;
    if (step < 0) from = Math.max(from, t);
    else to = Math.min(to, t);
    if (from > to) return false;
  }
  return true;
}

class Places {
  constructor(bounds) {
    this.bounds = bounds;
    this.words = [];
    this.dots = [];
    this.curves = [];
  }

  curve(role, points) { this.curves.push({ role, points, half: role === "now" ? 2.5 : 1.5 }); }

  dot(x, y, r) { this.dots.push([x - r, y - r, x + r, y + r]); }

  // Each name in turn; then each once more, knowing where all others stand.
  putAll(names) {
    const found = names.map(() => null);
    for (let round = 0; round < ROUNDS; round += 1) {
      names.forEach((name, i) => {
        const others = found.filter((one, k) => one && k !== i);
        this.words = others.map((one) => one.area);
        this.leaders = others.map((one) => one.leader).filter(Boolean);
        found[i] = this.put(name);
      });
    }
    return found.map((one) => {
      const [left, top, right] = one.area;
      const x = one.anchor === "start" ? left : one.anchor === "end" ? right : (left + right) / 2;
      return { x, y: top + UP * one.size, rows: one.rows, anchor: one.anchor, leader: one.leader };
    });
  }

  // The cheapest of many places; a name of a curve may stand anywhere along it, in one row or two.
  put(name) {
    const size = name.role === "now" ? 16 : 14, isBold = name.role === "now";
    let best = null;
    for (const rows of rowsOf(name.text)) {
      const wide = Math.max(...rows.map((row) => measure(row, size, isBold)));
      const area = { rows, wide, tall: (UP + DOWN + LINE * (rows.length - 1)) * size };
      best = this.placed(name, area, best);
      if (best.cost > CROWDED) best = this.anywhere(name, area, best);
    }
    return { ...best, size, leader: best.gap > FAR ? [best.start, nearest(best.start, best.area)] : null };
  }

  placed({ at, along, side }, { rows, wide, tall }, found) {
    const preferred = SIDE[side];
    let best = found;
    for (const [start, away] of along ? this.spots(along, at) : [[at, 0]]) {
      for (const gap of GAPS) {
        for (const [wx, wy] of WAYS) {
          const reach = gap + (along ? 2 : 6);
          const left = start[0] + wx * reach - (wide * (1 - wx)) / 2, top = start[1] + wy * reach - (tall * (1 - wy)) / 2;
          const area = [left, top, left + wide, top + tall];
          const asked = preferred && wx === preferred[0] && wy === preferred[1] ? 0 : COST.way * (1 + Math.abs(wx * wy));
          const plain = COST.gap * gap + COST.along * away + asked + (gap > FAR ? COST.joined : 0) + COST.row * (rows.length - 1);
          if (best && plain >= best.cost) continue;
          const cost = plain + this.cost(area, best ? best.cost - plain : Infinity) + (gap > FAR ? this.joint(start, area) : 0);
          if (!best || cost < best.cost) best = { cost, area, start, gap, rows, anchor: wx > 0.7 ? "start" : wx < -0.7 ? "end" : "middle" };
        }
      }
    }
    return best;
  }

  // Spots along a curve as far as the frame shows it, each with its share of the way from where
  // the name would stand by choice.
  spots(points, at) {
    const [x0, y0, x1, y1] = this.bounds;
    const lengths = points.map((point, i) => (i ? Math.hypot(point[0] - points[i - 1][0], point[1] - points[i - 1][1]) : 0));
    const whole = lengths.reduce((a, b) => a + b, 0) || 1;
    const found = [[at, 0]];
    for (let k = 0; k <= SPOTS; k += 1) {
      let left = (whole * k) / SPOTS, i = 1;
      while (i < points.length - 1 && left > lengths[i]) { left -= lengths[i]; i += 1; }
      const share = lengths[i] ? Math.min(1, left / lengths[i]) : 0;
      const spot = [0, 1].map((axis) => points[i - 1][axis] + (points[i][axis] - points[i - 1][axis]) * share);
      found.push([spot, Math.hypot(spot[0] - at[0], spot[1] - at[1]) / whole]);
    }
    return found.filter(([[x, y]]) => x >= x0 - 8 && x <= x1 + 8 && y >= y0 - 8 && y <= y1 + 8);
  }

  // Where no place nearby is clear, all of the frame is looked through.
  anywhere({ at, along }, { rows, wide, tall }, found) {
    const [x0, y0, x1, y1] = this.bounds;
    const starts = along ? this.spots(along, at).map(([spot]) => spot) : [at];
    let best = found;
    for (let left = x0; left + wide <= x1; left += STEP) {
      for (let top = y0; top + tall <= y1; top += STEP) {
        const area = [left, top, left + wide, top + tall];
        const away = (start) => Math.hypot(...nearest(start, area).map((v, i) => v - start[i]));
        const start = starts.reduce((a, b) => (away(b) < away(a) ? b : a));
        const gap = away(start), plain = COST.gap * gap + COST.way + COST.joined + COST.row * (rows.length - 1);
        if (plain >= best.cost) continue;
        const cost = plain + this.cost(area, best.cost - plain) + this.joint(start, area);
        if (cost < best.cost) best = { cost, area, start, gap, rows, anchor: "middle" };
      }
    }
    return best;
  }

  cost([left, top, right, bottom], enough) {
    const [x0, y0, x1, y1] = this.bounds;
    let sum = COST.out * (Math.max(0, x0 - left) + Math.max(0, right - x1) + Math.max(0, y0 - top) + Math.max(0, bottom - y1));
    const meets = (area, pad) => left - pad < area[2] && right + pad > area[0] && top - pad < area[3] && bottom + pad > area[1];
    for (const area of this.words) if (meets(area, CLEAR)) sum += COST.word;
    for (const [from, to] of this.leaders) if (passes(from, to, [left - 2, top - 2, right + 2, bottom + 2])) sum += COST.leader;
    for (const area of this.dots) if (meets(area, CLEAR - 1)) sum += COST.dot;
    for (const { role, points, half } of this.curves) {
      if (sum >= enough) return sum;
      const pad = half + CLEAR;
      const area = [left - pad, top - pad, right + pad, bottom + pad];
      for (let i = 1; i < points.length; i += 1) if (passes(points[i - 1], points[i], area)) { sum += COST[role]; break; }
    }
    return sum;
  }

  // What a stroke between a word and its mark would run through.
  joint(start, area) {
    const end = nearest(start, area);
    const from = [start[0] + (end[0] - start[0]) * 0.2, start[1] + (end[1] - start[1]) * 0.2];
    const words = this.words.filter((word) => passes(from, end, word)).length;
    const curves = this.curves.filter(({ points }) => points.some((point, i) => i && cross(from, end, points[i - 1], point))).length;
    return words * COST.leader + curves * 6;
  }
}

function nearest([x, y], [left, top, right, bottom]) {
  return [Math.min(right, Math.max(left, x)), Math.min(bottom, Math.max(top, y))];
}

function cross(a, b, c, d) {
  const side = (p, q, r) => (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

// A word in one row, and in two of much the same length.
function rowsOf(text) {
  const parts = text.split(" ");
  if (parts.length < 2) return [[text]];
  const cuts = parts.slice(1).map((_, i) => [parts.slice(0, i + 1).join(" "), parts.slice(i + 1).join(" ")]);
  const longest = (rows) => Math.max(...rows.map((row) => row.length));
  return [[text], cuts.reduce((a, b) => (longest(b) < longest(a) ? b : a))];
}
