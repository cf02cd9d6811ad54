// Every word the debrief shows that does not come from the server.

const WORDS = {
  title: "Debrief",
  true: "What was true",
  found: "What you found",
  turning: "The turning point",
  timeline: "What you did, and when",
  harm: "Harm",
  invalid: "Charge tests that do not count",
  beforeAfter: "Healthy, as found, as left",
  healthy: "healthy", asFound: "as found", asLeft: "as left",
  pairs: "Your own before and after",
  before: "before", after: "after", notTaken: "not taken again",
  bill: "The bill",
  parts: "Points by part",
  of: "of",
  total: "Together",
  min: "min",
  print: "Print this page",
  home: "Back to the calls",
  none: "None",
};
