// Words that every panel shows.

const COMMON = {
  silent: "No answer came. What you did is kept if it arrived; reload the page to see where you stand.",
};
