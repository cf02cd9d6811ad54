// Names, and what was read there, keep clear of each other: letters do not shrink with a drawing.

const CLEAR = 3; // px between two of them
const ROUNDS = 80;
const STUCK = 16; // rounds after which every fourth goes the longer way round

function keepClear(site) {
  const frame = site.getBoundingClientRect();
  const rest = { left: 0, top: 0, right: frame.width, bottom: frame.height };
  const places = [...site.querySelectorAll(".place")];
  for (const node of places) for (const way of ["--dx", "--dy"]) node.style.removeProperty(way);
  const body = (node, parts) => ({ node, x: 0, y: 0, parts: parts.map((part) => boxIn(frame, part)).filter((box) => box.right > box.left) });
  const names = places.map((node) => body(node, [...node.querySelectorAll("button, .tag")]));
  const things = [...site.querySelectorAll("[data-thing]")].map((node) => body(null, [node]));
  for (let round = 0; round < ROUNDS && pushAll(names, things, round > STUCK && round % 4 === 0); round += 1) {
    for (const one of names) keepIn(one, rest);
  }
  for (const { node, x, y } of names) {
    if (x) node.style.setProperty("--dx", `${x}px`);
    if (y) node.style.setProperty("--dy", `${y}px`);
  }
}

function boxIn(frame, part) {
  const { left, right, top, bottom } = part.getBoundingClientRect();
  return { left: left - frame.left, right: right - frame.left, top: top - frame.top, bottom: bottom - frame.top };
}

// Two names share the way; a thing of the house stays where it is.
function pushAll(names, things, isRoundabout) {
  let isMoved = false;
  names.forEach((one, i) => {
    for (const other of [...names.slice(i + 1), ...things]) {
      const push = overlap(one, other, isRoundabout);
      if (!push) continue;
      isMoved = true;
      const share = other.node ? 0.5 : 1;
      shift(one, -push.x * share, -push.y * share);
      if (other.node) shift(other, push.x / 2, push.y / 2);
    }
  });
  return isMoved;
}

// The shortest way out of the deepest overlap, as the second one would go.
function overlap(one, other, isRoundabout) {
  let deepest = null;
  for (const a of one.parts) {
    for (const b of other.parts) {
      const x = Math.min(a.right, b.right) - Math.max(a.left, b.left) + CLEAR;
      const y = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) + CLEAR;
      const depth = Math.min(x, y);
      if (depth <= 0.5 || (deepest && depth <= deepest.depth)) continue;
      const isAcross = x < y !== isRoundabout;
      const isAfter = isAcross ? a.left + a.right <= b.left + b.right : a.top + a.bottom <= b.top + b.bottom;
      const way = (isAcross ? x : y) * (isAfter ? 1 : -1);
      deepest = { depth, x: isAcross ? way : 0, y: isAcross ? 0 : way };
    }
  }
  return deepest;
}

function shift(body, x, y) {
  body.x += x;
  body.y += y;
  for (const box of body.parts) { box.left += x; box.right += x; box.top += y; box.bottom += y; }
}

function keepIn(body, rest) {
  const left = Math.min(...body.parts.map((box) => box.left)), right = Math.max(...body.parts.map((box) => box.right));
  const top = Math.min(...body.parts.map((box) => box.top)), bottom = Math.max(...body.parts.map((box) => box.bottom));
  shift(body, Math.max(0, rest.left - left) || Math.min(0, rest.right - right), Math.max(0, rest.top - top) || Math.min(0, rest.bottom - bottom));
}
