// What can be done at the place where one stands.

function card(view, ui, act) {
  const place = view.places.find((item) => item.id === view.here);
  const open = isOpen(view);
  const parts = partsOf(place);
  const isMeasured = parts.some((part) => part.group);
  return el("section", { class: "card", "aria-labelledby": "h-card" },
    el("h2", { id: "h-card" }, place.name),
    place.caution && el("p", { class: "caution" }, place.caution),
    place.tests.length > LONG && jumps(parts.map((part) => [part.id, part.name])),
    parts.map((part, i) => [
      part.group && !parts[i - 1]?.group && el("h3", {}, WORDS.tests.measure),
      el(part.group && isMeasured ? "h4" : "h3", { id: part.id, class: { "low side": "low", "high side": "high" }[part.group] }, part.name),
      el("ul", { class: "rows" }, part.steps
        ? part.steps.map((step) => stepRow(step, view, open, act))
        : runsOf(part.tests).map((run) => cautioned(run, view, open, ui, act)))]));
}

const WAYS = ["ask", "look", "feel", "measure"];
const LONG = 8; // rows: more are set apart as on the sheet

// What a place's list falls into, each with a heading of its own.
function partsOf(place) {
  const steps = place.steps.length > 0 ? [{ id: "p-steps", name: WORDS.steps, steps: place.steps }] : [];
  return [...steps, ...WAYS.flatMap((way) => {
    const tests = place.tests.filter((test) => test.way === way);
    return tests.length === 0 ? [] : groupsOf(tests).map(([group, some]) => ({
      id: `p-${way}-${group.replace(" ", "-")}`, name: group ? WORDS.groups[group] : WORDS.tests[way], group, tests: some,
    }));
  })];
}

// From the head of a long list to one of its parts; the keyboard goes with the eye.
function jumps(parts) {
  return el("nav", { class: "jumps", "aria-label": WORDS.jump }, parts.map(([id, name]) => el("button", {
    class: "quiet", "data-key": `to-${id}`,
    onclick: (e) => {
      const heading = e.currentTarget.closest("section").querySelector(`#${CSS.escape(id)}`);
      heading.setAttribute("tabindex", "-1");
      heading.focus({ preventScroll: true });
      heading.scrollIntoView({ block: "start" });
    },
  }, name)));
}

// Neighbours that carry the same caution, or wait for the same step: it is said once, over them.
function runsOf(tests) {
  const runs = [];
  const warned = (test) => `${test.caution || ""}\n${test.blocked || ""}`;
  for (const test of tests) {
    const last = runs[runs.length - 1];
    if (last && (test.caution || test.blocked) && warned(last[0]) === warned(test)) last.push(test);
    else runs.push([test]);
  }
  return runs;
}

function cautioned(run, view, open, ui, act) {
  if (run.length === 1) return testRow(run[0], view, open, ui, act);
  const id = `over-${run[0].id}`;
  return [
    el("li", { class: "over", id },
      run[0].caution && el("p", { class: "caution" }, run[0].caution),
      run[0].blocked && el("p", { class: "small blocked" }, run[0].blocked)),
    run.map((test) => testRow(test, view, open, ui, act, id)),
  ];
}

function groupsOf(tests) {
  if (tests.length <= LONG) return [["", tests]];
  return GROUPS.map((group) => [group, tests.filter((test) => test.group === group)]).filter(([, some]) => some.length);
}

function stepRow(step, view, open, act) {
  return el("li", {},
    el("div", { class: "grow" }, step.name,
      el("span", { class: "small" }, ` ${step.minutes}\u00a0${WORDS.min}`),
      step.caution && !step.done && el("p", { class: "caution" }, step.caution),
      view.found[step.id] && el("p", { class: "said" }, view.found[step.id])),
    step.done
      ? el("span", { class: "done" }, `✓ ${WORDS.done}`)
      : el("button", {
        "data-key": `step-${step.id}`, disabled: !open,
        onclick: () => act({ do: "prepare", step: step.id }),
        "aria-label": `${WORDS.doStep}: ${step.name}`,
      }, WORDS.doStep));
}

function testRow(test, view, open, ui, act, overId) {
  const chosen = ui.technique[test.id] || (test.techniques[0] && test.techniques[0].id);
  const taken = view.sheet.filter((row) => row.name === test.name);
  const last = taken[taken.length - 1];
  // Papers are read, people are asked.
  const verb = test.id.startsWith("read_") ? WORDS.take.read : WORDS.take[test.way];
  return el("li", { class: overId ? "under" : null },
    el("div", { class: "grow" },
      test.name,
      el("span", { class: "small" },
        ` ${test.minutes}\u00a0${WORDS.min}${test.way === "measure" ? `\u00a0· ${unbroken(test.tool)}` : ""}`),
      test.caution && !overId && el("p", { class: "caution" }, test.caution),
      test.blocked && !overId && el("p", { class: "small blocked" }, test.blocked),
      test.techniques.length > 1 && el("label", { class: "technique" },
        el("span", { class: "small" }, WORDS.technique),
        el("select", {
          "data-key": `technique-${test.id}`,
          "aria-label": `${WORDS.technique}: ${test.name}`,
          onchange: (e) => { ui.technique[test.id] = e.target.value; },
        },
        test.techniques.map((technique) =>
          el("option", { value: technique.id, selected: technique.id === chosen },
            technique.minutes === test.minutes
              ? technique.name
              : `${technique.name} (${technique.minutes}\u00a0${WORDS.min})`)))),
      last && el("p", { class: "landed" },
        last.words || el("strong", {}, withUnit(last.shown, last.unit)),
        el("span", { class: "small" }, ` ${atMinute(last.minute)}`,
          !last.words && ` · ${WORDS.steadiness[last.steadiness] || last.steadiness}`),
        moved(taken))),
    el("button", {
      "data-key": `test-${test.id}`,
      disabled: !open || Boolean(test.blocked),
      "aria-label": `${last ? WORDS.again : verb}: ${test.name}`,
      "aria-describedby": overId,
      onclick: () => act({
        do: "measure", test: test.id,
        technique: ui.technique[test.id] || (test.techniques[0] && test.techniques[0].id),
      }),
    }, last ? WORDS.again : verb));
}

// While a system still drifts, how the number moved since it was last read.
function moved(taken) {
  if (taken.length < 2) return null;
  const [before, now] = taken.slice(-2);
  return before.shown !== null && now.shown !== null &&
    el("span", { class: "small" }, ` · ${put(WORDS.was, { value: withUnit(before.shown, before.unit), minute: before.minute })}`);
}
