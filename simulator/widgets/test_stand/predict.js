// Predict, then reveal: the class says what each reading will do before the fault is applied.

// What is to come: faults that were set before, those behind a link's code, or one by chance.
function newGame(bench, faults = [], sealed = null) {
  return { faults, taken: faults.length > 0, sealed, linked: sealed, isHidden: false, asked: bench.stand.predictable.usual[0], marks: {}, hands: {}, counts: false, result: null };
}

function predictPanel(bench, redraw, { reveal, say, asked }) {
  const { view, stand } = bench;
  if (!view.game) view.game = newGame(bench);
  const game = view.game;
  const rowOf = (name) => stand.readings.find((row) => row.name === name);
  if (game.result) return revealed(bench, game, redraw);
  const names = stand.predictable.names.filter(rowOf);
  if (!rowOf(game.asked)) game.asked = names[0];

  // The two lists stay while somebody types in them; what hangs on them is drawn below.
  const rest = el("div", {});
  const drawRest = () => {
    bench.mark("counting", game.counts); // no more controls in view than a class can follow
    replaceKeepingFocus(rest, question(bench, game, { names, rowOf, drawRest, which }));
    replaceKeepingFocus(acts, actsOf(bench, game, { names, rowOf, drawRest, which, reveal }));
    replaceKeepingFocus(said, saidBy(game, rowOf));
  };
  const acts = el("div", { class: "row acts" });
  const said = el("div", {});
  const pick = el("select", { id: "to-come", "data-key": "to-come" });
  const fillPick = () => {
    const named = game.isHidden || game.sealed ? null : game.faults[0].name;
    const fits = (fault) => fault.name === named || isFound(fault, view.find);
    pick.replaceChildren(...[game.linked && el("option", { value: LINKED }, WORDS.ofTheLink)].filter(Boolean),
      el("option", { value: CHANCE }, WORDS.byChance), ...faultOptions(offeredFaults(bench).filter(fits)));
    pick.value = game.sealed ? LINKED : game.isHidden ? CHANCE : named;
  };
  if (!game.faults.length && !game.sealed) choose(bench, game, CHANCE);
  fillPick();
  const find = finder(bench, [pick], () => pick, fillPick);
  pick.addEventListener("change", () => { choose(bench, game, pick.value); drawRest(); });
  const which = el("select", { id: "asked", "data-key": "asked" }, names.map((name) => el("option", { value: name }, rowOf(name).label)));
  which.value = game.asked;
  which.addEventListener("change", () => { game.asked = which.value; drawRest(); });
  drawRest();
  return [
    el("p", { class: "small aside" }, WORDS.predictLead),
    find,
    el("div", { class: "dial", "data-control": "to-come" }, el("label", { for: "to-come" }, WORDS.faultToCome), pick),
    el("div", { class: "dial", "data-control": "asked" }, el("label", { for: "asked" }, WORDS.asks), which),
    rest, acts, said,
    classLink(bench, game, { say, asked }),
  ];
}

function question(bench, game, { rowOf, drawRest }) {
  const others = game.isHidden || game.sealed ? [] : game.faults.slice(1);
  const nameOf = ({ name }) => bench.stand.faults.find((fault) => fault.name === name).title;
  return [
    game.sealed && el("p", { class: "small" }, WORDS.linkHides),
    game.isHidden && el("p", { class: "small" }, WORDS.isHidden),
    others.length > 0 && el("p", { class: "small" }, put(WORDS.withIt, { names: others.map(nameOf).join(", ") })),
    el("fieldset", { class: "signs", "data-control": "sign" }, el("legend", {}, put(WORDS.askFor, { label: rowOf(game.asked).label })),
      SIGNS.map((sign) => el("label", { class: `sign${game.marks[game.asked] === sign ? " chosen" : ""}` },
        el("input", { type: "radio", name: "sign", "data-key": `sign-${sign}`, checked: game.marks[game.asked] === sign, onchange: () => { game.marks[game.asked] = sign; drawRest(); } }),
        el("span", { "aria-hidden": "true" }, WORDS.marks[sign]), ` ${WORDS.signs[sign]}`))),
    el("p", { class: "small" }, put(WORDS.stays, { within: rowOf(game.asked).within })),
    game.counts && el("fieldset", { class: "hands" }, el("legend", {}, WORDS.hands), SIGNS.map((sign) => handsBox(game, sign))),
  ];
}

