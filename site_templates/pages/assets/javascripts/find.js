/* Find: one box, forgiving. The rows come from data/find.js (window.MULLBOOK_FIND). `prepare` and `rank` know nothing
   of the page. Order: exact code or CAS, exact name, prefix, prefix of a word, part of a name, misspelt. */
(() => {
  "use strict";
  const HUES = { red: "r", orange: "o", yellow: "y", green: "g", blue: "b", violet: "v", brown: "br", black: "bk", white: "w", metal: "m" };
  const NO = 255;

  const plain = (text) => String(text).toLowerCase().replace(/ß/g, "ss").replace(/æ/g, "ae").replace(/œ/g, "oe").replace(/ø/g, "o")
    .replace(/[₀-₉]/g, (c) => c.charCodeAt(0) - 8320).normalize("NFD").replace(/[\u0300-\u036f]/g, "");
  const fold = (text) => plain(text).replace(/[^a-z0-9]/g, "");
  const wordsOf = (text) => plain(text).split(/[^a-z0-9]+/).filter(Boolean);

  /* "C.I. Pigment Red 101", "p.r. 101" and "PR101" are one code; "CI 77491" is a number. */
  const code = (text) => fold(text).replace(/^ci(?=\d|pigment|natural|[pn][a-z]{1,2}\d)/, "")
    .replace(/^(pigment|natural)(red|orange|yellow|green|blue|violet|brown|black|white|metal)(?=\d)/, (all, kind, hue) => kind[0] + HUES[hue]);

  function mask(word) {
    let bits = 0;
    for (let i = 0; i < word.length; i++) {
      const c = word.charCodeAt(i);
      bits |= 1 << (c >= 97 ? c - 97 : 26 + c % 5);
    }
    return bits;
  }
  function count(bits) { let n = 0; for (; bits; n++) bits &= bits - 1; return n; }
  const slack = (length) => length < 4 ? 0 : length < 6 ? 1 : length < 10 ? 2 : 3;

  /* Edits from `a` to `b` (a swap of neighbours is one), or to a beginning of `b` plus a half; NO when over `most`. */
  let older = [], before = [], row = [];
  function edits(a, b, most) {
    const width = Math.min(b.length, a.length + most);
    let low = 0;
    for (let j = 0; j <= width; j++) row[j] = j;
    for (let i = 1; i <= a.length; i++) {
      [older, before, row] = [before, row, older];
      row[0] = low = i;
      for (let j = 1; j <= width; j++) {
        let cost = Math.min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1));
        if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) cost = Math.min(cost, older[j - 2] + 1);
        row[j] = cost;
        if (cost < low) low = cost;
      }
      if (low > most) return NO;
    }
    return Math.min(width === b.length && row[width] <= most ? row[width] : NO, a.length < 5 ? NO : low + 0.5);
  }

  /* Keys are shared between rows, so each distinct word is compared once for a keystroke. */
  function prepare(rows) {
    const names = new Map(), words = new Map(), codes = new Map();
    function put(map, key, at, shown, more = 0) {
      if (!key) return;
      if (!map.has(key)) map.set(key, { key, bits: mask(key), uses: [] });
      map.get(key).uses.push({ at, shown, more });
    }
    rows.forEach((row, at) => {
      [row.name, ...row.words || []].forEach((name, n) => {
        put(names, fold(name), at, n ? name : "");
        wordsOf(name).forEach((word) => put(words, word, at, n ? name : ""));
      });
      /* What is that and nothing else comes before a mixture that holds it. */
      [[row.ci, 2], [row.cas, 1], [row.formula, 1], [row.elements, 1]].forEach(([held, few]) => [].concat(held || []).forEach((item, n, all) => put(codes, code(item), at, "", all.length > few ? 1 : 0)));
    });
    const list = (map) => [...map.values()];
    return { rows, names: list(names), words: list(words), codes: list(codes), parts: list(words).concat(list(codes)) };
  }

  /* Cheap refusals first: too short, or lacking too many of the letters. */
  const near = (query, bits, most, entry) =>
    !most || entry.key.length < query.length - most || count(bits & ~entry.bits) > most ? NO : edits(query, entry.key, most);

  function rank(index, text) {
    const query = fold(text), asked = code(text), terms = wordsOf(text), found = new Map();
    if (!query) return index.rows.map((row) => ({ row, score: 0, alias: "" }));
    function hit(use, points) {
      const now = found.get(use.at), score = points + (use.shown ? 2 : 0) + (use.more || 0);
      if (!now || score < now.score) found.set(use.at, { row: index.rows[use.at], score, alias: use.shown });
    }
    const each = (entries, judge) => entries.forEach((entry) => {
      const points = judge(entry.key, entry);
      if (points < NO) entry.uses.forEach((use) => hit(use, points));
    });
    each(index.codes, (key) => key === asked ? 0 : asked[1] && key.startsWith(asked) ? 24 : NO);
    each(index.names, (key) => {
      const at = key.indexOf(query);
      return key === query ? 10 : key === asked ? 0 : at === 0 ? 20 : at > 0 && query[1] ? 40 : NO;
    });
    each(index.words, (key) => key.startsWith(query) ? 30 : NO);
    if (terms[1]) together(index, terms, hit, false);
    if (found.size < 5 && !/\d/.test(query)) {
      const most = slack(query.length), bits = mask(query);
      const guess = (key, entry) => Math.min(NO, 50 + 5 * near(query, bits, most, entry));
      each(index.names, guess);
      if (terms[1]) together(index, terms, hit, true); else each(index.words, guess);
    }
    /* A nought written for an O, as in Fe203. */
    if (!found.size && /[a-z]\d*0/.test(query)) return rank(index, text.replace(/0/g, "o"));
    const pigment = ({ row }) => row.kind === "pigment";
    return [...found.values()].sort((a, b) => a.score - b.score || Boolean(b.row.shelf) - Boolean(a.row.shelf) || pigment(b) - pigment(a) || a.row.name.length - b.row.name.length || (a.row.name < b.row.name ? -1 : 1));
  }

  /* Several words in any order: each must begin, or nearly be, some word of the row. */
  function together(index, terms, hit, loose) {
    let total = null;
    terms.forEach((term) => {
      const here = new Map(), bits = mask(term), most = loose && !/\d/.test(term) ? slack(term.length + 1) : 0;
      index.parts.forEach((entry) => {
        const cost = entry.key.startsWith(term) ? 0 : near(term, bits, most, entry);
        if (cost < NO) entry.uses.forEach(({ at }) => {
          if (!total || total.has(at)) here.set(at, Math.min(cost + (total ? total.get(at) : 0), here.has(at) ? here.get(at) : NO));
        });
      });
      total = here;
    });
    total.forEach((cost, at) => hit({ at, shown: "" }, cost ? 50 + 5 * cost : 34));
  }

  if (typeof module === "object") module.exports = { fold, code, prepare, rank };
  if (typeof document === "undefined") return;

  const get = (id) => document.getElementById("find-" + id);
  const box = get("box"), list = get("results"), status = get("status"), data = window.MULLBOOK_FIND;
  if (!box || !list || !data) return;
  /* What many rows share stands once in the file. */
  function whole(row) {
    const named = (key) => row[key] && row[key].map((place) => data[key][place]);
    return { url: row.kind + "s/" + row.id + ".html", level_words: data.levels[row.level], ...row, binders: named("binders"), not_for: named("not_for") };
  }
  /* In a studio's edition, what is on its shelf comes first among equals. */
  if (window.MULLBOOK_SHELF) {
    data.rows.forEach((row) => { row.shelf = row.kind === "pigment" && window.MULLBOOK_SHELF.includes(row.id); });
    data.rows.sort((a, b) => b.shelf - a.shelf);
  }
  const index = prepare(data.rows.map(whole)), { keep: keeps, base = "", most = 60, quiet } = list.dataset;
  const filters = ["hue", "level", "family", "binder", "element", "person"].map((key) => ({ key, select: get(key) })).filter(({ select }) => select);
  let hits = [], shown;

  function make(tag, name, text = "") {
    const element = document.createElement(tag);
    element.className = name;
    element.textContent = text;
    return element;
  }
  function levelOf(row) {
    const level = make("span", "lv lv-" + row.level);
    level.innerHTML = '<svg class="shape" aria-hidden="true"><use/></svg>';
    level.querySelector("use").setAttribute("href", "#lv-" + row.level);
    level.append(row.level_words);
    return level;
  }
  function line({ row, alias }) {
    const link = make("a", "find-row"), swatch = make("span", row.hex ? "swatch" : "swatch none"), what = make("span", "what");
    const sort = (row.kind === "pigment" && row.family || row.kind || "").replace(/-/g, " ");
    link.href = base + row.url;
    if (row.hex) swatch.style.setProperty("--c", row.hex);
    what.append(make("b", "", row.name), make("small", "", [...row.ci || [], sort, ...row.shelf ? ["on our shelf"] : []].join(" · ")));
    if (alias) what.append(make("small", "alias", "also: " + alias));
    link.append(swatch, what);
    if (row.level) link.append(levelOf(row));
    return link;
  }
  /* Nothing is said of persons on the page of a bare substance, so it stays out where a person is chosen. */
  const HELD = { binder: "binders", element: "elements", person: "not_for" };
  const passes = (row) => filters.every(({ key, select }) => !select.value || (key === "person" && !row.level ? false :
    [].concat(row[HELD[key] || key] || []).includes(select.value) !== (key === "person")));

  function draw() {
    list.replaceChildren(...hits.slice(0, shown).map(line));
    if (hits.length <= shown) return;
    const more = make(keeps ? "button" : "a", "more", "Show more of " + hits.length);
    if (keeps) more.onclick = () => { const at = shown; shown += 200; draw(); list.children[at].focus(); };
    else more.href = base + "find.html?q=" + encodeURIComponent(box.value);
    list.append(more);
  }
  function say() {
    const words = box.value.trim(), still = quiet !== undefined && !words;
    hits = still ? [] : rank(index, words).filter(({ row }) => passes(row));
    shown = +most;
    draw();
    if (status) status.textContent = still ? "" : hits.length ? hits.length + " of " + data.rows.length + (get("person") && get("person").value ? ". What is left is not thereby allowed: its page says what it asks for." : "")
      : "Nothing found. A powder that is not listed is not known: treat it as hazardous.";
  }
  function changed() {
    say();
    if (!keeps) return;
    const query = new URLSearchParams();
    [{ key: "q", select: box }, ...filters].forEach(({ key, select }) => { if (select.value) query.set(key, select.value); });
    try { history.replaceState(null, "", location.pathname + (String(query) && "?" + query)); } catch (refused) { /* some browsers, on file: */ }
  }

  const given = new URLSearchParams(location.search);
  if (keeps) [{ key: "q", select: box }, ...filters].forEach(({ key, select }) => {
    const fold = select.closest("details");
    if (given.get(key)) select.value = given.get(key);
    if (fold && (select.value || matchMedia("(min-width: 860px)").matches)) fold.open = true;
  });
  box.addEventListener("input", changed);
  filters.forEach(({ select }) => select.addEventListener("change", changed));
  /* Enter opens a sure hit; with several it goes to the first row, so that a glove does not open the wrong jar. */
  if (box.form) box.form.addEventListener("submit", (event) => {
    event.preventDefault();
    if (!hits[0]) return;
    if (!hits[1] || hits[0].score < 20 && hits[1].score > hits[0].score) list.firstChild.click(); else list.firstChild.focus();
  });
  document.addEventListener("keydown", (event) => {
    const move = { ArrowDown: 1, ArrowUp: -1 }[event.key], rows = [...list.children], at = rows.indexOf(document.activeElement);
    if (!move || !rows[0] || (at < 0 && (document.activeElement !== box || move < 0))) return;
    event.preventDefault();
    (at + move < 0 ? box : rows[at + move] || rows[at]).focus();
  });
  say();
})();
