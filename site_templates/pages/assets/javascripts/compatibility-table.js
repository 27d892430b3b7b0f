/* The table of pigments in binders, a hue at a time; a tap on a cell tells the reason and where it stands. */
(function () {
  "use strict";
  const form = document.getElementById("compat"), bench = window.MULLBOOK_BENCH, known = window.MULLBOOK_COMPATIBILITY;
  if (!form || !bench || !known) return;
  const tools = window.MULLBOOK_TOOLS, { make } = tools, get = (id) => document.getElementById("cp-" + id);
  const asked = new URLSearchParams(location.search), NOT_KNOWN = "not known";
  const CLASS = { suits: "", "test first": "test-first", unsuitable: "unsuitable" };

  /* Verdict, grade, reason, basis, and the source by id and in words: the file holds their places. */
  function cell_at(pigment, place) {
    const cell = (known.cells[pigment.id] || {})[place];
    return cell && { verdict: known.words[cell[0]], grade: known.words[cell[1]], why: known.said[cell[2]], basis: known.words[cell[3]], source: known.from[cell[4]] };
  }
  const VERDICTS = Object.keys(CLASS), BY_CLASS = "by chemistry class, chemically expected";
  /* What the class of a pigment says of a binder its entry is silent on: verdict, reason, class, attack, kin. */
  function by_class(pigment, place) {
    const found = known.by_class[pigment.id], digits = found && found[0].slice(2 * place, 2 * place + 2);
    if (!found || digits === "--") return null;
    const attack = Number(digits[1]), group = known.classes[found[1][attack]], kin = (found[2] || {})[place];
    return { verdict: VERDICTS[digits[0]], group, attack, kin, why: group[2][attack][1] };
  }
  function tell_class(pigment, binder, found) {
    const near = found.kin && bench.binders.find((each) => each.id === found.kin), [attack] = known.attacks[found.attack];
    get("words").hidden = false;
    get("words").replaceChildren(make("p", {}, make("a", { href: "pigments/" + pigment.id + ".html#media" }, pigment.name), " in ", make("a", { href: "binders/" + binder.id + ".html" }, binder.name), ": ", make("b", {}, found.verdict), ", " + BY_CLASS),
      make("p", {}, near ? "Its entry says so of " + near.name + ", which counts here too. " : found.why + " "), make("p", { className: "how" }, "Class: ", make("a", { href: "compatibility/" + attack + ".html#" + found.group[0] }, found.group[1])));
    get("words").scrollIntoView({ block: "nearest" });
  }
  function tell(pigment, binder, cell) {
    const link = make("a", { href: "pigments/" + pigment.id + ".html#binders" }, pigment.name), place = get("words");
    const source = cell && cell.source ? make("a", { className: "src", href: "sources/" + cell.source[0] + ".html" }, cell.source[1]) : "";
    place.hidden = false;
    place.replaceChildren(make("p", {}, link, " in ", make("a", { href: "binders/" + binder.id + ".html" }, binder.name), ": ", make("b", {}, cell ? cell.verdict : NOT_KNOWN), cell ? ", " + cell.grade : ""),
      make("p", {}, cell ? cell.why : "Nothing was found. Not known is no promise: test it.", " "), cell ? make("p", { className: "how" }, source, " (" + cell.basis + ")") : "");
    place.scrollIntoView({ block: "nearest" });
  }
  function cell_of(pigment, binder) {
    const place = bench.binders.indexOf(binder), cell = cell_at(pigment, place), expected = cell ? null : by_class(pigment, place);
    const words = cell ? cell.verdict : expected ? expected.verdict : NOT_KNOWN;
    const button = make("button", { type: "button", className: expected ? "cell expected" : "cell", "aria-label": pigment.name + " in " + binder.name + ": " + words + (expected ? ", " + BY_CLASS : "") }, make("span", { className: "suits " + (CLASS[words] || "") }, words));
    button.addEventListener("click", () => expected ? tell_class(pigment, binder, expected) : tell(pigment, binder, cell));
    return make("td", {}, button);
  }
  function update() {
    const one = get("pigment").value, hue = get("hue").value, kind = get("kind").value;
    const pigments = bench.pigments.filter((each) => one ? each.id === one : each.hue === hue), binders = bench.binders.filter((each) => !kind || each.kind === kind);
    const head = make("tr", {}, make("th", { scope: "col" }, "Pigment"), ...binders.map((each) => make("th", { scope: "col" }, each.name)));
    const rows = pigments.map((pigment) => make("tr", {}, make("th", { scope: "row" }, make("a", { href: "pigments/" + pigment.id + ".html" }, pigment.name)), ...binders.map((binder) => cell_of(pigment, binder))));
    get("table").replaceChildren(make("div", { className: "scroll", tabindex: "0", role: "region", "aria-label": "Pigments in binders" }, make("table", { className: "compare compat" }, make("thead", {}, head), make("tbody", {}, ...rows))));
    get("words").hidden = true;
    tools.keep_address({ ...one ? { p: one } : { hue }, ...kind ? { kind } : {}, ...get("medium").value ? { medium: get("medium").value } : {} });
  }
  /* One medium: verdict and reason alone, worst first. */
  const chem = get("chem"), chem_rows = [...chem.tBodies[0].rows], ORDER = [...VERDICTS].reverse();
  function in_medium() {
    const chosen = known.attacks.findIndex(([id]) => id === get("medium").value), one = chosen >= 0;
    [...chem.rows].forEach((row) => [...row.cells].forEach((cell, n) => { cell.hidden = cell.dataset.why != null ? !one : one && n > 0; }));
    chem_rows.forEach((row, n) => {
      const said = one ? known.classes[n][2][chosen] : null, why = row.querySelector("[data-why]");
      row.hidden = one && !said;
      why.replaceChildren(...said ? [make("b", { className: "suits " + CLASS[said[0]] }, said[0]), " " + said[1] + " ", make("i", {}, said[2]), " ", make("a", { href: "compatibility/" + known.attacks[chosen][0] + ".html#" + known.classes[n][0] }, "sources")] : []);
      row.dataset.order = said ? ORDER.indexOf(said[0]) : 9;
    });
    chem.tBodies[0].append(...one ? [...chem_rows].sort((a, b) => a.dataset.order - b.dataset.order) : chem_rows);
  }
  chem.tHead.rows[0].append(make("th", { scope: "col", "data-why": "" }, "What happens, and why"));
  chem_rows.forEach((row) => row.append(make("td", { className: "wide", "data-why": "" })));
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
  tools.options(get("medium"), [["", "all media side by side"], ...known.attacks]);
  tools.grouped(get("one"), "any pigment", bench.pigments, (each) => each.hue);
  choose("hue", asked.get("hue"));
  choose("kind", asked.get("kind"));
  choose("pigment", asked.get("p"));
  choose("one", asked.get("p"));
  choose("medium", asked.get("medium"));
  form.addEventListener("change", update);
  document.getElementById("pairs-of").addEventListener("change", pairs_of);
  document.getElementById("media-of").addEventListener("change", () => { in_medium(); update(); });
  [form, document.getElementById("pairs-of"), document.getElementById("media-of")].forEach((each) => { each.hidden = false; each.addEventListener("submit", (event) => event.preventDefault()); });
  update();
  pairs_of();
  in_medium();
})();
