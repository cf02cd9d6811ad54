// Evidence for and against each cause: words first, the ratio as a detail.

// An empty place until the likelihoods are worked out.
function causesPart(d) {
  const weighed = d.causes.filter((one) => !one.is_ruled_out);
  const ruledOut = d.causes.filter((one) => one.is_ruled_out);
  return el("section", { class: "causes-part", hidden: d.causes.length === 0 }, el("h2", {}, WORDS.forAgainst),
    el("p", { class: "small" }, WORDS.forAgainstHow),
    weighed.map((one) => causeOf(d, one)),
    ruledOut.length > 0 && el("details", {}, el("summary", {}, put(WORDS.ruledOut, { n: ruledOut.length })),
      ruledOut.map((one) => causeOf(d, one))));
}

function causeOf(d, one) {
  return el("div", { class: "cause" }, el("h3", {}, one.name),
    el("p", {}, one.standing, " ", one.together, one.detail && ratioOf(one.detail)),
    (one.speak_for.length > 0 || one.speak_against.length > 0) && el("div", { class: "scales" },
      spokenList(d, WORDS.spokeFor, one.speak_for), spokenList(d, WORDS.spokeAgainst, one.speak_against)));
}

function spokenList(d, title, lines) {
  return el("div", {}, el("h4", {}, title),
    lines.length === 0 ? el("p", { class: "small" }, WORDS.noneSpoke)
      : el("ul", { class: "dashes" }, lines.map((line) => el("li", {},
        unbroken(line.text), line.text.match(/[.”"]$/) ? " " : ". ", el("strong", {}, line.says), ratioOf(line.detail), " ", toStep(d, line.seq)))));
}

function ratioOf(detail) {
  return el("span", { class: "small" }, ` (${detail})`);
}
