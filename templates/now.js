/* The hour, at the top of the front page: which visit is on, its stops, what is due today, what
   comes next. All of it is read off the plan that the cards are printed from. */
"use strict";
window.binderDay = (() => {
  const agenda = window.binderAgenda ?? [];
  const { say, day, dayName, time } = window.kept;

  /* The plan of a day: the stay that it lies in, else the farm's own rounds. */
  const planOf = (iso) =>
    agenda.find((plan) => plan.first && plan.first <= iso && iso <= plan.last) ??
    agenda.find((plan) => !plan.first) ??
    null;
  const hourOf = (date) => date.getHours() + date.getMinutes() / 60;

  /* The visit that is on at an hour, and the next one (of the next day after the last). */
  const visitsAt = (plan, hour) => {
    const before = window.binderSays.begins_before_h;
    const on = plan.visits.findLast(
      (visit) => hour >= visit.h - before && hour < visit.h + Math.max(visit.takes_h, before),
    );
    const next = plan.visits.find((visit) => visit !== on && visit.h > hour);
    return { on, next: next ?? plan.visits[0], tomorrow: !next };
  };
  return { agenda, planOf, hourOf, visitsAt, today: () => day(new Date()), dayName, time, say };
})();

(() => {
  const body = document.getElementById("hour");
  const { agenda, planOf, hourOf, visitsAt } = window.binderDay;
  if (!body || !agenda.length) return;

  const { say, put, day, dayName, get } = window.kept;
  const title = document.getElementById("hour-title");

  const link = (href, text, name) => {
    const made = document.createElement(href ? "a" : "span");
    if (href) made.href = href;
    if (name) made.className = name;
    made.textContent = text;
    return made;
  };
  const line = (head, ...parts) => {
    const made = document.createElement("p");
    const bold = document.createElement("b");
    bold.textContent = head;
    made.append(bold, " ", ...parts);
    return made;
  };

  const stops = (plan, visit) => {
    const list = document.createElement("ol");
    list.className = "stops";
    visit.stops.forEach((id) => {
      const pen = plan.pens.find((each) => each.id === id);
      if (!pen) return;
      const item = document.createElement("li");
      item.append(link(pen.href, pen.name));
      list.append(item);
    });
    return list;
  };

  const ticked = (plan, visit) => {
    const marks = get(`ticks/${plan.id}/${day(new Date())}`) ?? {};
    return Object.keys(marks[visit.slug] ?? {}).length;
  };

  const visitLines = (plan, visit) => {
    const found = [];
    if (visit.href) {
      const card = link(visit.href, say("open_card", { title: visit.title }), "open");
      const count = ticked(plan, visit);
      found.push(card);
      if (count) found.push(line(say("ticked"), String(count)));
    }
    if (visit.meal) found.push(line(visit.meal));
    found.push(line(say("stops")), stops(plan, visit));
    return found;
  };

  /* When to be back: by the last reading where it is fresh, else for the next visit or look. */
  const backLines = (plan, now, next, tomorrow) => {
    const found = [];
    const read = window.reading?.current();
    if (read && window.reading.age(read) === "fresh") {
      const first = window.reading.soonest(read);
      if (first) {
        const back = window.reading.backBy(read.at, first.hours);
        found.push(line(say("back_by", { time: back }), say("pen_number", { pen: first.pen.name, band: first.band })));
      }
    }
    const clock = tomorrow ? say("tomorrow", { time: next.clock }) : next.clock;
    found.push(line(say("next_visit"), link(next.href, clock)));
    return found;
  };

  const lookLines = (plan, hour) => {
    const next = (looks) => {
      const found = looks.find((look) => look.h > hour);
      return found ? `${found.clock}: ${found.pens.join(", ")} (${found.by}).` : "";
    };
    const usual = next(plan.looks);
    const hot = next(plan.hot_looks);
    return [
      ...(usual ? [line(say("next_look"), usual)] : []),
      ...(hot && hot !== usual ? [line(say("next_hot_look"), hot)] : []),
    ];
  };

  const mealLine = (plan, hour) => {
    const next = plan.visits.find((visit) => visit.meal && visit.h > hour);
    const first = plan.visits.find((visit) => visit.meal);
    const meal = next ?? first;
    if (!meal) return [];
    const clock = next ? meal.clock : say("tomorrow", { time: meal.clock });
    return [line(say("next_meal"), `${clock}, ${meal.meal.toLowerCase()}`)];
  };

  const dueLine = (plan, iso) => {
    const due = plan.days[iso] ?? [];
    const made = line(say("due_today"));
    if (!due.length) return plan.first ? [line(say("due_today"), say("nothing_due"))] : [];
    const list = document.createElement("ul");
    due.forEach((text) => {
      const item = document.createElement("li");
      put(item, text);
      list.append(item);
    });
    return [made, list];
  };

  const logLine = (plan) => {
    const made = link(window.binderSays.log_page, say("write_down"), "open");
    return plan.pens.length ? [made] : [];
  };

  const show = () => {
    const now = new Date();
    const iso = day(now);
    const plan = planOf(iso);
    const soon = agenda.find((each) => each.first > iso);
    const begins = soon
      ? [line(say("begins"), link(soon.href, `${soon.sitter}, ${dayName(soon.first)}`))]
      : [];
    if (!plan) {
      body.replaceChildren(...begins);
      return;
    }
    const hour = hourOf(now);
    const { on, next, tomorrow } = visitsAt(plan, hour);
    const round = plan.first ? "now_visit" : "now_round";
    title.textContent = on ? say(round, { clock: on.clock }) : say("now_between");
    body.replaceChildren(
      ...(on ? visitLines(plan, on) : backLines(plan, now, next, tomorrow)),
      ...dueLine(plan, iso),
      ...mealLine(plan, hour),
      ...lookLines(plan, hour),
      ...(on ? backLines(plan, now, next, tomorrow) : []),
      ...logLine(plan),
      ...(plan.first ? [] : begins),
    );
  };
  ["pageshow", "hashchange"].forEach((event) => window.addEventListener(event, show));
  document.addEventListener("kept", show);
  setInterval(show, 60 * 1000);
  show();
})();
