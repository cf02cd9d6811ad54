// One or two charts, chosen by name. What takes time arrives in parts while the page lives on.

const QUICK = ["cycle", "air", "fan", "delivery"];
const OVER_TIME = ["bill", "run_time", "rooms", "after", "start_heat", "start_pressure", "start_air"];
const REST = 400; // ms, before something slow is asked for, and before progress is shown

class Figures {
  constructor(bench, host) {
    this.bench = bench;
    this.slots = [0, 1].map(() => ({ name: null, chart: null, turn: 0, link: null, node: el("figure", {}) }));
    this.chooser = el("div", { class: "chart-choice" });
    this.waiting = el("p", { class: "progress", role: "status" });
    host.append(this.chooser, this.waiting, ...this.slots.map((slot) => slot.node));
    this.choose();
  }

  choose() {
    const { view, setting } = this.bench;
    const nameOf = (name) => (name === "delivery" && setting.mode === "heating" ? WORDS.deliveryOfHeat : WORDS.chartNames[name]);
    const select = (slot) => {
      const other = view.charts[1 - slot];
      const options = (names) => names.filter((name) => name !== other).map((name) => el("option", { value: name, selected: view.charts[slot] === name }, nameOf(name)));
      const list = el("select", { id: `chart-${slot}`, "data-key": `chart-${slot}` },
        slot === 1 && el("option", { value: "", selected: !view.charts[1] }, WORDS.noChart),
        el("optgroup", { label: WORDS.chartGroups.now }, options(QUICK)),
        el("optgroup", { label: WORDS.chartGroups.time }, options(OVER_TIME)));
      list.value = view.charts[slot] || "";
      list.addEventListener("change", () => {
        view.charts = slot === 0 ? [list.value, view.charts[1]] : [view.charts[0], list.value];
        view.charts = view.charts.filter(Boolean);
        view.chosenFor = false;
        this.choose();
        this.bench.send();
      });
      return el("div", { class: "dial", "data-control": `chart-${slot}` }, el("label", { for: `chart-${slot}` }, WORDS.chart[slot]), list);
    };
    replaceKeepingFocus(this.chooser, [select(0), select(1)]);
  }

  // A new answer: quick charts are in it, slow ones are asked for at rest.
  paint() {
    const { view, stand } = this.bench;
    this.slots.forEach((slot, i) => {
      const name = view.charts[i] || null;
      if (slot.name !== name) { slot.name = name; slot.chart = null; slot.link = null; slot.node.replaceChildren(); }
      slot.node.hidden = !name;
      slot.node.dataset.chart = name || "";
      if (!name) return;
      if (stand.charts[name]) {
        slot.chart = stand.charts[name];
        this.draw(slot);
        slot.node.classList.remove("stale");
        slot.turn += 1;
      } else this.later(slot);
    });
  }

  draw(slot) {
    if (!slot.chart || slot.chart.kind === "wait") return;
    replaceKeepingFocus(slot.node, chartFigure(slot.chart, slot.name, widthOf(slot.node), this.bench.view.projector));
  }

  redraw() {
    for (const slot of this.slots) if (slot.name) this.draw(slot);
  }

  later(slot) {
    const key = this.bench.stand.link.replaceAll(/&?chart=[a-z_]+/g, "") + slot.name;
    if (slot.link === key) return;
    slot.link = key;
    slot.turn += 1;
    slot.node.classList.add("stale");
    if (!slot.chart) slot.node.replaceChildren(el("figcaption", { class: "chart-title" }, WORDS.chartNames[slot.name]), el("p", { class: "chart-waits small" }, CHART_WORDS.next));
    clearTimeout(slot.timer);
    slot.timer = setTimeout(() => this.fetch(slot, slot.turn), this.bench.isFirst ? 0 : REST);
  }

  async fetch(slot, turn) {
    const begun = performance.now();
    const name = slot.name;
    let part = 0, parts = 1;
    const tell = setInterval(() => {
      if (slot.turn !== turn) { clearInterval(tell); return; }
      if (performance.now() - begun < REST) return;
      this.waiting.textContent = put(CHART_WORDS.working, { part: Math.min(part + 1, parts), parts });
    }, 100);
    while (part < parts) {
      const answer = await this.bench.line.ask({ ...this.bench.message("slow"), chart: name, part });
      if (slot.turn !== turn) break; // the setting has moved on
      if (!answer.slow) { slot.link = null; break; } // what is wrong stands above; the old one stays dim
      slot.chart = answer.slow;
      parts = answer.slow.parts;
      part += 1;
      this.draw(slot);
    }
    clearInterval(tell);
    this.waiting.textContent = "";
    if (slot.turn === turn && part >= parts) slot.node.classList.remove("stale");
  }
}
