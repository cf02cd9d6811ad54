// Every word a lesson shows that does not come from the server.

const WORDS = {
  reading: "Reading",
  check: "Check",
  right: "Yes.",
  notYet: "Not yet.",
};
