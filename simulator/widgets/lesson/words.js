// Every word a lesson shows that does not come from the server.

const WORDS = {
  reading: "Reading",
  check: "Check",
  right: "Yes.",
  notYet: "Not yet.",
  notSo: "Not so.",
  inHouse: "What is in the house",
  tryAll: "Try all of them; then your prediction is judged.",
  sideBySide: "Readings side by side",
  untried: "not tried",
  predicted: "You predicted",
};
