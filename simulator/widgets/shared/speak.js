// The language of the page: English words are put in place of by those of the catalogue.

function speak(model, ...tables) {
  document.documentElement.lang = model.get("language") || "en";
  const said = model.get("words") || {};
  for (const table of [COMMON, ...tables]) translate(table, said);
}

function translate(table, said) {
  for (const [key, word] of Object.entries(table)) {
    if (typeof word === "string") table[key] = Object.hasOwn(said, word) ? said[word] : word;
    else if (word && typeof word === "object") translate(word, said);
  }
}

// Holes such as {minute} filled.
function put(text, holes) {
  return text.replace(/\{(\w+)\}/g, (hole, key) => (key in holes ? String(holes[key]) : hole));
}

function counted(words, n) {
  return put(n === 1 ? words.one : words.many, { n });
}
