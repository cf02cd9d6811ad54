// The strip on top: who, what, how long, what the system does.

function strip(view, ui, act) {
  const order = view.work_order;
  const who = el("p", { class: "who" }, el("strong", {}, order.customer), ` · ${order.address}`);
  return el("header", { class: "call-strip" },
    el("div", { class: "call-who" },
      el("h1", {}, order.title || WORDS.title),
      !ui.isPhone && who,
      !ui.isPhone && el("blockquote", {}, order.complaint)),
    el("details", { open: ui.orderOpen, ontoggle: (e) => { ui.orderOpen = e.target.open; } },
      el("summary", { "data-key": "order" }, WORDS.order),
      ui.isPhone && who,
      ui.isPhone && el("blockquote", {}, order.complaint),
      el("div", { class: "order" },
        [order.equipment, [...order.history, order.weather]].map((lines) =>
          el("ul", { class: "lines" }, lines.map((line) => el("li", {}, line)))))),
    ui.isPhone && state(view, ui, act));
}

// Whether anything can be done now: not once it is closed, not while the class is paused.
function isOpen(view) {
  return view.visit.phase === "open" && !view.is_paused;
}

// Clock, system and waiting: beside the sheet, where they stay in reach; on a phone in the strip.
function state(view, ui, act) {
  const running = view.system.state === "running";
  const open = view.visit.phase === "open";
  return el("div", { class: "call-state" },
    el("p", { class: "clock" },
      el("span", { class: "big" }, String(Math.round(view.visit.minutes))), ` ${WORDS.minutesOnSite}`,
      el("span", { class: "time" }, ` · ${view.visit.clock} ${WORDS.onTheClock}`)),
    open && view.terms?.length > 0 && el("p", { class: view.is_paused ? "caution" : "small", "data-key": "terms" }, view.terms.join(" ")),
    open && view.visit.remark && el("p", { class: "remark" }, view.visit.remark),
    !open && el("p", { class: "closed" }, el("strong", {}, WORDS.closed)),
    !open && view.debrief_ready && el("p", {},
      el("a", { class: "button main", href: ui.debriefAddress(), "data-key": "debrief" }, WORDS.debrief)),
    el("p", { class: running ? "running" : "off" },
      el("span", { "aria-hidden": "true", class: "dot" }),
      view.system.text || (running ? WORDS.running : WORDS.off)),
    open && el("div", { class: "row" },
      running
        ? el("button", { "data-key": "stop", "data-heir": "start", disabled: view.is_paused, onclick: () => act({ do: "stop" }) }, WORDS.stop)
        : el("button", { "data-key": "start", "data-heir": "stop", class: ui.primary("start"), disabled: view.is_paused, onclick: () => act({ do: "start" }) }, WORDS.start[view.system.mode]),
      el("label", { class: "row" },
        el("span", { class: "visually-hidden" }, WORDS.waitMinutes),
        el("input", {
          type: "text", inputmode: "numeric", size: "3", value: ui.wait, "data-key": "wait-minutes", disabled: view.is_paused,
          oninput: (e) => { ui.wait = e.target.value; },
          onkeydown: (e) => { if (e.key === "Enter") act({ do: "wait", minutes: ui.wait }); },
        })),
      el("button", { "data-key": "wait", disabled: view.is_paused, onclick: () => act({ do: "wait", minutes: ui.wait }) },
        `${WORDS.wait} (${WORDS.min})`)));
}
