// Keeps the board fresh: rows are fetched again and set as text.
const table = document.querySelector("table[data-rows]");
const count = document.getElementById("count");
const CELLS = ["who", "call", "stage", "minutes", "readings", "repairs", "last"];

async function refresh() {
  try {
    const answer = await fetch(table.dataset.rows, { credentials: "same-origin" });
    if (!answer.ok || answer.redirected) throw new Error();
    const { rows } = await answer.json();
    table.tBodies[0].replaceChildren(...rows.map((row) => {
      const line = document.createElement("tr");
      CELLS.forEach((cell, i) => {
        const node = document.createElement(i ? "td" : "th");
        if (!i) node.scope = "row";
        node.textContent = row[cell];
        line.append(node);
      });
      return line;
    }));
    const text = `${rows.length} on the board`;
    if (count.textContent !== text) count.textContent = text;
  } catch {
    count.textContent = "The board could not be refreshed; reload the page.";
  }
}

if (table) setInterval(refresh, 4000);
