/* Room dust: how little fills a room to a limit, and how long its air takes to be changed. The words are fixed. */
(function () {
  "use strict";
  const form = document.getElementById("room"), bench = window.MULLBOOK_BENCH;
  if (!form || !bench) return;
  const tools = window.MULLBOOK_TOOLS, formulas = window.MULLBOOK_FORMULAS, { make, number, value_of, put, prefs } = tools;
  const get = (id) => document.getElementById("rm-" + id), OWN = "own", { budget, clearing } = form.dataset;
  const FALL_M = 2, FALL_UM = 10, ROOM_C = 20;
  const said = (words) => words.charAt(0).toUpperCase() + words.slice(1) + ".";
  const pigment = () => bench.pigments.find((each) => each.id === get("pigment").value);

  /* Value, fraction, place, list, what drives it, whether it is remembered. */
  const limits_of = (entry) => (entry && entry.limits || []).map(([value, kind, driver, remembered]) => [value, ...bench.limit_kinds[kind], bench.drivers[driver], remembered]);

  const places = Object.entries(bench.places);
  function fill_limits(chosen) {
    const all = limits_of(pigment()), here = all.filter((each) => !prefs.place || each[2] === prefs.place), offered = here.length ? here : all;
    tools.options(get("limit"), [...offered.map((each) => [String(all.indexOf(each)), number(each[0], 2) + " mg/m³ " + each[1] + ", " + each[3] + ", " + bench.places[each[2]] + ", " + each[4].toLowerCase() + (each[5] ? ", from memory, not confirmed" : "")]), [OWN, "another limit, written here"]], chosen);
  }
  function limit_now() {
    document.getElementById("rm-own-field").hidden = get("limit").value !== OWN;
    return get("limit").value === OWN ? value_of(get("own")) : pigment().limits[Number(get("limit").value)][0];
  }
  function time_words(hours) {
    return hours < 1.5 ? number(60 * hours, 2) + "\u00a0min" : hours < 48 ? number(hours, 2) + "\u00a0h" : number(hours / 24, 2) + "\u00a0days";
  }
  function amount(milligrams) { return milligrams < 1000 ? number(milligrams, 2) + "\u00a0mg" : number(milligrams / 1000, 2) + "\u00a0g"; }

  function update() {
    const found = { limit: limit_now(), volume: value_of(get("volume")), changes: value_of(get("changes")), mixing: value_of(get("mixing")), dust: value_of(get("dust")) };
    if (Object.values(found).includes(undefined)) return get("answer").replaceChildren(make("p", {}, "A field holds no number that can be used; it says why."));
    tools.keep_address({ p: get("pigment").value, room: found.volume, air: found.changes, ...found.dust ? { dust: found.dust } : {} });
    const entry = pigment(), lines = [make("b", { className: "big" }, amount(formulas.dust_budget(found.limit, found.volume))), make("p", {}, "aloft in the whole room of " + number(found.volume) + " m³ makes its mean the limit. " + said(budget))];
    if (found.dust) lines.push(...aloft(found));
    if (entry) lines.push(make("p", {}, "Level of the dry powder, " + bench.amounts[0][1] + ": ", tools.level_chip(bench, entry.dry[0]), " It goes by the strictest limit of any place."));
    get("answer").replaceChildren(...lines);
  }
  function aloft({ limit, volume, changes, mixing, dust }) {
    const mean = dust / volume, ratio = mean / limit;
    const lines = [make("p", {}, amount(dust) + " spread evenly is " + number(mean, 2) + " mg/m³, " + number(ratio, 2) + " times the limit. " + said(budget))];
    if (ratio <= 1) return [...lines, make("p", {}, "As a mean of the room that is below the limit; where it was raised it is not.")];
    const entry = pigment(), density = entry && entry.density ? (entry.density[0] + entry.density[1]) / 2 : 2.65;
    const fall = formulas.settling_time(FALL_UM, 100 * FALL_M, density, ROOM_C, { fluid: "air" }) / 60;
    return [...lines, make("p", {}, make("b", { className: "big" }, time_words(formulas.clearing_time(ratio, changes, mixing))), "until, with no more dust raised, " + clearing + " enough to bring the mean down to the limit."),
      make("p", { className: "how" }, "At best, in still air, grains of " + FALL_UM + " µm fall " + FALL_M + " m in " + time_words(fall) + "; the finest, which reach the lungs, stay up for hours, and what has settled is raised again. This time says nothing of who may go in.")];
  }

  tools.grouped(get("pigment"), "another dust", bench.pigments.filter((each) => each.limits), (each) => each.hue);
  get("pigment").addEventListener("change", () => fill_limits());
  form.addEventListener("input", update);
  form.addEventListener("change", update);
  form.addEventListener("submit", (event) => event.preventDefault());
  form.hidden = false;
  tools.follow_units(form, () => { put(get("volume"), prefs.room); put(get("changes"), prefs.changes); fill_limits(get("limit").value); update(); });
  put(get("volume"), prefs.room);
  put(get("changes"), prefs.changes);
  const asked = new URLSearchParams(location.search);
  get("pigment").value = bench.pigments.some((each) => each.id === asked.get("p") && each.limits) ? asked.get("p") : "";
  [["room", "volume"], ["air", "changes"], ["dust", "dust"]].forEach(([key, id]) => { const value = Number(asked.get(key)); if (asked.get(key) && Number.isFinite(value)) put(get(id), value); });
  fill_limits();
  window.MULLBOOK_PAGE.panel(document.querySelector("[data-prefs]"), bench.binders.map((each) => [each.id, each.name]), places);
  update();
})();
