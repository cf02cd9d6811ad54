// Words of the drawn charts that do not come with their data.

const CHART_WORDS = {
  healthy: "healthy",
  asTable: "The same as a table",
  next: "This one is worked out over time and comes in a moment.",
  working: "Working it out: {part} of {parts}",
};
