/* The boxes of a visit card and of the page of looks: what is ticked stays on this phone, for the day and its stay. */
"use strict";
(() => {
  const { agenda } = window.binderDay;
  const { say, get, set, day, dayName, clock, page } = window.kept;
  const planOf = (name) =>
    agenda.find(
      (plan) => plan.looks_slug === name || plan.visits.some((visit) => visit.slug === name),
    ) ?? null;
  const key = (plan) => `ticks/${plan.id}/${day(new Date())}`;

  /* What a box is called in the store: its pen and its task, which a new build keeps. */
  const named = (box) => {
    const look = box.getAttribute("aria-label"); // its hour and pen, in its sort of day
    if (look) return `${box.closest("tbody").rows[0].textContent.trim()}: ${look}`;
    const pen = box.closest("table").querySelector("thead th").firstChild.textContent.trim();
    return `${pen}: ${box.closest("label").textContent.trim().replace(/\s+/g, " ")}`;
  };
  const boxes = (element) => [...element.querySelectorAll("input.tick-box")];

  const show = () => {
    const { element, name } = page();
    const plan = planOf(name);
    const all = boxes(element);
    if (!plan || !all.length) return;
    element.dataset.card = name;
    const marks = (get(key(plan)) ?? {})[name] ?? {};
    all.forEach((box) => {
      box.checked = Boolean(marks[named(box)]);
    });
    let note = element.querySelector(".ticked");
    if (!note) {
      note = document.createElement("p");
      note.className = "ticked";
      note.setAttribute("role", "status");
      element.querySelector("h1").after(note);
      const log = document.createElement("a");
      log.className = "open";
      log.href = window.binderSays.log_page;
      log.textContent = say("write_down");
      (element.querySelector(".turn") ?? element.lastElementChild).before(log);
    }
    note.textContent = say(window.kept.works ? "ticked_of" : "not_kept", {
      done: all.filter((box) => box.checked).length,
      all: all.length,
      day: dayName(day(new Date())),
    });
  };

  document.addEventListener("change", (event) => {
    const box = event.target;
    if (!box.matches?.("input.tick-box")) return;
    const { name } = page();
    const plan = planOf(name);
    if (!plan) return;
    const marks = get(key(plan)) ?? {};
    const mine = { ...marks[name] };
    if (box.checked) mine[named(box)] = clock(new Date());
    else delete mine[named(box)];
    set(key(plan), { ...marks, [name]: mine });
    show();
  });
  ["pageshow", "hashchange"].forEach((event) => window.addEventListener(event, show));
  document.addEventListener("kept", show);
  show();
})();
