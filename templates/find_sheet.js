/* Search as you type, over the list that the program wrote beside this file. */
"use strict";
(() => {
  const sheets = window.binderSheets;
  const input = document.getElementById("search");
  if (!sheets || !input) return;

  const MOST = 20;
  const results = document.getElementById("results");
  const found = document.getElementById("found");
  const all = document.getElementById("all");
  const plain = (text) =>
    text.normalize("NFD").replace(/[\u0300-\u036f]/g, "").toLowerCase();
  const index = sheets.map(([slug, title, words]) => ({
    slug,
    title: plain(title),
    titleWords: plain(title).split(/[^\p{L}\p{N}]+/u),
    words: plain(words).split(/[^\p{L}\p{N}]+/u),
  }));

  /* How well one typed word fits a sheet; 0 for not at all. */
  const fit = (word, sheet) => {
    if (sheet.titleWords.includes(word)) return 12;
    if (sheet.titleWords.some((each) => each.startsWith(word))) return 9;
    if (sheet.words.includes(word)) return 6;
    if (sheet.words.some((each) => each.startsWith(word))) return 4;
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
  const nearly = (word, sheet) => {
    if (word.length < 4) return 0;
    if (sheet.titleWords.some((each) => near(word, each))) return 2;
    return sheet.words.some((each) => near(word, each)) ? 1 : 0;
  };

  /* Slugs of the sheets that every typed word fits, best first; the order of the binder breaks ties. */
  const search = (text) => {
    const words = plain(text).split(/[^\p{L}\p{N}]+/u).filter(Boolean);
    if (!words.length) return [];
    const by = (how) =>
      index
        .map((sheet, place) => ({ place, slug: sheet.slug, fits: words.map((w) => how(w, sheet)) }))
        .filter((each) => each.fits.every(Boolean))
        .map((each) => ({ ...each, score: each.fits.reduce((sum, fit_) => sum + fit_, 0) }))
        .sort((a, b) => b.score - a.score || a.place - b.place)
        .map((each) => each.slug);
    const exact = by(fit);
    return exact.length ? exact : by((word, sheet) => fit(word, sheet) || nearly(word, sheet));
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
  input.addEventListener("input", show);
  input.form.addEventListener("submit", (event) => {
    event.preventDefault();
    results.querySelector("a")?.click();
  });
  window.addEventListener("pageshow", show);
  window.findSheet = search;
  show();
})();
