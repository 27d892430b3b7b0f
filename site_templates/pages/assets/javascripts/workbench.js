/* The workbench: fields -> a batch -> a sheet. What is reckoned stands in batch.js and formulas.js. */
(function () {
  "use strict";
  const form = document.getElementById("workbench"), bench = window.MULLBOOK_BENCH;
  if (!form || !bench) return;
  const tools = window.MULLBOOK_TOOLS, batch = window.MULLBOOK_BATCH, { make, number, shown, prefs, value_of, put } = tools;
  const { panel, range } = window.MULLBOOK_PAGE, held = batch.book(bench), LOTS = "mullbook.lots", FIRST = "raw-umber";
  const get = (id) => document.getElementById("wb-" + id), at = (text) => prefs.comma ? text.replace(/(\d)\.(\d)/g, "$1,$2") : text;
  const COUNT = [1, 2, 3, 4], result_place = get("result");
  let lots = tools.recall(LOTS, {}), said = "", ready = false;

  /* Filling the lists. */
  const additives = (roles) => bench.additives.filter((each) => !roles || roles.includes(each.role));
  function fill_lists() {
    COUNT.forEach((n) => tools.grouped(get("p" + n), n === 1 ? null : "none", bench.pigments, (each) => each.hue));
    tools.grouped(get("vehicle"), "none", additives(["vehicle", "humectant"]), (each) => each.role);
    tools.grouped(get("dispersant"), "none", additives(["dispersant", "wetting-agent"]), (each) => each.role);
    COUNT.forEach((n) => tools.grouped(get("add" + n), "none", additives(), (each) => each.role));
    tools.options(get("system"), bench.systems.map((each) => [each.id, each.name]));
    tools.grouped(get("binder"), null, bench.binders, (each) => each.kind);
  }
  const system = () => held.systems.get(get("system").value);
  function fill_finishes() {
    const targets = (system().targets || []).filter((each) => each.by !== "none" && each.range), chosen = get("finish").value;
    tools.options(get("finish"), targets.map((each) => [each.finish || "", each.finish || "its usual"]), chosen);
    if (!targets.length && get("aim").value === "finish") get("aim").value = "volume";
  }

  /* Only the fields that count are shown. */
  const show = (id, yes) => { const place = get(id + "-field") || get(id); place.hidden = !yes; };
  function show_fields() {
    const fixed = get("fixed").value, aim = get("aim").value;
    ["mass", "volume", "tubes"].forEach((each) => show(each, each === fixed));
    show("vby", get("vehicle").value);
    show("vweight", get("vehicle").value && get("vby").value === "weight");
    show("vvolume", get("vehicle").value && get("vby").value !== "weight");
    ["dpercent", "dof"].forEach((each) => show(each, get("dispersant").value));
    show("finish", aim === "finish");
    show("pvc", aim === "pvc");
    show("lambda", aim === "lambda");
    show("parts", aim === "volume" || aim === "weight");
    COUNT.forEach((n) => ["apercent", "aof"].forEach((each) => show(each + n, get("add" + n).value)));
    COUNT.slice(1).forEach((n) => { if (get("add" + (n - 1)).value || get("add" + n).value) get("addrow" + n).hidden = false; });
    get("less").hidden = get("row2").hidden;
    get("more").hidden = !get("row4").hidden;
  }

  /* From the fields to what is asked; a field that holds no number says so itself and gives undefined. */
  function read_ask() {
    const value = (id) => value_of(get(id)), chosen = (id) => get(id).value;
    const pigments = COUNT.filter((n) => !get("row" + n).hidden && chosen("p" + n)).map((n) => ({ id: chosen("p" + n), part: value("part" + n) }));
    const merged = [...new Map(pigments.map((each) => [each.id, each])).values()];
    const aim = chosen("aim"), fixed = chosen("fixed");
    return {
      pigments: merged, twice: merged.length < pigments.length, fixed, amount: value(fixed === "mass" ? "mass" : fixed),
      tube: value("tube"), fill: value("fill"), loss: value("loss"), scale: value("scale"),
      vehicle: chosen("vehicle") ? { id: chosen("vehicle"), by: chosen("vby"), amount: value(chosen("vby") === "weight" ? "vweight" : "vvolume") } : null,
      dispersant: chosen("dispersant") ? { id: chosen("dispersant"), percent: value("dpercent"), of: chosen("dof") } : null,
      system: chosen("system"), binder: chosen("binder"), aim, finish: aim === "finish" ? chosen("finish") : "",
      target: aim === "finish" ? 1 : aim === "pvc" ? (value("pvc") === undefined ? undefined : value("pvc") / 100) : value(aim === "lambda" ? "lambda" : "parts"),
      additions: COUNT.filter((n) => chosen("add" + n)).map((n) => ({ id: chosen("add" + n), percent: value("apercent" + n), of: chosen("aof" + n) })),
      prices: read_prices() };
  }
  const wrong_fields = () => [...form.querySelectorAll("[aria-invalid=true]")].filter((each) => !each.closest("[hidden]"));
  function read_prices() {
    const found = {};
    form.querySelectorAll("[data-price]").forEach((input) => {
      const price = value_of(input);
      if (price != null) found[input.dataset.price] = [price, document.getElementById(input.id + "-per").value];
    });
    return found;
  }
  const in_use = () => Object.fromEntries(Object.entries(lots).filter(([, each]) => each.use && each.kept[each.use]).map(([id, each]) => [id, each.kept[each.use]]));

  /* The address. */
  const join = (...parts) => parts.join(":"), tidy = (value) => String(Number(Number(value).toPrecision(6)));
  function to_address(ask) {
    const asked = {
      p: ask.pigments.map((each) => join(each.id, tidy(each.part))).join(","), fix: join(ask.fixed, tidy(ask.amount)), tube: join(tidy(ask.tube), tidy(ask.fill)),
      loss: tidy(ask.loss), sys: ask.system, b: ask.binder, aim: ask.aim === "finish" ? join("finish", ask.finish) : join(ask.aim, tidy(ask.target)) };
    if (ask.scale !== 1) asked.x = tidy(ask.scale);
    if (ask.vehicle) asked.v = join(ask.vehicle.id, ask.vehicle.by, tidy(ask.vehicle.amount));
    if (ask.dispersant) asked.d = join(ask.dispersant.id, tidy(ask.dispersant.percent), ask.dispersant.of);
    if (ask.additions.length) asked.add = ask.additions.map((each) => join(each.id, tidy(each.percent), each.of)).join(",");
    const prices = Object.entries(ask.prices);
    if (prices.length) asked.price = prices.map(([id, [price, per]]) => join(id, tidy(price), per)).join(",");
    return asked;
  }
  function from_address(query) {
    const asked = (key) => (query.get(key) || "").split(",").filter(Boolean).map((each) => each.split(":")), one = (key) => asked(key)[0] || [];
    const choose = (id, value) => {
      if (!value) return;
      if ([...get(id).options].some((each) => each.value === value)) get(id).value = value;
      else said = "The address names “" + value + "”, which this edition does not hold.";
    };
    const set = (id, text) => { if (text !== undefined && text !== "") { const value = Number(text); if (Number.isFinite(value)) put(get(id), value); else get(id).value = text; } };
    asked("p").slice(0, 4).forEach(([id, part], n) => { get("row" + (n + 1)).hidden = false; choose("p" + (n + 1), id); set("part" + (n + 1), part); });
    const [fixed, amount] = one("fix"), [tube, fill] = one("tube"), [aim, target] = one("aim");
    if (["mass", "volume", "tubes"].includes(fixed)) { get("fixed").value = fixed; set(fixed, amount); }
    set("tube", tube); set("fill", fill); set("loss", one("loss")[0]); set("scale", one("x")[0]);
    choose("system", one("sys")[0]); choose("binder", one("b")[0]);
    fill_finishes();
    choose("aim", aim);
    if (aim === "finish") choose("finish", target); else if (aim === "pvc") set("pvc", 100 * Number(target)); else set(aim === "lambda" ? "lambda" : "parts", target);
    const [vehicle, by, vamount] = one("v"), [dispersant, percent, of] = one("d");
    if (vehicle) { choose("vehicle", vehicle); choose("vby", by); set(by === "weight" ? "vweight" : "vvolume", vamount); }
    if (dispersant) { choose("dispersant", dispersant); set("dpercent", percent); choose("dof", of); }
    asked("add").slice(0, 4).forEach(([id, part, basis], n) => { get("addrow" + (n + 1)).hidden = false; choose("add" + (n + 1), id); set("apercent" + (n + 1), part); choose("aof" + (n + 1), basis); });
    asked("price").forEach(([id, price, per]) => { prices_asked[id] = [price, per]; });
  }
  const prices_asked = {};

  /* Own figures: what was measured on a lot stands in place of the book's while the lot is chosen. */
  const FIGURES = [["oil", "Oil absorption, rub-out", "g per 100 g", 5, 300], ["density", "Density", "g/cm³", 0.8, 25], ["loose", "Loose powder", "g/ml", 0.02, 15], ["tapped", "Tapped powder", "g/ml", 0.02, 15]];
  function draw_lots(pigments) {
    get("lots").replaceChildren(make("p", { className: "how" }, "Measured on the jar in hand, they stand in place of the book’s and are remembered on this device, not in the address."), ...pigments.map(({ id }) => lot_box(held.pigments.get(id))));
  }
  function number_field(id, label, unit, low, high, value) {
    const input = make("input", { id, type: "text", inputmode: "decimal", autocomplete: "off", "data-number": "", "data-low": String(low), "data-high": String(high), "data-optional": "", "aria-describedby": id + "-words" });
    if (value != null) put(input, value);
    return make("div", { className: "field" }, make("label", { for: id }, label, " ", make("span", { className: "unit" }, unit)), input, make("p", { className: "field-words", id: id + "-words", hidden: true }));
  }
  function lot_box(pigment) {
    const mine = lots[pigment.id] || { use: "", kept: {} }, now = mine.kept[mine.use] || {}, prefix = "wb-lot-" + pigment.id;
    const select = make("select", { id: prefix }, make("option", { value: "" }, "the book’s figures"), ...Object.keys(mine.kept).map((lot) => make("option", { value: lot, selected: lot === mine.use }, "lot " + lot + ", " + mine.kept[lot].measured)));
    const name = make("input", { id: prefix + "-name", type: "text", autocomplete: "off", maxlength: "30" });
    name.value = mine.use;
    const status = make("p", { role: "status", className: "how" });
    /* A figure is looked at as it is typed, not only when it is kept. */
    const look = (event) => { if (event.target.dataset.number != null) value_of(event.target); };
    const keep = make("button", { type: "button" }, "Remember this lot"), forget = make("button", { type: "button", hidden: !mine.use }, "Forget it");
    select.addEventListener("change", () => { lots[pigment.id] = { ...mine, use: select.value }; store(); });
    keep.addEventListener("click", () => {
      const lot = name.value.replace(/[<>&"]/g, "").trim() || "1", found = { measured: new Date().toISOString().slice(0, 10) };
      const values = FIGURES.map(([key]) => [key, value_of(document.getElementById(prefix + "-" + key))]);
      if (values.some(([, value]) => value === undefined)) return;
      values.forEach(([key, value]) => { if (value !== null) found[key] = value; });
      if (Object.keys(found).length === 1) { status.textContent = "Write at least one figure."; return; }
      lots[pigment.id] = { use: lot, kept: { ...mine.kept, [lot]: found } };
      store();
    });
    forget.addEventListener("click", () => {
      const kept = { ...mine.kept };
      delete kept[mine.use];
      lots[pigment.id] = { use: "", kept };
      store();
    });
    function store() {
      tools.remember(LOTS, lots);
      drawn.lots = "";
      update();
      const again = document.getElementById(prefix);
      if (again) again.focus();
    }
    const box = make("fieldset", { className: "lot" }, make("legend", {}, pigment.name), make("div", { className: "row" },
      make("div", { className: "field" }, make("label", { for: prefix }, "Reckon with"), select),
      make("div", { className: "field" }, make("label", { for: prefix + "-name" }, "Lot"), name),
      ...FIGURES.map(([key, label, unit, low, high]) => number_field(prefix + "-" + key, label, unit, low, high, now[key]))), make("p", { className: "buttons" }, keep, " ", forget), status);
    box.addEventListener("input", look);
    return box;
  }

  function draw_prices(lines) {
    get("prices").replaceChildren(make("div", { className: "row" }, ...lines.map((each) => {
      const id = "wb-price-" + each.id, [price, per] = prices_asked[each.id] || [], field = number_field(id, each.name, "price", 0, 1000000, price == null ? null : Number(price));
      field.querySelector("input").dataset.price = each.id;
      const select = make("select", { id: id + "-per", "aria-label": "price of " + each.name + " for" }, make("option", { value: "kg" }, "for a kg"), make("option", { value: "l", selected: per === "l" }, "for a litre"));
      field.append(select);
      return field;
    })), make("p", { className: "how" }, "In whatever money you pay with."));
  }

  /* What was weighed already. */
  /* An address may ask what to add for a fault: the fold is then open at that question. */
  const wrong_asked = new URLSearchParams(location.search).get("wrong");
  const WRONG = [["off-recipe", "nothing: bring it to the recipe"], ["chalks", "it chalks"], ["insipid", "it is weak in colour"], ["too-thin", "it is too thin"], ["too-thick", "it is too thick"],
    ["foams", "it foams"], ["curdled", "it has curdled"], ["smells", "it smells off"], ["short-of-volume", "there is too little of it"]];
  function draw_have(lines) {
    const chosen = get("wrong") ? get("wrong").value : wrong_asked, select = make("select", { id: "wb-wrong" }, ...WRONG.map(([value, name]) => make("option", { value, selected: value === chosen }, name)));
    get("have").replaceChildren(make("p", { className: "how" }, "Write what went in. An empty field counts as nothing."), make("div", { className: "row" }, ...lines.map((each) => {
      const field = number_field("wb-have-" + each.id, each.name, tools.unit("g"), 0, 1000000, null), input = field.querySelector("input");
      input.dataset.measure = "g";
      input.dataset.have = each.id;
      field.querySelector(".unit").dataset.unit = "g";
      return field;
    }), make("div", { className: "field" }, make("label", { for: "wb-wrong" }, "What is wrong"), select), volume_field()));
  }
  function volume_field() {
    const field = number_field("wb-wanted", "Volume wanted", tools.unit("ml"), 0, 1000000, null);
    field.querySelector("input").dataset.measure = "ml";
    field.querySelector(".unit").dataset.unit = "ml";
    return field;
  }
  function draw_mend(result) {
    const have = {}, place = get("mend");
    let good = true;
    form.querySelectorAll("[data-have]").forEach((input) => { const mass = value_of(input); if (mass === undefined) good = false; else if (mass > 0) have[input.dataset.have] = mass; });
    const volume = value_of(document.getElementById("wb-wanted")), wrong = document.getElementById("wb-wrong");
    const lost = wrong && ["curdled", "smells"].includes(wrong.value);
    if (!good || volume === undefined || !wrong || !Object.keys(have).length && !lost) { place.replaceChildren(); return; }
    const found = batch.mend(result, have, wrong.value, volume), name = (id) => (result.lines.find((each) => each.id === id) || { name: id }).name;
    const add = Object.entries(found.add).filter(([, mass]) => mass > 5e-4);
    place.replaceChildren(make("h3", {}, lost ? "It is lost" : "What to add"), make("p", {}, at(found.words)), add.length
      ? make("ul", { className: "add" }, ...add.map(([id, mass]) => make("li", {}, make("b", { className: "fig" }, shown(mass, "g")), " " + name(id)))) : "",
    found.pvc == null ? "" : make("p", { className: "how" }, "Then PVC " + number(100 * found.pvc) + " %" + (found.reduced == null ? "" : ", " + number(found.reduced, 2) + " of the critical PVC") + (found.volume ? ", " + shown(found.volume, "ml", 2) + " in all" : "") + "."));
  }

  /* The sheet. */
  const percent = ({ value, range: [low, high] }) => number(100 * value) + " % (" + range(100 * low, 100 * high) + " %)";
  const plain = ({ value, range: [low, high] }, unit) => number(value) + unit + (number(low, 2) === number(high, 2) ? "" : " (" + range(low, high) + unit + ")");
  const measured = ({ value, range: [low, high] }, measure) => shown(value, measure) + (number(low, 2) === number(high, 2) ? "" : " (" + range(low / tools.factor(measure), high / tools.factor(measure)) + " " + tools.unit(measure) + ")");
  function weigh_table(result) {
    const row = (each) => make("tr", {}, make("th", { scope: "row" }, each.name, make("small", {}, " " + each.role.replace(/-/g, " "))), make("td", { className: "n" }, make("b", {}, shown(each.grams, "g"))),
      make("td", { className: "n" }, range(each.range[0] / tools.factor("g"), each.range[1] / tools.factor("g"))), make("td", { className: "n" }, shown(each.millilitres, "ml", 2) + (each.drops ? ", about " + each.drops + (each.drops === 1 ? " drop" : " drops") : "")), make("td", { className: "tick" }));
    return make("div", { className: "scroll", tabindex: "0", role: "region", "aria-label": "What to weigh" }, make("table", {}, make("caption", {}, "In the order it goes in. The range is what the uncertain figures leave."),
      make("thead", {}, make("tr", {}, ...["What", "Weigh", "Range", "Volume", "Weighed"].map((each, n) => make("th", { scope: "col", className: n && n < 4 ? "n" : "tick" }, each)))), make("tbody", {}, ...result.lines.map(row))));
  }
  function comes_to(result) {
    const { figures, tubes, cost, totals } = result, rows = [];
    const put_row = (name, text) => rows.push(make("div", {}, make("dt", {}, name), make("dd", {}, make("b", {}, text))));
    put_row("Weight", measured(figures.mass, "g"));
    put_row("Volume as made, without air", measured(figures.volume, "ml"));
    put_row("Left after slab and knife", shown(result.yielded, "ml"));
    if (tubes) put_row("Tubes of " + shown(tubes.one, "ml"), tubes.full + " full and " + shown(tubes.over, "ml", 2) + " over");
    put_row("Pigment volume of the film, PVC", percent(figures.pvc));
    if (figures.cpvc) put_row("Critical PVC here, an estimate", percent(figures.cpvc));
    if (figures.lambda) put_row("PVC to critical PVC", plain(figures.lambda, "") + ", " + figures.lambda.words);
    put_row("Solids by weight, by volume", number(100 * totals.weight_solids, 2) + " %, " + number(100 * totals.volume_solids, 2) + " %");
    put_row("Density wet, dry film", plain(figures.wet_density, "") + ", " + plain(figures.dry_density, " g/cm³"));
    if (figures.glycol_of_wet_binder) put_row("Glycol on the binder as supplied", percent(figures.glycol_of_wet_binder));
    if (result.covers) put_row("Covers in one coat, " + batch.COAT_MICROMETRES + " µm wet", number(result.covers, 2) + " m²");
    if (cost) put_row("Cost of what is priced", number(cost.total) + " (" + cost.of + " of " + cost.items + " priced)");
    return make("dl", { className: "facts" }, ...rows);
  }
  function levels_line({ levels, made }) {
    return make("div", { className: "levels-line" }, make("p", {}, "The strictest of the parts, as powder, " + levels.amount + ": ", tools.level_chip(bench, levels.dry)), make("p", {}, "As wet paint: ", tools.level_chip(bench, levels.wet)),
      make("p", { className: "how" }, bench.levels[levels.dry][2] + " Hazard classes of the blend are not worked out here; " , make("code", {}, "mullbook label " + recipe_id(made)), " gives them from the recipe below."));
  }
  const recipe_id = (made) => made.pigments[0].entry.id + "-" + made.ask.binder;
  function recipe_text({ made, mass }) {
    const { ask } = made, aim = ask.aim === "finish" ? "by: finish, finish: " + JSON.stringify(ask.finish) : ask.aim === "volume" || ask.aim === "weight"
      ? "by: ratio, ratio: {binder: " + tidy(ask.target) + ", paste: 1, measured_by: " + ask.aim + "}" : "by: " + ask.aim + ", target: {value: " + tidy(ask.target) + ", unit: " + (ask.aim === "pvc" ? "fraction" : "number") + "}";
    const dosed = (each) => "additive: " + each.id + ", dose: {value: " + tidy(each.percent) + ", unit: percent}, of: " + each.of;
    const paste = [
      ask.vehicle && "  vehicle: {additive: " + ask.vehicle.id + ", by: " + (ask.vehicle.by === "weight" ? "weight, amount: {value: " + tidy(ask.vehicle.amount) + ", unit: g/100g}" : "volume-to-pigment, packing: " + ask.vehicle.by + ", amount: {value: " + tidy(ask.vehicle.amount) + ", unit: fraction}") + "}",
      ask.dispersant && "  dispersant: {" + dosed(ask.dispersant) + "}"].filter(Boolean);
    return ["id: " + recipe_id(made), "name: " + JSON.stringify(made.pigments.map((each) => each.entry.name).join(", ") + " in " + made.binder.entry.name), "system: " + ask.system, "pigments:",
      ...ask.pigments.map((each) => "  - {pigment: " + each.id + ", part: " + tidy(each.part) + "}"), "fixed: {kind: pigment-mass, mass: {value: " + tidy(mass) + ", unit: g}}", ...paste.length ? ["paste:", ...paste] : [],
      "let_down: {binder: " + ask.binder + ", " + aim + "}", ...ask.additions.length ? ["additions:", ...ask.additions.map((each) => "  - {" + dosed(each) + ", stage: let-down}")] : [],
      "loss: {value: " + tidy(ask.loss) + ", unit: percent}", "tube: {volume: {value: " + tidy(ask.tube) + ", unit: ml}, fill: {value: " + tidy(ask.fill) + ", unit: percent}}", ""].join("\n");
  }
  function reckoned_with({ made }) {
    const rows = Object.entries(made.knobs.words).filter(([name]) => !/^(dose|vehicle|target)/.test(name)).map(([name, { said: words, basis }]) => {
      const [low, high] = made.knobs.ranges[name];
      return make("li", {}, words + " ", make("b", {}, range(low, high, 3)), " ", make("small", {}, basis === "measured" ? "measured by you" : typeof basis === "number" ? bench.bases[basis] : basis || ""));
    });
    return make("details", { className: "working" }, make("summary", {}, "What it was reckoned with"), make("ul", { className: "from" }, ...rows));
  }
  function buttons(ask) {
    const status = make("p", { role: "status", className: "how" }), link = make("button", { type: "button" }, "Copy the address of this batch"), print = make("button", { type: "button" }, "Print the batch sheet");
    link.addEventListener("click", () => tools.copy(new URL(tools.address(to_address(ask)), location.href).href, status));
    print.addEventListener("click", () => window.print());
    return make("div", { className: "buttons" }, print, " ", link, status);
  }
  function draw_sheet(result) {
    const { made } = result, name = made.pigments.map((each) => each.entry.name).join(", ") + " in " + made.binder.entry.name, own = in_use();
    const lots_used = made.pigments.filter((each) => own[each.entry.id]).map((each) => each.entry.name + ": lot " + lots[each.entry.id].use);
    const recipe = make("textarea", { id: "wb-recipe", rows: "12", readOnly: true, "aria-label": "This batch as a recipe file" });
    recipe.value = recipe_text(result);
    result_place.replaceChildren(make("h2", { id: "batch-sheet" }, name), make("p", { className: "write-in" }, "Batch no. ", make("span", {}), " Date ", make("span", {}), " Made by ", make("span", {})),
      lots_used.length ? make("p", { className: "note" }, "Reckoned with your own figures. " + lots_used.join("; ") + ".") : "", levels_line(result), weigh_table(result),
      result.warnings.length ? make("div", { className: "minds" }, make("h3", {}, "Mind"), make("ul", {}, ...result.warnings.map((each) => make("li", { "data-warning": each.id }, make("b", {}, at(each.words)), " ", make("small", {}, at(each.because)))))) : "",
      make("h3", {}, "Comes to"), comes_to(result), made.binder.entry.stop ? make("p", { className: "stop-test" }, make("b", {}, "Stop test. "), made.binder.entry.stop) : "",
      make("p", { className: "how" }, "Start numbers. The stop test decides; weigh, write down, keep a retained sample. Edition: " + bench.edition + ", checked " + bench.checked + "."), reckoned_with(result),
      make("details", { className: "working" }, make("summary", {}, "As a recipe file"), make("p", { className: "how" }, "Save it as entries/recipes/" + recipe_id(made) + ".yaml; then mullbook batch and mullbook label read it."), recipe), buttons(made.ask));
  }
  function say(...words) { result_place.replaceChildren(make("p", { className: "note warn" }, ...words)); }

  const drawn = {};
  const anew = (key, signature, draw) => { if (drawn[key] !== signature) { drawn[key] = signature; draw(); } };
  function usual_doses() {
    const told = COUNT.map((n) => held.additives.get(get("add" + n).value)).concat(held.additives.get(get("dispersant").value)).filter((each) => each && each.doses)
      .map((each) => each.name + ": " + each.doses.map((dose) => range(dose.low == null ? dose.high : dose.low, dose.high == null ? dose.low : dose.high, 3) + " % " + dose.of.replace(/-/g, " ")).join(", or "));
    get("usual").textContent = told.length ? "Usual: " + told.join(". ") + "." : "";
  }
  function update() {
    show_fields();
    usual_doses();
    const ask = read_ask(), wrong = wrong_fields();
    if (ask.pigments.length) anew("lots", ask.pigments.map((each) => each.id).join(), () => draw_lots(ask.pigments));
    const outside = wrong.filter((each) => !each.dataset.have && each.id !== "wb-wanted" && !each.id.startsWith("wb-lot-"));
    if (outside.length) return say(outside.length === 1 ? "One field holds no number that can be used; it says why." : outside.length + " fields hold no number that can be used; they say why.");
    if (ask.twice) return say("A pigment stands in two rows: give it once, with its parts together.");
    const result = batch.work_out(held, ask, in_use());
    if (ready) tools.keep_address(to_address(ask));
    if (result.missing) {
      return say(...result.missing.map((each) => at(each)), result.nearest == null ? "" : " The nearest that can be done: " + number(result.nearest) + ".");
    }
    draw_sheet(result);
    if (said) { result_place.prepend(make("p", { className: "note warn" }, said)); said = ""; }
    anew("lines", result.lines.map((each) => each.id).join(), () => { draw_prices(result.lines); draw_have(result.lines); });
    draw_mend(result);
  }

  let soon = 0;
  form.addEventListener("input", () => { clearTimeout(soon); soon = setTimeout(update, 120); });
  form.addEventListener("submit", (event) => event.preventDefault());
  get("system").addEventListener("change", () => {
    fill_finishes();
    const own = system().binders || [];
    if (own.length && !own.includes(get("binder").value)) get("binder").value = own[0];
  });
  get("more").addEventListener("click", () => {
    const n = COUNT.find((each) => get("row" + each).hidden);
    get("row" + n).hidden = false;
    update();
    get("p" + n).focus();
  });
  get("less").addEventListener("click", () => {
    const n = COUNT.slice().reverse().find((each) => !get("row" + each).hidden);
    get("row" + n).hidden = true;
    get("p" + n).value = "";
    update();
    get("more").focus();
  });

  fill_lists();
  if (held.pigments.has(FIRST)) get("p1").value = FIRST;
  const binder = held.binders.get(prefs.binder) ? prefs.binder : "acrylic-gel", suited = bench.systems.find((each) => (each.binders || []).includes(binder));
  if (suited) get("system").value = suited.id;
  if (held.binders.get(binder)) get("binder").value = binder;
  fill_finishes();
  if ([...get("finish").options].some((each) => each.value === "satin")) get("finish").value = "satin";
  form.hidden = false;
  tools.follow_units(form, update);
  from_address(new URLSearchParams(location.search));
  panel(form.parentNode.querySelector("[data-prefs]"), bench.binders.map((each) => [each.id, each.name]), Object.entries(bench.places));
  update();
  Object.entries(prices_asked).length && update();
  ready = true;
  if (WRONG.some(([value]) => value === wrong_asked)) {
    get("have").closest("details").open = true;
    get("have").scrollIntoView();
  }
})();
