// Where everything of a house stands on its section drawing, from the house's own data.

const WIDE = { w: 720, left: 24, right: 540, ridge: 20, garage: 132, closet: 72, gap: 68, unit: 76 };
const NARROW = { w: 360, left: 10, right: 264, ridge: 30, garage: 76, closet: 58, gap: 22, unit: 60 };
const BELOW = ["crawl_space", "basement"];

function layOut(house, isNarrow) {
  const page = isNarrow ? NARROW : WIDE;
  const spaces = [house.supply_space, house.return_space, house.air_handler];
  const cellar = BELOW.find((kind) => spaces.includes(kind)) || null;
  const isFlat = spaces.includes("ceiling");
  // On a phone a crawl space that holds the air handler is drawn deep enough for its name.
  const isDeep = isNarrow && house.air_handler === "crawl_space";
  const lift = isFlat ? 30 : 0; // no roof to make room for
  const floor = (cellar === "basement" ? 256 : isDeep ? 280 : cellar ? 296 : 326) - lift;
  const deep = cellar ? (cellar === "basement" ? 384 : isDeep ? 380 : 360) - lift : floor;
  const ceiling = isFlat ? 118 - lift : cellar === "basement" ? 106 : 128;
  const side = spaces.includes("garage") ? page.garage : house.air_handler === "closet" ? page.closet : 0;
  const roomsRight = page.right - side;
  const { left, right } = page;
  const width = (roomsRight - left) / house.rooms.length;
  const rooms = house.rooms.map((zone, i) => ({ zone, x0: left + i * width, x1: left + (i + 1) * width }));
  const from = { ...page, h: deep + 18, cellar, isFlat, floor, deep, ceiling, side, roomsRight, rooms, isNarrow };
  const handler = airHandler(house, from);
  const isUnder = BELOW.includes(house.supply_space);
  const trunkY = isUnder && handler.isUpright ? floor + 18 : !isUnder && (handler.isUpright || isFlat) ? ceiling - 16 : handler.y + handler.h / 2;
  const trunk = supplyTrunk(handler, trunkY, rooms[0]);
  const back = returnDuct(house, from, handler);
  const outdoor = { x: right + page.gap, y: floor - page.unit, w: page.unit, h: page.unit };
  return { ...from, handler, isUnder, trunkY, trunk, back, outdoor, pipes: pipes(from, handler, outdoor) };
}

function airHandler(house, at) {
  const { right, floor, deep, ceiling } = at;
  if (house.is_upright) {
    const isBelow = house.air_handler === "basement";
    const x = isBelow ? right - 120 : right - at.side / 2 - 23 + (at.isNarrow ? 6 : 12);
    const foot = isBelow ? deep : floor - 22;
    return { x, y: foot - 88, w: 46, h: 88, foot, isUpright: true };
  }
  const y = house.air_handler === "crawl_space" ? (at.isNarrow ? deep - 40 : (floor + deep) / 2 - 17) : ceiling - 44;
  return { x: right - (at.isNarrow ? 150 : 230), y, w: at.isNarrow ? 66 : 92, h: 36, foot: y + 36, isUpright: false };
}

function supplyTrunk(handler, trunkY, far) {
  const end = (far.x0 + far.x1) / 2;
  if (!handler.isUpright) return [[handler.x, trunkY], [end, trunkY]];
  const x = handler.x + handler.w / 2;
  return [[x, trunkY < handler.y ? handler.y : handler.foot], [x, trunkY], [end, trunkY]];
}

function returnDuct(house, at, handler) {
  const { floor, ceiling } = at;
  if (handler.isUpright && house.air_handler !== "basement") {
    // A grille in the wall between rooms and closet, a boxed platform under the air handler.
    const y = floor - 11;
    return { grille: { x: at.roomsRight, y: floor - 24, isWall: true }, path: [[at.roomsRight, y], [handler.x + handler.w / 2, y], [handler.x + handler.w / 2, handler.foot]] };
  }
  const x = Math.min(handler.x + handler.w + (at.isNarrow ? 30 : 48), at.roomsRight - 16);
  if (handler.isUpright) {
    const y = handler.foot - 14;
    return { grille: { x, y: floor, isWall: false }, path: [[x, floor], [x, y], [handler.x + handler.w, y]] };
  }
  const middle = handler.y + handler.h / 2;
  const opening = house.air_handler === "crawl_space" ? floor : ceiling;
  return { grille: { x, y: opening, isWall: false }, path: [[x, opening], [x, middle], [handler.x + handler.w, middle]] };
}

