// The reading sheet: what is known, where it was seen, and what follows from it.

const GROUPS = ["low side", "high side", "air", "static", "electrical", "house"];

function units(view, act) {
  return el("div", { class: "row small units", role: "group", "aria-label": WORDS.units },
    ["us", "si"].map((system) =>
      el("button", {
        class: "quiet", "data-key": `units-${system}`,
        "aria-pressed": view.visit.units === system ? "true" : "false",
        onclick: () => act({ do: "units", system }),
      }, system === "us" ? "°F, psig" : "°C, kPa")));
}

function sheet(view, act) {
  const ready = view.places.flatMap((place) => place.steps).filter((step) => step.done);
  return el("section", { class: "tab-sheet", "aria-labelledby": "h-sheet", tabindex: "0" },
    el("div", { class: "sheet-head" }, el("h2", { id: "h-sheet" }, WORDS.sheet),
      el("div", { class: "row" },
        el("button", { class: "quiet", "data-key": "print", onclick: () => window.print() }, WORDS.print), units(view, act))),
    ready.length > 0 && el("details", { class: "small", "data-keep": "ready" },
      el("summary", { "data-key": "ready" }, `${WORDS.prepared} (${ready.length})`),
      el("ul", { class: "lines" }, ready.map((step) => el("li", {}, step.name)))),
    view.sheet.length === 0 && el("p", { class: "small" }, WORDS.nothingYet),
    view.sheet.some((row) => row.shown !== null && !row.conditions.includes(",")) && el("p", { class: "small" }, WORDS.unchanged),
    GROUPS.map((group) => {
      const rows = view.sheet.filter((row) => row.group === group).slice().reverse();
      return rows.length > 0 && el("div", { class: "group" },
        el("h3", { class: group === "low side" ? "low" : group === "high side" ? "high" : "" },
          WORDS.groups[group]),
        el("ul", { class: "readings" }, rows.map((row) => readingRow(row, view))));
    }),
    view.worked_out.length > 0 && el("div", { class: "group" },
      el("h3", {}, WORDS.worked),
      el("ul", { class: "readings" }, view.worked_out.map(workedRow))),
    el("div", { class: "group" },
      el("h3", {}, WORDS.pairs),
      view.pairs.length === 0
        ? el("p", { class: "small" }, WORDS.pairsEmpty)
        : el("table", {},
          el("thead", {}, el("tr", {}, el("th", { scope: "col" }, el("span", { class: "visually-hidden" }, WORDS.reading)),
            el("th", { scope: "col" }, WORDS.before), el("th", { scope: "col" }, WORDS.after))),
          el("tbody", {}, view.pairs.map((pair) => el("tr", {},
            el("th", { scope: "row" }, pair.name,
              pair.note && el("p", { class: pair.is_proof ? "small" : "small doubt" }, pair.note)),
            el("td", {}, withUnit(pair.before.shown, pair.unit)),
            el("td", {}, pair.after ? withUnit(pair.after.shown, pair.unit) : WORDS.notYet)))))));
}

function placeName(view, id) {
  const place = view.places.find((item) => item.id === id);
  return place ? place.name : id;
}

// Where a line ends, the minute keeps its number.
function atMinute(minute) {
  return put(WORDS.at, { minute }).replace(" ", "\u00a0");
}

// Place, time, tool, how the system stood, whether the number had come to rest.
function whereAndHow(row, view) {
  const isNumber = row.shown !== null && row.shown !== undefined;
  return [
    placeName(view, row.place),
    `${atMinute(Math.round(row.minute))} (${row.clock})`,
    isNumber && row.tool && unbroken(row.tool), row.technique,
    // What a customer says does not hang on what the system does.
    row.place !== "customer" && row.conditions,
    // Off is told by how the system stood.
    (isNumber ? row.steadiness !== "system off" : row.steadiness === "not steady") && WORDS.steadiness[row.steadiness],
    row.after_repair && WORDS.afterRepair,
  ];
}

function readingRow(row, view) {
  return el("li", { class: row.after_repair ? "after" : "", "data-seq": row.seq },
    el("div", { class: "grow" },
      el("span", {}, row.name),
      el("span", { class: "small where" }, whereAndHow(row, view).filter(Boolean).join("\u00a0· ")),
      row.words && el("p", { class: "said" }, row.words)),
    row.shown !== null && row.shown !== undefined &&
      el("span", { class: "value" }, row.shown, " ", el("span", { class: "unit" }, row.unit || "")));
}

function workedRow(row) {
  return el("li", { class: row.after_repair ? "after" : "" },
    el("details", { class: "grow", "data-keep": `worked-${row.name}-${row.after_repair}` },
      el("summary", { "data-key": `worked-${row.name}-${row.after_repair}` }, row.name,
        el("span", { class: "small" }, ` ${atMinute(row.minutes.join(` ${WORDS.and} `))}`,
          row.after_repair ? ` · ${WORDS.afterRepair}` : ""),
        row.doubt && el("span", { class: "small doubt" }, ` ${row.doubt}`)),
      el("p", { class: "small" }, row.formula),
      el("p", { class: "small" }, `${WORDS.restsOn}: `,
        row.rests_on.map((used) => `${used.name.toLowerCase()}, ${atMinute(used.minute)}`).join("; "))),
    el("span", { class: "value" }, row.shown, " ", el("span", { class: "unit" }, row.unit || "")));
}
