// Causes, finding, repair, write-up: what closes a call.

function causes(view, ui, act) {
  const open = isOpen(view);
  const families = [...new Set(view.causes.map((cause) => cause.family))];
  return el("section", { class: "drawer", "aria-labelledby": "h-causes" },
    el("h2", { id: "h-causes" }, WORDS.causes),
    el("p", { class: "small" }, WORDS.causesHelp),
    el("div", { class: "families" }, families.map((family) => el("div", { class: "family" },
      el("div", { class: "marks-head" }, el("h3", {}, family),
        Object.values(WORDS.marks).map((word) => el("span", { class: "small", "aria-hidden": "true" }, word))),
      el("ul", { class: "rows" },
        view.causes.filter((cause) => cause.family === family).map((cause) =>
          el("li", { class: `marked-${cause.mark}` },
            el("fieldset", { class: "marks", disabled: !open },
              el("legend", {}, cause.name),
              Object.entries(WORDS.marks).map(([mark, word]) =>
                el("label", {},
                  el("input", {
                    type: "radio", name: `mark-${cause.code}`, checked: cause.mark === mark,
                    "data-key": `mark-${cause.code}-${mark}`,
                    onchange: () => act({ do: "mark", cause: cause.code, as: mark }),
                  }), el("span", { class: "visually-hidden" }, word)))))))))));
}

function finding(view, ui, act) {
  const open = isOpen(view);
  const box = (group, code, label) => el("label", { class: "check" },
    el("input", {
      type: "checkbox", checked: ui[group].has(code), "data-key": `${group}-${code}`, disabled: !open,
      onchange: (e) => ui.tick(group, code, e.target.checked),
    }), el("span", {}, label));
  const named = (cause) => el("div", { class: "found" }, box("found", cause.code, cause.name),
    ui.found.has(cause.code) && cause.bounds.length > 0 && howLarge(cause, ui, open));
  // Those marked likely, or ticked before, stand first; the others keep their order below.
  const isNear = (cause) => cause.mark === "likely" || (view.finding && view.finding.causes.includes(cause.code));
  const near = view.causes.filter(isNear);
  const far = view.causes.filter((cause) => !isNear(cause));
  return el("section", { class: "drawer", "aria-labelledby": "h-finding" },
    el("h2", { id: "h-finding" }, WORDS.finding),
    el("p", { class: "small" }, WORDS.findingHelp),
    view.finding && el("p", { class: "stated" }, `${WORDS.declared} (${atMinute(Math.round(view.finding.minute))}): `,
      view.finding.causes.map((code, i) => statedAs(view, code, view.finding.sizes[i])).join("; ")),
    el("fieldset", {}, el("legend", {}, WORDS.findingCauses),
      near.length > 0 ? near.map(named) : el("p", { class: "small" }, WORDS.noneLikely),
      el("details", { open: ui.allCauses, ontoggle: (e) => { ui.allCauses = e.target.open; } },
        el("summary", { "data-key": "all-causes" }, WORDS.allCauses),
        el("div", { class: "two-columns" }, byFamily(far).map(([family, some]) =>
          el("div", { class: "cited", role: "group", "aria-label": family }, el("p", { class: "small" }, family), some.map(named)))))),
    el("fieldset", {}, el("legend", {}, WORDS.findingCited),
      view.sheet.length === 0 && el("p", { class: "small" }, WORDS.nothingYet),
      view.places.map((place) => {
        const rows = view.sheet.filter((row) => row.place === place.id);
        return rows.length > 0 && el("div", { class: "cited", role: "group", "aria-label": place.name },
          el("p", { class: "small" }, place.name),
          rows.map((row) => box("cited", row.seq,
            `${row.name}: ${row.words || withUnit(row.shown, row.unit)} (${atMinute(Math.round(row.minute))})`)));
      })),
    stating(view, ui, act));
}

function byFamily(some) {
  const families = [...new Set(some.map((cause) => cause.family))];
  return families.map((family) => [family, some.filter((cause) => cause.family === family)]);
}

function statedAs(view, code, size) {
  const cause = view.causes.find((one) => one.code === code);
  if (!cause) return code;
  return size ? `${cause.name} (${sized(cause, size)})` : cause.name;
}

// Where slight, moderate and severe part is the same on every call.
function sized(cause, size) {
  const [low, high] = cause.bounds.map(([number, unit]) => withUnit(number, unit));
  return put(WORDS.sizes[size], { low, high });
}

