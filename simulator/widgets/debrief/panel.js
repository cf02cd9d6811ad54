// The debrief: one question and three sentences first, then what happened, then each point with
// the act behind it.

function debriefPage(d, line) {
  return [
    el("header", {},
      el("h1", {}, `${WORDS.title}: ${d.work_order.title || d.work_order.customer}`),
      el("p", { class: "small" }, `${d.work_order.customer} · ${d.work_order.address} · ${d.visit.number}`)),
    toExplain(d, line), inShort(d),
    story(WORDS.true, d.what_was_true),
    story(WORDS.found, d.what_you_found),
    d.turning_point && story(WORDS.turning, d.turning_point),
    d.harm && d.harm.length > 0 && list(WORDS.harm, d.harm, "problem"),
    d.invalid_charge_tests.length > 0 && list(WORDS.invalid, d.invalid_charge_tests),
    turnsOf(d), causesPart(d),
    // To look things up in, not to read through: folded on the screen, open on paper.
    d.cited.length > 0 && el("section", {}, el("details", {},
      el("summary", {}, el("h2", {}, WORDS.cited)),
      el("ul", { class: "dashes" }, d.cited.map((one) => el("li", {}, unbroken(one.text), " ", toStep(d, one.seq)))))),
    hintsOf(d), timeline(d), replayPart(d, line), pairs(d), threeStates(d), bill(d), parts(d), pathPart(d, line),
    el("p", { class: "row no-print" },
      el("button", { "data-key": "print", onclick: () => window.print() }, WORDS.print),
      " ", el("a", { href: `../../record${window.location.search}` }, WORDS.record),
      " ", el("a", { href: "../../" }, WORDS.home)),
  ];
}

function inShort(d) {
  return el("section", { class: "short" }, el("h2", {}, WORDS.short),
    el("ol", { class: "sentences" }, d.in_short.map((line) => el("li", {}, line.text, " ", toStep(d, line.seq)))),
    nextCall(d),
    (d.by_hand || d.total !== null) && el("p", { class: "total" }, `${WORDS.total}: ${d.by_hand ? d.by_hand.points : d.total} ${WORDS.of} ${d.of}`),
    d.awaited && d.awaited.node,
    d.by_hand && el("p", { class: "by-hand" }, `${WORDS.byHand}: ${d.by_hand.own_reason}`),
    d.by_hand && d.total !== null && el("p", { class: "small" }, `${WORDS.byRubric}: ${d.total} ${WORDS.of} ${d.of}`),
    el("p", { class: "no-print to-parts" }, el("a", { href: "#points", onclick: goTo }, WORDS.toPoints),
      [["timeline", WORDS.timeline], ["states", WORDS.beforeAfter], ["path", WORDS.path]].map(([id, title]) =>
        el("a", { href: `#${id}`, onclick: goTo }, title))));
}

// The corner of a table, empty to the eye alone.
function corner(word) {
  return el("th", { scope: "col" }, el("span", { class: "visually-hidden" }, word));
}

// A link to a step; the keyboard goes with the eye.
function toStep(d, seq) {
  const step = d.timeline.find((item) => item.seq === seq);
  if (!step) return null;
  return el("a", { class: "to-step", href: `#step-${seq}`, onclick: goTo },
    `${WORDS.minute} ${Math.round(step.minute)}`, el("span", { class: "visually-hidden" }, ` ${WORDS.toStep}: ${step.text}`));
}

function goTo(event) {
  const target = event.currentTarget.closest(".debrief").querySelector(event.currentTarget.getAttribute("href"));
  if (!target) return;
  event.preventDefault();
  for (const old of event.currentTarget.closest(".debrief").querySelectorAll(".pointed")) old.classList.remove("pointed");
  target.classList.add("pointed");
  target.focus({ preventScroll: true });
  target.scrollIntoView({ block: "center" });
}

function story(title, text) {
  return el("section", {}, el("h2", {}, title), el("p", { class: "story" }, text));
}

