/* The band finder: "What is it like now?" Looks everything up in the table that the program
   worked out and wrote beside this file: the next hotter row, the next damper column. It holds no
   limit and no formula of its own, so that screen and paper cannot differ. */
"use strict";
(() => {
  const table = window.binderFinder;
  const form = document.getElementById("finder");
  if (!table || !table.tables || !form) return;

  const NOISE = 1e-9; // 35 °C is 95 °F, not a hair more
  const OLD_MS = 60 * 60 * 1000; // after an hour a reading says little about now: our choice
  const KEPT = "binder reading";
  const say = (key, values = {}) =>
    table.words[key].replace(/\{(\w+)\}/g, (whole, name) => values[name] ?? whole);
  const field = (id) => document.getElementById(id);
  const inputs = { temp: field("temp"), humidity: field("humidity"), dew: field("dew") };
  const damp = field("damp");
  let readAt = null; // when somebody put a reading in; null while the hot day stands there

  /* --- the look-up --- */

  const fahrenheit = (degrees) =>
    table.units === "us" ? degrees : (degrees * 9) / 5 + 32;

  /* Place of the first entry at or above a value; the last where none is. */
  const next = (list, value) => {
    const place = list.findIndex((entry) => entry >= value - NOISE);
    return place < 0 ? list.length - 1 : place;
  };

  /* Returns row and column of a reading {temp, humidity} or {temp, dew} in the farm's degrees. */
  const cell = (reading) => {
    const row = next(table.temps_f, fahrenheit(reading.temp));
    const dampest = table.humidities.length - 1;
    if (reading.dew === undefined) {
      return { row, column: next(table.humidities, reading.humidity), above: false };
    }
    const dew = next(table.dew_points_f, fahrenheit(reading.dew));
    const column = table.columns_by_dew_point[row][dew];
    return { row, column: column < 0 ? dampest : column, above: column < 0 };
  };

  /* Returns every band of a reading: one for each pen (null for the young), and people's. */
  const find = (reading) => {
    const { row, column, above } = cell(reading);
    const band = (number) => Number(table.tables[number][row][column]);
    const pens = table.rows.map((pen) =>
      pen.tables.length ? Math.max(...pen.tables.map(band)) : null,
    );
    const minutes = (grid) => table.minutes_said[grid[row][column]];
    return {
      above,
      pens,
      you: band(table.people),
      shade: minutes(table.minutes_shade),
      sun: minutes(table.minutes_sun),
    };
  };

  /* --- the clock --- */

  /* Returns when to be back: never later than the interval, on a five-minute mark. */
  const backBy = (from, hours) => {
    const back = new Date(from.getTime() + hours * 3600 * 1000);
    back.setMinutes(Math.floor(back.getMinutes() / 5) * 5, 0, 0);
    const clock = time(back);
    return back.getDate() === from.getDate() ? clock : say("tomorrow", { time: clock });
  };

  const time = (date) => {
    const minutes = String(date.getMinutes()).padStart(2, "0");
    if (!table.am) return `${date.getHours()}:${minutes}`;
    const half = date.getHours() < 12 ? table.am : table.pm;
    return `${date.getHours() % 12 || 12}:${minutes}\u00a0${half}`;
  };

  /* --- the page --- */

  const limits = () => {
    const list = (degrees) =>
      table.units === "us" ? degrees : degrees.map((f) => ((f - 32) * 5) / 9);
    const ends = (values) => [values[0], values[values.length - 1]];
    return {
      temp: ends(list(table.temps_f)),
      humidity: ends(table.humidities),
      dew: ends(list(table.dew_points_f)),
    };
  };

  /* Returns the reading as it stands in the form, null where a number is missing. */
  const reading = () => {
    const by = damp.value;
    const temp = inputs.temp.valueAsNumber;
    const other = inputs[by].valueAsNumber;
    return Number.isNaN(temp) || Number.isNaN(other) ? null : { temp, [by]: other };
  };

  const note = (found, now) => {
    if (!now) return say("missing");
    if (found.above) return say("above");
    const [low, high] = limits().temp;
    if (now.temp < low - NOISE) return say("low");
    if (now.temp > high + NOISE) return say("high");
    if (!readAt) return say("typical");
    return Date.now() - readAt.getTime() > OLD_MS ? say("old") : "";
  };

  const line = (item, band, text) => {
    const chip = item.querySelector(".band");
    chip.hidden = band === undefined;
    chip.className = `band b${band ?? "n"}`;
    chip.textContent = band ?? "–";
    item.querySelector(".do").textContent = text;
  };

  const list = field("now");
  const items = [...list.children];
  const yours = items.find((item) => item.dataset.row === "you");
  const theirs = items.filter((item) => item !== yours);
  let spoken = 0;

  const show = () => {
    const now = reading();
    const found = now ? find(now) : null;
    field("note").textContent = note(found, now);
    field("note").classList.toggle("typical", !readAt);
    field("read-at").textContent = readAt ? say("read_at", { time: time(readAt) }) : "";
    if (!found) {
      items.forEach((item) => line(item, undefined, ""));
      return;
    }
    theirs.forEach((item) => {
      const place = Number(item.dataset.row);
      const band = found.pens[place];
      if (band === null) {
        line(item, null, say("warmth"));
        return;
      }
      const ask = table.rows[place].asks[band];
      const back = readAt
        ? say("back", { time: backBy(readAt, ask.hours) })
        : say("back_in", { span: ask.back });
      line(item, band, `${table.bands[band]}. ${ask.do} ${back}`);
    });
    const minutes = say("minutes", { shade: found.shade, sun: found.sun });
    line(yours, found.you, `${table.bands[found.you]}. ${table.you.asks[found.you]} ${minutes}`);
    const worst = (item) => found.pens[Number(item.dataset.row)] ?? -1;
    const order = [...theirs].sort(
      (a, b) => worst(b) - worst(a) || Number(a.dataset.row) - Number(b.dataset.row),
    );
    list.append(...order, yours);
    speak(order[0], worst(order[0]));
  };

  /* Says the worst pen to a screen reader, once the fingers rest. */
  const speak = (item, band) => {
    clearTimeout(spoken);
    if (!item || band < 0 || !readAt) return;
    const pen = table.rows[Number(item.dataset.row)].name;
    spoken = setTimeout(() => {
      field("worst").textContent = say("worst", { band: `${band} ${table.bands[band]}`, pen });
    }, 900);
  };

  const changed = () => {
    readAt = new Date();
    keep();
    show();
  };

  /* --- a reading outlives a look at a sheet, but not the day --- */

  const keep = () => {
    try {
      const values = Object.fromEntries(Object.entries(inputs).map(([k, v]) => [k, v.value]));
      const text = JSON.stringify({ ...values, by: damp.value, at: readAt.getTime() });
      sessionStorage.setItem(KEPT, text);
    } catch {
      /* Without storage the reading is asked for again. */
    }
  };

  const recall = () => {
    try {
      const kept = JSON.parse(sessionStorage.getItem(KEPT));
      if (!kept || !(Date.now() - kept.at < 3 * OLD_MS)) return;
      Object.entries(inputs).forEach(([key, input]) => {
        input.value = kept[key];
      });
      damp.value = kept.by === "dew" ? "dew" : "humidity";
      readAt = new Date(kept.at);
    } catch {
      /* As above. */
    }
  };

  /* --- fingers --- */

  const step = (button) => {
    const input = inputs[button.dataset.for];
    const by = Number(button.dataset.by);
    const size = Math.abs(by);
    const value = Number.isNaN(input.valueAsNumber)
      ? Number(input.defaultValue)
      : input.valueAsNumber;
    const places = value / size;
    const stepped =
      (by > 0 ? Math.floor(places + NOISE) + 1 : Math.ceil(places - NOISE) - 1) * size;
    const [low, high] = limits()[button.dataset.for];
    input.value = Math.min(Math.max(stepped, Math.ceil(low)), Math.floor(high));
    changed();
  };

  let holding = 0;
  let held = false;
  const letGo = () => clearTimeout(holding);
  const hold = (button, wait) => {
    holding = setTimeout(() => {
      held = true;
      step(button);
      hold(button, 110);
    }, wait);
  };
  form.querySelectorAll("button").forEach((button) => {
    button.addEventListener("pointerdown", () => {
      held = false;
      letGo();
      hold(button, 450);
    });
    ["pointerup", "pointerleave", "pointercancel"].forEach((end) =>
      button.addEventListener(end, letGo),
    );
    button.addEventListener("contextmenu", (event) => event.preventDefault());
    button.addEventListener("click", () => {
      if (!held) step(button);
      held = false;
    });
  });

  const choose = () => {
    field("set-humidity").hidden = damp.value === "dew";
    field("set-dew").hidden = damp.value !== "dew";
  };
  damp.addEventListener("change", () => {
    choose();
    changed();
  });
  Object.values(inputs).forEach((input) => input.addEventListener("input", changed));
  form.addEventListener("submit", (event) => event.preventDefault());

  const begin = () => {
    recall();
    choose();
    show();
  };
  window.addEventListener("pageshow", begin);
  setInterval(() => readAt && show(), 60 * 1000);
  window.bandFinder = { cell, find };
  begin();
})();
