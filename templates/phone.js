/* The phone file holds every page; the address behind # says which one shows. The style alone does
   that; this names the page in the title and moves the reader's focus along. */
"use strict";
(() => {
  const front = document.querySelector(".view");
  const farm = document.title;
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
    if (!target || target === view) {
      window.scrollTo(0, 0);
      const heading = view.querySelector("h1");
      heading?.setAttribute("tabindex", "-1");
      heading?.focus({ preventScroll: true });
    }
  };
  window.addEventListener("hashchange", () => show(true));
  show(false);
})();
