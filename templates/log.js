/* "Write it down": a line for each pen, kept on this phone by stay, day and visit; shared as text
   and saved as CSV by the hand that asks for it. Nothing here sends anything. */
"use strict";
(() => {
  const place = document.getElementById("log");
  const { agenda, planOf, hourOf, visitsAt } = window.binderDay;
  const { say, put, get, set, names, day, dayName, clock, time } = window.kept;
  if (!place || !agenda.length) return;

  const COLUMNS = [
    "date", "visit", "written", "pen", "number", "air", "counted", "of", "breathing", "water",
    "notes", "initials",
  ];
  const BREATHING = ["easy", "fast", "open-mouth"];
  const WATER = ["good", "warm", "failed"];
  const FIELDS = ["number", "counted", "breathing", "water", "notes"];
  const LOOK = "look";

  const make = (tag, properties = {}, ...children) => {
    const made = Object.assign(document.createElement(tag), properties);
    made.append(...children);
    return made;
  };
  const field = (id) => document.getElementById(id);
  const hhmm = (h) => {
    const minutes = Math.round(h * 60);
    return `${String(Math.floor(minutes / 60) % 24).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
  };

  let plan = planOf(day(new Date()));
  let look = ""; // the time of a look between visits, once something is written of it
  const key = (visit) => `log/${plan.id}/${day(new Date())}/${visit}`;
  const chosen = () => (field("log-visit").value === LOOK ? look || LOOK : field("log-visit").value);

  /* --- the form --- */

  const labelled = (text, control) => make("label", {}, make("span", { textContent: text }), control);
  const choices = (id, section, values) =>
    make(
      "select",
      { id },
      make("option", { value: "", textContent: say("not_written") }),
      ...values.map((value) => make("option", { value, textContent: say(`${section}_${value}`) })),
    );

  const penFields = (pen, at) => {
    const id = (name) => `log-${at}-${name}`;
    const number = make("input", { id: id("number"), type: "number", min: 0, max: 4, inputMode: "numeric" });
    const counted = make("input", { id: id("counted"), type: "number", min: 0, inputMode: "numeric" });
    const set_ = make(
      "fieldset",
      { className: "pen-log" },
      make("legend", { textContent: pen.name }),
      labelled(say("number"), number),
      labelled(say("counted", { head: pen.head }), counted),
      labelled(say("breathing"), choices(id("breathing"), "breathing", BREATHING)),
      labelled(say("water"), choices(id("water"), "water", WATER)),
      labelled(say("notes"), make("input", { id: id("notes"), type: "text", maxLength: 300 })),
      make("p", { className: "alarm", id: id("alarm") }),
    );
    set_.dataset.pen = pen.id;
    set_.lastElementChild.setAttribute("role", "status");
    return set_;
  };

  const form = () => {
    const visits = plan.visits.map((visit) =>
      make("option", { value: hhmm(visit.h), textContent: visit.title }),
    );
    const select = make(
      "select",
      { id: "log-visit" },
      ...visits,
      make("option", { value: LOOK, textContent: say("a_look") }),
    );
    const { on } = visitsAt(plan, hourOf(new Date()));
    select.value = on ? hhmm(on.h) : LOOK;
    select.addEventListener("change", fill);
    const initials = make("input", { id: "log-initials", type: "text", maxLength: 6, autocapitalize: "characters" });
    initials.value = get("initials") ?? "";
    initials.addEventListener("change", () => set("initials", initials.value.trim()));
    const made = make(
      "form",
      { className: "log-form", autocomplete: "off" },
      labelled(say("which"), select),
      labelled(say("initials"), initials),
      ...plan.pens.map(penFields),
    );
    made.addEventListener("submit", (event) => event.preventDefault());
    made.addEventListener("input", (event) => {
      const pen = event.target.closest(".pen-log");
      if (pen || event.target === initials) write(pen);
    });
    return made;
  };

  const control = (pen, name) => pen.querySelector(`[id$="-${name}"]`);
  const pens = () => [...place.querySelectorAll(".pen-log")];

  const bandNow = (id) => {
    const read = window.reading?.current();
    if (!read || window.reading.age(read) !== "fresh") return "";
    const slug = plan.pens.find((pen) => pen.id === id)?.slug;
    const row = window.reading.table.rows.findIndex((each) => each.slug === slug);
    return row < 0 ? "" : (window.reading.find(read).pens[row] ?? "");
  };

  const alarm = (pen) => {
    const open = control(pen, "breathing").value === "open-mouth";
    const dry = control(pen, "water").value === "failed";
    put(control(pen, "alarm"), open ? say("alarm_open") : dry ? say("alarm_dry") : "");
  };

  /* Puts what is written of a visit into the form; the number of a fresh reading stands ready. */
  function fill() {
    look = "";
    const entry = get(key(chosen()));
    pens().forEach((pen) => {
      const row = entry?.rows[pen.dataset.pen] ?? {};
      FIELDS.forEach((name) => (control(pen, name).value = row[name] ?? ""));
      if (row.number === undefined) control(pen, "number").value = bandNow(pen.dataset.pen);
      alarm(pen);
    });
    told();
  }

  function write(pen) {
    const now = new Date();
    if (field("log-visit").value === LOOK && !look) look = `${LOOK} ${clock(now)}`;
    const name = key(chosen());
    const read = window.reading?.current();
    const fresh = read && window.reading.age(read) === "fresh";
    const entry = get(name) ?? { rows: {} };
    entry.written = clock(now);
    entry.air = fresh ? window.reading.air(read) : (entry.air ?? "");
    entry.initials = field("log-initials").value.trim();
    if (pen) {
      const row = Object.fromEntries(FIELDS.map((each) => [each, control(pen, each).value.trim()]));
      row.of = String(plan.pens.find((each) => each.id === pen.dataset.pen).head);
      entry.rows[pen.dataset.pen] = row;
      alarm(pen);
    }
    if (!Object.keys(entry.rows).length) return;
    set(name, entry);
    told();
  }

  /* --- what is written, as text and as CSV --- */

  const entries = (begin) =>
    names(`log/${begin}`).map((name) => {
      const [, stay, date, visit] = name.split("/");
      return { stay, date, visit, ...get(name) };
    });
  const penName = (id) => plan.pens.find((pen) => pen.id === id)?.name ?? id;

  const rowText = (id, row) => {
    const parts = [
      row.number && say("text_number", { number: row.number }),
      row.counted && say("text_counted", { counted: row.counted, of: row.of }),
      row.breathing && say("text_breathing", { how: say(`breathing_${row.breathing}`) }),
      row.water && say("text_water", { how: say(`water_${row.water}`) }),
      row.notes,
    ];
    return `${penName(id)}: ${parts.filter(Boolean).join(", ")}.`;
  };
  const entryText = (entry) =>
    [
      `${dayName(entry.date)}, ${entry.visit}, ${entry.air} ${entry.initials}`.trim(),
      ...Object.entries(entry.rows).map(([id, row]) => rowText(id, row)),
    ].join("\n");
  const ticksText = (date) => {
    const marks = get(`ticks/${plan.id}/${date}`) ?? {};
    const done = Object.entries(marks).flatMap(([card, boxes]) =>
      Object.entries(boxes).map(([what, at]) => `${at} ${what}`),
    );
    return done.length ? `${say("text_ticked")}\n${done.sort().join("\n")}` : "";
  };
  const text = (date) =>
    [
      window.binderSays.farm,
      ...entries(`${plan.id}/${date}`).map(entryText),
      ticksText(date),
    ]
      .filter(Boolean)
      .join("\n\n");

  /* A cell that a spreadsheet would take for a formula is led in by an apostrophe. */
  const cell = (value) => {
    const plain = String(value ?? "").replace(/[\r\n]+/g, " ");
    const safe = /^[=+\-@\t]/.test(plain) ? `'${plain}` : plain;
    return /[",]/.test(safe) ? `"${safe.replace(/"/g, '""')}"` : safe;
  };
  const csv = () => {
    const rows = entries(`${plan.id}/`).flatMap((entry) =>
      Object.entries(entry.rows).map(([pen, row]) => {
        const known = { ...entry, ...row, pen };
        return COLUMNS.map((name) => cell(known[name])).join(",");
      }),
    );
    return `${[COLUMNS.join(","), ...rows].join("\r\n")}\r\n`;
  };

  const save = (name, kind, content) => {
    const address = URL.createObjectURL(new Blob([content], { type: kind }));
    const link = make("a", { href: address, download: name });
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(address), 10_000);
  };

  const share = async () => {
    const shown = field("log-text");
    const said = field("log-said");
    if (navigator.share) {
      try {
        await navigator.share({ text: shown.value });
        said.textContent = say("shared");
        return;
      } catch (error) {
        if (error.name === "AbortError") return;
      }
    }
    shown.focus();
    shown.select();
    let copied = false;
    try {
      copied = document.execCommand("copy");
    } catch {
      /* The text stands there, selected. */
    }
    said.textContent = say(copied ? "copied" : "copy_it");
  };

  function told() {
    const today = day(new Date());
    field("log-text").value = text(today);
    field("log-count").textContent = say(window.kept.works ? "kept" : "not_kept", {
      count: entries(`${plan.id}/`).length,
      day: dayName(today),
    });
  }

  const button = (text, does) => {
    const made = make("button", { type: "button", className: "act", textContent: text });
    made.addEventListener("click", does);
    return made;
  };
  const exports_ = () => {
    const shown = make("textarea", { id: "log-text", readOnly: true, rows: 8 });
    const said = make("p", { id: "log-said" });
    said.setAttribute("role", "status");
    const file = () => `${plan.id}-${day(new Date())}`;
    return [
      make("h2", { textContent: say("send_title") }),
      make("p", { id: "log-count" }),
      labelled(say("send_text"), shown),
      make(
        "div",
        { className: "acts" },
        button(say("share"), share),
        button(say("save_text"), () => save(`${file()}.txt`, "text/plain", shown.value)),
        button(say("save_csv"), () => save(`${file()}.csv`, "text/csv", csv())),
      ),
      said,
      make("p", { className: "small", textContent: say("where_csv") }),
    ];
  };

  if (!plan) return;
  place.replaceChildren(form(), ...exports_());
  fill();
  document.addEventListener("kept", (event) => {
    if (event.detail?.startsWith("ticks/")) told();
    if (event.detail === "reading" && !place.contains(document.activeElement)) fill();
  });
  window.addEventListener("pageshow", told);
})();
