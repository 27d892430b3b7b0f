/* A whole washing in the page: the list to follow, which sizes of which mineral end where, salts, water, time. */
(function () {
  "use strict";
  const form = document.getElementById("wash-plan"), sheet = document.getElementById("wp-sheet"), bench = window.MULLBOOK_BENCH, earths = window.MULLBOOK_EARTHS;
  if (!form || !sheet || !bench || !earths) return;
  const tools = window.MULLBOOK_TOOLS, levigation = window.MULLBOOK_LEVIGATION, { make, number, value_of } = tools;
  const get = (id) => document.getElementById("wp-" + id), of_slurry = (id) => document.getElementById("ws-" + id);
  const SOLIDS = 0.02, cell = (text, name) => make("td", name ? { className: name } : {}, text), head = (text, name) => make("th", { scope: "col", className: name }, text);

  const TIMES = [[1.5, 1 / 60, "s"], [90, 1, "min"], [2880, 60, "h"], [Infinity, 1440, "days"]];
  function time_words(minutes) {
    const [, one, unit] = TIMES.find(([end]) => minutes < end), text = number(minutes / one, 2);
    return text + "\u00a0" + (text === "1" && unit === "days" ? "day" : unit);
  }
  const litres = (value) => number(value, 2) + "\u00a0l";
  const count = (value, name) => number(value) + " " + name + (value === 1 ? "" : name.endsWith("sh") ? "es" : "s");

  /* Sizes as they are written, spaces between. A comma stands before decimals where this device writes it so, or after a nought. */
  function cuts() {
    const box = get("cuts"), tokens = box.value.trim().split(/[;\s]+/).filter(Boolean);
    const parts = tokens.flatMap((each) => tools.prefs.comma || /^0,\d+$/.test(each) ? [each.replace(",", ".")] : each.split(",").filter(Boolean));
    const found = parts.map((each) => Number(each.replace(/(µm|um)$/i, "")));
    const words = tokens.some((each) => /[.].*,|,.*[.]/.test(each)) ? "Write one decimal mark, and spaces between the sizes."
      : !found.length || found.some((each) => !(each > 0 && each <= 5000)) ? "Write sizes between 0 and 5000, such as 45 20 5."
      : new Set(found).size > 6 ? "Six sizes at most." : "";
    tools.complain(box, words);
    return words ? undefined : found;
  }
  function minerals(pigment, density) {
    const found = (earths.earths[pigment] || []).map(([name, rho, share]) => ({ name, density: rho, share }));
    const more = get("mineral").value, other = earths.minerals.find(([name]) => name === more);
    if (other && !found.some((each) => each.name === more)) {
      if (!found.length) found.push({ name: "the earth", density, share: null });
      found.push({ name: other[0], density: other[1], share: null });
    }
    return found;
  }
  function read() {
    const found = { density: value_of(of_slurry("density")), depth: value_of(of_slurry("depth")), temperature: value_of(of_slurry("temperature")), load: value_of(of_slurry("load")),
      kept: value_of(get("kept")), volume: value_of(get("volume")), rounds: value_of(get("rounds")), cuts: cuts(), conductivity: value_of(get("cond")), wash_water: value_of(get("tap")), target: value_of(get("target")),
      sand: value_of(get("sand")), silt: value_of(get("silt")), clay: value_of(get("clay")) };
    if (Object.values(found).includes(undefined)) return null;
    const { load, sand, silt, clay, ...asked } = found, pigment = of_slurry("pigment").value, listed = minerals(pigment, found.density);
    const light = listed.reduce((least, each) => each.density < least.density ? each : least, { density: Infinity, name: "" });
    const by_lightest = get("by").value === "lightest" && listed.length;
    return { ...asked, rounds: Math.round(found.rounds), density: by_lightest ? light.density : found.density, timed: by_lightest ? light.name : "the density above",
      solids: load ? load / (found.density * 1000) : SOLIDS, minerals: listed, grains: { edges: levigation.GUESS.edges, shares: [clay, silt, sand] }, pigment };
  }
  const word = (text, name) => make("p", name ? { className: name } : {}, text);
  function table(label, heads, rows) {
    return make("div", { className: "scroll", tabindex: "0", role: "region", "aria-label": label }, make("table", {},
      make("thead", {}, make("tr", {}, ...heads.map(([text, name]) => head(text, name)))), make("tbody", {}, ...rows)));
  }

  function update() {
    const asked = read();
    sheet.hidden = false;
    if (!asked) return sheet.replaceChildren(word("A field holds no number that can be used; it says why."));
    if (of_slurry("state").value === "flocculated" || asked.solids > 0.1) return sheet.replaceChildren(word(earths.front, "note warn"));
    try { show(asked, levigation.plan(asked)); } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      sheet.replaceChildren(word("Not derivable because " + error.message + "."));
    }
  }
  function show(asked, plan) {
    const entry = bench.pigments.find((each) => each.id === asked.pigment), jars = plan.cuts.length, names = asked.minerals.map((each) => each.name);
    const level = entry ? bench.levels[entry.dry[0]][0] : "", not_dry = earths.not_dry[level];
    if (level === "leave-it-shut") return sheet.replaceChildren(make("h2", { id: "wp-title" }, entry.name), make("p", {}, "Level of this powder when dry: ", tools.level_chip(bench, entry.dry[0])), word(not_dry, "note warn"));
    const waits = plan.steps.reduce((all, each) => all + each.minutes, 0);
    const line = (step) => "Jar " + step.jar + ": " + (step.litres_in ? "add " + litres(step.litres_in) + ", " : "") + "stir, wait " + time_words(step.minutes)
      + ", pour " + litres(step.litres_out) + " into " + (step.into <= jars ? "jar " + step.into : "the bucket");
    const rounds = Array.from({ length: asked.rounds }, (_, n) => make("li", {}, make("b", {}, "Round " + (n + 1)),
      make("ol", { className: "jars" }, ...plan.steps.filter((each) => each.round === n + 1).map((each) => make("li", {}, line(each))))));
    const put = make("button", { type: "button", className: "main" }, "Put the waits among the pours"), print = make("button", { type: "button" }, "Print this plan");
    put.addEventListener("click", () => document.dispatchEvent(new CustomEvent("mullbook:pours", { detail: plan.steps.map((each) => ({ size: each.size, seconds: 60 * each.minutes, name: "round " + each.round + ", jar " + each.jar })) })));
    print.addEventListener("click", () => window.print());
    const between = ([, low, high]) => high == null ? "over " + number(low) : low ? number(low) + "–" + number(high) : "under " + number(high);
    const share = (grams, whole) => whole > 0 ? number(100 * grams / whole, 2) + " %" : "none";
    const jar_name = (jar) => jar > jars ? "bucket, finer than " + number(plan.cuts[jar - 2].size) + " µm" : jar === 1 ? "jar 1, coarser than " + number(plan.cuts[0].size) + " µm"
      : "jar " + jar + ", " + number(plan.cuts[jar - 1].size) + " to " + number(plan.cuts[jar - 2].size) + " µm";
    const total = asked.grains.shares.reduce((all, each) => all + each, 0), [clay, silt, sand] = asked.grains.shares.map((each) => number(100 * each / total, 2));
    sheet.replaceChildren(...[
      make("h2", { id: "wp-title" }, "Washing plan" + (entry ? ": " + entry.name : "")),
      word(number(plan.grams) + " g of earth in " + litres(asked.volume) + ", " + number(100 * asked.solids, 2) + " % by volume. " + number(asked.depth) + " cm poured off, " + number(asked.kept) + " cm left. Water " + number(asked.temperature) + " °C. Waits for " + number(asked.density) + " g/cm³ (" + asked.timed + ")."),
      entry ? make("p", {}, "Level of this powder when dry: ", tools.level_chip(bench, entry.dry[0])) : null,
      not_dry ? word(not_dry, "note warn") : null,
      make("p", { className: "buttons" }, put, print),
      make("h3", {}, "The list"),
      make("ol", { className: "rounds" }, ...rounds),
      word("Bucket: let it stand " + time_words(plan.settle_minutes) + ", until 1 µm has sunk " + number(asked.depth) + " cm; then siphon off the clear water."),
      make("h3", {}, "What each wait cuts"),
      table("What each wait cuts", [["Cut, µm", "n"], ["Wait", "n"], ["In thin water", "n"], ...names.map((each) => [each + ", µm", "n"])], plan.cuts.map((cut) => make("tr", {},
        cell(number(cut.size), "n"), cell(time_words(cut.minutes), "n"), cell(time_words(cut.thin), "n"), ...(asked.minerals.length ? cut.sizes.map((each) => cell(number(each), "n")) : [])))),
      word("Of grains half as large as a cut, " + number(100 * plan.cuts[0].half, 2) + " % have gone over after " + count(asked.rounds, "round") + ".", "how"),
      make("h3", {}, "Where it goes"),
      word("If the grains of every mineral are " + sand + " % sand, " + silt + " % silt and " + clay + " % clay. A pour parts by size and weight at once: fine dense grains lie with coarse light ones.", "how"),
      table("Where it goes", [["Jar"], ["Grams", "n"], ["Part", "n"], ...names.map((each) => [each])], plan.fractions.map((each) => make("tr", {},
        make("th", { scope: "row" }, jar_name(each.jar)), cell(number(each.grams), "n"), cell(share(each.grams, plan.grams), "n"),
        ...(asked.minerals.length ? each.minerals.map((mineral) => cell(share(mineral[0], each.grams) + ", " + between(mineral) + " µm")) : [])))),
      make("h3", {}, "Salts, water, time"),
      word(plan.washes == null ? "Salts: measure the settled water with a pocket meter; the number of washes follows from it."
        : "Salts: " + count(plan.washes, "wash") + " with water of " + number(asked.wash_water, 2) + " mS/cm, down to " + number(plan.target, 2) + " or less: " + plan.readings.map((each) => number(each, 2)).join(", ") + " mS/cm. Measure before each; the reading decides."),
      word("Water " + litres(plan.litres) + ". Time " + time_words(plan.minutes) + ", of which " + time_words(waits) + " at the jars."),
      ...plan.limits.map((each) => word(earths.limits[each], "note warn"))].filter(Boolean));
  }

  tools.options(get("mineral"), [["", "none"], ...earths.minerals.map(([name, density]) => [name, name + ", " + number(density) + " g/cm³"])]);
  const slurry = document.getElementById("washing");
  [form, slurry].forEach((each) => ["input", "change"].forEach((event) => each && each.addEventListener(event, update)));
  form.addEventListener("submit", (event) => event.preventDefault());
  form.hidden = false;
  tools.follow_units(form, update);
  const asked = new URLSearchParams(location.search);
  [["cuts", "cuts"], ["cond", "cond"], ["tap", "tap"], ["kept", "kept"], ["rounds", "rounds"], ["volume", "volume"], ["sand", "sand"], ["silt", "silt"], ["clay", "clay"]].forEach(([key, id]) => {
    const text = asked.get(key);
    if (text && /^[\d.,; ]+$/.test(text)) get(id).value = text;
  });
  update();
})();
