// A part of a lesson: paragraphs, tables and questions, in the order the server gives.

function render({ model, el: host }) {
  speak(model, WORDS);
  const line = new Line(model);
  const root = el("div", { class: "bench lesson" });
  const notice = el("p", { class: "notice", role: "status", "aria-live": "polite" });
  host.append(root);

  function block(part) {
    if (part.kind === "text") return el("p", { class: "story" }, unbroken(part.text));
    if (part.kind === "table") return table(part);
    if (part.kind === "link") return el("p", {}, el("a", { class: "button", href: part.href }, part.text));
    if (part.kind === "what_if") return whatIf(part, line);
    if (part.kind === "circuit") return circuit(part);
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

  // One question; what was answered before stands there again.
  function question(part) {
    const verdict = el("p", { class: "verdict", role: "status", "aria-live": "polite" });
    const said = part.said || null;
    let given = part.kind === "ticks" ? new Set(said ? said.given.split("\n") : []) : said ? said.given : "";
    const show = (reply) => {
      verdict.textContent = reply.problem || `${reply.right ? WORDS.right : WORDS.notYet} ${reply.reason}`;
      verdict.dataset.right = String(Boolean(reply.right));
    };
    const ask = async () => show(await line.ask({
      do: "answer", question: part.id, answer: given instanceof Set ? [...given] : given,
    }));
    if (said) show(said);
    // A verdict on another answer than the one that stands there would mislead.
    const forget = () => { verdict.textContent = ""; delete verdict.dataset.right; };
    return el("div", { class: "question", oninput: forget }, entry(part, given, (now) => { given = now; }, ask),
      el("button", { onclick: ask, "data-question": part.id }, WORDS.check), verdict);
  }

  function entry(part, given, keep, ask) {
    if (part.kind === "ticks") {
      return el("fieldset", {}, el("legend", {}, unbroken(part.text)), part.choices.map((choice) =>
        el("label", { class: "check" }, el("input", {
          type: "checkbox", value: choice, checked: given.has(choice),
          onchange: (e) => { if (e.target.checked) given.add(choice); else given.delete(choice); },
        }), choice)));
    }
    if (part.choices) {
      return el("fieldset", {}, el("legend", {}, unbroken(part.text)), part.choices.map((choice) =>
        el("label", { class: "check" }, el("input", {
          type: "radio", name: part.id, value: choice, checked: choice === given, onchange: () => keep(choice),
        }), choice)));
    }
    return el("label", {}, el("span", {}, unbroken(part.text)), el("span", { class: "entry" },
      el("input", {
        type: "text", inputmode: "decimal", size: "8", value: given,
        oninput: (e) => keep(e.target.value), onkeydown: (e) => { if (e.key === "Enter") ask(); },
      }),
      el("span", { class: "unit" }, part.unit)));
  }

  line.ask({ do: "open" }).then((answer) => {
    root.dataset.ready = "true";
    root.replaceChildren(...(answer.blocks || []).map(block));
    if (answer.problem) { notice.textContent = answer.problem; notice.classList.add("problem"); root.append(notice); }
  });
}

export default { render };
