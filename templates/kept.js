/* On every page, before the other scripts: what this phone keeps, and how a page is named. What
   is kept stays on the phone: nothing here sends anything. Names carry the farm's, since pages
   opened from the disk share one store. */
"use strict";
window.kept = (() => {
  const says = window.binderSays;
  const front = `binder/${says.farm}/`;
  let works = true;

  const get = (name) => {
    try {
      return JSON.parse(window.localStorage.getItem(front + name));
    } catch {
      return null;
    }
  };

  /* Keeps a value; null forgets it. Returns whether it is kept. */
  const set = (name, value) => {
    try {
      if (value === null) window.localStorage.removeItem(front + name);
      else window.localStorage.setItem(front + name, JSON.stringify(value));
      works = true;
    } catch {
      works = false;
    }
    document.dispatchEvent(new CustomEvent("kept", { detail: name }));
    return works;
  };

  /* Names that begin so, in order. */
  const names = (begin) => {
    try {
      return Object.keys(window.localStorage)
        .filter((name) => name.startsWith(front + begin))
        .map((name) => name.slice(front.length))
        .sort();
    } catch {
      return [];
    }
  };
  works = set("try", 1);
  set("try", null);
  window.addEventListener("storage", (event) => {
    if (!event.key?.startsWith(front)) return;
    document.dispatchEvent(new CustomEvent("kept", { detail: event.key.slice(front.length) }));
  });

  /* The page that is shown: its element and its name. The phone file holds them all. */
  const page = () => {
    const views = document.querySelectorAll(".view");
    if (!views.length) {
      const main = document.getElementById("main");
      return { element: main, name: main.dataset.page };
    }
    const id = decodeURIComponent(window.location.hash.slice(1));
    const target = id ? document.getElementById(id) : null;
    const element = target?.closest(".view") ?? views[0];
    return { element, name: element.id };
  };

  const say = (key, values = {}) =>
    says[key].replace(/\{(\w+)\}/g, (whole, name) => values[name] ?? whole);

  const time = (date) => {
    const minutes = String(date.getMinutes()).padStart(2, "0");
    if (!says.am) return `${date.getHours()}:${minutes}`; // the clock counts to 24 here
    const half = date.getHours() < 12 ? says.am : says.pm;
    return `${date.getHours() % 12 || 12}:${minutes}\u00a0${half}`;
  };
  const two = (number) => String(number).padStart(2, "0");
  const day = (date) =>
    `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
  const clock = (date) => `${two(date.getHours())}:${two(date.getMinutes())}`;

  /* A day as people say it: `Sunday, July 12`. */
  const dayName = (iso) =>
    new Date(`${iso}T12:00`).toLocaleDateString(document.documentElement.lang, {
      weekday: "long",
      day: "numeric",
      month: "long",
    });

  /* Words into an element; those that name a tab become the way there. */
  const put = (element, text) => {
    const parts = text.split(says.tab_e);
    element.replaceChildren(parts[0]);
    parts.slice(1).forEach((rest) => {
      const link = document.createElement("a");
      link.className = "sheet";
      link.href = says.emergencies;
      link.textContent = says.tab_e;
      element.append(link, rest);
    });
  };

  /* How old the pages are, said on each of them. */
  const tellAge = () => {
    const made = document.querySelector(".made");
    const days = Math.floor((Date.now() - new Date(`${says.made}T00:00`)) / 86_400_000);
    if (!made || days < 1) return;
    const old = days > says.binder_old_days;
    made.textContent = say(old ? "age_old" : "age", { day: says.made_on, count: days });
    made.classList.toggle("old", old);
  };
  window.addEventListener("pageshow", tellAge);

  return {
    get, set, names, page, say, time, day, clock, dayName, put,
    get works() { return works; },
  };
})();
