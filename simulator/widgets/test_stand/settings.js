// What can be set, a few things at a time, under five names.

const TABS = ["fault", "weather", "house", "unit", "predict"];
const NUMBERS = {
  outdoor: (n, metric) => (metric ? (n - 32) / 1.8 : n * 1.8 + 32),
  altitude: (n, metric) => (metric ? n * 0.3048 : n / 0.3048),
};
for (const key of ["outdoor_wb", "return_db", "return_wb"]) NUMBERS[key] = NUMBERS.outdoor;

// Whether anything here would show the fault.
function isOffered(fault, bench) {
  const { setting, stand } = bench;
  const areOn = setting.strips !== "off" || setting.faults.some((chosen) => chosen && chosen.name === "strips_on");
  const met = { "": true, strips: areOn, two_zones: stand.zones === 2 };
  return met[fault.needs] && !(fault.name in stand.unfit);
}

function offeredFaults(bench) {
  return bench.stand.faults.filter((fault) => isOffered(fault, bench));
}

function faultOptions(list, chosen) {
  return [...new Set(list.map((fault) => fault.family))].map((family) =>
    el("optgroup", { label: family }, list.filter((fault) => fault.family === family).map((fault) =>
      el("option", { value: fault.name, selected: chosen === fault.name }, fault.title))));
}

const plain = (text) => text.normalize("NFD").replaceAll(/[\u0300-\u036f]/g, "").toLowerCase();

// Found by its name, its family, what it does or what people call it: by how the words begin.
function isFound(fault, asked) {
  const wordsOf = (text) => plain(text).split(/[^\p{L}\p{N}]+/u).filter(Boolean);
  const said = wordsOf(asked);
  return [fault.title, fault.family, ...fault.words].some((phrase) => {
    const heard = wordsOf(phrase);
    return said.every((word) => heard.some((other) => other.startsWith(word)));
  });
}

const LONGEST_LIST = "13rem";

// Once something is asked for, a list stands open with what fits, until one is taken from it or
// the keyboard leaves it.
function finder(bench, lists, target, refill) {
  const { view } = bench;
  const told = el("p", { class: "small told", role: "status" });
  const box = el("input", { type: "search", id: "find", value: view.find, placeholder: WORDS.findHint, autocomplete: "off", "data-key": "find" });
  const open = () => lists.some((list) => list.hasAttribute("size"));
  const fold = () => lists.forEach((list) => {
    list.removeAttribute("size");
    list.style.height = "";
  });
  const take = () => {
    if (!open()) return;
    fold();
    told.textContent = "";
  };
  const show = () => {
    const list = target();
    fold();
    const n = offeredFaults(bench).filter((fault) => isFound(fault, view.find)).length;
    told.textContent = !view.find ? "" : n ? counted(WORDS.fits, n) : WORDS.noneFits;
    if (!view.find || !n) return;
    list.setAttribute("size", "2"); // as tall as what is in it, where a name takes two rows too
    requestAnimationFrame(() => { if (list.hasAttribute("size")) list.style.height = `min(${list.scrollHeight + 4}px, ${LONGEST_LIST})`; });
  };
  box.addEventListener("input", () => { view.find = box.value.trim(); refill(); show(); });
  box.addEventListener("keydown", (event) => {
    if (!["Enter", "ArrowDown"].includes(event.key) || !open()) return;
    event.preventDefault();
    target().focus();
  });
  for (const list of lists) {
    list.addEventListener("click", (event) => { if (event.detail && list.value) take(); });
    list.addEventListener("keydown", (event) => { if (["Enter", "Escape"].includes(event.key)) take(); });
    list.addEventListener("blur", () => { if (list.value && list.value !== CHANCE) take(); });
  }
  show();
  return el("div", { class: "dial find", "data-control": "find" }, el("label", { for: "find" }, WORDS.find), box, told);
}

