// Words of the drawn charts that do not come with their data.

const CHART_WORDS = {
  healthy: "healthy",
  asTable: "The same as a table",
  working: "Working it out: {part} of {parts}",
};
