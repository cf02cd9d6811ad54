// The coach at the foot of the page: asked when wanted, silent otherwise, gone in a test.

const SOON = 250; // ms before the first look whether the coach is done thinking
const THINKS = 700; // between two later ones
const MOST_LOOKS = 90;

function coachBar(foot, line, units) {
  let now = null;
  let asking = false;
  let isUp = false;
  let isPaused = false;
  const words = el("div", { class: "coach-said" });
  // The live region itself always stands: what is put into it is spoken.
  const said = el("div", { role: "status", "aria-live": "polite" }, words);
  const button = el("button", { class: "quiet", "data-key": "coach", onclick: ask }, WORDS.coach.ask);
  const fold = el("button", { class: "quiet", "data-key": "coach-fold", onclick: () => { isUp = !isUp; drawn(); } });
  const price = el("span", { class: "small" }, WORDS.coach.price);
  const node = el("section", { class: "coach", "aria-label": WORDS.coach.name },
    said, el("div", { class: "coach-row" }, button, fold, price));

  function tell(lines, head) {
    words.replaceChildren(...[
      head && el("p", { class: "coach-head" }, head),
      ...lines.map((text) => el("p", {}, text)),
    ].filter(Boolean));
  }

  function drawn() {
    const has = words.childElementCount > 0;
    words.hidden = !has || !isUp;
    // Only what scrolls needs the keyboard.
    if (words.scrollHeight > words.clientHeight) words.setAttribute("tabindex", "0");
    else words.removeAttribute("tabindex");
    fold.hidden = !has;
    price.hidden = has;
    fold.textContent = isUp ? WORDS.coach.away : WORDS.coach.last;
    fold.setAttribute("aria-expanded", isUp ? "true" : "false");
  }

  function hinted() {
    if (now.said.length === 0) tell([]);
    else tell(now.said, now.rung > 0 && put(WORDS.coach.rung, { rung: now.rung }));
  }

  async function ask() {
    if (asking || isPaused) return;
    asking = true;
    button.setAttribute("aria-disabled", "true");
    isUp = true;
    const message = { do: "coach", seen: now.taken, units: units() };
    let answer = await line.ask(message);
    for (let looks = 0; answer.coach && answer.coach.is_thinking && looks < MOST_LOOKS; looks += 1) {
      if (looks === 0) { tell([WORDS.coach.thinking]); drawn(); }
      await new Promise((done) => { setTimeout(done, looks === 0 ? SOON : THINKS); });
      answer = await line.ask(message);
    }
    asking = false;
    if (!isPaused) button.removeAttribute("aria-disabled");
    if (answer.coach && !answer.coach.is_thinking) {
      now = answer.coach;
      hinted();
    } else {
      tell([answer.problem || WORDS.coach.silent]);
    }
    drawn();
  }

  // What the view says of the coach: nothing in a test, the last hint after a reload.
  function show(told, paused) {
    isPaused = Boolean(paused);
    if (isPaused || asking) button.setAttribute("aria-disabled", "true");
    else button.removeAttribute("aria-disabled");
    if (!told) node.remove();
    else if (!node.isConnected) foot.append(node);
    if (!told || asking) return;
    // Told anew in other units too; only what is new or reads otherwise is spoken again.
    const isNew = !now || now.taken !== told.taken || now.said.join() !== told.said.join();
    now = told;
    if (isNew) { hinted(); drawn(); }
  }

  drawn();
  return { show };
}
