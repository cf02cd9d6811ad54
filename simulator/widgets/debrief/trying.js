// What a trainee does in a debrief: explain a reading, measure again in a replay, read one good path.

// An answer that is worked out beside the page is asked for again until it is there.
function askSlowly(line, message, meanwhile = () => {}) {
  return line.ask(message).then((answer) => {
    if (!answer.pending) return answer;
    meanwhile(answer.step || 0);
    return new Promise((done) => setTimeout(() => done(askSlowly(line, message, meanwhile)), 1000));
  });
}

// What is awaited, which step of it is under way and for how long: a step is spoken, seconds are not.
function awaited(steps, what) {
  const began = performance.now();
  const bar = el("progress", { max: steps.length, value: 0, "aria-label": WORDS.awaited });
  const said = el("span", { role: "status" });
  const seconds = el("span", { class: "small", "aria-hidden": "true" });
  let reached = 0;
  const tell = (step) => {
    seconds.textContent = put(WORDS.soFar, { n: Math.round((performance.now() - began) / 1000) });
    if (step === reached && said.textContent) return;
    reached = step;
    bar.value = Math.max(0, step - 1);
    said.textContent = `${put(WORDS.step, { step: Math.max(1, step), of: steps.length })} ${steps[Math.max(1, step) - 1]}`;
  };
  tell(0);
  return { tell, node: el("div", { class: "awaited" }, el("p", {}, what), el("p", {}, bar, " ", said, " ", seconds)) };
}

// The question comes first; the answer is kept and nobody grades it.
function toExplain(d, line) {
  const asked = d.to_explain;
  const box = el("textarea", { id: "own-answer", "data-key": "own-answer", maxlength: 2000, rows: 3, value: asked.own_answer || "" });
  const said = el("p", { class: "small", role: "status", "aria-live": "polite" }, asked.own_answer ? WORDS.explainKept : "");
  const printed = el("p", { class: "story only-print" }, asked.own_answer || "");
  const store = () => line.ask({ do: "explain", text: box.value }).then((answer) => {
    said.textContent = answer.problem || WORDS.explainKept;
    said.classList.toggle("problem-line", Boolean(answer.problem));
    if (!answer.problem) printed.textContent = answer.own_answer;
  });
  return el("section", { class: "explain" }, el("h2", {}, WORDS.explain),
    el("p", { class: "story" }, asked.ask, " ", asked.seq !== null && toStep(d, asked.seq)),
    printed,
    d.is_own && el("div", { class: "no-print" },
      el("label", { for: "own-answer", class: "small" }, WORDS.explainHow), box,
      el("p", {}, el("button", { "data-key": "explain", onclick: store }, WORDS.explainKeep)), said));
}

function nextCall(d) {
  const next = d.next_call;
  if (!next) return null;
  return el("p", { class: "next-call" }, `${WORDS.nextCall}: `,
    el("a", { href: `../../start/${encodeURIComponent(next.call.id)}` }, next.call.title),
    `, ${next.call.customer}. `, next.why);
}

// What if this had been measured at that minute: the plant of that minute answers.
function replayPart(d, line) {
  if (!d.is_own) return null;
  const last = Math.floor(d.timeline[d.timeline.length - 1].minute);
  const minute = el("input", { id: "replay-minute", type: "number", min: 0, max: last, step: 1, value: "0", "data-key": "replay-minute" });
  const by = el("p", { class: "small by-then" });
  const test = el("select", { id: "replay-test", "data-key": "replay-test" },
    el("option", { value: "" }, WORDS.replayChoose),
    d.replay_tests.map((group) => el("optgroup", { label: group.place },
      group.tests.map((one) => el("option", { value: one.id }, one.name)))));
  const problem = el("p", { class: "problem-line", role: "alert" });
  const results = el("div", { class: "replays", "aria-live": "polite" });
  const button = el("button", { "data-key": "replay" }, WORDS.replayDo);
  const tellBy = () => {
    const step = d.timeline.filter((one) => one.minute <= Number(minute.value)).pop();
    by.textContent = step ? put(WORDS.byThen, { step: step.text }) : "";
  };
  const measure = () => {
    // Not disabled: the keyboard would lose its place.
    if (button.getAttribute("aria-busy")) return;
    button.setAttribute("aria-busy", "true");
    problem.textContent = WORDS.replayBusy;
    // The odds first: a replay is held against them.
    d.reckoned.then(() => line.ask({ do: "replay", minute: minute.value, test: test.value, units: d.units })).then((answer) => {
      button.removeAttribute("aria-busy");
      problem.textContent = answer.problem || "";
      if (answer.replay) results.prepend(replayOf(answer.replay));
    });
  };
  minute.addEventListener("input", tellBy);
  button.addEventListener("click", measure);
  tellBy();
  return el("section", { class: "replay-part" }, el("h2", {}, WORDS.replay),
    el("p", { class: "small no-print" }, WORDS.replayHow),
    el("div", { class: "replay-form no-print" },
      el("label", { for: "replay-minute" }, put(WORDS.replayMinute, { last })), minute,
      el("label", { for: "replay-test" }, WORDS.replayTest), test, by, button),
    problem, results);
}

function replayOf(r) {
  return el("article", { class: "replay" },
    el("h3", {}, put(WORDS.atMinute, { minute: r.minute }), ": ", r.name),
    el("p", { class: "story" }, r.shown === null ? r.words : el("strong", {}, withUnit(r.shown, r.unit)), " ", r.moved),
    r.before !== undefined && el("div", { class: "odds two" },
      shareOf(WORDS.before, r.before, r.likeliest_before), shareOf(WORDS.withIt, r.after_it, r.likeliest_after)),
    r.problems.length > 0 && el("p", { class: "small" }, WORDS.notCharge, " ", r.problems.join(" ")),
    el("p", { class: "small" }, [r.after, r.stood, r.assumed, r.cost].filter(Boolean).join(" ")),
    el("p", { class: "small" }, WORDS.notRecord));
}

function shareOf(word, share, likeliest) {
  return [
    el("span", { class: "small" }, word),
    el("meter", { min: 0, max: 1, value: share, "aria-label": `${WORDS.share}, ${word}` }),
    el("span", { class: "small" }, shareSaid(share)),
    el("span", { class: "small" }, `${WORDS.likeliest}: ${likeliest}.`),
  ];
}

// Somebody who sees readings only works the same call; worked out when asked for.
function pathPart(d, line) {
  const said = el("p", { class: "small", role: "status", "aria-live": "polite" });
  const place = el("div", {});
  const ask = el("button", { class: "no-print", "data-key": "path" }, WORDS.pathDo);
  ask.addEventListener("click", () => {
    if (said.textContent === WORDS.pathBusy) return;
    said.textContent = WORDS.pathBusy;
    askSlowly(line, { do: "path", units: d.units }).then((answer) => {
      said.textContent = answer.problem || answer.path.said;
      if (answer.problem) return;
      ask.remove();
      place.replaceChildren(pathOf(answer.path));
      place.firstElementChild.focus({ preventScroll: true });
    });
  });
  return el("section", { class: "path-part" }, el("h2", { id: "path", tabindex: "-1" }, WORDS.path), el("p", { class: "small" }, WORDS.pathHow), ask, said, place);
}

function pathOf(path) {
  return el("ol", { class: "timeline", tabindex: "-1", "aria-label": WORDS.path }, path.steps.map((step) => el("li", {},
    el("span", { class: "minute" }, `${step.minute} ${WORDS.min}`),
    el("div", {}, unbroken(step.text), step.why && el("p", { class: "small" }, step.why)))));
}
