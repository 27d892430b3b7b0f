/* Numbers that stand printed on a page, in the units and with the decimal mark this device asks for. Weights and volumes
   change where they are looked up: on cards, in tables, in lists of facts, in lines that unfold. Sentences, workings and
   what is quoted keep the book's grams. The book's own words come back with the choice. */
(function () {
  "use strict";
  const main = document.querySelector("main"), prefs = window.MULLBOOK_PREFS, formulas = window.MULLBOOK_FORMULAS, { number, make } = window.MULLBOOK_PAGE;
  if (!main || !formulas) return;
  const SELF_MADE = "form, .prefs-place, [data-prefs], .answer, .sheet-of-batch, .mine, #find-results, #side-by-side select, .units-told";
  const QUOTED = "code, pre, time, script, style, noscript, [data-quoted], .sources, .crumbs, .card-foot, a.src, a[href^='#_'], a[href^='http']";
  const LOOKED_UP = "[data-per], .amounts, tbody th, td, .facts dd, .working > summary, .row > summary", WORKED = ".steps, .formula, .from, .not-derivable, small, thead, caption";
  const RATIO = /\bg (per|for) 100 g\b/g, AMOUNT = /(?<![\w.,/–])(\d+(?:\.\d+)?)(?:(–| to | or )(\d+(?:\.\d+)?))?\s?(kg|g|ml|l)(?![\w/·²³µ])/g;
  const DECIMAL = /(?<![\w.,/]|(?:table|section|chapter|clause|part|note|no\.|annex|version|pp?\.) )(\d+)\.(\d+)(?![\d.]*\.\d|\d*[a-z])/gi;
  const GRAMS = { kg: 1000, g: 1 }, MILLILITRES = { l: 1000, ml: 1 };
  const books = new Map();
  let as_printed = false;

  /* Where a place says for how much pigment its weights are, they are said for one ounce of it. */
  function amount(per, all, first, joint, last, unit) {
    const weight = unit in GRAMS, asked = weight ? prefs.mass === "oz" : prefs.volume === "floz";
    if (!asked || (per && !weight)) return all;
    const part = weight ? GRAMS[unit] : MILLILITRES[unit], of = (text) => per && weight ? Number(text) * part / per
      : weight ? formulas.ounces_of_grams(Number(text) * part) : formulas.fluid_ounces_of_millilitres(Number(text) * part);
    const figures = joint || per ? 2 : 3, said = (text) => number(of(text), figures);
    const ends = joint && said(first) !== said(last) ? said(first) + joint + said(last) : said(first);
    return ends + "\u00a0" + (weight ? "oz" : "fl\u00a0oz");
  }
  function said(text, around) {
    let words = text;
    if (prefs.mass === "oz" && around.closest("thead, caption, td")) words = words.replace(RATIO, "oz $1 100 oz");
    if (around.closest(LOOKED_UP) && !around.closest(WORKED) && /\d\s?(kg|g|ml|l)\b/.test(words)) {
      const per = around.closest("[data-per]");
      words = words.replace(AMOUNT, (...found) => amount(per && Number(per.dataset.per), ...found));
    }
    return prefs.comma ? words.replace(DECIMAL, "$1,$2") : words;
  }
  function show() {
    books.forEach((text, node) => { node.data = text; });
    books.clear();
    if (!as_printed && (prefs.comma || prefs.mass === "oz" || prefs.volume === "floz")) {
      const nodes = document.createTreeWalker(main, NodeFilter.SHOW_TEXT);
      while (nodes.nextNode()) {
        const node = nodes.currentNode;
        if (!/\d/.test(node.data) || node.parentElement.closest(SELF_MADE) || node.parentElement.closest(QUOTED)) continue;
        const words = said(node.data, node.parentElement);
        if (words !== node.data) { books.set(node, node.data); node.data = words; }
      }
    }
    tell();
  }

  /* A page that has no line of its own for what is remembered says it here, and gives the printed page back. */
  function tell() {
    const place = main.querySelector(".units-told"), known = main.querySelector(".prefs-place, [data-prefs]");
    if (place) place.remove();
    if (known || !(books.size || as_printed)) return;
    const units = [prefs.mass === "oz" && "oz", prefs.volume === "floz" && "fl oz", prefs.comma && "1,5"].filter(Boolean).join(", ");
    const turn = make("button", { type: "button" }, as_printed ? "Show " + units : "Show as printed");
    turn.addEventListener("click", () => { as_printed = !as_printed; show(); main.querySelector(".units-told button").focus(); });
    const line = make("p", { className: "how units-told" }, as_printed ? "As printed. " : "In " + units + ", as chosen on this device; sentences and workings keep the book’s grams. ", turn);
    const title = main.querySelector("h1");
    (main.querySelector(".card") || title.closest(".page-head") || title).after(line);
  }
  document.addEventListener("mullbook:prefs", show);
  show();
})();
