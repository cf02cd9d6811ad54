// The readings beside their healthy ghosts. Rows are made once and then changed in place:
// quick, and the eye keeps its line.

class Readings {
  constructor(bench, host, pulse, changed) {
    this.bench = bench;
    this.changed = changed;
    this.host = host;
    this.pulse = pulse;
    this.rows = new Map();
  }

  make() {
    const { stand } = this.bench;
    this.rows.clear();
    const groups = [...new Set(stand.readings.map((row) => row.group))];
    replaceKeepingFocus(this.host, [
      el("h2", { id: "h-show" }, WORDS.show),
      el("p", { class: "small until" }, WORDS.untilReveal),
      el("div", { class: "part" }, this.partSaid = el("p", { class: "small", role: "status" }),
        this.every = el("button", { "data-key": "every", "data-control": "every", onclick: () => this.toggle() })),
      el("div", { class: "groups" }, groups.map((group) => el("div", { class: "group" },
        el("h3", { class: group === "Low side" ? "low" : group === "High side" ? "high" : "" }, WORDS.groups[group] || group),
        el("ul", {}, stand.readings.filter((row) => row.group === group).map((row) => this.row(row))),
        group === "Low side" && (this.charge = el("p", { class: "small charge-test" }))))),
    ]);
  }

  row(row) {
    const parts = {
      ghost: el("i", { class: "ghost" }), mark: el("i", { class: "mark" }), value: el("span", {}),
      unit: el("span", { class: "unit" }), difference: el("span", { class: "small difference" }),
    };
    parts.item = el("li", { "data-reading": row.name, class: this.bench.stand.predictable.usual.includes(row.name) ? "key" : null },
      el("span", { class: "label" }, row.label),
      el("span", { class: "scale", "aria-hidden": "true" }, parts.ghost, parts.mark),
      el("span", { class: "value" }, parts.value, " ", parts.unit), parts.difference);
    this.rows.set(row.name, parts);
    return parts.item;
  }

  // The back row sees a few readings and the charts, or all readings and no chart.
  toggle() {
    this.bench.view.isEvery = !this.bench.view.isEvery;
    this.paintPart();
    this.changed();
  }

  paintPart() {
    const { view, stand } = this.bench;
    const items = [...this.rows.values()].map((parts) => parts.item);
    const shown = items.filter((item) => item.matches(".much, .key")).length;
    const counts = { shown, all: items.length };
    this.bench.mark("every-reading", view.isEvery);
    this.partSaid.textContent = view.isEvery ? "" : put(stand.why.length ? WORDS.fewMoved : WORDS.fewHealthy, counts);
    this.every.textContent = put(view.isEvery ? WORDS.few : WORDS.every, counts);
    this.every.setAttribute("aria-pressed", view.isEvery ? "true" : "false");
  }

  paint() {
    const { stand } = this.bench;
    if ([...this.rows.keys()].join() !== stand.readings.map((row) => row.name).join()) this.make();
    for (const row of stand.readings) {
      const parts = this.rows.get(row.name);
      const at = (value) => `${Math.min(100, Math.max(0, (100 * (value - row.low)) / (row.high - row.low)))}%`;
      parts.ghost.style.left = at(row.healthy_number);
      parts.mark.style.left = at(row.now_number);
      parts.item.classList.toggle("moved", Boolean(row.difference));
      // What moved most is what the back row sees.
      parts.item.classList.toggle("much", Math.abs(row.now_number - row.healthy_number) > 0.06 * (row.high - row.low));
      for (const [part, text] of [["value", row.now], ["unit", row.unit], ["difference", row.difference ? `${row.difference} (${row.healthy})` : WORDS.same]]) {
        if (parts[part].textContent !== text) parts[part].textContent = text;
      }
    }
    // Beside superheat and subcooling: whether they may be read as a charge test.
    this.charge.textContent = unbroken(stand.charge_test.text);
    this.charge.classList.toggle("counts", stand.charge_test.counts);
    this.paintPart();
    this.paintPulse();
    for (const group of this.host.querySelectorAll(".group")) group.classList.toggle("quiet", !group.querySelector(".much, .key"));
  }
  // The three that moved most, in the order of the list; healthy, three that a class asks for first.
  paintPulse() {
    const { readings, predictable } = this.bench.stand;
    const far = (row) => (row.difference ? Math.abs(row.now_number - row.healthy_number) / (row.high - row.low) : 0);
    const rank = (row) => far(row) + (predictable.usual.includes(row.name) ? 1e-6 : 0);
    const most = [...readings].sort((one, other) => rank(other) - rank(one)).slice(0, 3);
    this.pulse.replaceChildren(...readings.filter((row) => most.includes(row)).map((row) => {
      const way = Math.sign(row.difference ? row.now_number - row.healthy_number : 0);
      return el("span", {}, row.label, el("b", {}, `${["▼ ", "", "▲ "][way + 1]}${row.now} `, el("span", { class: "unit" }, row.unit)));
    }));
  }
}