// The large and the small pipe, along the outside wall and in to the coil.
function pipes(at, handler, outdoor) {
  const inAttic = !handler.isUpright && handler.y < at.ceiling;
  const way = (low, wall, coil, end) => [
    [outdoor.x, outdoor.y + outdoor.h - low], [at.right + wall, outdoor.y + outdoor.h - low],
    [at.right + wall, coil],
    ...(handler.isUpright
      ? [[handler.x + handler.w, coil]]
      : [[handler.x + handler.w - end, coil], [handler.x + handler.w - end, inAttic ? handler.y + handler.h : handler.y]]),
  ];
  // Into an attic they come under the eave and along its floor.
  const coil = handler.isUpright ? handler.y + 16 : inAttic ? at.ceiling - 4 : handler.y - 8;
  return { large: way(24, 14, coil, 14), small: way(14, 7, coil + (handler.isUpright ? 10 : inAttic ? 1 : -6), 24) };
}

// Where the eight places are pressed.
function spots(house, at) {
  const { floor, ceiling, left, right, handler, outdoor, back, rooms } = at;
  const n = at.isNarrow;
  const isCloset = handler.isUpright && house.air_handler !== "basement";
  const first = rooms[0].x0;
  const atticY = at.isFlat ? ceiling - 54 : house.air_handler === "attic" ? at.ridge + (n ? 20 : 34) : (at.ridge + ceiling) / 2 - 2;
  const isCrawling = !handler.isUpright && at.isUnder;
  const zoneY = isCrawling && n ? floor + 26 : at.cellar === "basement" ? at.deep - 44 : at.deep - 14;
  const zone = at.isUnder ? [left + (n ? 42 : 90), zoneY] : [(left + right) / 2 - (n ? 20 : 60), atticY];
  const inside = Math.min(handler.x + handler.w / 2, right - (n ? 44 : 54));
  const panelY = n ? Math.min(ceiling + 30, outdoor.y - 104) : Math.min(ceiling, outdoor.y - 122);
  return {
    zone,
    registers: at.isUnder ? [n ? first + (isCloset ? 75 : 82) : rooms[1].x1, floor - (n ? 34 : 20)] : [first + (n ? 50 : 80), ceiling + (n ? 24 : 30)],
    customer: n ? [first + (at.isUnder ? 50 : 82), floor - (at.isUnder ? 66 : 12)] : [first + 74, floor - (at.isUnder ? 92 : 80)],
    thermostat: n
      ? [isCloset ? right - 142 : at.roomsRight - 56, ceiling + (at.isUnder ? 42 : isCloset ? 76 : 102)]
      : [at.roomsRight - (at.cellar === "basement" ? 160 : 132), ceiling + (at.cellar === "basement" ? 40 : house.air_handler === "attic" ? 110 : 64)],
    return_grille: isCloset
      ? [back.grille.x - (n ? 33 : 66), floor - (n ? 66 : 26)]
      : [Math.min(back.grille.x + (n || back.grille.y === floor ? 0 : 24), right - (n ? 40 : 66)), back.grille.y === floor ? floor - (n ? 36 : at.cellar === "basement" ? 50 : 24) : ceiling + (n ? 30 : 26)],
    air_handler: [inside, handler.isUpright ? handler.y - (at.cellar === "basement" ? (n ? 22 : 8) : n ? 36 : 24) : at.isUnder ? (n ? handler.y - 38 : at.deep + 8) : handler.y + handler.h / 2],
    electrical_panel: [right + (n ? 55 : 64), panelY],
    outdoor_unit: [outdoor.x + outdoor.w / 2 - (n ? 2 : 0), outdoor.y - (n ? 52 : 40)],
  };
}
