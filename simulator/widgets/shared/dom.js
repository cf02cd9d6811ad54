// Small tools that every panel's script shares. Server text is only ever set as text.

const SVG = "http://www.w3.org/2000/svg";

function fill(node, props, kids) {
  for (const [key, value] of Object.entries(props || {})) {
    if (value === null || value === undefined || value === false) continue;
    if (key.startsWith("on")) node.addEventListener(key.slice(2), value);
    else if (key === "value") node.value = value;
    else if (key === "checked") node.checked = value;
    else node.setAttribute(key, value === true ? "" : String(value));
  }
  for (const kid of kids.flat(Infinity)) {
    if (kid === null || kid === undefined || kid === false) continue;
    node.append(kid instanceof Node ? kid : String(kid));
  }
  return node;
}

function el(tag, props, ...kids) {
  return fill(document.createElement(tag), props, kids);
}

function svg(tag, props, ...kids) {
  return fill(document.createElementNS(SVG, tag), props, kids);
}

// One question, one answer; an answer that does not come is said so.
class Line {
  constructor(model, patience = 15000) {
    this.model = model;
    this.patience = patience;
    this.next = 1;
    this.open = new Map();
    model.on("msg:custom", (answer) => {
      const waiting = this.open.get(answer.id);
      if (!waiting) return;
      this.open.delete(answer.id);
      clearTimeout(waiting.timer);
      waiting.done(answer);
    });
  }

  ask(message) {
    const id = this.next++;
    return new Promise((done) => {
      const timer = setTimeout(() => {
        this.open.delete(id);
        done({ problem: COMMON.silent, silent: true });
      }, this.patience);
      this.open.set(id, { done, timer });
      // A line that is already dead refuses the sending itself.
      try {
        this.model.send({ ...message, id });
      } catch {
        this.open.delete(id);
        clearTimeout(timer);
        done({ problem: COMMON.silent });
      }
    });
  }
}

// Where the keyboard goes when what held it is gone: to its heir, or to the heading above it,
// never to the next button, which a second Enter would press.
function heirOf(host, heir, headed) {
  const named = heir && host.querySelector(`[data-key="${CSS.escape(heir)}"]`);
  if (named) return named;
  const heading = headed && host.querySelector(`#${CSS.escape(headed)}`);
  if (heading) heading.setAttribute("tabindex", "-1");
  return heading;
}

// Put new content in place; what was unfolded stays so, the keyboard stays where it was.
function replaceKeepingFocus(host, content) {
  const held = document.activeElement;
  const key = held && host.contains(held) ? held.getAttribute("data-key") : null;
  const heir = key ? held.getAttribute("data-heir") : null;
  const headed = key ? held.closest("[aria-labelledby]")?.getAttribute("aria-labelledby") : null;
  const unfolded = [...host.querySelectorAll("details[open][data-keep]")].map((node) => node.dataset.keep);
  const start = key && "selectionStart" in held ? held.selectionStart : null;
  host.replaceChildren(...[content].flat(Infinity).filter(Boolean));
  for (const node of host.querySelectorAll("details[data-keep]")) {
    if (unfolded.includes(node.dataset.keep)) node.open = true;
  }
  if (!key) return;
  const again = host.querySelector(`[data-key="${CSS.escape(key)}"]:not(:disabled)`) || heirOf(host, heir, headed);
  if (!again) return;
  again.focus({ preventScroll: true });
  if (start !== null && again.setSelectionRange && again.type !== "number") {
    try {
      again.setSelectionRange(start, start);
    } catch {
      /* not every field has a caret */
    }
  }
}

function withUnit(shown, unit) {
  return unit ? `${shown}\u00a0${unit.replaceAll(" ", "\u00a0")}` : shown;
}

// A line does not end between a number and what it counts, nor within its unit.
function unbroken(text) {
  return text.replace(/(\d) (?=\S)/g, "$1\u00a0").replaceAll("\u00a0in wc", "\u00a0in\u00a0wc");
}

// Paper cannot be unfolded: what is folded opens for it, and folds again after.
function unfoldOnPaper(root) {
  let folded = [];
  window.addEventListener("beforeprint", () => {
    folded = [...root.querySelectorAll("details:not([open])")];
    for (const one of folded) one.open = true;
  });
  window.addEventListener("afterprint", () => {
    for (const one of folded) one.open = false;
  });
}

// Small things this browser remembers; it may refuse to.
const UNITS_KEY = "benchcall-units";

function keep(key, text) {
  try { window.localStorage.setItem(key, text); } catch { /* a browser may refuse to store */ }
}

// Plain data that was kept; null where there is none, or none that can be read.
function kept(key) {
  try { return JSON.parse(recall(key)); } catch { return null; }
}

function recall(key) {
  try { return window.localStorage.getItem(key); } catch { return null; }
}
