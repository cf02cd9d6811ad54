// A question between readings: what is thought likeliest, and how much. It tells nothing.

const PROBED = ["first", "second"];

function probe(view, ui, act) {
  if (!view.asks_odds) return null;
  const now = ui.probe;
  const send = () => {
    const given = PROBED.filter((place) => now[place]);
    return act({
      do: "probe",
      causes: given.map((place) => now[place]),
      percents: given.map((place) => now[`${place}-percent`] || ""),
    });
  };
  const answered = (done) => { if (done) { ui.probe = {}; ui.focus(`desk-${ui.desk}`); } };
  const row = (place) => el("div", { class: "row" },
    el("label", {}, WORDS.probe[place],
      el("select", {
        "data-key": `probe-${place}`, onchange: (e) => { now[place] = e.target.value; },
      }, el("option", { value: "" }, WORDS.probe.none), view.causes.map((cause) =>
        el("option", { value: cause.code, selected: now[place] === cause.code }, cause.name)))),
    el("label", {}, WORDS.probe.percent,
      el("input", {
        type: "text", inputmode: "decimal", size: "4", "data-key": `probe-${place}-percent`,
        "aria-label": `${WORDS.probe[place]}: ${WORDS.probe.percent}`,
        value: now[`${place}-percent`] || "", oninput: (e) => { now[`${place}-percent`] = e.target.value; },
      })));
  return el("details", { class: "probe", open: Boolean(now.isOpen), ontoggle: (e) => { now.isOpen = e.target.open; } },
    el("summary", { "data-key": "probe" }, WORDS.probe.ask),
    el("p", { class: "small" }, WORDS.probe.how),
    PROBED.map(row),
    el("div", { class: "row" },
      el("button", {
        "data-key": "probe-keep", "data-heir": "desk-here", disabled: view.is_paused,
        onclick: () => (now.first || now.second ? send().then(answered) : ui.focus("probe-first")),
      }, WORDS.probe.keep),
      el("button", {
        "data-key": "probe-aside", "data-heir": "desk-here", disabled: view.is_paused,
        onclick: () => act({ do: "probe", causes: [], percents: [] }).then(answered),
      }, WORDS.probe.aside)));
}
