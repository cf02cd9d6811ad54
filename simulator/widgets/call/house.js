// Places of the house, and what can be done at the one where one stands.

function house(view, ui, act) {
  const open = view.visit.phase === "open";
  const here = view.places.find((place) => place.id === view.here);
  return el("section", { class: "tab-house", "aria-labelledby": "h-house" },
    el("h2", { id: "h-house" }, WORDS.house),
    el("ul", { class: "places" },
      view.places.map((place) =>
        el("li", { class: `place place-${place.id}` },
          el("button", {
            "data-key": `place-${place.id}`,
            "aria-current": place.id === view.here ? "location" : null,
            disabled: !open,
            onclick: () => { if (place.id !== view.here) act({ do: "go", place: place.id }); },
          },
          place.name,
          el("span", { class: "small" }, place.id === view.here ? WORDS.here : WORDS.walk))))),
    here && card(here, view, open, ui, act));
}

function card(place, view, open, ui, act) {
  const ways = ["ask", "look", "feel", "measure"];
  return el("div", { class: "card", "aria-labelledby": "h-card", role: "group" },
    el("h3", { id: "h-card" }, place.name),
    place.caution && el("p", { class: "caution" }, place.caution),
    place.steps.length > 0 && el("div", {},
      el("h3", {}, WORDS.steps),
      el("ul", { class: "rows" },
        place.steps.map((step) =>
          el("li", {},
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
              }, WORDS.doStep))))),
    ways.map((way) => {
      const tests = place.tests.filter((test) => test.way === way);
      return tests.length > 0 && el("div", {},
        el("h3", {}, WORDS.tests[way]),
        el("ul", { class: "rows" }, tests.map((test) => testRow(test, open, ui, act))));
    }));
}

function testRow(test, open, ui, act) {
  const chosen = ui.technique[test.id] || (test.techniques[0] && test.techniques[0].id);
  return el("li", {},
    el("div", { class: "grow" },
      test.name,
      el("span", { class: "small" },
        ` ${test.minutes} ${WORDS.min}${test.way === "measure" ? ` · ${test.tool}` : ""}`,
        test.times_taken > 0 ? ` · ${WORDS.taken(test.times_taken)}` : ""),
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
          el("option", { value: technique.id, selected: technique.id === chosen }, technique.name))))),
    el("button", {
      "data-key": `test-${test.id}`,
      disabled: !open || Boolean(test.blocked),
      "aria-label": `${WORDS.take[test.way]}: ${test.name}`,
      onclick: () => act({
        do: "measure", test: test.id,
        technique: ui.technique[test.id] || (test.techniques[0] && test.techniques[0].id),
      }),
    }, WORDS.take[test.way]));
}