function howLarge(cause, ui, open) {
  return el("label", { class: "how-large" },
    el("span", { class: "small" }, `${WORDS.howLarge}: ${cause.measure}`),
    el("select", {
      "data-key": `size-${cause.code}`, disabled: !open, "aria-label": `${WORDS.howLarge}: ${cause.name}, ${cause.measure}`,
      onchange: (e) => ui.sizeUp(cause.code, e.target.value),
    }, el("option", { value: "" }, WORDS.sizeOpen), Object.keys(WORDS.sizes).map((size) =>
      el("option", { value: size, selected: ui.size[cause.code] === size }, sized(cause, size)))));
}

// A finding that rests on nothing is asked about once; it may still be stated.
function stating(view, ui, act) {
  const open = isOpen(view);
  const state = () => { ui.guess = false; act({ do: "declare", causes: [...ui.found], cited: [...ui.cited], sizes: [...ui.found].map((code) => ui.size[code] || "") }); };
  const asks = ui.guess && ui.cited.size === 0;
  return el("div", {},
    asks && el("p", { class: "caution", role: "status" }, WORDS.guess),
    el("div", { class: "row" },
      el("button", {
        class: ui.primary("declare"), "data-key": "declare", "data-heir": "declare", disabled: !open,
        onclick: () => {
          if (ui.cited.size > 0 || ui.found.size === 0) return state();
          ui.guess = true;
          ui.draw();
          return ui.focus("declare-guess");
        },
      }, WORDS.declare),
      view.finding && !asks && open && ["repair", "write"].map((next) => el("button", {
        "data-key": `on-to-${next}`, "aria-label": `${WORDS.next}: ${WORDS.desk[next]}`, onclick: () => ui.turnTo(next, `desk-${next}`),
      }, WORDS.desk[next])),
      asks && el("button", { "data-key": "declare-guess", "data-heir": "declare", disabled: !open, onclick: state }, WORDS.declareGuess)));
}

function repair(view, ui, act) {
  const open = isOpen(view);
  const places = [...new Set(view.repairs.map((item) => item.place))];
  return el("section", { class: "drawer", "aria-labelledby": "h-repair" },
    el("h2", { id: "h-repair" }, WORDS.repair),
    el("p", { class: "small" }, WORDS.repairHelp),
    view.repairs_done.length > 0 && el("div", {},
      el("h3", {}, WORDS.repairsDone),
      el("ul", { class: "lines" }, view.repairs_done.map((done) =>
        el("li", {}, `${atMinute(Math.round(done.minute))}: ${done.name}`,
          done.amount ? ` (${done.amount})` : "", done.outcome ? `. ${done.outcome}` : ""))),
      view.visit.phase === "open" && el("div", { class: "row" },
        // Beside the sheet it is in reach anyway.
        ui.isPhone && view.system.state !== "running" && el("button", {
          class: ui.primary("start"), "data-key": "start-after", "data-heir": "retest", disabled: !open, onclick: () => act({ do: "start" }),
        }, WORDS.start[view.system.mode]),
        el("button", { "data-key": "retest", onclick: () => ui.turnTo("here", "desk-here") }, WORDS.retest))),
    jumps(places.map((place, i) => [`r-${i}`, view.places.find((item) => item.name === place)?.short || place || WORDS.anywhere])),
    places.map((place, i) => el("div", { class: "group" },
      el("h3", { id: `r-${i}` }, place || WORDS.anywhere, place && el("span", { class: "small" }, ` ${wayTo(view, place)}`)),
      el("ul", { class: "rows" },
        view.repairs.filter((item) => item.place === place).map((item) => offered(item, open, ui, act))))));
}

// All repairs of a place are as far away.
function wayTo(view, place) {
  const { walk } = view.repairs.find((item) => item.place === place);
  return walk > 0 ? put(WORDS.walkFirst, { minutes: walk }) : WORDS.here.toLowerCase();
}

function offered(item, open, ui, act) {
  return el("li", { class: "repair offered" },
    el("div", { class: "grow" },
      el("span", {}, item.name), el("span", { class: "small" }, ` ${item.minutes}\u00a0${WORDS.min}`),
      el("p", { class: "small" }, item.consequence, ` ${WORDS.needs}: ${WORDS.powers[item.power] || item.power}.`),
      ui.repair === item.code && repairSure(item, open, ui, act)),
    ui.repair !== item.code && el("button", {
      "data-key": `repair-${item.code}`, disabled: !open, "aria-label": `${WORDS.choose}: ${item.name}`,
      onclick: () => { ui.repair = item.code; ui.draw(); ui.focus(item.blocked ? `first-${item.code}` : `sure-${item.code}`); },
    }, WORDS.choose));
}

