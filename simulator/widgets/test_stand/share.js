// A link to this very setting, and the size of the letters for the back row.

const PROJECTOR_KEY = "benchcall-projector";

function sharePanel(bench, say) {
  const { setting } = bench;
  const field = el("input", { type: "text", readonly: true, class: "link", "aria-label": WORDS.linkIs, "data-key": "link-text", value: addressOf(bench) });
  const copy = async () => {
    field.value = addressOf(bench);
    field.select();
    let isCopied = false;
    try {
      await navigator.clipboard.writeText(field.value);
      isCopied = true;
    } catch {
      isCopied = document.execCommand("copy"); // a room's own network is not a secure context
    }
    say(isCopied ? WORDS.copied : WORDS.copyByHand);
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

function addressOf(bench) {
  const here = window.location;
  return `${here.origin}${here.pathname}${here.search}#${bench.stand ? bench.stand.link : ""}`;
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
