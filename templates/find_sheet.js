/* Search as you type, over the list that the program wrote beside this file. What weighs how much
   is our choice, tried on some 160 questions (tests/browser/queries.csv). */
"use strict";
(() => {
  const sheets = window.binderSheets;
  const input = document.getElementById("search");
  if (!sheets || !input) return;

  const MOST = 20;
  const LEAST = 0.25; // of the best score: what fits less is not shown
  const EMERGENCY = 1.1; // how much more an emergency sheet counts
  const results = document.getElementById("results");
  const found = document.getElementById("found");
  const all = document.getElementById("all");
  const plain = (text) =>
    text.normalize("NFD").replace(/[\u0300-\u036f]/g, "").toLowerCase();
  const split = (text) => plain(text).split(/[^\p{L}\p{N}]+/u).filter(Boolean);

  /* A word without its ending: pants, panting and panted are one. */
  const stem = (word) => {
    let short = word.replace(/ies$/, "y");
    if (short.length > 4) short = short.replace(/(?:ing|ed|er|es)$/, "");
    if (short.length > 3) short = short.replace(/([^s])s$/, "$1");
    short = short.replace(/([bdgmnprt])\1$/, "$1");
    return short.length > 3 ? short.replace(/e$/, "") : short;
  };

  const index = sheets.map(([slug, title, words, first]) => {
    const titleWords = split(title);
    const other = split(words);
    return {
      slug,
      first: Boolean(first),
      title: plain(title),
      titleWords,
      titleStems: new Set(titleWords.map(stem)),
      words: other,
      stems: new Set(other.map(stem)),
    };
  });

  /* --- words that mean the same, and words that mean nothing here --- */

  const ways = window.binderSearch;
  const dropped = new Set(ways.dropped.flatMap(split));
  const groups = ways.synonyms.map((group) => {
    const members = group.map(split);
    return {
      phrases: members.filter((words) => words.length > 1).map((words) => words.join(" ")),
      stems: [...new Set(members.filter((words) => words.length === 1).map(([one]) => stem(one)))],
    };
  });

  /* What is asked, word by word: the word itself, and the stems that would do as well. A phrase
     of our list counts as one word. */
  const asked = (text) => {
    let rest = ` ${split(text).join(" ")} `;
    const found = [];
    groups.forEach((group) => {
      group.phrases.forEach((phrase) => {
        if (!rest.includes(` ${phrase} `)) return;
        rest = rest.replace(` ${phrase} `, " ");
        found.push({ word: "", stems: new Set(), like: new Set(group.stems) });
      });
    });
    const words = rest.split(" ").filter(Boolean);
    const telling = words.filter((word) => !dropped.has(word));
    const kept = telling.length || found.length ? telling : words;
    kept.forEach((word) => {
      const own = stem(word);
      const like = groups.filter((group) => group.stems.includes(own)).flatMap((g) => g.stems);
      found.push({ word, stems: new Set([own]), like: new Set(like) });
    });
    return found;
  };

  const meets = (set, other) => [...set].some((each) => other.has(each));

  /* How well one word that is asked fits a sheet; 0 for not at all. */
  const fit = ({ word, stems, like }, sheet) => {
    if (word && sheet.titleWords.includes(word)) return 12;
    if (meets(stems, sheet.titleStems)) return 11;
    if (word && sheet.titleWords.some((each) => each.startsWith(word))) return 9;
    if (meets(like, sheet.titleStems)) return 8;
    if (word && sheet.words.includes(word)) return 7;
    if (meets(stems, sheet.stems)) return 6;
    if (word.length > 1 && sheet.words.some((each) => each.startsWith(word))) return 4;
    if (meets(like, sheet.stems)) return 3;
    if (word.length > 2 && sheet.title.includes(word)) return 3;
    return word.length > 2 && sheet.words.some((each) => each.includes(word)) ? 1 : 0;
  };

  /* Whether two words differ by one letter put in, left out, changed or swapped. */
  const near = (a, b) => {
    if (Math.abs(a.length - b.length) > 1) return false;
    let at = 0;
    while (at < a.length && a[at] === b[at]) at += 1;
    const rest = (text, from) => text.slice(from);
    return (
      rest(a, at + 1) === rest(b, at + 1) ||
      rest(a, at) === rest(b, at + 1) ||
      rest(a, at + 1) === rest(b, at) ||
      (a[at] === b[at + 1] && a[at + 1] === b[at] && rest(a, at + 2) === rest(b, at + 2))
    );
  };
  const nearly = ({ word }, sheet) => {
    if (word.length < 4) return 0;
    if (sheet.titleWords.some((each) => near(word, each))) return 2;
    return sheet.words.some((each) => near(word, each)) ? 1 : 0;
  };

  /* Slugs of the sheets that fit, best first. A word that few sheets have says more than one that
     many have; a sheet that a word is missing on comes after those that have all. Emergencies go
     before what fits as well; then the order of the binder. */
  const search = (text) => {
    const words = asked(text).map((each) => {
      const fits = index.map((sheet) => fit(each, sheet));
      const found = fits.some(Boolean) ? fits : index.map((sheet) => nearly(each, sheet));
      const having = found.filter(Boolean).length;
      const tells = having ? Math.log(1 + index.length / having) : 0;
      return found.map((value) => value * tells);
    });
    if (!words.length) return [];
    const scored = index
      .map((sheet, place) => {
        const fits = words.map((values) => values[place]);
        const share = fits.filter(Boolean).length / words.length;
        const sum = fits.reduce((all, value) => all + value, 0) * share;
        return { place, slug: sheet.slug, score: sheet.first ? sum * EMERGENCY : sum };
      })
      .filter((each) => each.score > 0)
      .sort((a, b) => b.score - a.score || a.place - b.place);
    const least = (scored[0]?.score ?? 0) * LEAST;
    return scored.filter((each) => each.score >= least).map((each) => each.slug);
  };

  const lines = new Map(
    [...all.querySelectorAll("li[data-sheet]")].map((item) => [item.dataset.sheet, item]),
  );
  const show = () => {
    const typed = input.value.trim();
    const slugs = search(typed);
    results.replaceChildren(
      ...slugs.slice(0, MOST).map((slug) => lines.get(slug).cloneNode(true)),
    );
    results.hidden = !slugs.length;
    all.hidden = Boolean(typed);
    const said = slugs.length
      ? found.dataset.found.replace("{count}", slugs.length)
      : found.dataset.nothing;
    found.textContent = typed ? said : "";
  };
  /* The word stays with the tab, so that the way back from a sheet leads to the same list. */
  const KEPT = `binder find ${window.binderSays.farm}`;
  const keep = () => {
    try {
      window.sessionStorage.setItem(KEPT, input.value);
    } catch {
      /* Then it is typed again. */
    }
  };
  const recall = () => {
    try {
      if (!input.value) input.value = window.sessionStorage.getItem(KEPT) ?? "";
    } catch {
      /* As above. */
    }
    show();
  };
  input.addEventListener("input", () => {
    keep();
    show();
  });
  input.form.addEventListener("submit", (event) => {
    event.preventDefault();
    results.querySelector("a")?.click();
  });
  window.addEventListener("pageshow", recall);
  window.findSheet = search;
  recall();
})();
