/* The form "What is it like now?" and the lines under it, worst first. What a reading means is
   looked up in reading.js; here are the fingers and the page. */
"use strict";
(() => {
  const form = document.getElementById("finder");
  if (!window.reading || !form) return;

  const { table, find, refuse, age, at, backBy, current, keep } = window.reading;
  const { say, put } = window.kept;
  const NOISE = 1e-9;
  const field = (id) => document.getElementById(id);
  const inputs = { temp: field("temp"), humidity: field("humidity"), dew: field("dew") };
  const damp = field("damp");
  const forecast = field("forecast");
  let read = null; // the reading that the lines show

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

  /* Returns the air as it stands in the form, null where a number is missing. */
  const typed = () => {
    const temp = inputs.temp.valueAsNumber;
    const other = inputs[damp.value].valueAsNumber;
    return Number.isNaN(temp) || Number.isNaN(other) ? null : { temp, [damp.value]: other };
  };

  const note = (air, refused) => {
    if (!air) {
      const last = current();
      if (last && age(last) === "void" && !inputs.temp.value) {
        return say("too_old", { air: window.reading.air(last), at: at(last) });
      }
      return say(inputs.temp.value || inputs[damp.value].value ? "missing" : "first");
    }
    if (refused) return refused;
    const [low, high] = limits().temp;
    if (air.temp < low - NOISE) return say("low");
    if (air.temp > high + NOISE) return say("high");
    return read && age(read) === "old" ? say("old") : "";
  };

  /* --- the lines --- */

  const line = (item, band, text, above = "") => {
    const chip = item.querySelector(".band");
    chip.hidden = band === undefined;
    chip.className = `band b${band ?? "n"}`;
    chip.textContent = band ?? "–";
    put(item.querySelector(".do"), text);
    put(item.querySelector(".above"), above && say("and_above", { above }));
  };

  const list = field("now");
  const items = [...list.children];
  const yours = items.find((item) => item.dataset.row === "you");
  const theirs = items.filter((item) => item !== yours);
  let spoken = 0;

  const pens = (found) =>
    theirs.forEach((item) => {
      const place = Number(item.dataset.row);
      const band = found.pens[place];
      if (band === null) {
        line(item, null, say("warmth"));
        return;
      }
      const ask = table.rows[place].asks[band];
      const back = say("back", { time: backBy(read.at, ask.hours) });
      line(item, band, `${table.bands[band]}. ${ask.do} ${back}`, ask.above);
    });

  const you = (found) => {
    const asks = table.you.asks;
    const minutes = say("minutes", { shade: found.shade, sun: found.sun });
    const above = asks.slice(1, found.you).reverse().join(" ");
    line(yours, found.you, `${table.bands[found.you]}. ${asks[found.you]} ${minutes}`, above);
  };

  const show = () => {
    const air = typed();
    const refused = air ? refuse(air) : "";
    field("note").textContent = note(air, refused);
    field("note").classList.toggle("refused", Boolean(refused));
    const stands = read && air && !refused && age(read) !== "void";
    field("read-at").textContent = stands ? say("read_at", { time: at(read) }) : "";
    list.classList.toggle("unread", !stands);
    if (!stands) {
      items.forEach((item) => line(item, undefined, ""));
      list.append(...theirs, yours);
      return;
    }
    const found = find(air);
    pens(found);
    you(found);
    const worst = (item) => found.pens[Number(item.dataset.row)] ?? -1;
    const order = [...theirs].sort(
      (a, b) => worst(b) - worst(a) || Number(a.dataset.row) - Number(b.dataset.row),
    );
    list.append(...(found.you >= table.you_first ? [yours, ...order] : [...order, yours]));
    speak(order[0], worst(order[0]));
  };

  /* Says the worst pen to a screen reader, once the fingers rest. */
  const speak = (item, band) => {
    clearTimeout(spoken);
    if (!item || band < 0) return;
    const pen = table.rows[Number(item.dataset.row)].name;
    spoken = setTimeout(() => {
      field("worst").textContent = say("worst", { band: `${band} ${table.bands[band]}`, pen });
    }, 900);
  };

  const changed = () => {
    const air = typed();
    read = null;
    if (air && !refuse(air)) {
      read = { ...air, at: Date.now(), forecast: forecast.checked };
      keep(read);
    }
    show();
  };

  /* --- fingers --- */

  const step = (button) => {
    const input = inputs[button.dataset.for];
    const by = Number(button.dataset.by);
    const size = Math.abs(by);
    if (Number.isNaN(input.valueAsNumber)) {
      input.value = input.dataset.start; // a hot day here, to begin from
      changed();
      return;
    }
    const places = input.valueAsNumber / size;
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
  forecast.addEventListener("change", changed);
  Object.values(inputs).forEach((input) => {
    input.addEventListener("input", changed);
    // What is typed takes the place of what stood there.
    input.addEventListener("focus", () => input.select());
    input.addEventListener("pointerup", (event) => {
      if (document.activeElement !== input) return;
      event.preventDefault();
      input.select();
    });
  });
  form.addEventListener("submit", (event) => event.preventDefault());

  /* Puts the last reading into the form, unless somebody is typing there. */
  const recall = () => {
    if (form.contains(document.activeElement)) return;
    const last = current();
    if (!last || age(last) === "void") {
      read = null;
      if (last) Object.values(inputs).forEach((input) => (input.value = ""));
    } else {
      read = last;
      inputs.temp.value = last.temp;
      damp.value = last.dew === undefined ? "humidity" : "dew";
      inputs[damp.value].value = last[damp.value];
      forecast.checked = Boolean(last.forecast);
    }
    choose();
    show();
  };
  window.addEventListener("pageshow", recall);
  document.addEventListener("kept", (event) => event.detail === "reading" && recall());
  setInterval(recall, 60 * 1000);
  recall();
})();
