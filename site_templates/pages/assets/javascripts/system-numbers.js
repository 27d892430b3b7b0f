/* A way of painting worked out for the pigment chosen: grams of binder, pigment volume, what to mind. */
(function () {
  "use strict";
  const form = document.getElementById("system-numbers"), bench = window.MULLBOOK_BENCH, batch = window.MULLBOOK_BATCH;
  if (!form || !bench || !batch) return;
  const tools = window.MULLBOOK_TOOLS, formulas = window.MULLBOOK_FORMULAS, { make, number, shown } = tools, { range } = window.MULLBOOK_PAGE;
  const held = batch.book(bench), system = held.systems.get(form.dataset.system), asked = new URLSearchParams(location.search);
  const get = (id) => document.getElementById("sn-" + id), OIL = [0.6, 0.85], FIRST = "yellow-ochre", SHUT = "leave-it-shut";
  const percent = ([low, high]) => range(100 * low, 100 * high) + "\u00a0%", grams = ([low, high]) => range(low / tools.factor("g"), high / tools.factor("g")) + "\u00a0" + tools.unit("g");

  /* The verdict of the entry, or of its chemistry class, in words. */
  const WORDS = { s: "suits", t: "test first", u: "unsuitable" }, HOW = { d: "documented", c: "chemically expected", f: "folklore", k: "by chemistry class, chemically expected" };
  function verdict(pigment, binder) {
    const place = 2 * bench.binders.indexOf(binder), [letter, how] = pigment.suits.slice(place, place + 2);
    return letter === "-" ? ["not known: test first", ""] : [WORDS[letter], HOW[how]];
  }
  const ask = (pigment, binder, mass, target) => ({
    pigments: [{ id: pigment.id, part: 1 }], fixed: "mass", amount: mass, tube: 37, fill: 100, loss: 0, scale: 1, vehicle: null, dispersant: null,
    system: system.id, binder: binder.id, aim: "finish", finish: target.finish || "", target: 1, additions: [], prices: {} });

  /* Oil: what grinds it, else a part of the critical volume. */
  function in_oil(pigment, binder, mass) {
    if (!pigment.density) return { words: "Not derivable because the density is not known." };
    if (pigment.grind) {
      const [low, high] = pigment.grind, volume = (oil, density) => formulas.pvc_of_grind(oil, density);
      return { grams: [mass * low / 100, mass * high / 100], pvc: [volume(high, pigment.density[1]), volume(low, pigment.density[0])], note: "printed grams of oil; begin at the low one" };
    }
    if (!pigment.oil) return { words: "Not derivable because neither oil absorption nor oil to grind is on record: go by the slab." };
    const critical = [formulas.cpvc(pigment.oil[1], pigment.density[1]), formulas.cpvc(pigment.oil[0], pigment.density[0])], pvc = [OIL[0] * critical[0], OIL[1] * critical[1]];
    const oil = (volume, density, solids, dry) => formulas.binder_for_pvc(mass, density, volume, solids, dry), dry = binder.dry || binder.wet;
    return { grams: [oil(pvc[1], pigment.density[1], binder.solids[1], dry[0]), oil(pvc[0], pigment.density[0], binder.solids[0], dry[1])], pvc, note: "no oil to grind on record: from the rub-out, 0.6 to 0.85 of the critical volume" };
  }
  function rows_of(pigment, binder, mass) {
    const targets = system.targets.filter((each) => each.range);
    if (binder.target && binder.target.by === "oil-to-grind") return [["paste", in_oil(pigment, binder, mass)]];
    return targets.map((target) => {
      const result = batch.work_out(held, ask(pigment, binder, mass, target));
      if (result.missing) return [target.finish, { words: result.missing.join(" ") }];
      const line = result.lines.find((each) => each.id === binder.id);
      return [target.finish, { grams: line.range, start: line.grams, pvc: result.figures.pvc.range, volume: result.totals.volume, warnings: result.warnings, lambda: result.figures.lambda }];
    });
  }
  function row_of(binder, finish, found) {
    const head = make("th", { scope: "row" }, binder.name + (finish ? ", " + finish : ""));
    if (found.words) return make("tr", {}, head, make("td", { className: "wide", colspan: "4" }, found.words));
    return make("tr", {}, head, make("td", { className: "n" }, make("b", {}, grams(found.grams)), found.note ? make("small", {}, " " + found.note) : ""), make("td", { className: "n" }, found.start == null ? "" : shown(found.start, "g")),
      make("td", { className: "n" }, percent(found.pvc)), make("td", { className: "n" }, found.lambda ? number(found.lambda.value, 2) + ", " + found.lambda.words : ""));
  }
  function minded(rows) {
    const said = new Map(rows.flatMap(([, found]) => found.warnings || []).filter((each) => !["unsuitable", "test-first", "not-known"].includes(each.id)).map((each) => [each.words, each.because]));
    return said.size ? make("div", { className: "minds" }, make("h3", {}, "Mind"), make("ul", {}, ...[...said].map(([words, because]) => make("li", {}, make("b", {}, words), " ", make("small", {}, because))))) : "";
  }
  function by_share(pigment, mass) {
    const [low, high] = JSON.parse(form.dataset.share);
    return make("p", {}, make("b", { className: "fig" }, grams([100 * mass / high, 100 * mass / low])), " of lime putty for " + shown(mass, "g") + " of pigment: from " + number(low) + " % on average to " + number(high) + " % at most, by weight.");
  }
  function update() {
    const pigment = held.pigments.get(get("pigment").value), mass = tools.value_of(get("mass"));
    if (!pigment || mass == null) { get("answer").replaceChildren(make("p", { className: "note warn" }, "Write how much pigment.")); return; }
    const binders = system.binders.map((id) => held.binders.get(id)).filter(Boolean), rows = binders.flatMap((binder) => rows_of(pigment, binder, mass).map(([finish, found]) => [[binder, finish], found]));
    const place = bench.amounts.findIndex(([most]) => most == null || mass <= most);
    const level = make("p", {}, "Dry powder, " + bench.amounts[place][1] + ": ", tools.level_chip(bench, pigment.dry[place]), bench.levels[pigment.dry[place]][0] === SHUT ? make("b", {}, " It is to stay shut: what follows is a record, not a way to use it.") : "");
    const suits = binders.map((binder) => { const [word, how] = verdict(pigment, binder); return make("p", {}, make("a", { href: "../pigments/" + pigment.id + ".html" }, pigment.name), " in " + binder.name + ": ", make("b", {}, word), how ? ", " + how + ". " : ". ", make("a", { href: "../pigments/" + pigment.id + ".html#binders" }, "Why")); });
    const table = rows.length ? make("div", { className: "scroll", tabindex: "0", role: "region", "aria-label": "Worked out" }, make("table", { className: "figs" }, make("thead", {}, make("tr", {}, ...["Binder, finish", "Binder as supplied", "Start", "PVC", "Of critical"].map((each) => make("th", { scope: "col" }, each)))), make("tbody", {}, ...rows.map(([[binder, finish], found]) => row_of(binder, finish, found))))) : "";
    const aims = system.targets.filter((each) => each.range), bench_page = "../workbench.html?" + new URLSearchParams({ p: pigment.id + ":1", fix: "mass:" + mass, sys: system.id, b: system.binders[0], ...aims.length ? { aim: "finish:" + (aims[0].finish || "") } : {} });
    get("answer").replaceChildren(level, ...suits, form.dataset.share ? by_share(pigment, mass) : "", table, !rows.length && !form.dataset.share ? make("p", {}, "No proportion is on record: paint a panel on the real ground and rub it after two weeks.") : "", minded(rows),
      rows.length ? make("p", {}, make("a", { href: bench_page }, "The whole batch on the workbench")) : "");
    tools.keep_address({ p: pigment.id, m: mass });
  }
  const table = document.getElementById("numbers-table");
  if (table) table.open = false;
  tools.grouped(get("pigment"), null, bench.pigments, (each) => each.hue);
  const first = [asked.get("p"), FIRST, bench.pigments[0].id].find((id) => held.pigments.has(id));
  get("pigment").value = first;
  if (Number(asked.get("m")) > 0) tools.put(get("mass"), Number(asked.get("m")));
  form.hidden = false;
  tools.follow_units(form, update);
  form.addEventListener("input", update);
  form.addEventListener("submit", (event) => event.preventDefault());
  update();
})();
