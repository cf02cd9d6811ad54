// The first seconds of a page: what Voila's front end calls, and when the skeleton goes.
"use strict";

// Voila calls these from the pieces it sends; there is nothing to tell anyone.
window.voila_heartbeat = function () {};
window.voila_process = function () {};
window.voila_finish = function () {};

(function () {
  const SLOW = 15000;
  const SHOWN = "#page .jp-OutputArea-output :not(.lm-Widget)";

  function settle(loading) {
    const isEmpty = document.querySelector("#page .jp-OutputArea-child") === null;
    if (isEmpty || document.querySelector(SHOWN) !== null) {
      loading.remove();
      return true;
    }
    return false;
  }

  document.addEventListener("DOMContentLoaded", function () {
    const loading = document.getElementById("loading");
    const page = document.getElementById("page");
    if (settle(loading)) return;
    const watcher = new MutationObserver(function () {
      if (settle(loading)) watcher.disconnect();
    });
    watcher.observe(page, { childList: true, subtree: true });
    window.setTimeout(function () {
      const slow = document.getElementById("loading-slow");
      if (slow) slow.hidden = false;
    }, SLOW);
  });
})();
