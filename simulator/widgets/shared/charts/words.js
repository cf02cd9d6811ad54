// Words of the drawn charts that do not come with their data.

const CHART_WORDS = {
  healthy: "healthy",
  asTable: "The same as a table",
  working: (part, parts) => `Working it out: ${part} of ${parts}`,
};
