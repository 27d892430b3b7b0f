/* Search in the text of all pages. The index is a script, since a page from disk may fetch nothing:
   window.MULLBOOK_TEXT = [[page, title, codes, [[place, heading, text], ...]], ...]. All words asked for must stand
   on a page, whole or begun; titles and codes count most. `prepare` and `seek` know nothing of the page. */
(() => {
  "use strict";
  const AT_ONCE = 20, MOST_PLACES = 3, BEFORE = 60, AROUND = 190;
  const fold = (text) => text.toLowerCase().normalize("NFD").replace(/[\u0300-\u036f]/g, "").replace(/ß/g, "ss").replace(/[₀-₉]/g, (c) => c.charCodeAt(0) - 8320);
  const row = (text) => " " + fold(text).replace(/[^a-z0-9]+/g, " ").trim() + " ";

  /* A CAS number or a Colour Index name is one word: pages carry their codes run together. */
  const joined = (words) => words.replace(/\b(\d{2,7})-(\d\d)-(\d)\b/g, "$1$2$3")
    .replace(/\b(p|n)\.? ?(bk|br|[bgmorvwy])\.? ?(\d{1,3})(?::(\d))?\b/gi, "$1$2$3$4");
  const termsOf = (words) => [...new Set(row(joined(words)).split(" ").filter(Boolean))];

  const prepare = (pages) => pages.map(([url, title, codes, places]) => ({
    url, title, name: row(title), codes: row(codes), common: url.startsWith("pigments/") ? 4 : 0,
    places: places.map(([place, heading, text]) => ({ place, heading, text, name: row(heading), words: row(text) })),
  }));

  function weigh(page, term) {
    const whole = " " + term + " ", begun = " " + term;
    if (page.codes.includes(whole)) return 200;
    let most = page.name.includes(whole) ? 100 : page.name.includes(begun) ? 50 : 0;
    for (const each of page.places) {
      if (each.name.includes(begun)) most = Math.max(most, 20);
      if (each.words.includes(whole)) most = Math.max(most, 8); else if (each.words.includes(begun)) most = Math.max(most, 4);
    }
    return most;
  }
  function seek(pages, words) {
    const terms = termsOf(words), phrase = row(words);
    const hits = [];
    if (terms.length) for (const page of pages) {
      let score = page.common;
      const all = terms.every((term) => { const points = weigh(page, term); score += points; return points; });
      if (all) hits.push({ page, score: score + (page.name === phrase ? 300 : page.name.startsWith(phrase) ? 60 : 0) });
    }
    return hits.sort((a, b) => b.score - a.score || a.page.title.length - b.page.title.length || (a.page.title < b.page.title ? -1 : 1))
      .map(({ page }) => ({ page, places: placesOf(page, terms) }));
  }
  function placesOf(page, terms) {
    const counted = page.places.map((place, at) => ({ place, at, found: terms.filter((term) => (place.name + place.words).includes(" " + term)).length }));
    const best = counted.filter(({ found }) => found).sort((a, b) => b.found - a.found || a.at - b.at).slice(0, MOST_PLACES).sort((a, b) => a.at - b.at);
    return (best.length ? best : counted.slice(0, 1)).map(({ place }) => place);
  }

  if (typeof module === "object") module.exports = { prepare, seek };
  if (typeof document === "undefined") return;

  function make(tag, given = {}, ...inside) {
    const element = Object.assign(document.createElement(tag), given);
    element.append(...inside);
    return element;
  }
  /* A stretch of text from just before the first word found, with the words found marked. */
  function snippet(text, terms) {
    const words = [...text.matchAll(/[\p{L}\p{N}]+/gu)].filter(([word]) => terms.some((term) => fold(word).startsWith(term)));
    const from = words.length && words[0].index > BEFORE ? text.lastIndexOf(" ", words[0].index - BEFORE / 2) + 1 : 0;
    const line = make("p"), end = Math.min(text.length, from + AROUND);
    let at = from;
    if (from) line.append("… ");
    words.filter(({ index, 0: word }) => index >= from && index + word.length <= end).forEach(({ index, 0: word }) => {
      line.append(text.slice(at, index), make("mark", {}, word));
      at = index + word.length;
    });
    line.append(text.slice(at, end), end < text.length ? " …" : "");
    return line;
  }
  function hit({ page, places }, terms, base) {
    return make("li", { className: "text-hit" }, ...places.map((place, n) => {
      const link = make("a", { href: base + page.url + (place.place && "#" + place.place) });
      link.append(make("b", {}, n ? place.heading : page.title), n || !place.heading ? "" : make("span", {}, place.heading), snippet(place.text, terms));
      return link;
    }));
  }

  /* Builds the panel below the header; returns its box. */
  window.MULLBOOK_SEEK = (panel, base, asked) => {
    const pages = prepare(window.MULLBOOK_TEXT);
    const box = make("input", { id: "text-query", name: "query", type: "search", autocomplete: "off", spellcheck: false, placeholder: "Words in any page", value: asked });
    const status = make("p", { id: "text-status" }), list = make("ol", { id: "text-hits" });
    status.setAttribute("role", "status");
    const form = make("form", { name: "search" }, make("label", { htmlFor: "text-query" }, "Search the text of all pages"), box, status, list);
    form.setAttribute("role", "search");
    form.setAttribute("aria-label", "Text of all pages");
    panel.after(make("div", { className: "text-search" }, form));
    let hits = [], shown = AT_ONCE;

    function draw() {
      const terms = termsOf(box.value);
      list.replaceChildren(...hits.slice(0, shown).map((each) => hit(each, terms, base)));
      if (hits.length <= shown) return;
      const more = make("button", { type: "button" }, "Show more of " + hits.length);
      more.addEventListener("click", () => { const at = shown; shown += AT_ONCE; draw(); list.children[at].querySelector("a").focus(); });
      list.append(make("li", {}, more));
    }
    function answer() {
      hits = seek(pages, box.value);
      shown = AT_ONCE;
      draw();
      status.replaceChildren(!box.value.trim() ? "" : hits.length ? hits.length + (hits.length > 1 ? " pages hold" : " page holds") + " these words" : "No page holds all of these words. ");
      if (box.value.trim() && !hits.length) status.append(make("a", { href: base + "find.html?q=" + encodeURIComponent(box.value) }, "Find forgives misspelling."));
    }
    box.addEventListener("input", answer);
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      const first = list.querySelector("a");
      if (first) first.focus();
    });
    form.addEventListener("keydown", (event) => {
      const move = { ArrowDown: 1, ArrowUp: -1 }[event.key], links = [...list.querySelectorAll("a")], at = links.indexOf(document.activeElement);
      if (event.key === "Escape") { panel.open = false; panel.querySelector("summary").focus(); }
      if (!move || !links.length || (at < 0 && (document.activeElement !== box || move < 0))) return;
      event.preventDefault();
      (at + move < 0 ? box : links[at + move] || links[at]).focus();
    });
    answer();
    return box;
  };
})();
