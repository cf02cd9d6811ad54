// The test stand: settings go out latest only, answers are painted as they come.

const DEFAULTS = {
  mode: "cooling", unit: "quail_36", refrigerant: "", metering: "", motor: "", zone: "attic",
  outdoor: "95", outdoor_wb: "", return_db: "80", return_wb: "67", airflow: "100", altitude: "0",
  units: "us",
};
const LARGE_KEY = "benchcall-projector";

function render({ model, el: host }) {
  const line = new Line(model);
  const setting = { ...DEFAULTS, faults: [] };
  const given = settingFromAddress(setting);
  const view = {
    chart: CHART_NAMES.includes(given.get("chart")) ? given.get("chart") : "cycle",
    game: null, isHidden: false, isLarge: recall(LARGE_KEY) === "yes", refused: "",
  };
  let stand = null;
  let drawn = ""; // mode and units whose limits the controls show
  let left = null; // what the numbers were in the other units, to go back without rounding
  let inFlight = false;
  let waiting = false;
  const root = el("div", { class: "bench stand" });
  const notice = el("p", { class: "notice", role: "status", "aria-live": "polite" });
  const controls = el("section", { "aria-labelledby": "h-set" });
  const readings = el("section", { "aria-labelledby": "h-show" });
  const meaning = el("div", {});
  const bill = el("section", { "aria-labelledby": "h-bill" }, el("h3", { id: "h-bill" }, WORDS.bill));
  const tools = el("div", { class: "row tools" });
  root.classList.toggle("projector", view.isLarge);
  root.append(
    el("header", {}, el("div", {}, el("h1", {}, WORDS.title), el("p", { class: "lead" }, WORDS.lead)), tools), notice,
    el("div", { class: "stand-grid" }, controls, readings,
      el("section", { "aria-labelledby": "h-means" }, meaning, bill)));
  host.append(root);

  const message = (what) => ({ do: what, ...setting, faults: setting.faults.filter((f) => f && f.name) });

  // A day in the house takes longer than a slider may, so it is asked for at rest.
  const REST = 400; // ms
  let resting = null;

  function billLater() {
    bill.classList.add("stale");
    clearTimeout(resting);
    resting = setTimeout(async () => {
      const mine = resting;
      const answer = await line.ask(message("bill"));
      if (mine !== resting) return; // the setting has moved on
      if (!answer.bill) return; // what is wrong with the setting stands above; the old bill stays dim
      replaceKeepingFocus(bill, billTable(answer.bill));
      bill.classList.remove("stale");
      if (view.chart !== "cycle") drawChart();
    }, REST);
  }

  // The cycle comes with every answer; the others are asked for when they are looked at.
  const figure = el("div", { class: "figure" });
  async function drawChart() {
    const name = view.chart;
    if (name === "cycle") { replaceKeepingFocus(figure, cycleChart(stand.chart)); return; }
    const answer = await line.ask({ ...message("chart"), chart: name });
    if (name !== view.chart || !answer.chart) return;
    replaceKeepingFocus(figure, MORE_CHARTS[name](answer.chart));
  }

  function drawTools() {
    const toggle = (key, word, isOn, onclick) => el("button", { "data-key": key, "aria-pressed": isOn ? "true" : "false", onclick }, word);
    replaceKeepingFocus(tools, [
      toggle("predict", WORDS.predict, Boolean(view.game), () => { view.game = view.game ? null : { marks: {}, isRevealed: false }; if (!view.game) view.isHidden = false; redraw(); }),
      el("button", { "data-key": "random", onclick: anyFault }, WORDS.random),
      toggle("projector", WORDS.projector, view.isLarge, () => {
        view.isLarge = !view.isLarge;
        keep(LARGE_KEY, view.isLarge ? "yes" : "no");
        root.classList.toggle("projector", view.isLarge);
        drawTools();
      }),
      el("button", { "data-key": "link", onclick: copyLink }, WORDS.copyLink),
    ]);
  }

  async function copyLink() {
    const address = addressOf(setting, view.chart);
    window.history.replaceState(null, "", address);
    try { await navigator.clipboard.writeText(address); notice.textContent = WORDS.copied; } catch { notice.textContent = WORDS.inBar; }
  }

  // One fault, chosen by chance and kept from the class until the reveal.
  function anyFault() {
    const list = offered(setting.mode);
    const one = list[Math.floor(Math.random() * list.length)];
    setting.faults = [{ name: one.name, severity: String(one.typical) }];
    view.game = { marks: {}, isRevealed: false };
    view.isHidden = true;
    redraw();
    send();
  }

  function redraw() {
    drawControls();
    drawTools();
    paint();
  }

  async function send() {
    billLater();
    if (inFlight) { waiting = true; return; }
    inFlight = true;
    const kind = `${setting.mode} ${setting.units}`;
    const answer = await line.ask(message("set"));
    inFlight = false;
    if (!stand && answer.problem && !view.refused) {
      // An address that asks for what there is not: say so, and start from the usual.
      view.refused = answer.problem;
      Object.assign(setting, DEFAULTS, { faults: [] });
      send();
      return;
    }
    if (answer.stand) {
      stand = answer.stand;
      if (kind !== drawn) {
        drawn = kind;
        drawControls();
        drawTools();
      }
      paint();
    }
    // What stands there belongs to an earlier setting for as long as a sentence says so.
    for (const part of [readings, meaning]) part.classList.toggle("stale", !answer.stand);
    const isSecret = view.game && !view.game.isRevealed;
    notice.textContent = answer.problem || view.refused || (stand && !isSecret ? stand.state_text : "");
    notice.classList.toggle("problem", Boolean(answer.problem || view.refused) || Boolean(stand && !isSecret && stand.state !== "running"));
    if (view.refused !== "" && view.refused !== " ") view.refused = " ";
    root.dataset.ready = "true";
    root.dataset.answered = String(Number(root.dataset.answered || 0) + 1);
    if (waiting) { waiting = false; send(); }
  }

  function dial(key) {
    const limits = stand.limits[key];
    const name = `${WORDS[key]}, ${limits.unit}`;
    const range = el("input", { type: "range", min: limits.low, max: limits.high, step: limits.step, value: setting[key], id: `d-${key}`, "data-key": `range-${key}`, "data-knob": key });
    const box = el("input", { type: "number", step: "any", value: setting[key], "aria-label": name, "data-key": `box-${key}` });
    range.addEventListener("input", () => { setting[key] = range.value; box.value = range.value; send(); });
    box.addEventListener("change", () => { setting[key] = box.value; range.value = box.value; send(); });
    return el("div", { class: "dial" }, el("label", { for: `d-${key}` }, WORDS[key]), range,
      el("span", { class: "entry" }, box, el("span", { class: "unit" }, limits.unit)));
  }

  // Left empty it follows the outdoor air, so it has no slider.
  function outdoorWetBulb() {
    const box = el("input", { type: "number", step: "any", value: setting.outdoor_wb, id: "d-outdoor_wb", placeholder: WORDS.usual, "data-key": "box-outdoor_wb" });
    box.addEventListener("change", () => { setting.outdoor_wb = box.value; send(); });
    return el("div", { class: "dial" }, el("label", { for: "d-outdoor_wb" }, `${WORDS.outdoor_wb}, ${stand.limits.outdoor_wb.unit}`),
      el("span", { class: "entry wide" }, box));
  }

  function choice(key, words) {
    const select = el("select", { id: `c-${key}`, "data-key": `choice-${key}` },
      words.map((word) => el("option", { value: word, selected: setting[key] === word }, wordFor(key, word))));
    select.addEventListener("change", () => { setting[key] = select.value; send(); });
    return el("div", { class: "dial" }, el("label", { for: `c-${key}` }, WORDS[key]), select);
  }

  function setMode(mode) {
    Object.assign(setting, stand.usual[mode], { mode, outdoor_wb: "" });
    setting.faults = setting.faults.map((chosen) => (chosen && offered(mode).some((f) => f.name === chosen.name) ? chosen : null));
    send();
  }

  const NUMBERS = {
    outdoor: (n, metric) => (metric ? (n - 32) / 1.8 : n * 1.8 + 32),
    altitude: (n, metric) => (metric ? n * 0.3048 : n / 0.3048),
  };
  for (const key of ["outdoor_wb", "return_db", "return_wb"]) NUMBERS[key] = NUMBERS.outdoor;

  function setUnits(units) {
    const now = {};
    for (const [key, turn] of Object.entries(NUMBERS)) {
      const text = setting[key];
      const back = left && left.now[key] === text ? left.before[key] : null;
      const number = Number(text);
      const digits = key === "altitude" ? 0 : 1;
      now[key] = back ?? (text === "" || !Number.isFinite(number) ? text : String(Number(turn(number, units === "si").toFixed(digits))));
    }
    left = { before: Object.fromEntries(Object.keys(NUMBERS).map((key) => [key, setting[key]])), now };
    Object.assign(setting, now, { units });
    send();
  }

  // A fault that only winter shows is not offered in summer.
  function offered(mode) {
    return stand.faults.filter((f) => mode === "heating" || f.modes.includes(mode));
  }

  function faultDial(slot) {
    const chosen = setting.faults[slot];
    const kind = chosen && stand.faults.find((f) => f.name === chosen.name);
    const other = setting.faults[1 - slot];
    const list = offered(setting.mode).filter((f) => !other || f.name !== other.name);
    const select = el("select", { id: `fault-${slot}`, "data-key": `fault-${slot}` },
      el("option", { value: "", selected: !kind }, WORDS.none),
      [...new Set(list.map((f) => f.family))].map((family) =>
        el("optgroup", { label: family }, list.filter((f) => f.family === family).map((f) =>
          el("option", { value: f.name, selected: chosen && chosen.name === f.name }, f.title)))));
    if (!kind) select.value = ""; // a browser may remember what an earlier page had
    select.addEventListener("change", () => {
      const next = stand.faults.find((f) => f.name === select.value);
      setting.faults[slot] = next ? { name: next.name, severity: String(next.typical) } : null;
      drawControls();
      send();
    });
    if (view.isHidden && slot === 0) return el("div", { class: "dial fault" }, el("p", {}, `${WORDS.fault(slot)}: ${WORDS.hidden}`));
    const parts = [el("label", { for: `fault-${slot}` }, WORDS.fault(slot)), select];
    if (kind) {
      const range = el("input", { type: "range", min: 0, max: kind.high, step: kind.step, value: chosen.severity, id: `sev-${slot}`, "data-key": `sev-range-${slot}` });
      const box = el("input", { type: "number", min: 0, max: kind.high, step: kind.step, value: chosen.severity, "aria-label": `${WORDS.severity}, ${kind.title}, ${kind.unit}`, "data-key": `sev-box-${slot}` });
      range.addEventListener("input", () => { chosen.severity = range.value; box.value = range.value; send(); });
      box.addEventListener("change", () => { chosen.severity = box.value; range.value = box.value; send(); });
      parts.push(el("label", { for: `sev-${slot}`, class: "small" }, kind.measure), range,
        el("span", { class: "entry" }, box, el("span", { class: "unit" }, kind.unit)));
    }
    return el("div", { class: "dial fault" }, parts);
  }

  function drawControls() {
    const pick = (mode) => el("label", { class: "check" },
      el("input", { type: "radio", name: "mode", checked: setting.mode === mode, "data-key": `mode-${mode}`, onchange: () => setMode(mode) }), wordFor("mode", mode));
    const wet = setting.mode === "heating" ? null : dial("return_wb");
    replaceKeepingFocus(controls, [
      el("h2", { id: "h-set" }, WORDS.set),
      el("fieldset", { class: "modes" }, el("legend", {}, WORDS.mode), stand.choices.mode.map(pick)),
      faultDial(0), faultDial(1),
      dial("outdoor"), dial("return_db"), wet, dial("airflow"),
      el("details", { "data-keep": "more" },
        el("summary", { "data-key": "more" }, WORDS.more),
        choice("unit", stand.choices.unit),
        choice("refrigerant", ["", ...stand.choices.refrigerant]),
        choice("metering", ["", "txv", "orifice"]),
        choice("motor", ["", ...stand.choices.motor]),
        choice("zone", stand.choices.zone),
        outdoorWetBulb(), wet ? null : dial("return_wb"), dial("altitude")),
      el("div", { class: "row" },
        el("button", { "data-key": "healthy", onclick: () => { setting.faults = []; view.isHidden = false; drawControls(); send(); } }, WORDS.healthyUnit),
        el("button", {
          "data-key": "units", "aria-pressed": setting.units === "si" ? "true" : "false",
          onclick: () => setUnits(setting.units === "us" ? "si" : "us"),
        }, WORDS.metric)),
    ]);
  }

  // Rows are made once and then changed in place: quick, and the eye keeps its line.
  const rows = new Map();

  function makeRows() {
    rows.clear();
    const groups = [...new Set(stand.readings.map((row) => row.group))];
    replaceKeepingFocus(readings, [
      el("h2", { id: "h-show" }, WORDS.show),
      groups.map((group) => el("div", { class: "group" },
        el("h3", { class: group === "Low side" ? "low" : group === "High side" ? "high" : "" }, group),
        el("ul", {}, stand.readings.filter((row) => row.group === group).map(makeRow)))),
    ]);
  }

  function makeRow(row) {
    const parts = {
      ghost: el("i", { class: "ghost" }), mark: el("i", { class: "mark" }), value: el("span", {}),
      unit: el("span", { class: "unit" }), difference: el("span", { class: "small difference" }),
    };
    parts.item = el("li", { "data-reading": row.name },
      el("span", { class: "label" }, row.label),
      el("span", { class: "scale", "aria-hidden": "true" }, parts.ghost, parts.mark),
      el("span", { class: "value" }, parts.value, " ", parts.unit), parts.difference);
    rows.set(row.name, parts);
    return parts.item;
  }

  const game = {
    redraw: () => paint(),
    reveal: () => { view.game.isRevealed = true; view.isHidden = false; redraw(); },
    stop: () => { view.game = null; view.isHidden = false; redraw(); },
  };

  function paint() {
    const isSecret = Boolean(view.game && !view.game.isRevealed);
    root.classList.toggle("secret", isSecret);
    if (isSecret) {
      rows.clear();
      replaceKeepingFocus(readings, predictPanel(stand, setting, view.game, game));
      return;
    }
    if ([...rows.keys()].join() !== stand.readings.map((row) => row.name).join()) makeRows();
    for (const row of stand.readings) {
      const parts = rows.get(row.name);
      const at = (value) => `${Math.min(100, Math.max(0, (100 * (value - row.low)) / (row.high - row.low)))}%`;
      parts.ghost.style.left = at(row.healthy_number);
      parts.mark.style.left = at(row.now_number);
      parts.item.classList.toggle("moved", Boolean(row.difference));
      for (const [part, text] of [["value", row.now], ["unit", row.unit], ["difference", row.difference ? `${row.difference} (${row.healthy})` : WORDS.same]]) {
        if (parts[part].textContent !== text) parts[part].textContent = text;
      }
    }
    const names = CHART_NAMES.filter((name) => stand.state === "running" || name === "cycle");
    if (!names.includes(view.chart)) view.chart = "cycle";
    replaceKeepingFocus(meaning, [
      el("h2", { id: "h-means" }, WORDS.means),
      view.game && verdicts(stand, setting, view.game),
      stand.meaning.map((text) => el("p", {}, text)),
      el("div", { class: "row charts", role: "group", "aria-label": WORDS.charts }, names.map((name) => el("button", {
        "data-key": `chart-${name}`, "aria-pressed": view.chart === name ? "true" : "false",
        onclick: () => { view.chart = name; paint(); drawChart(); },
      }, WORDS.chartNames[name]))),
      figure,
    ]);
    if (view.chart === "cycle") drawChart();
  }

  send();
}

export default { render };
