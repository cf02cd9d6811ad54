// What if: predict, then put one thing after another into the house and compare. The prediction
// holds once the first values are seen; every value comes from the server, one state at a time.

function whatIf(part, line) {
  const titleId = `what-if-${part.id}`;
  const said = el("p", { class: "said", role: "status", "aria-live": "polite" }, WORDS.tryAll);
  const verdict = el("p", { class: "verdict", role: "status", "aria-live": "polite" });
  const shown = new Map();
  let predicted = part.said ? part.said.given : "";

  const radios = part.choices.map((choice) =>
    el("input", {
      type: "radio", name: titleId, value: choice, checked: choice === predicted, onchange: () => { predicted = choice; },
    }));
  const buttons = part.states.map(({ state, name }) =>
    el("button", { type: "button", "aria-pressed": "false", "data-try": state, onclick: () => attempt(state) }, name));
  const table = el("table", {});

  function paint(now) {
    const tone = (state) => (state === now ? "now" : null);
    table.replaceChildren(
      el("caption", { class: "visually-hidden" }, part.title),
      el("thead", {}, el("tr", {}, el("th", { scope: "col" }, WORDS.reading),
        part.states.map(({ state, name }) => el("th", { scope: "col", class: tone(state) }, name)))),
      el("tbody", {}, part.rows.map((row, index) => el("tr", {},
        el("th", { scope: "row" }, row.name, " ", el("span", { class: "unit" }, row.unit)),
        part.states.map(({ state }) => cell(shown.get(state), index, tone(state)))))));
    part.states.forEach(({ state }, index) => buttons[index].setAttribute("aria-pressed", String(state === now)));
  }

  function cell(cells, index, tone) {
    if (!cells) return el("td", { class: "untried" }, "–", el("span", { class: "visually-hidden" }, WORDS.untried));
    return el("td", { class: tone }, cells[index].value,
      cells[index].move && el("span", { class: "move" }, cells[index].move));
  }

  async function attempt(state) {
    const reply = await line.ask({ do: "try", question: part.id, state, answer: predicted });
    said.textContent = reply.problem || reply.said;
    said.classList.toggle("caution", Boolean(reply.problem));
    if (reply.problem) return;
    for (const radio of radios) radio.disabled = true;
    shown.set(state, reply.cells);
    paint(state);
    if (shown.size === part.states.length) await judge();
  }

  async function judge() {
    if (verdict.textContent) return;
    const reply = await line.ask({ do: "answer", question: part.id, answer: predicted });
    if (reply.problem) verdict.textContent = reply.problem;
    else tell(reply);
  }

  function tell(reply) {
    verdict.textContent = `${WORDS.predicted}: ${predicted}. ${reply.right ? WORDS.right : WORDS.notSo} ${reply.reason}`;
    verdict.dataset.right = String(Boolean(reply.right));
  }

  // What was predicted before stands there again, and what was seen is asked for once more.
  async function recall() {
    tell(part.said);
    for (const { state } of part.states) await attempt(state);
    said.textContent = "";
  }

  paint(null);
  if (part.said) recall();
  return el("section", { class: "what-if", "aria-labelledby": titleId },
    el("h3", { id: titleId }, part.title),
    el("p", { class: "story" }, part.intro),
    el("div", { class: "question" }, el("fieldset", {}, el("legend", {}, part.text),
      part.choices.map((choice, index) => el("label", { class: "check" }, radios[index], choice)))),
    el("div", { class: "tries", role: "group", "aria-label": WORDS.inHouse }, buttons),
    said,
    el("div", { class: "wide", tabindex: "0", role: "region", "aria-label": WORDS.sideBySide }, table),
    el("p", { class: "small" }, part.beside),
    verdict);
}
