/* Hiding and strength of pale pigments, from refractive indices. */
(function () {
  "use strict";
  const form = document.getElementById("hiding"), bench = window.MULLBOOK_BENCH;
  if (!form || !bench) return;
  const tools = window.MULLBOOK_TOOLS, formulas = window.MULLBOOK_FORMULAS, { make, number } = tools, { range } = window.MULLBOOK_PAGE;
  const get = (id) => document.getElementById("hd-" + id), HIDING = [[0.005, "glassy"], [0.03, "semi-opaque"]];
  const hiding = (contrast) => (HIDING.find(([end]) => contrast < end) || [0, "hides"])[1];
  const middle = ([low, high]) => (low + high) / 2;

  /* Contrast is nought where the indices meet and rises on either side. */
  function contrast(pigment, binder) {
    const ends = pigment.n.slice(0, 2).flatMap((n) => binder.n.slice(0, 2).map((around) => formulas.scattering_contrast(n, around)));
    const meet = pigment.n[0] <= binder.n[1] && binder.n[0] <= pigment.n[1];
    return { low: meet ? 0 : Math.min(...ends), high: Math.max(...ends), middle: formulas.scattering_contrast(middle(pigment.n), middle(binder.n)) };
  }
  const words = ({ low, high }) => hiding(low) === hiding(high) ? hiding(low) : hiding(low) + " to " + hiding(high);
  const by = (list, id) => list.find((each) => each.id === get(id).value);

  function compare(one, other, binder) {
    const first = contrast(one, binder), second = contrast(other, binder);
    if (second.middle < 1e-6) return make("p", {}, other.name + " all but vanishes in " + binder.name + ": there is nothing to set against it.");
    const volume = first.middle / second.middle, parts = one.density && other.density ? volume * middle(other.density) / middle(one.density) : null;
    return make("p", {}, "Volume for volume and grain for grain, " + one.name + " scatters about ", make("b", {}, number(volume, 2) + " times"), " as strongly as " + other.name + " in " + binder.name + (parts ? "; weight for weight about " + number(parts, 2) + " times. So one part by weight of " + one.name + " stands against about " + number(parts, 2) + " of " + other.name : "") + ". Grain size changes this much: make a drawdown.");
  }
  function table(one) {
    const rows = bench.binders.filter((each) => each.n).map((binder) => [binder, contrast(one, binder)]).sort((a, b) => b[1].middle - a[1].middle);
    return make("div", { className: "scroll", tabindex: "0", role: "region", "aria-label": "Hiding of " + one.name + " by binder" }, make("table", {}, make("thead", {}, make("tr", {}, make("th", { scope: "col" }, "Binder"), make("th", { scope: "col", className: "n" }, "Contrast"), make("th", { scope: "col" }, "Reads"))),
      make("tbody", {}, ...rows.map(([binder, found]) => make("tr", {}, make("th", { scope: "row" }, binder.name), make("td", { className: "n" }, range(found.low, found.high)), make("td", {}, words(found)))))));
  }
  function update() {
    const one = by(bench.pigments, "one"), other = by(bench.pigments, "other"), binder = by(bench.binders, "binder");
    tools.keep_address({ one: one.id, ...other ? { other: other.id } : {}, b: binder.id });
    const found = contrast(one, binder);
    get("answer").replaceChildren(make("b", { className: "big" }, words(found)), make("p", {}, one.name + " in " + binder.name + ", if it is pale: contrast " + range(found.low, found.high) + " from an index of " + range(one.n[0], one.n[1], 3) + " against " + range(binder.n[0], binder.n[1], 4) + "."),
      ...other && other !== one ? [compare(one, other, binder)] : [], table(one));
  }
  const known = bench.pigments.filter((each) => each.n), asked = new URLSearchParams(location.search);
  const choose = (id, value) => { if ([...get(id).options].some((each) => each.value === value)) get(id).value = value; };
  tools.grouped(get("one"), null, known, (each) => each.hue);
  tools.grouped(get("other"), "no other", known, (each) => each.hue);
  tools.grouped(get("binder"), null, bench.binders.filter((each) => each.n), (each) => each.kind);
  choose("one", "titanium-white");
  choose("binder", window.MULLBOOK_PREFS.binder || "linseed-oil");
  choose("one", asked.get("one"));
  choose("other", asked.get("other"));
  choose("binder", asked.get("b"));
  form.addEventListener("change", update);
  form.addEventListener("submit", (event) => event.preventDefault());
  document.addEventListener("mullbook:prefs", update);
  form.hidden = false;
  window.MULLBOOK_PAGE.panel(document.querySelector("[data-prefs]"), bench.binders.map((each) => [each.id, each.name]), Object.entries(bench.places));
  update();
})();
