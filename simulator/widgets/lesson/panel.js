// A part of a lesson: paragraphs, tables and questions, in the order the server gives.

function render({ model, el: host }) {
  const line = new Line(model);
  const root = el("div", { class: "bench lesson" });
  const notice = el("p", { class: "notice", role: "status", "aria-live": "polite" });
  host.append(root);

  function block(part) {
    if (part.kind === "text") return el("p", { class: "story" }, part.text);
    if (part.kind === "table") return table(part);
    if (part.kind === "link") return el("p", {}, el("a", { class: "button", href: part.href }, part.text));
    if (part.kind === "what_if") return whatIf(part, line);
    return question(part);
  }

  function table(part) {
    return el("div", { class: "wide", tabindex: "0", role: "region", "aria-label": part.title }, el("table", {},
      el("caption", {}, part.title),
      el("thead", {}, el("tr", {}, el("th", { scope: "col" }, WORDS.reading),
        part.columns.map((name) => el("th", { scope: "col" }, name)))),
      el("tbody", {}, part.rows.map((row) => el("tr", {},
        el("th", { scope: "row" }, row.name), row.values.map((value) => el("td", {}, value)))))));
  }

  function question(part) {
    const verdict = el("p", { class: "verdict", role: "status", "aria-live": "polite" });
    let given = "";
    const ask = async () => {
      const reply = await line.ask({ do: "answer", question: part.id, answer: given });
      verdict.textContent = reply.problem || `${reply.right ? WORDS.right : WORDS.notYet} ${reply.reason}`;
      verdict.dataset.right = String(Boolean(reply.right));
    };
    const entry = part.choices
      ? el("fieldset", {}, el("legend", {}, part.text), part.choices.map((choice) =>
        el("label", { class: "check" }, el("input", { type: "radio", name: part.id, value: choice, onchange: () => { given = choice; } }), choice)))
      : el("label", {}, el("span", {}, part.text), el("span", { class: "entry" },
        el("input", { type: "text", inputmode: "decimal", size: "8", oninput: (e) => { given = e.target.value; }, onkeydown: (e) => { if (e.key === "Enter") ask(); } }),
        el("span", { class: "unit" }, part.unit)));
    return el("div", { class: "question" }, entry,
      el("button", { onclick: ask, "data-question": part.id }, WORDS.check), verdict);
  }

  line.ask({ do: "open" }).then((answer) => {
    root.dataset.ready = "true";
    root.replaceChildren(...(answer.blocks || []).map(block));
    if (answer.problem) { notice.textContent = answer.problem; notice.classList.add("problem"); root.append(notice); }
  });
}

export default { render };