function repairSure(item, open, ui, act) {
  const running = item.blocked && item.power !== "system running";
  return el("div", { class: "sure", role: "group", tabindex: "-1", "data-key": `terms-${item.code}`, "aria-label": item.name },
    item.blocked && el("div", {},
      el("p", { class: "caution" }, item.blocked),
      running
        ? el("button", { class: ui.primary(`first-${item.code}`), "data-key": `first-${item.code}`, "data-heir": `terms-${item.code}`, disabled: !open, onclick: () => act({ do: "stop" }) }, WORDS.stop)
        : el("button", { class: ui.primary(`first-${item.code}`), "data-key": `first-${item.code}`, "data-heir": `terms-${item.code}`, disabled: !open, onclick: () => act({ do: "start" }) }, WORDS.startAgain)),
    item.caution && el("p", { class: "caution" }, item.caution),
    item.lock_out && el("p", { class: "caution" }, item.lock_out),
    item.amount && el("label", {},
      put(WORDS.range, item.amount),
      el("input", {
        type: "text", inputmode: "decimal", size: "6", value: ui.amount[item.code] || "",
        "data-key": `amount-${item.code}`,
        oninput: (e) => { ui.amount[item.code] = e.target.value; },
      })),
    el("div", { class: "row" },
      el("button", {
        class: ui.primary(`sure-${item.code}`), "data-key": `sure-${item.code}`, "data-heir": `repair-${item.code}`,
        disabled: !open || Boolean(item.blocked),
        onclick: async () => {
          const ok = await act({ do: "repair", repair: item.code, amount: item.amount ? ui.amount[item.code] || "" : null });
          if (!ok) return;
          ui.repair = null;
          ui.turnTo("repair", "retest");
        },
      }, `${WORDS.confirm} (${put(WORDS.minutesInAll, { minutes: item.walk + item.minutes })})`),
      el("button", {
        "data-key": `unsure-${item.code}`,
        onclick: () => { ui.repair = null; ui.draw(); ui.focus(`repair-${item.code}`); },
      }, WORDS.cancel)));
}

function writeUp(view, ui, act) {
  const open = isOpen(view);
  return el("section", { class: "drawer", "aria-labelledby": "h-write" },
    el("h2", { id: "h-write" }, WORDS.writeUp),
    el("p", { class: "small", id: "write-help" }, WORDS.writeUpHelp),
    el("textarea", {
      "aria-label": WORDS.writeUp, "aria-describedby": "write-help", "data-key": "write-text",
      value: ui.draft(view), disabled: view.visit.phase !== "open", oninput: (e) => ui.keepDraft(e.target.value),
    }),
    el("div", { class: "row" },
      el("button", { "data-key": "write", disabled: !open, onclick: () => act({ do: "write_up", text: ui.draft(view) }) },
        WORDS.saveWriteUp),
      view.write_up && view.write_up === ui.draft(view) && el("span", { class: "small" }, WORDS.saved)),
    closing(view, ui, act));
}

function closing(view, ui, act) {
  if (view.visit.phase !== "open") return el("div", { class: "closing" }, el("p", {}, WORDS.closed));
  return el("div", { class: "closing" },
    el("p", { class: "small" }, WORDS.closeHelp),
    ui.closing
      ? closeSure(view, ui, act)
      : el("button", {
        class: ui.primary("close"), "data-key": "close", disabled: !isOpen(view),
        // What is written is left with the customer, saved before or not.
        onclick: async () => {
          const text = ui.draft(view);
          if (text && text !== view.write_up) await act({ do: "write_up", text });
          ui.closing = true;
          ui.draw();
          ui.focus("leaving");
          ui.show(".closing");
        },
      }, WORDS.close));
}

// What is missing is heard and seen before leaving is offered; it is no lock.
function closeSure(view, ui, act) {
  const { missing, see_to: seeTo } = view.leaving;
  const list = (title, lines) => lines.length > 0 && el("div", {},
    el("h3", {}, title), el("ul", { class: "lines" }, lines.map((line) => el("li", {}, line))));
  return el("div", { class: "sure", role: "group", tabindex: "-1", "data-key": "leaving", "aria-labelledby": "h-leaving" },
    el("h3", { id: "h-leaving" }, WORDS.closeSure),
    missing.length > 0 ? el("div", { class: "caution" }, list(WORDS.closeMissing, missing)) : el("p", {}, WORDS.closeNothing),
    list(WORDS.closeSeeTo, seeTo),
    el("div", { class: "row" },
      el("button", { class: ui.primary("close-sure"), "data-key": "close-sure", disabled: !isOpen(view), onclick: () => act({ do: "close" }) }, WORDS.closeYes),
      el("button", { "data-key": "close-not", onclick: () => { ui.closing = false; ui.draw(); ui.focus("close"); } }, WORDS.closeNot)));
}
