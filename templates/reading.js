/* On every page: the last reading of the air, the number it gives, and its row in a pen's table.
   Everything is looked up in the table that the program worked out: the next hotter row, the next
   damper column. No limit and no formula stands here, so that screen and paper cannot differ. */
"use strict";
window.reading = (() => {
  const table = window.binderFinder;
  if (!table || !table.tables) return null;

  const { say, time } = window.kept;
  const NOISE = 1e-9; // 35 °C is 95 °F, not a hair more
  const HOUR_MS = 3600 * 1000;
  const KEPT = "reading";

  /* --- the look-up --- */

  const fahrenheit = (degrees) =>
    table.units === "us" ? degrees : (degrees * 9) / 5 + 32;
  const own = (degrees_f) =>
    Math.round(table.units === "us" ? degrees_f : ((degrees_f - 32) * 5) / 9);

  /* Place of the first entry at or above a value; the last where none is. */
  const next = (list, value) => {
    const place = list.findIndex((entry) => entry >= value - NOISE);
    return place < 0 ? list.length - 1 : place;
  };

  /* Returns row and column of a reading {temp, humidity} or {temp, dew} in the farm's degrees. */
  const cell = (air) => {
    const row = next(table.temps_f, fahrenheit(air.temp));
    const dampest = table.humidities.length - 1;
    if (air.dew === undefined) {
      return { row, column: next(table.humidities, air.humidity), above: false };
    }
    const dew = next(table.dew_points_f, fahrenheit(air.dew));
    const column = table.columns_by_dew_point[row][dew];
    return { row, column: column < 0 ? dampest : column, above: column < 0 };
  };

  /* Returns every band of a reading: one for each pen (null for the young), and people's. */
  const find = (air) => {
    const { row, column, above } = cell(air);
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

  /* Why a reading cannot be air, in words; empty where it can. */
  const refuse = (air) => {
    const degrees = fahrenheit(air.temp);
    const [low, high] = table.air_f;
    if (degrees < low || degrees > high) {
      return say("no_air", { low: own(low), high: own(high) });
    }
    if (air.humidity !== undefined && (air.humidity < 1 || air.humidity > 100)) {
      return say("no_humidity");
    }
    return air.dew !== undefined && air.dew > air.temp + NOISE ? say("above") : "";
  };

  /* --- how old it is --- */

  const age = (read) => {
    const hours = (Date.now() - read.at) / HOUR_MS;
    if (hours < -0.1 || hours > table.void_h) return "void";
    return hours > table.old_h ? "old" : "fresh";
  };

  /* Returns when to be back: never later than the interval, on a five-minute mark. */
  const backBy = (from, hours) => {
    const back = new Date(from + hours * HOUR_MS);
    back.setMinutes(Math.floor(back.getMinutes() / 5) * 5, 0, 0);
    const clock = time(back);
    const same = back.getDate() === new Date(from).getDate();
    return same ? clock : say("tomorrow", { time: clock });
  };

  /* `2:10 pm`, with its day where that is not today. */
  const at = (read) => {
    const date = new Date(read.at);
    const day = window.kept.day(date);
    if (day === window.kept.day(new Date())) return time(date);
    return say("on_day", { time: time(date), day: window.kept.dayName(day) });
  };

  const air = (read) => {
    const unit = table.units === "us" ? "°F" : "°C";
    const damp =
      read.dew === undefined
        ? `${read.humidity}%`
        : say("dew_of", { dew: `${read.dew}${unit}` });
    return `${read.temp}${unit} ${damp}${read.forecast ? ` ${say("by_forecast")}` : ""}`;
  };

  const current = () => {
    const read = window.kept.get(KEPT);
    return read && read.units === table.units && !refuse(read) ? read : null;
  };
  const keep = (read) => window.kept.set(KEPT, read && { ...read, units: table.units });

  /* The pen to be back at first: soonest, then worst. */
  const soonest = (read) => {
    const bands = find(read).pens;
    const pens = table.rows
      .map((pen, place) => ({ pen, band: bands[place] }))
      .filter((each) => each.band !== null)
      .map((each) => ({ ...each, hours: each.pen.asks[each.band].hours }))
      .sort((a, b) => a.hours - b.hours || b.band - a.band);
    return pens[0] ?? null;
  };

  /* --- on the page --- */

  const line = document.getElementById("reading");
  const pen = (name) => table.rows.findIndex((row) => row.slug === name);

  const text = (read, name) => {
    if (!read) return say("none_yet");
    const values = { air: air(read), at: at(read) };
    const old = age(read);
    if (old === "void") return say("too_old", values);
    const place = pen(name);
    const first = place < 0 ? soonest(read) : null;
    const band = place < 0 ? first?.band : find(read).pens[place];
    if (band === undefined || band === null) return say("line_young", values);
    const row = place < 0 ? first.pen : table.rows[place];
    const known = {
      ...values,
      band,
      word: table.bands[band],
      pen: row.name,
      back: backBy(read.at, row.asks[band].hours),
    };
    const said = say(place < 0 ? "line_worst" : "line_pen", known);
    return old === "old" ? `${said} ${say("read_again")}` : said;
  };

  /* Marks the row of the number in the table of the pen that is shown, and those above it. */
  const mark = (read, { element, name }) => {
    const place = pen(name);
    const band = place < 0 || !read || age(read) === "void" ? null : find(read).pens[place];
    element.querySelectorAll("table.asks tbody tr").forEach((row) => {
      const number = Number(row.querySelector(".band").textContent);
      const head = row.querySelector("th");
      head.querySelector(".is-now")?.remove();
      row.classList.toggle("now", number === band);
      row.classList.toggle("too", band !== null && number < band);
      if (band === null || number > band) return;
      const sign = document.createElement("span");
      sign.className = "is-now";
      sign.textContent = say(number === band ? "row_now" : "row_too");
      head.append(sign);
    });
  };

  const show = () => {
    const shown = window.kept.page();
    const read = current();
    if (line) {
      line.hidden = shown.name === "index";
      line.dataset.age = read ? age(read) : "none";
      line.querySelector("a").textContent = text(read, shown.name);
    }
    mark(read, shown);
  };
  ["pageshow", "hashchange"].forEach((event) => window.addEventListener(event, show));
  document.addEventListener("kept", (event) => event.detail === KEPT && show());
  setInterval(show, 60 * 1000);
  show();

  window.bandFinder = { cell, find };
  return { table, cell, find, refuse, age, at, air, backBy, current, keep, soonest };
})();
