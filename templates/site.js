/* On every page: tells the style that scripts run, and, where the farm's own computer serves the
   page, that there is a newer version, that the last rebuild failed, or that nobody answers. */
"use strict";
document.documentElement.classList.add("scripted");
(() => {
  const mine = document.documentElement.dataset.version;
  if (!mine) return; // opened from the disk, or served by somebody else

  const EVERY_MS = 4000;
  const says = window.binderSays;
  let bar = null;
  let silent = 0;

  const tell = (key) => {
    if (bar?.dataset.says === key) return;
    bar?.remove();
    bar = null;
    if (!key) return;
    bar = document.createElement(key === "reload" ? "button" : "p");
    bar.className = "news";
    bar.dataset.says = key;
    bar.textContent = says[key];
    bar.setAttribute("role", key === "reload" ? "button" : "status");
    if (key === "reload") bar.addEventListener("click", () => window.location.reload());
    document.body.prepend(bar);
  };

  const ask = async () => {
    if (document.visibilityState !== "visible") return;
    try {
      const answer = await fetch("now.json", { cache: "no-store" });
      if (!answer.ok) throw new Error(answer.status);
      const now = await answer.json();
      silent = 0;
      tell(now.version !== mine ? "reload" : now.failed ? "failed" : "");
    } catch {
      silent += 1;
      if (silent > 2) tell("gone");
    }
  };
  /* While nobody answers, the page that is open stays: a link is tried before it is followed. */
  document.addEventListener("click", async (event) => {
    const link = event.target.closest?.("a[href]");
    const inside = link && !link.hash && link.origin === window.location.origin;
    if (!silent || !inside || link.download) return;
    event.preventDefault();
    await ask();
    if (silent) tell("gone");
    else window.location.assign(link.href);
  });
  document.addEventListener("visibilitychange", ask);
  window.addEventListener("pageshow", ask);
  setInterval(ask, EVERY_MS);
})();