function list(title, lines, tone) {
  return el("section", {}, el("h2", {}, title),
    el("ul", { class: tone ? "caution" : "dashes" }, lines.map((line) => el("li", {}, line))));
}

function threeStates(d) {
  return el("section", {}, el("h2", { id: "states", tabindex: "-1" }, WORDS.beforeAfter),
    el("p", { class: "small" }, WORDS.beforeAfterHow),
    el("div", { class: "wide" }, el("table", {},
      el("thead", {}, el("tr", {}, corner(WORDS.reading),
        [WORDS.healthy, WORDS.asFound, WORDS.asLeft].map((word) => el("th", { scope: "col" }, word)))),
      el("tbody", {}, d.before_after.map((row) => el("tr", {},
        el("th", { scope: "row" }, row.name, " ", el("span", { class: "unit" }, row.unit)),
        [[row.healthy, ""], [row.found, row.found_mark], [row.left, row.left_mark]].map(([shown, mark]) =>
          el("td", { class: mark ? "outside" : null }, shown, mark && el("span", { class: "mark" }, WORDS.outside[mark])))))))));
}

function pairs(d) {
  return el("section", {}, el("h2", {}, WORDS.pairs),
    d.pairs.length === 0 ? el("p", {}, WORDS.none) : el("table", {},
      el("thead", {}, el("tr", {}, corner(WORDS.reading),
        el("th", { scope: "col" }, WORDS.before), el("th", { scope: "col" }, WORDS.after))),
      el("tbody", {}, d.pairs.map((pair) => el("tr", {},
        el("th", { scope: "row" }, pair.name,
          pair.note && el("p", { class: pair.is_proof ? "proof" : "proof doubt" }, pair.note)),
        el("td", {}, withUnit(pair.before.shown, pair.unit)),
        el("td", {}, pair.after ? withUnit(pair.after.shown, pair.unit) : WORDS.notTaken))))));
}

function bill(d) {
  return el("section", {}, el("h2", {}, WORDS.bill),
    el("table", {},
      el("thead", {}, el("tr", {}, corner(WORDS.billLine),
        el("th", { scope: "col" }, WORDS.asFound), el("th", { scope: "col" }, WORDS.asLeft))),
      el("tbody", {}, d.bill.map((row) => el("tr", {},
        el("th", { scope: "row" }, row.name),
        el("td", {}, withUnit(row.found, row.unit)), el("td", {}, withUnit(row.left, row.unit)))))));
}

function parts(d) {
  return el("section", { class: "points-part" }, el("h2", { id: "points", tabindex: "-1" }, WORDS.parts),
    el("p", { class: "small no-print" }, WORDS.partsHow),
    el("ul", { class: "parts" }, d.parts.map((part) => el("li", {},
      el("div", { class: "part-head" },
        el("strong", {}, part.name),
        // What holds the total has no points of its own.
        part.of > 0 && el("meter", { min: 0, max: part.of, value: part.points, "aria-label": part.name }),
        part.of > 0 && el("span", {}, part.is_open ? `${WORDS.partOpen} ${WORDS.of} ${part.of}` : `${part.points} ${WORDS.of} ${part.of}`)),
      el("ul", { class: "dashes" }, part.because.map((why) => el("li", {}, unbroken(why.text), " ", toStep(d, why.seq))))))));
}

// The readings that told most and least: an empty place until their worth is worked out.
function turnsOf(d) {
  return el("section", { class: "turns", hidden: d.turns.length === 0 }, el("h2", {}, WORDS.turns),
    el("ul", { class: "dashes" }, d.turns.map((turn) => el("li", {}, turn.text, " ", toStep(d, turn.seq)))));
}

// What the coach was asked; nothing where nobody asked.
function hintsOf(d) {
  return d.hints.length > 0 && el("section", {}, el("h2", {}, WORDS.hints),
    el("ul", { class: "dashes" }, d.hints.map((hint) => el("li", {}, hint.text, " ", toStep(d, hint.seq)))));
}

