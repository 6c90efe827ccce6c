/* The phone file holds every page; the address behind # says which one shows. The style alone does
   that; this names the page in the title, moves the reader's focus along, and on the way back
   finds the place again where the reader was. */
"use strict";
(() => {
  const front = document.querySelector(".view");
  const farm = document.title;
  let stepped = false; // whether the way was back or forward, where a place is kept
  window.history.scrollRestoration = "manual";

  const show = (moved) => {
    const id = decodeURIComponent(window.location.hash.slice(1));
    const target = id ? document.getElementById(id) : null;
    if (target && !target.closest(".view")) return;
    const view = target?.closest(".view") ?? front;
    document.title = `${view.dataset.title} · ${farm}`;
    document.querySelectorAll(".bar a, .farm").forEach((link) => {
      if (link.hash === `#${view.id}`) link.setAttribute("aria-current", "page");
      else link.removeAttribute("aria-current");
    });
    if (!moved) return;
    document.querySelectorAll(":popover-open").forEach((box) => box.hidePopover());
    const kept = window.history.state?.scroll;
    if (stepped && kept !== undefined) {
      window.scrollTo(0, kept);
    } else if (!target || target === view) {
      window.scrollTo(0, 0);
      const heading = view.querySelector("h1");
      heading?.setAttribute("tabindex", "-1");
      heading?.focus({ preventScroll: true });
    }
    stepped = false;
  };

  /* Each entry of the history keeps its place as it is left behind. A new entry has none yet. */
  let resting = 0;
  window.addEventListener(
    "scroll",
    () => {
      clearTimeout(resting);
      resting = setTimeout(() => {
        window.history.replaceState({ scroll: window.scrollY }, "");
      }, 120);
    },
    { passive: true },
  );
  document.addEventListener("click", (event) => {
    if (!event.target.closest("a[href^='#']")) return;
    clearTimeout(resting);
    window.history.replaceState({ scroll: window.scrollY }, "");
  });
  window.addEventListener("popstate", (event) => {
    stepped = event.state?.scroll !== undefined;
  });
  window.addEventListener("hashchange", () => show(true));
  const first = window.history.state?.scroll;
  show(false);
  if (first !== undefined) window.scrollTo(0, first);
})();
