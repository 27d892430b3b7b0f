/* The stone check: sums the scores that Python exported, and tells hazards first. It never says that one is ruled out. */
(function (root) {
  "use strict";
  const FIGURES = 1e9, ROOT_TAU = Math.sqrt(2 * Math.PI), TELLS = 0.5, MOST_FITS = 8, MOST_BEHIND = 4, MOST_NEXT = 4;
  const place_of = (number) => Math.floor(number * FIGURES + 0.5);
  const by = (key) => (a, b) => key(a) - key(b);
  const sum = (list) => list.reduce((whole, each) => whole + each, 0);

  /* Density by weighing in air and in water, with its standard uncertainty: the same as in Python. */
  function weighing(air, water, temperature, balance) {
    const lost = air - water, of_water = root.MULLBOOK_FORMULAS.water_density(temperature) / 1000;
    if (!(lost > 0)) return null;
    return { value: air * of_water / lost, uncertainty: of_water * Math.hypot(air, water) / lost ** 2 * balance / Math.sqrt(3) };
  }
  function plateau(value, low, high, spread) {
    const outside = Math.max(0, low - value, value - high);
    return Math.exp(-0.5 * (outside / spread) ** 2) / (high - low + spread * ROOT_TAU);
  }
  function of_density(test, range, reading) {
    const blind = 1 / (test.highest - test.lowest);
    if (!range) return blind;
    const spread = Math.hypot(reading.uncertainty, test.spread * reading.value);
    return (1 - test.error) * plateau(reading.value, range[0], range[1], spread) + test.error * blind;
  }
  function on_grid(test, range) {
    const count = Math.round((test.highest - test.lowest) / test.step), points = Array.from({ length: count }, (_, place) => test.lowest + test.step * (place + 0.5));
    if (!range) return points.map(() => 1 / count);
    const heights = points.map((point) => plateau(point, range[0], range[1], test.spread * point)), whole = sum(heights);
    return heights.map((each) => (1 - test.error) * each / whole + test.error / count);
  }
  const entropy = (chances) => -sum(chances.filter((each) => each > 0).map((each) => each * Math.log2(each)));
  function expected_information(held, chances) {
    const expected = chances[0].map((_, reading) => sum(held.map((share, place) => share * chances[place][reading])));
    return Math.max(0, entropy(expected) - sum(held.map((share, place) => share * entropy(chances[place]))));
  }

  /* seen: {answers: {test: answer}, density: {value, uncertainty} or null}. Gives hazards, fits and tests in their order. */
  function judge(data, seen) {
    const asked = data.tests.filter((each) => each.kind !== "number");
    const row = (candidate, test) => { const at = candidate.rows[asked.indexOf(test)]; return at < 0 ? null : data.rows[test.id][at]; };
    const counted = data.candidates.map((candidate) => data.tests.flatMap((test) => {
      if (test.kind === "number") {
        if (!seen.density) return [];
        const chance = of_density(test, candidate.density, seen.density);
        return [{ test: test.id, score: Math.log(chance), bits: Math.log2(chance * (test.highest - test.lowest)), known: Boolean(candidate.density) }];
      }
      if (!(test.id in seen.answers)) return [];
      const scores = row(candidate, test), count = test.values.length, answer = test.values.findIndex(([id]) => id === seen.answers[test.id]);
      const score = scores ? scores[answer] : -Math.log(count);
      return [{ test: test.id, score, bits: (score + Math.log(count)) / Math.LN2, known: Boolean(scores) }];
    }));
    const scores = counted.map((each) => sum(each.map((one) => one.score))), most = Math.max(...scores), weights = scores.map((each) => Math.exp(each - most)), whole = sum(weights);
    const held = weights.map((each) => each / whole);
    const fits = data.candidates.map((candidate, place) => ({ candidate, share: held[place], counted: counted[place] })).sort(by((each) => -place_of(each.share)));
    const made = new Set([...Object.keys(seen.answers), ...seen.density ? ["density"] : []]);
    const next = data.tests.filter((test) => !made.has(test.id)).map((test) => ({ test: test.id, bits: expected_information(held, data.candidates.map((candidate) => {
      if (test.kind === "number") return on_grid(test, candidate.density);
      const found = row(candidate, test);
      return found ? found.map(Math.exp) : test.values.map(() => 1 / test.values.length);
    })) })).sort(by((each) => -place_of(each.bits)));
    const hazards = data.hazards.map((hazard, place) => judge_hazard(data, hazard, place, fits, seen, made)).sort(by((each) => (each.status === "points" ? 0 : 1e12) - place_of(each.share)));
    return { hazards, fits, next, unknown: entropy(held) };
  }
  function judge_hazard(data, hazard, place, fits, seen, made) {
    const behind = fits.flatMap(({ candidate, share }) => {
      const hides = candidate.hides.find(([which]) => which === place);
      return hides || candidate.hazards.includes(place) ? [{ id: candidate.id, name: candidate.name, page: candidate.page, share, say: hides ? data.sayings[hides[1]] : "" }] : [];
    });
    const share = sum(behind.map((each) => each.share)), before = behind.length / data.candidates.length;
    const because = hazard.flags.filter((flag) => raised(flag, seen)).map((flag) => flag.say);
    const points = hazard.always || because.length > 0 || (made.size > 0 && share >= data.points_from);
    return { id: hazard.id, name: hazard.name, status: points ? "points" : "not-ruled-out", always: hazard.always, less_likely: !points && share < before * data.less_likely_below, share, before, because, do: hazard.do, behind };
  }
  function raised(flag, seen) {
    if (flag.unless && flag.unless_any.includes(seen.answers[flag.unless])) return false;
    if (flag.above != null) return Boolean(seen.density) && seen.density.value > flag.above;
    return flag.any_of.includes(seen.answers[flag.test]);
  }
  const counted_word = ({ bits, known }) => !known ? "not known" : bits >= TELLS ? "fits" : bits <= -TELLS ? "against" : "says little";
  const status_words = (found) => found.always ? "assume it is there" : found.status === "points" ? "points to it" : found.less_likely ? "not ruled out, less likely" : "not ruled out";
  root.MULLBOOK_STONES = { judge, weighing, status_words, counted_word };

  const form = document.getElementById("stone"), data = root.MULLBOOK_STONE, tools = root.MULLBOOK_TOOLS;
  if (!form || !data || !tools) return;
  const { make, number, value_of, put } = tools, get = (id) => document.getElementById(id);
  const percent = (share) => share >= 0.01 ? Math.round(share * 100) + "\u00a0%" : "below 1\u00a0%";
  const test_of = (id) => data.tests.find((each) => each.id === id);
  const FIELDS = { air: "st-air", water: "st-water", temperature: "st-temperature", balance: "st-balance", density: "st-density" };

  function read() {
    const answers = {};
    form.querySelectorAll("input[type=radio]:checked").forEach((each) => { if (each.value) answers[each.name] = each.value; });
    const found = Object.fromEntries(Object.entries(FIELDS).map(([name, id]) => [name, value_of(get(id))]));
    const broken = Object.values(found).includes(undefined);
    let density = null, words = "";
    if (!broken && found.air != null && found.water != null) {
      density = weighing(found.air, found.water, found.temperature, found.balance);
      words = density ? "weighed in air and in water" : "";
    } else if (!broken && found.density != null) {
      const decimals = (get("st-density").value.trim().split(/[.,]/)[1] || "").length;
      density = { value: found.density, uncertainty: 0.5 * 10 ** -Math.min(decimals, 2) / Math.sqrt(3) };
      words = "as stated";
    }
    const refused = !density && found.air != null && found.water != null || density && (density.value < test_of("density").lowest || density.value > test_of("density").highest);
    get("st-weighing").textContent = broken ? "" : refused ? "That is not the weighing of a stone: it must weigh less in water than in air, and come to 1 to 10 g/cm³." : density ? number(density.value) + " ± " + number(density.uncertainty, 2) + " g/cm³, " + words + "." : found.air != null || found.water != null ? "Both weighings are needed." : "";
    if (refused) density = null;
    return { seen: { answers, density }, found, words };
  }

  const link = (each) => each.page ? make("a", { href: "substances/" + each.id + ".html" }, each.name) : make("span", {}, each.name);
  function hazard_row(found) {
    const shown = found.behind.slice(0, MOST_BEHIND), more = found.behind.length - shown.length;
    const head = [make("b", {}, found.name), ": " + status_words(found) + ", ", make("span", { className: "how" }, percent(found.share) + " of the fit")];
    const behind = make("p", { className: "how" }, "Behind it: " + shown.map((each) => each.name + (each.say ? " (may hold it)" : "")).join(", ") + (more > 0 ? " and " + more + " more" : "")), act = make("p", {}, found.do);
    if (found.status !== "points") return make("li", {}, make("details", {}, make("summary", {}, make("span", {}, ...head)), behind, act));
    return make("li", { className: "points" }, make("p", { className: "word" }, ...head), ...found.because.map((each) => make("p", { className: "because" }, each)), act, behind);
  }
  function fit_row(fit) {
    const told = fit.counted.map((each) => test_of(each.test).name.toLowerCase() + "\u00a0" + counted_word(each)).join(", ");
    return make("li", {}, link(fit.candidate), " ", make("b", {}, percent(fit.share)), told ? make("p", { className: "how" }, told) : "");
  }
  function next_row(each) {
    const test = test_of(each.test), place = get("test-" + test.id);
    return make("li", {}, make("a", { href: "#test-" + test.id }, test.name), " " + number(each.bits, 2) + "\u00a0bits. " + (place ? place.dataset.how : ""));
  }
  function seen_words({ seen, words }) {
    const told = data.tests.flatMap((test) => test.id in seen.answers ? [test.name + ": " + test.values.find(([id]) => id === seen.answers[test.id])[1]] :
      test.kind === "number" && seen.density ? [test.name + ": " + number(seen.density.value) + " ± " + number(seen.density.uncertainty, 2) + " g/cm³, " + words] : []);
    return told.length ? told.join("; ") + "." : "Nothing yet: everything is open.";
  }
  function update() {
    const read_now = read(), { seen, found } = read_now, result = judge(data, seen);
    data.tests.forEach((test) => {
      const told = get("told-" + test.id);
      if (told) told.textContent = test.kind === "number" ? seen.density ? number(seen.density.value) + " g/cm³" : "" : test.id in seen.answers ? test.values.find(([id]) => id === seen.answers[test.id])[1] : "";
    });
    get("st-seen").textContent = seen_words(read_now);
    get("st-hazards").replaceChildren(...result.hazards.map(hazard_row));
    get("st-fits").replaceChildren(...result.fits.slice(0, MOST_FITS).map(fit_row));
    get("st-more").textContent = "And " + (result.fits.length - MOST_FITS) + " more, each a worse fit. All were taken to be equally likely beforehand.";
    get("st-next").replaceChildren(...result.next.slice(0, MOST_NEXT).map(next_row));
    get("st-open").textContent = number(result.unknown, 2) + "\u00a0bits are open.";
    const pointed = result.hazards.filter((each) => each.status === "points").map((each) => each.name);
    get("st-pointed").textContent = "\u25B2\u00a0" + pointed.join(", ") + ". Nothing is ruled out.";
    const weighed = found.air != null && found.water != null;
    tools.keep_address({ ...seen.answers, ...weighed ? { air: found.air, water: found.water, t: found.temperature, b: found.balance } : found.density ? { density: get("st-density").value.trim() } : {} });
  }

  const asked = new URLSearchParams(location.search);
  form.querySelectorAll("input[type=radio]").forEach((each) => { if (asked.get(each.name) === each.value) each.checked = true; });
  [["air", "air"], ["water", "water"], ["t", "temperature"], ["b", "balance"]].forEach(([key, name]) => { const value = Number(asked.get(key)); if (asked.get(key) && Number.isFinite(value)) put(get(FIELDS[name]), value); });
  if (asked.get("density")) get(FIELDS.density).value = asked.get("density");
  form.addEventListener("input", update);
  form.addEventListener("change", update);
  form.addEventListener("submit", (event) => event.preventDefault());
  get("st-again").addEventListener("click", () => { form.reset(); update(); form.scrollIntoView(); });
  get("st-print").addEventListener("click", () => root.print());
  get("st-copy").addEventListener("click", () => tools.copy(location.href, get("st-copied")));
  /* A test led to by its name opens. */
  document.addEventListener("click", (event) => {
    const to = event.target.closest && event.target.closest('a[href^="#test-"]');
    if (to && get(to.getAttribute("href").slice(1))) get(to.getAttribute("href").slice(1)).open = true;
  });
  ["stone", "st-result", "st-bar"].forEach((id) => { get(id).hidden = false; });
  update();
})(window);
