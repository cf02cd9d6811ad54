// Asks the kernel every two seconds whether it is there. Unanswered questions are counted
// instead of seconds, because a browser slows the clock of a tab in the background.
const EVERY = 2000;
const PATIENCE = 4;

function banner(reload) {
  const node = document.createElement("div");
  node.className = "connection-lost";
  node.setAttribute("role", "status");
  node.hidden = true;
  const words = document.createElement("span");
  const again = document.createElement("button");
  again.type = "button";
  again.textContent = reload;
  again.addEventListener("click", () => window.location.reload());
  node.append(words, again);
  return { node, words };
}

function render({ model }) {
  const { node, words } = banner(model.get("again"));
  document.body.prepend(node);
  let unanswered = 0;
  const lost = (isLost) => {
    if (isLost === !node.hidden) return;
    node.hidden = !isLost;
    words.textContent = isLost ? model.get("lost") : "";
  };
  const heard = (message) => {
    if (message !== "here") return;
    unanswered = 0;
    lost(false);
  };
  const ask = () => {
    unanswered += 1;
    lost(unanswered > PATIENCE);
    try {
      model.send("there?");
    } catch {
      lost(true);
    }
  };
  model.on("msg:custom", heard);
  const timer = window.setInterval(ask, EVERY);
  return () => {
    window.clearInterval(timer);
    model.off("msg:custom", heard);
    node.remove();
  };
}

export default { render };
