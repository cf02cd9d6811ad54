// A link to this very setting, and the size of the letters for the back row.

const PROJECTOR_KEY = "benchcall-projector";

function sharePanel(bench, say) {
  const { setting } = bench;
  const field = el("input", { type: "text", readonly: true, class: "link", "aria-label": WORDS.linkIs, "data-key": "link-text", value: addressOf(bench) });
  const copy = async () => {
    field.value = addressOf(bench);
    say((await isCopied(field)) ? WORDS.copied : WORDS.copyByHand);
  };
  return el("details", { "data-keep": "share", class: "share" },
    el("summary", { "data-key": "share" }, WORDS.more),
    el("div", { class: "row" },
      el("button", { "data-key": "copy-link", onclick: copy }, WORDS.copyLink),
      el("button", {
        "data-key": "units", "aria-pressed": setting.units === "si" ? "true" : "false",
        onclick: () => setUnits(bench, setting.units === "us" ? "si" : "us"),
      }, WORDS.metric)),
    field);
}

// What a field shows is marked, and copied where the browser lets it be.
async function isCopied(field) {
  field.select();
  try {
    await navigator.clipboard.writeText(field.value);
    return true;
  } catch {
    return document.execCommand("copy"); // a room's own network is not a secure context
  }
}

// A fault that a link hides stays hidden in the address, and is there after a reload.
function linkOf(bench, given) {
  const { view, setting } = bench;
  const sealed = given || (view.game && !view.game.result && !setting.faults.some(Boolean) && view.game.sealed);
  const said = bench.stand ? bench.stand.link : "";
  // A chart that a reveal brought up would tell the next class where to look.
  return sealed ? `${view.chosenFor ? said.replaceAll(/&?chart=[a-z_]+/g, "") : said}&predict=${sealed}` : said;
}

function addressOf(bench, sealed) {
  const here = window.location;
  return `${here.origin}${here.pathname}${here.search}#${linkOf(bench, sealed)}`;
}

// A link that opens in Predict: the server keeps the fault, the link carries a code for it.
function classLink(bench, game, { say, asked }) {
  const field = el("input", { type: "text", readonly: true, hidden: true, class: "link", "aria-label": WORDS.copyForClass, "data-key": "class-link-text" });
  const copy = async () => {
    const answer = game.sealed ? game : await bench.line.ask({ ...asked("seal"), faults: game.faults });
    if (!answer.sealed) { say(answer.problem, true); return; }
    field.value = addressOf(bench, answer.sealed);
    field.hidden = false;
    said.textContent = (await isCopied(field)) ? WORDS.copiedForClass : WORDS.copyByHand;
  };
  const said = el("p", { class: "small", role: "status" }, WORDS.forClass); // where one looks now
  return el("div", { class: "class-link", "data-control": "class-link" },
    el("button", { "data-key": "class-link", onclick: copy }, WORDS.copyForClass),
    said, field);
}

function projectorButton(bench, root, changed) {
  const button = el("button", { "data-key": "projector", "data-control": "projector", "aria-keyshortcuts": WORDS.projectorKeys, title: WORDS.projectorKeys }, WORDS.projector);
  const show = () => {
    root.classList.toggle("projector", bench.view.projector);
    button.setAttribute("aria-pressed", bench.view.projector ? "true" : "false");
  };
  const toggle = () => {
    bench.view.projector = !bench.view.projector;
    keep(PROJECTOR_KEY, bench.view.projector ? "on" : "off");
    show();
    changed();
  };
  button.addEventListener("click", toggle);
  document.addEventListener("keydown", (event) => {
    if (event.altKey && !event.ctrlKey && event.code === "KeyP" && root.isConnected) { event.preventDefault(); toggle(); }
  });
  show();
  return button;
}
