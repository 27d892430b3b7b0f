/* From what was asked for on the workbench to a batch: every uncertain figure under a name, the batch at the middle of
   all of them, and the range they leave. Knows nothing of the page. The same steps as `mullbook batch`. */
(function (root) {
  "use strict";
  const formulas = root.MULLBOOK_FORMULAS, { refuse, sum } = formulas;
  const MULLED_AT_MOST = 100, DROP_ML = 0.05, COAT_MICROMETRES = 60, POWDER_FROM = 1.25, ALKALINE_FROM = 7.5;
  /* Per cent of the paint, but the first: one step of pigment, thickener, water, defoamer, and the most of the last. */
  const PIGMENT_STEP = 0.05, THICKENER_STEP = 0.2, WATER_STEP = 2, DEFOAMER_STEP = 0.05, DEFOAMER_MOST = 0.5;
  const FINISHES = [[0.6, "glossy"], [0.85, "satin"], [1, "matt but bound"]], UNDER_BOUND = "under-bound: chalks";
  const IN_DROPS = ["defoamer", "preservative", "ph-adjuster", "wetting-agent", "dispersant"];
  const NOT_MULLED = ["distemper", "fresco-limewash", "encaustic"], NOT_COATED = ["watercolour", "ink", "encaustic"];
  const by_id = (list) => new Map(list.map((each) => [each.id, each]));
  const middle = ([low, high]) => (low + high) / 2;
  const finish = (reduced) => reduced === 1 ? FINISHES[2][1] : (FINISHES.find(([end]) => reduced < end) || [0, UNDER_BOUND])[1];

  function book(bench) {
    return { bench, pigments: by_id(bench.pigments), binders: by_id(bench.binders), additives: by_id(bench.additives), systems: by_id(bench.systems) };
  }

  /* Figures by name, what each is called, and what is missing, in words. */
  function gather() {
    const ranges = {}, words = {}, missing = [];
    function take(name, said, found, needed = true) {
      if (!found) { if (needed) missing.push("the " + said + " is not known"); return null; }
      ranges[name] = [found[0], found[1]];
      words[name] = { said, basis: found[2] };
      return name;
    }
    return { ranges, words, missing, take };
  }

  /* Measured by the maker on the lot in hand: it stands before the book's. */
  const own = (lots, id, figure, from_book) => {
    const lot = lots[id];
    return lot && typeof lot[figure] === "number" ? [lot[figure], lot[figure], "measured"] : from_book;
  };

  function plan_pigment(held, knobs, lots, ask, { id, part }, whole) {
    const entry = held.pigments.get(id), by_volume = ask.vehicle && ask.vehicle.by !== "weight";
    if (!entry) { knobs.missing.push("there is no pigment called " + id); return null; }
    const names = {
      density: knobs.take(id + " density", "density of " + entry.name, own(lots, id, "density", entry.density)),
      oil: knobs.take(id + " oil", "rub-out oil absorption of " + entry.name, own(lots, id, "oil", entry.oil), false),
      bulk: by_volume ? knobs.take(id + " bulk", "density of the " + ask.vehicle.by + " powder of " + entry.name, own(lots, id, ask.vehicle.by, entry[ask.vehicle.by])) : null };
    const at = (values) => ({ id, role: "pigment", density: values[names.density], oil_absorption: names.oil && values[names.oil], bulk: names.bulk && values[names.bulk] });
    return { entry, at, share: part / whole };
  }
  function plan_binder(held, knobs, id) {
    const entry = held.binders.get(id);
    if (!entry) { knobs.missing.push("there is no binder called " + id); return null; }
    const whole = entry.solids && entry.solids[0] === 1 && entry.solids[1] === 1;
    const wet = knobs.take(id + " wet density", "density of " + entry.name, entry.wet);
    const solids = knobs.take(id + " solids", "solids of " + entry.name, entry.solids);
    const dry = whole ? null : knobs.take(id + " dry density", "dry density of " + entry.name, entry.dry);
    const index = knobs.take("binder index", "binder index of " + entry.name, entry.index, false);
    return { entry, index, at: (values) => ({ id, role: "binder", density: values[wet], stays: values[solids], stays_density: dry && values[dry] }) };
  }
  function plan_additive(held, knobs, id, role) {
    const entry = held.additives.get(id);
    if (!entry) { knobs.missing.push("there is no additive called " + id); return null; }
    const active = knobs.take(id + " active", "active content of " + entry.name, entry.active, false);
    const density = knobs.take(id + " density", "density of " + entry.name, entry.density || [1, 1, "taken as that of water"]);
    const glycol = knobs.take(id + " glycol", "glycol in " + entry.name, entry.glycol, false);
    const stays = entry.stays === "yes";
    return { entry, at: (values) => ({
      id, role: role || entry.role, density: values[density], active: active ? values[active] : 1,
      stays: stays ? (active ? values[active] : 1) : 0, glycol: glycol ? values[glycol] : 0 }) };
  }
  function plan_dose(held, knobs, { id, percent, of }, place) {
    const name = "dose " + place + " " + id, part = plan_additive(held, knobs, id);
    knobs.take(name, "dose of " + id, [percent, percent, of]);
    return part && { ...part, of, at_dose: (values) => ({ material: part.at(values), percent: values[name], of }) };
  }

  /* What is aimed at: a finish of the system, a PVC, a part of the critical PVC, or parts of binder to one of paste. */
  function plan_aim(held, knobs, ask, binder) {
    const system = held.systems.get(ask.system), targets = system ? system.targets || [] : [];
    const usual = (targets.find((each) => each.finish === ask.finish && each.usual) || {}).usual || binder.entry.target.usual;
    const fallback = knobs.take("fallback", "usual PVC", usual, false);
    if (ask.aim === "volume" || ask.aim === "weight") {
      knobs.take("target", "parts of binder to one of paste", [ask.target, ask.target]);
      return { by: "ratio", ratio_by: ask.aim };
    }
    if (ask.aim !== "finish") {
      knobs.take("target", "target " + ask.aim, [ask.target, ask.target]);
      return { by: ask.aim, fallback };
    }
    if (targets.length && targets.every((each) => each.by === "none")) {
      knobs.missing.push(targets[0].why.replace(/\.$/, "") + ": give parts of binder");
      return { by: "pvc" };
    }
    const wanted = targets.find((each) => each.finish === ask.finish && each.range);
    if (!wanted) { knobs.missing.push("this way of painting names no target for the finish " + (ask.finish || "asked for")); return { by: "pvc" }; }
    knobs.take("target", "target for " + wanted.finish, wanted.range);
    return { by: wanted.by, fallback };
  }

  function plan(held, ask, lots) {
    const knobs = gather();
    if (!ask.pigments.length) knobs.missing.push("no pigment is named");
    const whole = sum(ask.pigments.map((each) => each.part)) || 1;
    const pigments = ask.pigments.map((each) => plan_pigment(held, knobs, lots, ask, each, whole));
    const binder = plan_binder(held, knobs, ask.binder);
    const aim = binder ? plan_aim(held, knobs, ask, binder) : { by: "pvc" };
    if (ask.vehicle) knobs.take("vehicle", "vehicle", [ask.vehicle.amount, ask.vehicle.amount]);
    const vehicle = ask.vehicle && plan_additive(held, knobs, ask.vehicle.id, "vehicle");
    const dosed = [...ask.dispersant ? [ask.dispersant] : [], ...ask.additions];
    const doses = dosed.map((each, place) => plan_dose(held, knobs, each, place));
    return { held, ask, lots, knobs, pigments, binder, vehicle, doses, aim };
  }

  function critical(made, values) {
    const parts = made.pigments.map((each) => each.at(values)), shares = made.pigments.map((each) => each.share);
    if (parts.some((each) => each.oil_absorption == null)) return null;
    const oil = sum(parts.map((each, n) => each.oil_absorption * shares[n]));
    const in_oil = formulas.cpvc(oil, 1 / sum(parts.map((each, n) => shares[n] / each.density)));
    return made.binder.index ? formulas.cpvc_in_dispersion(in_oil, values[made.binder.index]) : in_oil;
  }
  function target_of(made, values) {
    if (made.aim.by !== "lambda") return values.target;
    const edge = critical(made, values);
    if (edge === null && made.aim.fallback) return values.fallback;
    if (edge === null) refuse("the target is a part of the critical PVC, and the rub-out oil absorption is not known: measure it, or give the target as a PVC", { field: "target" });
    if (values.target * edge >= 1) refuse("a PVC of 100 % and more leaves no binder", { field: "target", nearest: 1 / edge });
    return values.target * edge;
  }
  function spec_of(made, values) {
    const { ask, vehicle, doses } = made, dosed = doses.map((each) => each.at_dose(values));
    return {
      pigments: made.pigments.map((each) => [each.at(values), each.share]),
      vehicle: vehicle && vehicle.at(values),
      vehicle_by: ask.vehicle && ask.vehicle.by === "weight" ? "weight" : "volume-to-pigment",
      vehicle_ratio: ask.vehicle ? values.vehicle / (ask.vehicle.by === "weight" ? 100 : 1) : 0,
      dispersant: ask.dispersant ? dosed[0] : null, additions: ask.dispersant ? dosed.slice(1) : dosed,
      binder: made.binder.at(values), aim: made.aim.by === "ratio" ? "ratio" : "pvc", ratio_by: made.aim.ratio_by, target: target_of(made, values) };
  }
  function powder_mass(made, values) {
    const { ask } = made, kept = 1 - ask.loss / 100;
    if (ask.fixed === "mass") return ask.amount;
    if (!(kept > 0)) refuse("everything is lost on the slab", { field: "loss" });
    const wanted = ask.fixed === "tubes" ? ask.amount * ask.tube * ask.fill / 100 : ask.amount;
    return formulas.mass_for_volume(spec_of(made, values), wanted / kept);
  }

  /* Each figure is moved alone to see which way it pushes; then all stand at the ends that push down, and up. */
  function spread(made, of) {
    const middles = middles_of(made), low = { ...middles }, high = { ...middles };
    const attempt = (values) => { try { return of(values); } catch (refused) { return null; } };
    Object.entries(made.knobs.ranges).forEach(([name, [from, to]]) => {
      const down = attempt({ ...middles, [name]: from }), up = attempt({ ...middles, [name]: to });
      if (from === to || down === null || up === null) return;
      [low[name], high[name]] = up >= down ? [from, to] : [to, from];
    });
    const ends = [of(middles), attempt(low), attempt(high)].filter((each) => each !== null);
    return [Math.min(...ends), Math.max(...ends)];
  }
  const middles_of = (made) => Object.fromEntries(Object.entries(made.knobs.ranges).map(([name, ends]) => [name, middle(ends)]));

  function line_of(made, material, grams) {
    const mass = grams[material.id], volume = mass / material.density, scale = made.ask.scale;
    const liquid = material.density < POWDER_FROM && IN_DROPS.includes(material.role);
    const entry = ["pigments", "binders", "additives"].map((kind) => made.held[kind].get(material.id)).find(Boolean);
    return {
      id: material.id, name: entry.name, role: material.role, grams: mass, millilitres: volume,
      range: spread(made, (values) => formulas.solve(spec_of(made, values), powder_mass(made, values) * scale)[material.id]),
      drops: liquid && volume < 1 ? Math.max(1, Math.round(volume / DROP_ML)) : null };
  }
  /* Lime and silicate paint have no critical pigment volume to aim at. */
  function without_target({ held, ask }) {
    const targets = (held.systems.get(ask.system) || {}).targets || [];
    return targets.length > 0 && targets.every((each) => each.by === "none");
  }
  function figures_of(made, grams, found) {
    const at = (values) => formulas.totals(formulas.materials(spec_of(made, values)), grams);
    const of = (key) => ({ value: found[key], range: spread(made, (values) => at(values)[key]) });
    const figures = {};
    ["mass", "volume", "pvc", "weight_solids", "volume_solids", "wet_density", "dry_density"].forEach((key) => { figures[key] = of(key); });
    const edge = critical(made, middles_of(made));
    if (edge !== null && !without_target(made)) {
      figures.cpvc = { value: edge, range: spread(made, (values) => { spec_of(made, values); return critical(made, values); }) };
      figures.lambda = { value: found.pvc / edge, range: spread(made, (values) => at(values).pvc / critical(made, values)), words: finish(found.pvc / edge) };
    }
    if (found.glycol_of_paint > 0) ["glycol_volume_of_paint", "glycol_of_wet_binder", "glycol_of_dry_binder"].forEach((key) => { if (found[key] !== null) figures[key] = of(key); });
    return figures;
  }
  function tubes_of(ask, yielded) {
    const one = ask.tube * ask.fill / 100;
    if (!(one > 0)) return null;
    const full = formulas.full_tubes(yielded, 0, one);
    return { full, over: formulas.tube_remainder(yielded, 0, one), one };
  }
  function cost_of(ask, materials, grams) {
    const priced = [...by_id(materials).values()].filter((each) => ask.prices[each.id]);
    if (!priced.length) return null;
    const each = priced.map((material) => {
      const [price, per] = ask.prices[material.id];
      return price * grams[material.id] / 1000 / (per === "l" ? material.density : 1);
    });
    return { total: sum(each), of: priced.length, items: by_id(materials).size };
  }

  /* The batch, or `missing`: why there is none, in words. */
  function work_out(held, ask, lots = {}) {
    const made = plan(held, ask, lots);
    if (made.knobs.missing.length) return { missing: made.knobs.missing.map((each) => "Not derivable because " + each + ".") };
    try {
      const values = middles_of(made), spec = spec_of(made, values), mass = powder_mass(made, values) * ask.scale;
      if (!(mass > 0)) refuse("the batch holds no pigment", { field: "amount" });
      const grams = formulas.solve(spec, mass), materials = formulas.materials(spec), found = formulas.totals(materials, grams);
      const yielded = found.volume * (1 - ask.loss / 100), kind = (held.systems.get(ask.system) || {}).kind;
      const result = {
        made, spec, mass, grams, totals: found, yielded, lines: [...by_id(materials).values()].map((each) => line_of(made, each, grams)),
        figures: figures_of(made, grams, found), tubes: tubes_of(ask, yielded), cost: cost_of(ask, materials, grams),
        covers: NOT_COATED.includes(kind) ? null : yielded / COAT_MICROMETRES, measured: Object.values(made.knobs.words).some((each) => each.basis === "measured") };
      return { ...result, warnings: warnings_of(result), levels: levels_of(result) };
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      return { missing: ["Not derivable because " + error.message + "."], field: error.field, nearest: error.nearest };
    }
  }

  /* Never worked out for the blend: the strictest level of its parts. */
  function levels_of({ made, mass }) {
    const { bench } = made.held, place = bench.amounts.findIndex(([most]) => most == null || mass <= most);
    const strictest = (levels) => Math.max(...levels.filter((each) => each != null));
    return {
      dry: strictest(made.pigments.map((each) => each.entry.dry[place])), amount: bench.amounts[place][1],
      wet: strictest([...made.pigments.map((each) => each.entry.wet), made.binder.entry.level, ...made.doses.map((each) => each.entry.level), made.vehicle ? made.vehicle.entry.level : null]) };
  }

  function warnings_of(result) {
    return [...bound(result), ...pairs(result), ...attacked(result), ...curdles(result), ...metal(result), ...glycol(result), ...ceilings(result), ...dispersant(result), ...acidity(result), ...mulled(result)];
  }
  const percent = (part, figures = 3) => Number((100 * part).toPrecision(figures)) + " %";

  function bound({ made, figures, totals }) {
    if (without_target(made)) return [];
    if (!figures.lambda) return made.aim.by === "lambda" ? [{ id: "no-rub-out", words: "Started from the usual PVC: how much binder these pigments need is not known. Rub out 5 g with oil and write it under your own figures, or go by the stop test.", because: "PVC " + percent(totals.pvc) + "; rub-out oil absorption not known" }] : [];
    const { ask, held } = made, targets = ((held.systems.get(ask.system) || {}).targets || []).filter((each) => each.range);
    const target = ask.finish ? targets.find((each) => each.finish === ask.finish) : targets.length === 1 ? targets[0] : null;
    const [low, high] = target ? target.range : [0, 1], value = target && target.by !== "lambda" ? totals.pvc : figures.lambda.value;
    const told = "PVC " + percent(totals.pvc) + ", " + Number(figures.lambda.value.toPrecision(3)) + " of the critical PVC";
    if (value > high + 1e-9) {
      const lean = { id: "under-bound", words: figures.lambda.value > 1 ? "Under-bound: it will chalk when rubbed." : "Leaner than the finish asks.", because: told + "; wanted at most " + high };
      return made.aim.by === "ratio" ? [lean, { id: "equal-parts", words: "A rule by parts does not fit this pigment: it takes up more binder than that.", because: told }] : [lean];
    }
    return value < low - 1e-9 ? [{ id: "over-bound", words: "Richer in binder than the finish asks for: shiny, weak in colour.", because: told + "; wanted at least " + low }] : [];
  }
  function pairs({ made }) {
    const kind = (made.held.systems.get(made.ask.system) || {}).kind, ids = made.pigments.map((each) => each.entry.id), name = (id) => made.held.pigments.get(id).name;
    const here = (made.held.bench.reactions || []).filter((each) => !each.media || !kind || each.media.includes(kind));
    return here.flatMap((each) => ids.flatMap((one) => ids.filter((other) => one !== other && each.one.includes(one) && each.other.includes(other) && !(each.one.includes(other) && each.other.includes(one) && one > other))
      .map((other) => ({ id: "reacts", words: name(one) + " with " + name(other) + ": " + each.effect, because: each.grade }))));
  }
  const VERDICTS = { s: "suits", t: "wants a test in", u: "does not live in" }, GRADES = { d: "documented", c: "chemically expected", f: "folklore", k: "by chemistry class, chemically expected" };
  function attacked({ made }) {
    const place = 2 * made.held.bench.binders.findIndex((each) => each.id === made.ask.binder), where = made.binder.entry.name;
    return made.pigments.map(({ entry }) => {
      const [verdict, grade] = entry.suits.slice(place, place + 2);
      if (verdict === "s") return null;
      if (verdict === "-") return { id: "not-known", words: "Whether " + entry.name + " lives in " + where + " is not known: test it.", because: "no evidence was found" };
      return { id: verdict === "u" ? "unsuitable" : "test-first", words: entry.name + " " + VERDICTS[verdict] + " " + where + ".", because: GRADES[grade] + "; its page says why" };
    }).filter(Boolean);
  }
  function curdles({ made }) {
    if (made.binder.entry.kind !== "dispersion") return [];
    return made.pigments.flatMap(({ entry }) => Object.entries(entry.curdles || {}).map(([substance, share]) => ({ id: "curdles",
      words: entry.name + " may curdle the dispersion: wash it, bring the paste to pH 8 to 8.5, add the dispersant before the binder.", because: "up to " + percent(share, 2) + " " + substance + "; common practice" })));
  }
  function metal({ made }) {
    const { ph } = made.binder.entry;
    if (!ph || middle(ph) < ALKALINE_FROM) return [];
    return made.pigments.filter(({ entry }) => entry.metal).map(({ entry }) => ({ id: "metal-flake", words: entry.name + " makes hydrogen in alkaline water: no tube, and a vented cap.", because: "the binder has pH " + Number(middle(ph).toPrecision(2)) }));
  }
  function glycol({ made, totals }) {
    const ceiling = made.vehicle && made.vehicle.entry.ceiling, share = totals.glycol_of_wet_binder;
    if (!ceiling || ceiling.of !== "on-binder" || ceiling.high == null || share === null || !(100 * share > ceiling.high)) return [];
    return [{ id: "glycol", words: "Too much glycol: the film stays tacky. Thin the vehicle with water.", because: percent(share, 2) + " of the wet binder; ceiling " + ceiling.high + " %" }];
  }
  function basis_mass({ made, totals, grams, mass, spec }, of) {
    if (of.endsWith("on-pigment")) return mass;
    if (of.endsWith("on-total")) return totals.mass;
    return grams[made.ask.binder] * (of === "on-dry-binder" ? spec.binder.stays : 1);
  }
  function ceilings(result) {
    return result.made.doses.map(({ entry, at }) => {
      const { ceiling } = entry, basis = ceiling && basis_mass(result, ceiling.of);
      if (!ceiling || ceiling.high == null || !(basis > 0)) return null;
      const active = ceiling.of.startsWith("active") ? at(middles_of(result.made)).active : 1;
      const held = 100 * result.grams[entry.id] * active / basis;
      return held > ceiling.high * (1 + 1e-9) ? { id: "ceiling", words: "More " + entry.name + " than is ever useful.", because: Number(held.toPrecision(3)) + " % " + ceiling.of.replace(/-/g, " ") + ", ceiling " + ceiling.high + " %" } : null;
    }).filter(Boolean);
  }
  function dispersant({ made, spec, grams, mass }) {
    const asked = made.ask.dispersant, active = asked && spec.dispersant.material.active;
    if (!asked || !(active < 1) || asked.of.startsWith("active")) return [];
    const product = grams[asked.id];
    return [{ id: "dispersant-basis", words: "A percentage of dispersant has three meanings; make sure that yours is this one.", because: Number(product.toPrecision(3)) + " g of product: " + percent(product / mass) + " product on pigment, " + percent(product * active / mass) + " active on pigment" }];
  }
  function acidity({ made }) {
    const measured = [made.binder.entry, ...made.pigments.map((each) => each.entry)].filter((each) => each.ph);
    return made.doses.filter(({ entry }) => entry.role === "preservative" && entry.works).flatMap(({ entry }) => measured
      .filter(({ ph }) => middle(ph) < entry.works[0] || middle(ph) > entry.works[1])
      .map((each) => ({ id: "preservative-ph", words: entry.name + " does little at this pH.", because: each.name + " has pH " + Number(middle(each.ph).toPrecision(2)) + "; it works from " + entry.works[0] + " to " + entry.works[1] })));
  }
  function mulled({ made, mass }) {
    const kind = (made.held.systems.get(made.ask.system) || {}).kind;
    return mass > MULLED_AT_MOST && !NOT_MULLED.includes(kind) ? [{ id: "too-much-to-mull", words: "More than one mulls at a time: " + Math.ceil(mass / MULLED_AT_MOST) + " charges on the slab, or a disperser.", because: "about " + MULLED_AT_MOST + " g of powder at a time, common practice" }] : [];
  }

  /* What to add to a batch as weighed; nothing is ever taken out. */
  function mend(result, have, wrong, volume) {
    const { spec } = result, materials = formulas.materials(spec);
    const after = (words, add) => {
      const grams = { ...have };
      Object.entries(add).forEach(([id, more]) => { grams[id] = (grams[id] || 0) + more; });
      const found = formulas.totals(materials, grams), edge = critical(result.made, middles_of(result.made));
      return { words, add, pvc: found.pvc, reduced: edge === null ? null : found.pvc / edge, volume: found.volume };
    };
    try {
      return MENDERS[wrong](result, materials, have, after, volume);
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      return { words: "No addition does it: " + error.message + ".", add: {}, nearest: error.nearest };
    }
  }
  const weighed = (have) => sum(Object.values(have)), of_role = (materials, role) => materials.find((each) => each.role === role);
  const spoiled = (words) => () => ({ words, add: {}, discard: true });
  const MENDERS = {
    curdled: spoiled("Discard: curd strained out of a dispersion does not come back. Next time wash the earth, bring the paste to pH 8 to 8.5 and add the dispersant before the binder."),
    smells: spoiled("Discard: more preservative does not mend a spoiled batch. Do not sniff at it closely. Clean the kit, find where it came in, make less at a time."),
    "too-thin"({ spec }, materials, have, after) {
      if (!(have[spec.binder.id] > 0)) {
        const powder = sum(spec.pigments.map(([each]) => have[each.id] || 0));
        return after("Add wetted pigment a twentieth at a time until the paste stands, or let it settle and pour off the clear liquid. Never thicken a paste with gel. Then reckon the binder anew.",
          Object.fromEntries(spec.pigments.map(([each, share]) => [each.id, PIGMENT_STEP * powder * share])));
      }
      const words = "Check the pH first: a swelling thickener wants 8 or more. Then add thickener, thinned with water, in ", thickener = of_role(materials, "thickener");
      if (!thickener) return { words: words + "steps of " + THICKENER_STEP + " % of the paint; wait half an hour before the next.", add: {} };
      return after(words + "this step; wait half an hour before the next.", { [thickener.id]: THICKENER_STEP / 100 * weighed(have) });
    },
    "too-thick": (result, materials, have) => ({ pvc: formulas.totals(materials, have).pvc, add: { water: WATER_STEP / 100 * weighed(have) },
      words: "Stir in water, or the vehicle without more glycol, in this step; wait, look again. If it stiffens overnight and stirs back, it is body, not a fault; if it does not stir back, strain a spoonful: curd means discard." }),
    foams(result, materials, have, after) {
      const defoamer = of_role(materials, "defoamer");
      if (!defoamer) return { words: "Stir slowly below the surface, let it rest overnight, tap or pull a vacuum. The recipe names no defoamer.", add: {} };
      const held = 100 * (have[defoamer.id] || 0) / weighed(have);
      if (held + DEFOAMER_STEP > DEFOAMER_MOST) refuse("it already holds " + Number(held.toPrecision(3)) + " % of defoamer, and more makes craters: let it rest, or blend it into a fresh batch without any", { field: "additions" });
      return after("One step of " + DEFOAMER_STEP + " %; rest, look, at most " + DEFOAMER_MOST + " % in all.", { [defoamer.id]: DEFOAMER_STEP / 100 * weighed(have) });
    },
    "off-recipe": ({ spec }, materials, have, after) => after("Brings everything to the proportions of the recipe.", formulas.smallest_additions(formulas.solve(spec), have)),
    chalks({ spec, totals }, materials, have, after) {
      const now = formulas.totals(materials, have).pvc;
      if (now <= totals.pvc) return { words: "It is not short of binder. Check that the film dried warm enough, that the ground did not drink the binder, and that the paste was well ground. A finished surface gets a thin coat of weak size or medium, not more pigment.", add: {}, pvc: now };
      return after("Stir the binder in slowly, a twentieth at a time, into the wet batch.", { [spec.binder.id]: formulas.binder_to_reach(materials, have, spec.binder, totals.pvc) });
    },
    insipid({ spec, totals, made }, materials, have, after) {
      const in_paste = [...made.ask.pigments.map((each) => each.id), made.ask.vehicle && made.ask.vehicle.id, made.ask.dispersant && made.ask.dispersant.id];
      const paste = Object.fromEntries(Object.entries(formulas.solve(spec)).filter(([id]) => in_paste.includes(id)));
      const more = formulas.paste_to_reach(materials, have, paste, totals.pvc), whole = sum(Object.values(paste));
      return after("Grind this much more paste first, then stir it in; never dry pigment into finished paint.", Object.fromEntries(Object.entries(paste).map(([id, mass]) => [id, more * mass / whole])));
    },
    "short-of-volume"({ spec }, materials, have, after, volume) {
      const now = formulas.totals(materials, have).volume;
      if (!(volume > now)) refuse("it already fills " + Number(now.toPrecision(3)) + " ml");
      const wanted = formulas.solve(spec, formulas.mass_for_volume(spec, volume)), over = Object.keys(have).some((id) => have[id] > (wanted[id] || 0) + 1e-9);
      return after("Grind and let down the difference, then bring both together.", over ? formulas.smallest_additions(formulas.solve(spec), have)
        : Object.fromEntries(Object.entries(wanted).map(([id, mass]) => [id, mass - (have[id] || 0)])));
    } };

  root.MULLBOOK_BATCH = { book, work_out, mend, finish, MULLED_AT_MOST, DROP_ML, COAT_MICROMETRES, POWDER_FROM, ALKALINE_FROM, FINISHES, UNDER_BOUND, IN_DROPS, NOT_MULLED, NOT_COATED };
  if (typeof module === "object") module.exports = root.MULLBOOK_BATCH;
})(typeof window === "undefined" ? globalThis : window);
