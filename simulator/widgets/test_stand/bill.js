// What the day costs by part: as set, with the healthy column beside it.

function billTable(bill) {
  const head = (text) => el("th", { scope: "col" }, text);
  const pair = (now, healthy) => [el("td", {}, now), el("td", { class: "ghostly" }, healthy)];
  return [
    el("h3", { id: "h-bill" }, WORDS.bill),
    el("p", { class: "small" }, bill.day),
    bill.runs.map((text) => el("p", {}, text)),
    el("table", { class: "bill" },
      el("thead", {}, el("tr", {}, head(WORDS.part),
        head(bill.energy_unit), head(WORDS.healthy), head(bill.cost_unit), head(WORDS.healthy))),
      el("tbody", {}, bill.rows.map((row) => el("tr", { "data-part": row.part },
        el("th", { scope: "row" }, row.label),
        pair(row.energy, row.energy_healthy), pair(row.cost, row.cost_healthy))))),
  ];
}
