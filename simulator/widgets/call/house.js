// What can be done at the place where one stands.

function card(view, ui, act) {
  const place = view.places.find((item) => item.id === view.here);
  const open = view.visit.phase === "open";
  const ways = ["ask", "look", "feel", "measure"];
  return el("section", { class: "card", "aria-labelledby": "h-card" },
    el("h2", { id: "h-card" }, place.name),
    place.caution && el("p", { class: "caution" }, place.caution),
    place.steps.length > 0 && el("div", {},
      el("h3", {}, WORDS.steps),
      el("ul", { class: "rows" }, place.steps.map((step) => stepRow(step, view, open, act)))),
    ways.map((way) => {
      const tests = place.tests.filter((test) => test.way === way);
      return tests.length > 0 && el("div", {},
        el("h3", {}, WORDS.tests[way]),
        groupsOf(tests).map(([group, some]) => [
          group && el("h4", { class: { "low side": "low", "high side": "high" }[group] }, WORDS.groups[group]),
          el("ul", { class: "rows" }, some.map((test) => testRow(test, view, open, ui, act)))]));
    }));
}

const LONG = 8; // rows: more are set apart as on the sheet

function groupsOf(tests) {
  if (tests.length <= LONG) return [["", tests]];
  return GROUPS.map((group) => [group, tests.filter((test) => test.group === group)]).filter(([, some]) => some.length);
}

function stepRow(step, view, open, act) {
  return el("li", {},
    el("div", { class: "grow" }, step.name,
      el("span", { class: "small" }, ` ${step.minutes} ${WORDS.min}`),
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

function testRow(test, view, open, ui, act) {
  const chosen = ui.technique[test.id] || (test.techniques[0] && test.techniques[0].id);
  const taken = view.sheet.filter((row) => row.name === test.name);
  const last = taken[taken.length - 1];
  return el("li", {},
    el("div", { class: "grow" },
      test.name,
      el("span", { class: "small" },
        ` ${test.minutes} ${WORDS.min}${test.way === "measure" ? ` · ${test.tool}` : ""}`),
      test.caution && el("p", { class: "caution" }, test.caution),
      test.blocked && el("p", { class: "small blocked" }, test.blocked),
      test.techniques.length > 1 && el("label", { class: "technique" },
        el("span", { class: "small" }, WORDS.technique),
        el("select", {
          "data-key": `technique-${test.id}`,
          "aria-label": `${WORDS.technique}: ${test.name}`,
          onchange: (e) => { ui.technique[test.id] = e.target.value; },
        },
        test.techniques.map((technique) =>
          el("option", { value: technique.id, selected: technique.id === chosen }, technique.name)))),
      last && el("p", { class: "landed" },
        last.words || el("strong", {}, withUnit(last.shown, last.unit)),
        el("span", { class: "small" }, ` ${put(WORDS.at, { minute: last.minute })} · ${WORDS.steadiness[last.steadiness] || last.steadiness}`),
        moved(taken))),
    el("button", {
      "data-key": `test-${test.id}`,
      disabled: !open || Boolean(test.blocked),
      "aria-label": `${last ? WORDS.again : WORDS.take[test.way]}: ${test.name}`,
      onclick: () => act({
        do: "measure", test: test.id,
        technique: ui.technique[test.id] || (test.techniques[0] && test.techniques[0].id),
      }),
    }, last ? WORDS.again : WORDS.take[test.way]));
}

// While a system still drifts, how the number moved since it was last read.
function moved(taken) {
  if (taken.length < 2) return null;
  const [before, now] = taken.slice(-2);
  return before.shown !== null && now.shown !== null &&
    el("span", { class: "small" }, ` · ${put(WORDS.was, { value: withUnit(before.shown, before.unit), minute: before.minute })}`);
}
