/* A nest of sieves: what lies on each, what lies above it, what passes, and what was lost. */
(function () {
  "use strict";
  const form = document.getElementById("sieving"), sheet = document.getElementById("sv-sheet");
  if (!form || !sheet) return;
  const tools = window.MULLBOOK_TOOLS, levigation = window.MULLBOOK_LEVIGATION, { make, number, value_of, shown } = tools;
  const OPENINGS = [500, 300, 150, 75, 63, 45, 38, 20], get = (id) => document.getElementById("sv-" + id);
  const word = (text, name) => make("p", name ? { className: name } : {}, text), percent = (part) => number(100 * part, 3) + " %";

  function update() {
    const held = OPENINGS.map((opening) => [opening, value_of(get(String(opening)))]), pan = value_of(get("pan")), charged = value_of(get("charged"));
    sheet.hidden = false;
    if (pan === undefined || charged === undefined || held.some(([, mass]) => mass === undefined)) return sheet.replaceChildren(word("A field holds no number that can be used; it says why."));
    const nest = held.filter(([, mass]) => mass != null);
    try { show(nest, pan, charged); } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      sheet.replaceChildren(word("Not derivable because " + error.message + "."));
    }
  }
  function show(nest, pan, charged) {
    const rows = levigation.sieve_rows(nest.map(([opening]) => opening), nest.map(([, mass]) => mass), pan);
    const loss = charged == null ? null : levigation.sieve_loss(charged, [...nest.map(([, mass]) => mass), pan]);
    const head = ["Sieve", "On it", "Part", "On it and above", "Passes"].map((text, n) => make("th", { scope: "col", className: n ? "n" : false }, text));
    sheet.replaceChildren(make("h2", {}, "The nest"),
      make("div", { className: "scroll", tabindex: "0", role: "region", "aria-label": "What lies on each sieve" }, make("table", {}, make("thead", {}, make("tr", {}, ...head)),
        make("tbody", {}, ...rows.map((row) => make("tr", {}, make("th", { scope: "row" }, row.opening == null ? "pan" : number(row.opening) + " µm"),
          ...[shown(row.mass, "g", 4), percent(row.share), percent(row.above), percent(row.passing)].map((text) => make("td", { className: "n" }, text))))))),
      loss == null ? word("Say what was put on the nest, and the loss is shown.", "how") : word("Lost: " + percent(loss) + (loss > 0.02 ? ". Over 2 %: weigh again, dry; look for the dust before the next charge." : ".")));
  }
  ["input", "change"].forEach((event) => form.addEventListener(event, update));
  form.addEventListener("submit", (event) => event.preventDefault());
  form.hidden = false;
  tools.follow_units(form, update);
  const place = document.querySelector("[data-prefs]"), bench = window.MULLBOOK_BENCH;
  if (place && !place.firstChild && bench) window.MULLBOOK_PAGE.panel(place, bench.binders.map((each) => [each.id, each.name]), Object.entries(bench.places));
  update();
})();