function timeline(d) {
  return el("section", { class: "timeline-part" }, el("h2", { id: "timeline", tabindex: "-1" }, WORDS.timeline),
    d.reckoning && el("p", { class: "small", role: "status" }, WORDS.reckoning),
    Object.keys(d.odds).length > 0 && el("p", { class: "small" }, WORDS.oddsHow),
    el("ol", { class: "timeline" }, d.timeline.map((step) => el("li", { id: `step-${step.seq}`, tabindex: "-1" },
      el("span", { class: "minute" }, `${Math.round(step.minute)} ${WORDS.min}`),
      el("div", {}, unbroken(step.text), step.note && el("p", { class: "small" }, step.note),
        d.acts && d.acts[step.seq] && el("p", { class: "small act" }, d.acts[step.seq]), oddsSaid(d.odds[step.seq])),
      d.odds[step.seq] && oddsBar(d.odds[step.seq])))));
}

// How likely what was true was by then, from the readings alone.
function oddsBar(odds) {
  return el("div", { class: "odds" },
    el("meter", { min: 0, max: 1, value: odds.share, "aria-label": WORDS.share }),
    el("span", { class: "small" }, shareSaid(odds.share)));
}

// Nothing is quite sure, and nothing quite out.
function shareSaid(share) {
  const percent = Math.round(100 * share);
  return percent > 99 ? "> 99 %" : percent < 1 ? "< 1 %" : `${percent} %`;
}

function oddsSaid(odds) {
  return odds && odds.words && el("p", { class: "small" }, odds.words, " ", `${WORDS.likeliest}: `, odds.likeliest, ".",
    odds.rival && [" ", `${WORDS.rival}: `, odds.rival, "."]);
}

// What comes later takes the place of what stood there; the keyboard stays where it was.
function swap(old, fresh) {
  const can = "a, button, summary, [tabindex]";
  const had = [...old.querySelectorAll(can)].find((one) => one === document.activeElement);
  old.replaceWith(fresh);
  if (!had) return;
  const again = [...fresh.querySelectorAll(can)];
  const same = again.find((one) => one.id ? one.id === had.id : one.textContent === had.textContent);
  (same || again[0])?.focus({ preventScroll: true });
}

function render({ model, el: host }) {
  speak(model, WORDS);
  const line = new Line(model);
  const root = el("div", { class: "bench debrief" });
  const notice = el("p", { class: "notice", role: "status", "aria-live": "polite" });
  const body = el("div", {});
  root.append(notice, body);
  host.append(root);
  unfoldOnPaper(root);
  line.patience = 60000;
  const units = recall(UNITS_KEY) || "us";
  line.ask({ do: "debrief", units }).then((answer) => {
    root.dataset.ready = "true";
    if (answer.problem) { notice.textContent = answer.problem; notice.classList.add("problem"); }
    if (!answer.debrief) return;
    // The likelihoods take some seconds to work out; the page is read meanwhile.
    const steps = [WORDS.reckonUnits, put(WORDS.reckonReadings, { n: answer.debrief.visit.readings }), WORDS.reckonPoints];
    const waiting = awaited(steps, answer.debrief.total === null ? WORDS.totalOpen : WORDS.oddsOpen);
    const reckoned = askSlowly(line, { do: "odds", units }, waiting.tell);
    const shown = { ...answer.debrief, units, reckoned, awaited: waiting, odds: {}, turns: [], causes: [], reckoning: true };
    body.replaceChildren(...debriefPage(shown, line).filter(Boolean));
    reckoned.then(({ problem, odds = {}, turns = [], causes = [], ...points }) => {
      if (problem) { notice.textContent = problem; notice.classList.add("problem"); }
      const told = { ...shown, ...points, odds, turns, causes, reckoning: false, awaited: null };
      swap(body.querySelector(".short"), inShort(told));
      swap(body.querySelector(".points-part"), parts(told));
      body.querySelector(".turns").replaceWith(turnsOf(told));
      body.querySelector(".causes-part").replaceWith(causesPart(told));
      swap(body.querySelector(".timeline-part"), timeline(told));
    });
  });
}

export default { render };
