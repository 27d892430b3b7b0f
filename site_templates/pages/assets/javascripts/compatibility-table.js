/* The table of pigments in binders, a hue at a time; a tap on a cell tells the reason and where it stands. */
(function () {
  "use strict";
  const form = document.getElementById("compat"), bench = window.MULLBOOK_BENCH, known = window.MULLBOOK_COMPATIBILITY;
  if (!form || !bench || !known) return;
  const tools = window.MULLBOOK_TOOLS, { make } = tools, get = (id) => document.getElementById("cp-" + id);
  const asked = new URLSearchParams(location.search), NOT_KNOWN = "not known";
  const CLASS = { suits: "suits-suits", "test first": "suits-test-first", unsuitable: "suits-unsuitable" };

  function tell(pigment, binder, cell) {
    const link = make("a", { href: "pigments/" + pigment.id + ".html#binders" }, pigment.name), place = get("words");
    const source = cell && cell[4] ? make("a", { className: "src", href: "sources/" + cell[4] + ".html" }, known.from[cell[5]]) : "";
    place.hidden = false;
    place.replaceChildren(make("p", {}, link, " in ", make("a", { href: "binders/" + binder.id + ".html" }, binder.name), ": ", make("b", {}, cell ? cell[0] : NOT_KNOWN), cell ? ", " + cell[1] : ""),
      make("p", {}, cell ? known.said[cell[2]] : "Nothing was found. Not known is no promise: test it.", " "), cell ? make("p", { className: "how" }, source, " (" + cell[3] + ")") : "");
    place.scrollIntoView({ block: "nearest" });
  }
  function cell_of(pigment, binder) {
    const cell = (known.cells[pigment.id] || {})[bench.binders.indexOf(binder)], words = cell ? cell[0] : NOT_KNOWN;
    const button = make("button", { type: "button", className: "cell", "aria-label": pigment.name + " in " + binder.name + ": " + words }, make("span", { className: "suits " + (cell ? CLASS[cell[0]] : "") }, words));
    button.addEventListener("click", () => tell(pigment, binder, cell));
    return make("td", {}, button);
  }
  function update() {
    const one = get("pigment").value, hue = get("hue").value, kind = get("kind").value;
    const pigments = bench.pigments.filter((each) => one ? each.id === one : each.hue === hue), binders = bench.binders.filter((each) => !kind || each.kind === kind);
    const head = make("tr", {}, make("th", { scope: "col" }, "Pigment"), ...binders.map((each) => make("th", { scope: "col" }, each.name)));
    const rows = pigments.map((pigment) => make("tr", {}, make("th", { scope: "row" }, make("a", { href: "pigments/" + pigment.id + ".html" }, pigment.name)), ...binders.map((binder) => cell_of(pigment, binder))));
    get("table").replaceChildren(make("div", { className: "scroll", tabindex: "0", role: "region", "aria-label": "Pigments in binders" }, make("table", { className: "compare compat" }, make("thead", {}, head), make("tbody", {}, ...rows))));
    get("words").hidden = true;
    tools.keep_address({ ...one ? { p: one } : { hue }, ...kind ? { kind } : {} });
  }
  function pairs_of() {
    const id = get("one").value, sections = [...document.querySelectorAll(".pair")];
    sections.forEach((each) => { each.hidden = Boolean(id) && !each.dataset.ids.split(" ").includes(id); });
    const left = sections.filter((each) => !each.hidden).length;
    get("count").textContent = !id ? "" : left ? left + (left === 1 ? " pair" : " pairs") + " on record." : "No pair is on record for it. That is no promise: test it.";
  }
  const choose = (id, value) => { if (value && [...get(id).options].some((each) => each.value === value)) get(id).value = value; };
  const unique = (list) => [...new Set(list)].map((each) => [each, each.replace(/-/g, " ")]);
  tools.options(get("hue"), unique(bench.pigments.map((each) => each.hue)));
  tools.options(get("kind"), [["", "every kind"], ...unique(bench.binders.map((each) => each.kind))]);
  tools.grouped(get("pigment"), "all of the hue", bench.pigments, (each) => each.hue);
  tools.grouped(get("one"), "any pigment", bench.pigments, (each) => each.hue);
  choose("hue", asked.get("hue"));
  choose("kind", asked.get("kind"));
  choose("pigment", asked.get("p"));
  choose("one", asked.get("p"));
  form.addEventListener("change", update);
  document.getElementById("pairs-of").addEventListener("change", pairs_of);
  [form, document.getElementById("pairs-of")].forEach((each) => { each.hidden = false; each.addEventListener("submit", (event) => event.preventDefault()); });
  update();
  pairs_of();
})();
