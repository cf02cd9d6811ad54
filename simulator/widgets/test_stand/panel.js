// The test stand: settings go out latest only, answers are painted as they come.

const USUAL_CHARTS = ["cycle", "delivery"];
const LESS_AIR = 0.05; // of healthy

function render({ model, el: host }) {
  speak(model, WORDS, CHOICES, CHART_WORDS);
  const setting = {
    mode: "cooling", unit: "quail_36", refrigerant: "", metering: "", motor: "", zone: "", house: "reference",
    strips: "off", zone_call: "both", gauges: "", outdoor: "95", outdoor_wb: "", return_db: "80", return_wb: "67",
    airflow: "100", altitude: "0", faults: [], units: "us",
  };
  const start = { ...setting };
  const view = { charts: [...USUAL_CHARTS], tab: "fault", projector: recall(PROJECTOR_KEY) === "on", isEvery: false, chosenFor: false, game: null, left: null, find: "" };
  const bench = { setting, view, stand: null, line: new Line(model), isFirst: true, send, message, mark };
  let inFlight = false;
  let waiting = false;
  let aside = ""; // said beside the state until the next answer

  const root = el("div", { class: "bench stand" });
  const notice = el("p", { class: "notice", role: "status", "aria-live": "polite" });
  const linkProblem = el("p", { class: "notice problem", role: "alert", hidden: true });
  const controls = el("div", {});
  const pulse = el("div", { class: "pulse", "aria-hidden": "true" }); // the list says the same
  const readingsHost = el("section", { "aria-labelledby": "h-show" });
  const meaning = el("div", { class: "meaning" });
  const charts = el("div", { class: "charts" });
  const readings = new Readings(bench, readingsHost, pulse, () => figures.redraw());
  const figures = new Figures(bench, charts);
  root.append(
    el("header", {}, el("div", {}, el("h1", {}, WORDS.title), el("p", { class: "lead" }, WORDS.lead)),
      projectorButton(bench, root, () => figures.redraw())),
    linkProblem, notice,
    el("div", { class: "stand-grid" }, el("section", { "aria-labelledby": "h-set" }, controls, pulse), readingsHost,
      el("section", { "aria-labelledby": "h-means" }, meaning, charts)));
  host.append(root);

  function mark(name, isSo) { root.classList.toggle(name, Boolean(isSo)); }

  function message(what) {
    return { do: what, ...setting, faults: setting.faults.filter((fault) => fault && fault.name), charts: view.charts.filter(Boolean), listed: Boolean(bench.stand) };
  }

  async function send() {
    if (inFlight) { waiting = true; return; }
    linkProblem.hidden = linkProblem.hidden || !bench.isFirst; // said of a link, not of what is set now
    inFlight = true;
    const late = setTimeout(() => { dim(true); say(WORDS.workingOut); }, REST);
    const answer = await bench.line.ask(message("set"));
    clearTimeout(late);
    inFlight = false;
    take(answer);
    if (waiting) { waiting = false; send(); }
  }

  function take(answer) {
    if (answer.stand) {
      const before = bench.stand;
      // The lists come once.
      bench.stand = { ...(before && { faults: before.faults, choices: before.choices }), ...answer.stand };
      const isAnother = !before || Object.keys(before.unfit).join() !== Object.keys(answer.stand.unfit).join() || limitsOf(before) !== limitsOf(answer.stand);
      if (dropUnfit() || isAnother) drawControls();
      paint();
      if (!bench.isFirst) window.history.replaceState(window.history.state, "", `#${linkOf(bench)}`);
      bench.isFirst = false;
    }
    dim(!answer.stand);
    say(answer.problem || [aside, bench.stand ? bench.stand.state_text : ""].filter(Boolean).join(" "), Boolean(answer.problem || aside));
    if (!waiting) aside = ""; // what was taken out is still said after the answer that follows at once
    root.dataset.ready = "true";
    root.dataset.answered = String(Number(root.dataset.answered || 0) + 1);
  }

  // What stands there belongs to an earlier setting for as long as a sentence says so.
  function dim(isOld) {
    for (const part of [readingsHost, pulse, meaning, charts]) part.classList.toggle("stale", isOld);
  }

  function say(text, isProblem = false) {
    notice.textContent = text;
    notice.classList.toggle("problem", isProblem || Boolean(bench.stand && bench.stand.state !== "running"));
  }

  // Mode, units and their ends: when they change, the controls are made anew.
  const limitsOf = (stand) => `${stand.limits.outdoor.unit} ${stand.limits.outdoor.low} ${stand.zones} ${stand.predictable.usual.join()}`;

  // A fault that the setting has left behind is taken out, and said so.
  function dropUnfit() {
    const unfit = setting.faults.filter(Boolean).map((chosen) => bench.stand.faults.find((fault) => fault.name === chosen.name))
      .filter((fault) => fault && !isOffered(fault, bench));
    if (unfit.length === 0) return false;
    setting.faults = setting.faults.map((chosen) => (chosen && unfit.some((fault) => fault.name === chosen.name) ? null : chosen));
    aside = unfit.map((fault) => bench.stand.unfit[fault.name] || put(WORDS.takenOut, { names: fault.title })).join(" ");
    waiting = unfit.some((fault) => !(fault.name in bench.stand.unfit)); // the server leaves those out itself
    return true;
  }

  function drawControls() {
    const isPredicting = view.tab === "predict";
    mark("asking", isPredicting && !(view.game && view.game.result));
    mark("counting", isPredicting && view.game && view.game.counts && !view.game.result);
    root.dataset.tab = view.tab;
    replaceKeepingFocus(controls, [
      el("h2", { id: "h-set" }, WORDS.set),
      tabList(bench, switchTab),
      el("div", { id: "tab-panel", role: "tabpanel", "aria-labelledby": `tab-${view.tab}` },
        isPredicting ? predictPanel(bench, drawControls, { reveal, say, asked: message }) : settingsPanel(bench, drawControls)),
      sharePanel(bench, say),
    ]);
  }

  // Before a prediction the plant is healthy: what was set is what is to come, and is set again
  // under another tab.
  function switchTab() {
    const set = setting.faults.filter(Boolean);
    if (view.tab === "predict" && set.length && !(view.game && view.game.result)) {
      view.game = { ...newGame(bench, set), linked: view.game && view.game.linked };
      setting.faults = [];
      send();
    }
    if (view.tab !== "predict" && view.game && !view.game.result) {
      const { taken, faults, linked, sealed } = view.game;
      if (taken) { setting.faults = faults; send(); }
      // What a link hides is still to come after what was set beside it has been looked at.
      if (!linked || !sealed) view.game = linked ? newGame(bench, [], linked) : null;
    }
    drawControls();
  }

  async function reveal() {
    const game = view.game;
    if (Object.keys(game.marks).length === 0) { say(WORDS.markFirst, true); return; }
    const answer = await bench.line.ask({
      ...message("predict"), marks: game.marks, hands: game.counts ? game.hands : {},
      ...(game.sealed ? { sealed: game.sealed } : { faults: game.faults }),
    });
    if (answer.predicted) {
      game.result = answer.predicted;
      game.faults = answer.faults;
      setting.faults = answer.faults.map((fault) => ({ ...fault }));
    }
    take(answer);
    if (!answer.predicted) return;
    showWhy();
    drawControls();
    const verdict = controls.querySelector("#verdict");
    if (verdict) verdict.focus();
  }

  // Where the air has changed, or what of it arrives, that chart comes first; one that somebody chose stays.
  function showWhy() {
    if (view.charts.join() !== USUAL_CHARTS.join()) return;
    const moved = (name) => {
      const row = bench.stand.readings.find((one) => one.name === name);
      return row ? Math.abs(row.now_number - row.healthy_number) > LESS_AIR * Math.abs(row.healthy_number) : false;
    };
    if (moved("airflow")) view.charts = ["fan", "delivery"];
    else if (moved("register_airflow")) view.charts = ["delivery", "cycle"];
    else return;
    view.chosenFor = true;
    figures.choose();
    send();
  }

  function paint() {
    const { stand } = bench;
    readings.paint();
    replaceKeepingFocus(meaning, [
      el("h2", { id: "h-means" }, WORDS.means),
      stand.meaning.map((text) => el("p", {}, text.replaceAll(/(\d) (?=Btu|W|kW|lb|kg|g|%)/g, "$1\u00a0"))),
      stand.why.length > 0 && el("details", { "data-keep": "why", class: "why" },
        el("summary", { "data-key": "why" }, WORDS.why), stand.why.map((row) => el("p", {}, row.text))),
    ]);
    const link = controls.querySelector(".link");
    if (link) link.value = addressOf(bench);
    figures.paint();
  }

  // The words of a link are looked at by the server like anything typed.
  async function open(link) {
    inFlight = true;
    const answer = await bench.line.ask({ do: "open", link });
    inFlight = false;
    linkProblem.hidden = !answer.problem;
    linkProblem.textContent = answer.problem ? put(WORDS.linkFails, { why: answer.problem }) : "";
    if (!answer.opened) { send(); return; }
    const { faults, charts: asked, predict: sealed, ...words } = answer.opened;
    Object.assign(setting, start, words, { faults: faults.map((fault) => ({ ...fault })) });
    if (asked) { view.charts = asked; view.chosenFor = false; }
    view.game = null;
    figures.choose();
    take(answer);
    if (sealed) { view.tab = "predict"; view.game = newGame(bench, [], sealed); }
    else if (view.tab === "predict" && faults.length) view.tab = "fault";
    drawControls();
    if (waiting) { waiting = false; send(); }
  }

  window.addEventListener("hashchange", () => { if (root.isConnected) open(window.location.hash.slice(1)); });
  let resizing = null;
  window.addEventListener("resize", () => { clearTimeout(resizing); resizing = setTimeout(() => figures.redraw(), 150); });
  if (window.location.hash.length > 1) open(window.location.hash.slice(1));
  else send();
}

export default { render };
