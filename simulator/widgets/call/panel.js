// The call page: asks for the view, draws it, sends what is done.

const TABS = ["house", "sheet", "causes", "finish"]; // of a phone
const DESK = ["here", "causes", "finding", "repair", "write"]; // under the drawing
const PHONE = "(max-width: 47.5em)"; // grows with the reader's own text size
const NARROW_DRAWING = 560; // CSS px of the drawing's own column
const HEAR_TERMS = 3000; // ms, in a class
const ROOM = 240; // CSS px to be seen of what can be done at a place
const LOW = 700; // CSS px: a window too low for a work order that stands open

function render({ model, el: host }) {
  speak(model, WORDS);
  const line = new Line(model);
  const address = new URLSearchParams(window.location.search);
  const draftKey = `benchcall-write-up-${address.get("visit") || "open"}`;
  const ticksKey = `benchcall-finding-${address.get("visit") || "open"}`;
  let view = null;
  let busy = false;
  const root = el("div", { class: "bench call" });
  const notice = el("p", { class: "notice", role: "status", "aria-live": "polite" });
  const body = el("div", { class: "call-body" });
  const foot = el("div", { class: "foot" }, notice);
  const coach = coachBar(foot, line, () => view.visit.units);
  root.append(body, foot);
  host.append(root);
  unfoldOnPaper(root);

  const ui = {
    wait: "10", probe: {}, technique: {}, amount: {}, size: {}, found: new Set(), cited: new Set(), repair: null,
    closing: false, orderOpen: null, desk: "here", isSheetUp: false, allCauses: false, isNarrow: false, isPhone: false,
    // Held here as well: a browser may refuse to store.
    text: recall(draftKey),
    draft: (now) => ui.text ?? now.write_up ?? "",
    keepDraft: (text) => { ui.text = text; keep(draftKey, text); },
    tick: (group, code, on) => {
      if (on) ui[group].add(code); else ui[group].delete(code);
      keepTicks();
      if (group === "found") draw(); // how large it is is asked beside it
    },
    sizeUp: (code, size) => { ui.size[code] = size; keepTicks(); },
    debriefAddress: () => `debrief.ipynb?visit=${encodeURIComponent(address.get("visit") || "")}`,
    draw,
    turnTo,
    // One main button at a time: the next thing to do.
    primary: (key) => (primaryKey() === key ? "main" : null),
    show: (part) => body.querySelector(part).scrollIntoView({ block: "nearest" }),
    focus: (key) => { const node = body.querySelector(`[data-key="${CSS.escape(key)}"]`); if (node) node.focus(); },
  };

  const keepTicks = () => keep(ticksKey, JSON.stringify({ found: [...ui.found], cited: [...ui.cited], size: ui.size }));

  function primaryKey() {
    if (view.visit.phase !== "open") return "debrief";
    if (ui.closing) return "close-sure";
    const chosen = view.repairs.find((item) => item.code === ui.repair);
    if (chosen) return `${chosen.blocked ? "first" : "sure"}-${chosen.code}`;
    if (view.system.state !== "running") return "start";
    return view.finding ? "close" : "declare";
  }

  function say(text, problem, spoken) {
    // What is heard of a reading says more than what is seen: place and steadiness.
    notice.replaceChildren(...(spoken
      ? [el("span", { "aria-hidden": "true" }, text), el("span", { class: "visually-hidden" }, spoken)]
      : [text || ""]));
    notice.classList.toggle("problem", Boolean(problem));
  }

  // One act at a time, in the order they were done; the same press twice counts once.
  let last = Promise.resolve();
  let pending = "";
  function act(message) {
    const text = JSON.stringify(message);
    if (busy && text === pending) return last;
    pending = text;
    last = last.then(() => carryOut(message));
    return last;
  }

  async function carryOut(message) {
    busy = true;
    root.setAttribute("aria-busy", "true");
    const before = view;
    const slow = setTimeout(() => say(WORDS.working), 400);
    const units = message.system || (view ? view.visit.units : recall(UNITS_KEY) || "us");
    let answer = await line.ask({ ...message, units });
    clearTimeout(slow);
    let late = false;
    if (answer.silent && message.do !== "look_around") {
      say(answer.problem, true);
      const again = await line.ask({ do: "look_around", units });
      late = Boolean(again.view);
      if (late) answer = again;
    }
    busy = false;
    root.removeAttribute("aria-busy");
    if (answer.view) {
      view = answer.view;
      coach.show(view.coach, view.is_paused);
      settle(before, message);
      if (message.do === "close") ui.closing = false;
      if (message.do === "go" && before && view.here !== before.here) ui.desk = "here";
      draw();
      if (message.do === "go" && before && ui.desk === "here") toPlace();
      const said = before ? news(before, view) : "";
      say(late ? WORDS.caughtUp : said, false, before && spoken(before, view));
      if (message.do === "close" && view.debrief_ready) ui.focus("debrief");
    }
    if (answer.problem) say(answer.problem, true);
    return Boolean(answer.view) && !answer.problem && !late;
  }

  // What was ticked, or else stated, stands ticked again; a number typed for one unit is not kept
  // for another.
  function settle(before, message) {
    if (!before) {
      const { found = [], cited = [], size = {} } = kept(ticksKey) || stated();
      ui.size = size;
      view.causes.filter((cause) => found.includes(cause.code)).forEach((cause) => ui.found.add(cause.code));
      view.sheet.filter((row) => cited.includes(row.seq)).forEach((row) => ui.cited.add(row.seq));
    }
    if (message.do !== "units") return;
    ui.amount = {};
    keep(UNITS_KEY, view.visit.units);
  }

  function stated() {
    if (!view.finding) return {};
    const { causes: found, cited, sizes } = view.finding;
    return { found, cited, size: Object.fromEntries(found.map((code, i) => [code, sizes[i]])) };
  }

  const newest = (before, now) =>
    now.sheet.find((row) => !before.sheet.some((old) => old.seq === row.seq));

  function spoken(before, now) {
    const row = newest(before, now);
    if (!row || row.words) return null;
    const place = placeName(now, row.place).toLowerCase();
    // Many names say the place themselves.
    const isSaid = place.split(/\W+/).some((word) => word.length > 5 && row.name.toLowerCase().includes(word));
    return `${row.name}${isSaid ? "" : ` ${put(WORDS.atPlace, { place })}`} ${withUnit(row.shown, row.unit)}, ${WORDS.steadinessHeard[row.steadiness] || row.steadiness}`;
  }

  function news(before, now) {
    const last = newest(before, now);
    if (last) return `${last.name}: ${last.words || withUnit(last.shown, last.unit)}`;
    if (now.visit.phase !== before.visit.phase) return WORDS.closed;
    if (now.system.state !== before.system.state) return now.system.text;
    const step = Object.keys(now.found).find((id) => !(id in before.found));
    if (step) return now.found[step];
    if (now.here !== before.here && now.repairs_done.length === before.repairs_done.length) return (now.places.find((p) => p.id === now.here) || {}).name;
    if (now.repairs_done.length > before.repairs_done.length) {
      const done = now.repairs_done[now.repairs_done.length - 1];
      return `${done.name}. ${done.outcome || ""}`;
    }
    if (now.write_up !== before.write_up) return WORDS.saved;
    if (JSON.stringify(now.finding) !== JSON.stringify(before.finding)) return WORDS.declared;
    return "";
  }

  function tab() {
    if (ui.isSheetUp) return "sheet";
    return { here: "house", causes: "causes" }[ui.desk] || "finish";
  }

  // What a drawer holds, told on its tab: nobody has to open it to know.
  function status(desk) {
    const marks = (mark) => view.causes.filter((cause) => cause.mark === mark).length;
    if (desk === "here") return view.places.find((place) => place.id === view.here).short;
    if (desk === "causes") {
      const [likely, out] = [marks("likely"), marks("ruled_out")];
      return likely + out ? put(WORDS.marked, { likely, out }) : WORDS.noneMarked;
    }
    if (desk === "finding") return view.finding ? WORDS.isStated : WORDS.notStated;
    if (desk === "repair") return view.repairs_done.length ? put(WORDS.repaired, { n: view.repairs_done.length }) : WORDS.noneRepaired;
    return view.write_up ? WORDS.isWritten : WORDS.notWritten;
  }

  function turnTo(desk, key) {
    ui.desk = desk;
    ui.isSheetUp = false;
    draw();
    ui.focus(key);
    toBeginning();
  }

  // What is turned to opens at its beginning, however far down the last was read.
  function toBeginning() {
    const above = ui.isPhone ? body.querySelector(".call-strip") : body.querySelector(".desk").previousElementSibling;
    const start = above.getBoundingClientRect().bottom;
    if (start < 0) window.scrollBy(0, start);
    else if (!ui.isSheetUp) makeRoom(start, window.innerHeight / 2);
  }

  // At a new place the drawing moves up as far as what can be done there needs to be seen.
  function toPlace() {
    const tabs = ui.isPhone ? body.querySelector(".tabs").offsetHeight : 0;
    makeRoom(body.querySelector(".tab-house").getBoundingClientRect().top - tabs, ROOM);
  }

  function makeRoom(most, needed) {
    const heading = body.querySelector(".card h2, .drawer h2").getBoundingClientRect();
    const missing = needed - (window.innerHeight - foot.offsetHeight - heading.top);
    if (missing <= 0 || most <= 0) return;
    const isCalm = window.matchMedia("(prefers-reduced-motion: reduce)").matches;
    window.scrollBy({ top: Math.min(most, missing), behavior: isCalm ? "auto" : "smooth" });
  }

  const drawers = { here: card, causes, finding, repair, write: writeUp };

  function draw() {
    if (!view) return;
    ui.isPhone = window.matchMedia(PHONE).matches;
    ui.isNarrow = (body.clientWidth || window.innerWidth) * (ui.isPhone ? 1 : 7 / 12) < NARROW_DRAWING;
    // The work order stands open where there is room beside the complaint.
    if (ui.orderOpen === null) ui.orderOpen = !ui.isPhone && window.innerHeight >= LOW;
    root.dataset.tab = tab();
    root.dataset.ready = "true";
    replaceKeepingFocus(body, [
      strip(view, ui, act),
      el("nav", { class: "tabs", "aria-label": WORDS.title }, TABS.map((name) => el("button", {
        "data-key": `tab-${name}`, "aria-pressed": tab() === name ? "true" : "false",
        onclick: () => {
          ui.isSheetUp = name === "sheet";
          if (name === "house") ui.desk = "here";
          if (name === "causes") ui.desk = "causes";
          if (name === "finish" && tab() !== "finish") ui.desk = view.finding ? "repair" : "finding";
          say("");
          draw();
          toBeginning();
        },
      }, WORDS[name]))),
      el("div", { class: "call-grid" },
        el("div", { class: "call-left" },
          el("section", { class: "tab-house", "aria-label": WORDS.house }, siteDrawing(view, ui, act)),
          probe(view, ui, act),
          el("nav", { class: "desk", "aria-label": WORDS.drawers }, DESK.map((name) => el("button", {
            class: `desk-${name}`, "data-key": `desk-${name}`, "aria-pressed": ui.desk === name ? "true" : "false",
            onclick: () => { say(""); turnTo(name, `desk-${name}`); },
          }, el("span", {}, WORDS.desk[name]), el("span", { class: "small" }, status(name))))),
          drawers[ui.desk](view, ui, act)),
        el("div", { class: "call-right" }, !ui.isPhone && state(view, ui, act), sheet(view, act))),
      // A closed drawer does not print; the record that stays with the customer must.
      view.write_up && el("div", { class: "print-only" }, el("h3", {}, WORDS.writeUp), el("p", {}, view.write_up)),
    ]);
  }

  // Another drawing for a narrow column; a mere height change, as by a phone's keyboard, is none.
  let width = 0;
  new ResizeObserver(() => {
    if (body.clientWidth === width) return;
    width = body.clientWidth;
    draw();
  }).observe(body);

  // A pause, or more time, is seen without an act.
  async function hearTerms() {
    if (!view || !view.in_class || view.visit.phase !== "open" || busy || document.hidden) return;
    const before = view;
    const { terms, is_paused: isPaused } = await line.ask({ do: "terms" });
    if (!terms || view !== before || busy || terms.join() === before.terms.join()) return;
    view = { ...view, terms, is_paused: isPaused };
    draw();
    coach.show(view.coach, isPaused);
    const fresh = terms.filter((text) => !before.terms.includes(text));
    say(fresh.join(" ") || (before.is_paused && !isPaused ? WORDS.goesOn : ""), fresh.length > 0);
  }
  window.setInterval(hearTerms, HEAR_TERMS);

  // What stands beside the house ends where the foot begins, however much the coach says.
  new ResizeObserver(() => root.style.setProperty("--foot", `${foot.offsetHeight}px`)).observe(foot);

  act({ do: "look_around" });
}

export default { render };