function actsOf(bench, game, { names, rowOf, drawRest, which, reveal }) {
  const usual = bench.stand.predictable.usual.filter(rowOf);
  const next = () => {
    const list = usual.includes(game.asked) ? usual : names;
    game.asked = list[(list.indexOf(game.asked) + 1) % list.length];
    which.value = game.asked;
    drawRest();
  };
  const count = () => {
    game.counts = true;
    drawRest();
    document.getElementById("hands-up").focus();
  };
  return [
    el("button", { "data-key": "next-reading", "data-control": "next", onclick: next }, WORDS.next),
    !game.counts && el("button", { "data-key": "count-hands", "data-control": "counts", onclick: count }, WORDS.countHands),
    el("button", { class: "main", "data-key": "reveal", "data-control": "reveal", onclick: reveal }, WORDS.reveal),
  ];
}

function saidBy(game, rowOf) {
  const marked = Object.entries(game.marks);
  return [
    el("h3", {}, WORDS.classSaid),
    marked.length ? el("ul", { class: "said" }, marked.map(([name, sign]) =>
      el("li", { "data-said": name }, el("span", { "aria-hidden": "true", class: "arrow" }, WORDS.marks[sign]), ` ${rowOf(name) ? rowOf(name).label : name}: ${WORDS.signs[sign]}`))) : el("p", { class: "small" }, WORDS.nothingSaid),
  ];
}

const SIGNS = ["up", "same", "down"];
const CHANCE = "?", LINKED = "link";

function handsBox(game, sign) {
  const held = game.hands[game.asked] || {};
  const box = el("input", { type: "number", min: 0, max: 999, step: 1, value: held[sign] || "", id: `hands-${sign}`, "data-key": `hands-${sign}` });
  box.addEventListener("input", () => {
    game.hands[game.asked] = { ...(game.hands[game.asked] || {}), [sign]: box.value };
  });
  return el("div", { "data-control": `hands-${sign}` }, el("label", { for: `hands-${sign}`, class: "small" }, WORDS.handsFor[sign]), box);
}

// By chance: any fault that would show here; there is no answer on the stand that must be kept.
function choose(bench, game, name) {
  const list = offeredFaults(bench);
  game.isHidden = name === CHANCE;
  game.taken = false;
  game.sealed = name === LINKED ? game.linked : null;
  const fault = game.isHidden ? list[Math.floor(Math.random() * list.length)] : list.find((one) => one.name === name);
  game.faults = fault ? [{ name: fault.name, severity: String(fault.typical) }] : [];
}

function revealed(bench, game, redraw) {
  const titles = game.faults.map(({ name }) => bench.stand.faults.find((one) => one.name === name).title);
  return [
    el("h3", { tabindex: "-1", id: "verdict", class: "true-fault" }, titles.join(" + ")),
    el("p", { class: "tally" }, game.result.summary),
    el("ul", { class: "verdicts", "aria-label": WORDS.verdict }, game.result.rows.map((row) =>
      el("li", { "data-verdict": row.name, class: row.agrees ? "agrees" : "differs" },
        el("span", { class: "arrow", "aria-hidden": "true" }, WORDS.marks[row.did]),
        el("div", {}, el("strong", {}, row.label), " ", el("span", { class: "small" }, WORDS.said[row.said]), row.text)))),
    el("button", { class: "main", "data-key": "again", "data-control": "again", onclick: () => { bench.view.game = newGame(bench, [], game.sealed ? null : game.linked); bench.setting.faults = []; redraw(); bench.send(); } }, WORDS.again),
  ];
}
