// Keeps the board fresh: rows are fetched again and set as text.
const table = document.querySelector("table[data-rows]");
const count = document.getElementById("count");
const tally = document.getElementById("tally");
const heads = [...table.tHead.rows[0].cells].map((head) => head.textContent);
// On a telephone a row is a card: its first three cells speak for themselves.
const PLAIN = 3;
const CELLS = ["who", "call", "stage", "minutes", "readings", "repairs", "last", "stuck"];

let shown = "";

// Rows that have not changed stay, so that a press that has begun meets its link.
function drawRows(rows) {
  const held = [...table.querySelectorAll("a")].indexOf(document.activeElement);
  table.tBodies[0].replaceChildren(...rows.map((row) => {
    const line = document.createElement("tr");
    CELLS.forEach((cell, i) => {
      const node = document.createElement(i ? "td" : "th");
      if (!i) node.scope = "row";
      if (i >= PLAIN) node.dataset.label = heads[i];
      const inner = !i && row.visit ? node.appendChild(document.createElement("a")) : node;
      if (inner !== node) inner.href = table.dataset.visits + row.visit;
      inner.textContent = row[cell];
      line.append(node);
    });
    return line;
  }));
  if (held >= 0) table.querySelectorAll("a")[held]?.focus(); // rows are new, the keyboard stays
}

async function refresh() {
  try {
    const answer = await fetch(table.dataset.rows, { credentials: "same-origin" });
    if (!answer.ok || answer.redirected) throw new Error();
    const { rows, stages } = await answer.json();
    const now = JSON.stringify(rows);
    if (now !== shown) drawRows(rows);
    shown = now;
    stages.forEach((stage, i) => {
      const number = tally.children[i].querySelector("strong");
      if (number.textContent !== String(stage.count)) number.textContent = stage.count;
    });
    const text = rows.length ? count.dataset.says.replace("{n}", rows.length) : count.dataset.none;
    if (count.textContent !== text) count.textContent = text;
  } catch {
    count.textContent = count.dataset.fails;
  }
}

// One at a time: a slow answer must not let requests pile up.
async function follow() {
  await refresh();
  setTimeout(follow, 1000);
}

if (table) setTimeout(follow, 1000);
