// A chart by its kind, its sentences, and the same as a table.

const CHART_KINDS = { plot: plotChart, flow: flowChart, bars: barChart };

// How wide a drawing is in its own units: as many pixels where letters are as large as usual,
// fewer where the reader has them larger.
function widthOf(host, otherwise = 480) {
  const letters = parseFloat(getComputedStyle(document.documentElement).fontSize) / 16 || 1;
  return Math.round(Math.min(900, Math.max(300, (host.clientWidth || otherwise) / letters)));
}

function chartFigure(chart, name, width, isLow = false) {
  const draw = CHART_KINDS[chart.kind];
  return [
    el("figcaption", { class: "chart-title" }, chart.title),
    (chart.notes || []).map((text, i) => el("p", { class: i ? "small" : "chart-note" }, text)),
    draw ? draw(chart, width, isLow) : el("p", { class: "chart-waits" }),
    chart.tables.length > 0 && chartTables(chart.tables, name),
  ];
}

function chartTables(tables, name) {
  return el("details", { "data-keep": `table-${name}`, class: "chart-table" },
    el("summary", { "data-key": `table-${name}` }, CHART_WORDS.asTable),
    tables.map((table) => el("div", { class: "scrolls", tabindex: "0", role: "region", "aria-label": table.caption },
      el("table", {},
        el("caption", {}, table.caption),
        el("thead", {}, el("tr", {}, table.columns.map((head) => el("th", { scope: "col" }, head)))),
        el("tbody", {}, table.rows.map(([first, ...rest]) => el("tr", {},
          el("th", { scope: "row" }, first), rest.map((cell) => el("td", {}, cell)))))))));
}