function tabList(bench, redraw) {
  const { view } = bench;
  const show = (name) => { view.tab = name; redraw(); };
  const turn = (event) => {
    const by = { ArrowRight: 1, ArrowLeft: -1, Home: -TABS.length, End: TABS.length }[event.key];
    if (!by) return;
    event.preventDefault();
    const at = TABS.indexOf(view.tab) + by;
    const next = Math.abs(by) > 1 ? (by > 0 ? TABS.length - 1 : 0) : (at + TABS.length) % TABS.length;
    show(TABS[next]);
    document.getElementById(`tab-${TABS[next]}`).focus();
  };
  return el("div", { class: "tabs", role: "tablist", "aria-label": WORDS.tabList, onkeydown: turn },
    TABS.map((name) => el("button", {
      id: `tab-${name}`, role: "tab", "data-key": `tab-${name}`, "aria-controls": "tab-panel",
      "aria-selected": view.tab === name ? "true" : "false", tabindex: view.tab === name ? "0" : "-1", onclick: () => show(name),
    }, WORDS.tabs[name])));
}

function settingsPanel(bench, redraw) {
  const { setting, stand, send, view } = bench;

  function dial(key) {
    const limits = stand.limits[key];
    const range = el("input", { type: "range", min: limits.low, max: limits.high, step: limits.step, value: setting[key], id: `d-${key}`, "data-key": `range-${key}`, "data-knob": key });
    const box = el("input", { type: "number", step: "any", value: setting[key], "aria-label": `${WORDS[key]}, ${limits.unit}`, "data-key": `box-${key}` });
    range.addEventListener("input", () => { setting[key] = range.value; box.value = range.value; send(); });
    box.addEventListener("change", () => { setting[key] = box.value; range.value = box.value; send(); });
    return el("div", { class: "dial", "data-control": key }, el("label", { for: `d-${key}` }, WORDS[key]), range,
      el("span", { class: "entry" }, box, el("span", { class: "unit" }, limits.unit)));
  }

  // Left empty it follows the outdoor air, so it has no slider.
  function outdoorWetBulb() {
    const box = el("input", { type: "number", step: "any", value: setting.outdoor_wb, id: "d-outdoor_wb", placeholder: WORDS.usual, "data-key": "box-outdoor_wb" });
    box.addEventListener("change", () => { setting.outdoor_wb = box.value; send(); });
    return el("div", { class: "dial", "data-control": "outdoor_wb" }, el("label", { for: "d-outdoor_wb" }, `${WORDS.outdoor_wb}, ${stand.limits.outdoor_wb.unit}`),
      el("span", { class: "entry wide" }, box));
  }

  const motorsOf = (unit) => stand.choices.motor[unit] ?? [];

  function choice(key, words) {
    const select = el("select", { id: `c-${key}`, "data-key": `choice-${key}` },
      words.map((word) => el("option", { value: word, selected: setting[key] === word }, (key === "unit" && stand.choices.unit_names[word]) || wordFor(key, word))));
    select.value = setting[key];
    select.addEventListener("change", () => {
      setting[key] = select.value;
      if (key === "house") setting.zone_call = "both"; // the next house may have one zone
      if (key === "unit" && !motorsOf(setting.unit).includes(setting.motor)) setting.motor = "";
      send();
    });
    return el("div", { class: "dial", "data-control": key }, el("label", { for: `c-${key}` }, WORDS[key]), select);
  }

  // A list is not made anew while somebody types in it: it would forget the letters typed.
  const lists = [], details = [];

  // What is asked for is looked for in the first list; with a fault in it that does not fit, in the second.
  function asked() {
    const first = setting.faults[0] && stand.faults.find((fault) => fault.name === setting.faults[0].name);
    return first && !isFound(first, view.find) ? 1 : 0;
  }

  function fillList(slot) {
    const chosen = setting.faults[slot], other = setting.faults[1 - slot];
    const find = slot === asked() ? view.find : "";
    const offered = offeredFaults(bench).filter((fault) => (!other || fault.name !== other.name)
      && ((chosen && chosen.name === fault.name) || isFound(fault, find)));
    lists[slot].replaceChildren(el("option", { value: "" }, WORDS.none), ...faultOptions(offered, chosen && chosen.name));
    lists[slot].value = chosen ? chosen.name : ""; // a browser may remember what an earlier page had
  }

  function fillDetail(slot) {
    const chosen = setting.faults[slot];
    const kind = chosen && stand.faults.find((fault) => fault.name === chosen.name);
    details[slot].replaceChildren(...(kind ? [kind.whole ? el("p", { class: "small" }, WORDS.isWhole) : severityDial(slot, kind, chosen)] : []));
  }

  function faultDial(slot) {
    lists[slot] = el("select", { id: `fault-${slot}`, "data-key": `fault-${slot}` });
    details[slot] = el("div", {});
    fillList(slot);
    fillDetail(slot);
    lists[slot].addEventListener("change", () => {
      const next = stand.faults.find((fault) => fault.name === lists[slot].value);
      setting.faults[slot] = next ? { name: next.name, severity: String(next.typical) } : null;
      fillDetail(slot);
      fillList(1 - slot);
      send();
    });
    return [el("div", { class: "dial", "data-control": `fault-${slot}` }, el("label", { for: `fault-${slot}` }, WORDS.fault[slot]), lists[slot]), details[slot]];
  }

  function faults() {
    const dials = [faultDial(0), faultDial(1)];
    return [finder(bench, lists, () => lists[asked()], () => { fillList(0); fillList(1); }), dials];
  }

  function severityDial(slot, kind, chosen) {
    const range = el("input", { type: "range", min: 0, max: kind.high, step: kind.step, value: chosen.severity, id: `sev-${slot}`, "data-key": `sev-range-${slot}` });
    const box = el("input", { type: "number", min: 0, max: kind.high, step: "any", value: chosen.severity, "aria-label": `${WORDS.severity}, ${kind.title}, ${kind.unit}`, "data-key": `sev-box-${slot}` });
    range.addEventListener("input", () => { chosen.severity = range.value; box.value = range.value; send(); });
    box.addEventListener("change", () => { chosen.severity = box.value; range.value = box.value; send(); });
    return el("div", { class: "dial", "data-control": `severity-${slot}` }, el("label", { for: `sev-${slot}`, class: "small" }, kind.measure), range,
      el("span", { class: "entry" }, box, el("span", { class: "unit" }, kind.unit)));
  }

  function needs() {
    const missing = stand.faults.filter((fault) => fault.needs && !isOffered(fault, bench));
    const seen = missing.filter((fault) => setting.mode === "heating" || fault.modes.includes("cooling"));
    return seen.map((fault) => el("p", { class: "small aside" }, WORDS.needs[fault.needs]));
  }

  const panels = {
    fault: () => [...faults(), needs(),
      el("div", { class: "row" }, el("button", { "data-key": "healthy", "data-control": "healthy", onclick: () => { setting.faults = []; redraw(); send(); } }, WORDS.healthyUnit))],
    weather: () => [
      el("fieldset", { class: "modes", "data-control": "mode" }, el("legend", {}, WORDS.mode), stand.choices.mode.map((mode) => el("label", { class: "check" },
        el("input", { type: "radio", name: "mode", checked: setting.mode === mode, "data-key": `mode-${mode}`, onchange: () => setMode(bench, mode, redraw) }), wordFor("mode", mode)))),
      dial("outdoor"), dial("return_db"), dial("return_wb"), outdoorWetBulb()],
    house: () => [
      choice("house", stand.choices.house), choice("zone", ["", ...stand.choices.zone]),
      stand.zones === 2 && choice("zone_call", stand.choices.zone_call),
      setting.mode === "heating" && choice("strips", stand.choices.strips),
      dial("airflow"), el("p", { class: "small aside" }, WORDS.blowerMovesBoth), dial("altitude")],
    unit: () => [
      choice("unit", stand.choices.unit), choice("refrigerant", ["", ...stand.choices.refrigerant]),
      choice("metering", ["", "txv", "orifice"]), choice("motor", ["", ...motorsOf(setting.unit)]),
      choice("gauges", ["", ...stand.choices.gauges])],
  };
  return panels[bench.view.tab]();
}

function setMode(bench, mode, redraw) {
  const { setting, stand } = bench;
  Object.assign(setting, stand.usual[mode], { mode, outdoor_wb: "" });
  if (mode !== "heating") setting.strips = "off";
  redraw();
  bench.send();
}

function setUnits(bench, units) {
  const { setting, view } = bench;
  const now = {};
  for (const [key, turn] of Object.entries(NUMBERS)) {
    const text = setting[key];
    // What the number was in the other units, to go back without rounding.
    const back = view.left && view.left.now[key] === text ? view.left.before[key] : null;
    const number = Number(text);
    const digits = key === "altitude" ? 0 : 1;
    now[key] = back ?? (text === "" || !Number.isFinite(number) ? text : String(Number(turn(number, units === "si").toFixed(digits))));
  }
  view.left = { before: Object.fromEntries(Object.keys(NUMBERS).map((key) => [key, setting[key]])), now };
  Object.assign(setting, now, { units });
  bench.send();
}
