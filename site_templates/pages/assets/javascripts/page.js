/* On every page, so it stays small: it opens the text search, lets wide tables be scrolled from the keyboard, and asks
   for the scripts that mark overdue reviews, write other units, and, where the book is served, keep it on the device. */
(() => {
  "use strict";
  const base = new URL("../../", document.currentScript.src);
  const load = (path) => new Promise((done, failed) => {
    const script = document.createElement("script");
    Object.assign(script, { src: new URL(path, base).href, onload: done, onerror: failed });
    document.head.append(script);
  });

  /* Find reads the same word from the address, so its page leaves this search out. */
  const head = document.querySelector(".head:not([data-finds])"), panel = document.createElement("details");
  if (head) {
    panel.className = "seek";
    panel.innerHTML = "<summary>Search text</summary>";
    head.append(panel);
    const asked = new URLSearchParams(location.search).get("q") || "";
    let started;
    panel.addEventListener("toggle", async () => {
      if (!panel.open) return;
      started = started || Promise.all([load("search/search_index.js"), load("assets/javascripts/text.js")]).then(() => window.MULLBOOK_SEEK(panel, base.href, asked));
      (await started).focus();
    });
    panel.open = Boolean(asked);
    document.addEventListener("click", (event) => {
      if (panel.open && !event.target.closest(".seek, .text-search")) panel.open = false;
    });
  }

  /* Units or a decimal mark other than the book's: only then comes the script that writes them into the page. */
  let written;
  async function write_units() {
    let kept = {};
    try { kept = JSON.parse(localStorage.getItem("mullbook.prefs")) || {}; } catch (refused) { /* nothing is kept here */ }
    const { mass, volume, comma } = { ...window.MULLBOOK_STUDIO, ...kept, ...window.MULLBOOK_PREFS };
    if (written || !(comma || mass === "oz" || volume === "floz")) return;
    written = true;
    if (!window.MULLBOOK_PAGE) await load("assets/javascripts/prefs.js");
    if (!window.MULLBOOK_FORMULAS) await load("assets/javascripts/formulas.js");
    load("assets/javascripts/units.js");
  }
  document.addEventListener("DOMContentLoaded", write_units);
  document.addEventListener("mullbook:prefs", write_units);

  document.querySelectorAll(".scroll").forEach((box) => {
    if (box.scrollWidth > box.clientWidth && !box.hasAttribute("tabindex")) box.tabIndex = 0;
  });
  if (document.querySelector("[data-review-by]")) load("assets/javascripts/dates.js");
  if (location.protocol !== "file:") load("assets/javascripts/offline.js");
})();
