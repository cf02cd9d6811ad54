// Predict, then reveal: the class says up, down or same before anything is shown.

const ASKED = {
  cooling: ["airflow", "suction_pressure", "superheat", "subcooling", "liquid_pressure", "temperature_split"],
  heating: ["airflow", "vapour_line_pressure", "liquid_pressure", "subcooling", "temperature_rise", "outdoor_power"],
};
const WAYS = ["up", "same", "down"];

function asked(stand, mode) {
  return stand.readings.filter((row) => ASKED[mode].includes(row.name));
}

function whatHappened(row) {
  if (!row.difference) return "same";
  return row.now_number > row.healthy_number ? "up" : "down";
}

function predictPanel(stand, setting, game, ui) {
  const rows = asked(stand, setting.mode);
  const open = rows.filter((row) => !game.marks[row.name]).length;
  return [
    el("h2", { id: "h-show" }, WORDS.predictTitle),
    el("p", { class: "small" }, setting.faults.some((f) => f && f.name) ? WORDS.predictHelp : WORDS.predictFirst),
    el("ul", { class: "predictions" }, rows.map((row) => el("li", {},
      el("fieldset", {}, el("legend", {}, row.label, el("span", { class: "small" }, ` ${WORDS.healthy} ${row.healthy} ${row.unit}`)),
        WAYS.map((way) => el("label", { class: "check" },
          el("input", {
            type: "radio", name: `p-${row.name}`, checked: game.marks[row.name] === way, "data-key": `p-${row.name}-${way}`,
            onchange: () => { game.marks[row.name] = way; ui.redraw(); },
          }), WORDS.ways[way])))))),
    el("div", { class: "row" },
      el("button", { class: "main", "data-key": "reveal", onclick: ui.reveal }, WORDS.reveal),
      el("button", { "data-key": "predict-stop", onclick: ui.stop }, WORDS.predictStop),
      open > 0 && el("span", { class: "small" }, WORDS.stillOpen(open))),
  ];
}

function verdicts(stand, setting, game) {
  const rows = asked(stand, setting.mode).filter((row) => game.marks[row.name]);
  const right = rows.filter((row) => whatHappened(row) === game.marks[row.name]).length;
  return el("section", { class: "verdicts", "aria-labelledby": "h-verdicts" },
    el("h3", { id: "h-verdicts" }, WORDS.foreseen(right, rows.length)),
    el("ul", {}, rows.map((row) => {
      const is = whatHappened(row);
      const isRight = is === game.marks[row.name];
      return el("li", { class: isRight ? "right" : "wrong" },
        el("span", { "aria-hidden": "true" }, isRight ? "✓ " : "○ "),
        WORDS.verdict(row.label, WORDS.ways[game.marks[row.name]], isRight, row.difference ? `${row.now} ${row.unit}, ${row.difference}` : WORDS.same));
    })));
}
