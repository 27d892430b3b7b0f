/* The washing timer: how long grains of a size take to sink, and a list of waits that go on while the screen is locked. */
(function () {
  "use strict";
  const form = document.getElementById("washing"), bench = window.MULLBOOK_BENCH;
  if (!form || !bench) return;
  const tools = window.MULLBOOK_TOOLS, formulas = window.MULLBOOK_FORMULAS, { make, number, value_of, put } = tools;
  const get = (id) => document.getElementById("ws-" + id), KEY = "mullbook.pours", title = document.title;
  let pours = tools.recall(KEY, []).filter((each) => each && Number.isFinite(each.seconds)), now = null, sound = null;

  const TIMES = [[90, 1, "s"], [5400, 60, "min"], [172800, 3600, "h"], [Infinity, 86400, "days"]];
  function time_words(seconds) {
    const [, one, unit] = TIMES.find(([end]) => seconds < end);
    return number(seconds / one, 2) + "\u00a0" + unit;
  }
  const two = (part) => String(part).padStart(2, "0");
  function clock(seconds) {
    const whole = Math.max(0, Math.ceil(seconds)), hours = Math.floor(whole / 3600);
    return (hours ? hours + ":" : "") + two(Math.floor(whole / 60) % 60) + ":" + two(whole % 60);
  }
  const at_clock = (time) => new Date(time).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit", second: "2-digit" });

  function read_slurry() {
    const found = { density: value_of(get("density")), temperature: value_of(get("temperature")), depth: value_of(get("depth")), load: value_of(get("load")), state: get("state").value };
    if (Object.values(found).includes(undefined)) return null;
    return { ...found, rest: { solids_fraction: found.load ? found.load / (found.density * 1000) : 0, state: found.state } };
  }
  const seconds_for = (size, { depth, density, temperature, rest }) => 60 * formulas.settling_time(size, depth, density, temperature, rest);
  function say(...words) { get("answer").replaceChildren(...words.filter(Boolean)); }
  const word = (text, name) => make("p", name ? { className: name } : {}, text);

  function update() {
    const slurry = read_slurry(), size = value_of(get("size")), minutes = value_of(get("minutes"));
    now = null;
    if (!slurry || size === undefined || minutes === undefined) return say(word("A field holds no number that can be used; it says why."));
    tools.keep_address({ ...(get("pigment").value && { p: get("pigment").value }), size, depth: slurry.depth, density: slurry.density, t: slurry.temperature });
    try { answer(slurry, size, minutes); } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      say(word("Not derivable because " + error.message + "."));
    }
  }
  function answer(slurry, size, minutes) {
    if (slurry.rest.solids_fraction >= 1) return say(word("Not derivable because that much earth leaves no room for water."));
    if (slurry.rest.solids_fraction > 0.1) return say(word("This thick, it settles as a front, not by size. Thin it to less than " + number(100 * slurry.density, 2) + " g in each litre."));
    const seconds = seconds_for(size, slurry), entry = bench.pigments.find((each) => each.id === get("pigment").value);
    now = { size, seconds };
    say(word("Grains larger than " + number(size) + " µm have sunk " + number(slurry.depth) + " cm after"), make("b", { className: "big" }, time_words(seconds)),
      word("Stir, let it stand this long, pour off. What is poured off is finer than " + number(size) + " µm.", "how"),
      minutes ? word("After " + number(minutes) + " min all larger than " + number(formulas.settling_size(minutes, slurry.depth, slurry.density, slurry.temperature, slurry.rest), 2) + " µm have sunk.") : null,
      entry ? make("p", {}, "Level of this powder when dry: ", tools.level_chip(bench, entry.dry[0])) : null);
  }

  /* Pours: what is kept is the time at which the wait ends. */
  const left = (pour) => pour.ends ? (pour.ends - Date.now()) / 1000 : pour.seconds;
  function keep() { tools.remember(KEY, pours); draw(); }
  function pour_line(pour, place) {
    const running = Boolean(pour.ends), over = running && left(pour) <= 0;
    const words = over ? "ended " + at_clock(pour.ends) + ": pour off now" : running ? "ends " + at_clock(pour.ends) : "waits " + time_words(pour.seconds);
    const name = "pour " + (place + 1) + (pour.name ? ", " + pour.name : "") + ", over " + number(pour.size) + " µm";
    const start = make("button", { type: "button", className: running ? "" : "main", "aria-label": (running ? "Stop " : "Start ") + name }, running ? "Stop" : "Start");
    start.addEventListener("click", () => { if (running) delete pour.ends; else { pour.ends = Date.now() + 1000 * pour.seconds; pour.told = false; wake_sound(); } keep(); refocus(place, 0); });
    const away = make("button", { type: "button", "aria-label": "Remove " + name }, "Remove");
    away.addEventListener("click", () => { pours.splice(place, 1); keep(); (get("pours").querySelector("button") || get("add")).focus(); });
    return make("li", { className: over ? "pour over" : "pour" }, make("div", {}, make("span", { className: "left" }, over ? "Pour now" : clock(left(pour))), " ", make("span", { className: "how" }, (pour.name ? pour.name + ", " : "") + "over " + number(pour.size) + " µm, " + words)),
      make("div", { className: "buttons" }, start, " ", away));
  }
  function refocus(place, button) { const line = get("pours").children[place]; if (line) line.querySelectorAll("button")[button].focus(); }
  function draw() { get("pours").replaceChildren(...pours.map(pour_line)); }
  function wake_sound() { try { sound = sound || new AudioContext(); sound.resume(); } catch (refused) { sound = null; } }
  function beep() {
    if (navigator.vibrate) navigator.vibrate([300, 150, 300]);
    if (!sound) return;
    const tone = sound.createOscillator(), quiet = sound.createGain();
    quiet.gain.value = 0.2;
    tone.connect(quiet).connect(sound.destination);
    tone.start();
    tone.stop(sound.currentTime + 0.6);
  }
  function tick() {
    const ended = pours.filter((each) => each.ends && left(each) <= 0);
    pours.forEach((each, place) => {
      const line = get("pours").children[place], shown = line && line.querySelector(".left");
      if (shown && each.ends && left(each) > 0) shown.textContent = clock(left(each));
    });
    const fresh = ended.filter((each) => !each.told);
    if (fresh.length) {
      fresh.forEach((each) => { each.told = true; });
      beep();
      get("now").hidden = false;
      get("now").textContent = "Pour off now: grains over " + fresh.map((each) => number(each.size) + " µm").join(", ") + " have sunk.";
      keep();
    }
    document.title = ended.length ? "Pour now · " + title : title;
  }
  function add(size, seconds) { pours.push({ size, seconds }); keep(); }

  const known = bench.pigments.filter((each) => each.density && !each.metal); // water sets a gas that burns free from some metals
  tools.grouped(get("pigment"), "quartz sand and clay, or a density of my own", known, (each) => each.hue);
  tools.options(get("mesh"), [["", "choose a sieve"], ...Object.keys(formulas.E11).map(Number).sort((a, b) => a - b).filter((each) => each >= 60).map((mesh) => [String(mesh), "No. " + mesh + ", " + formulas.E11[mesh] + " µm"])]);
  get("pigment").addEventListener("change", () => {
    const entry = known.find((each) => each.id === get("pigment").value);
    put(get("density"), entry ? (entry.density[0] + entry.density[1]) / 2 : 2.65);
  });
  get("mesh").addEventListener("change", () => { if (get("mesh").value) put(get("size"), formulas.opening_of_mesh(Number(get("mesh").value))); });
  form.addEventListener("input", update);
  form.addEventListener("change", update);
  form.addEventListener("submit", (event) => event.preventDefault());
  get("add").addEventListener("click", () => { if (now) add(now.size, now.seconds); });
  get("series").addEventListener("click", () => {
    const slurry = read_slurry();
    try { if (slurry && slurry.rest.solids_fraction <= 0.1) [45, 20, 10, 5].forEach((size) => add(size, seconds_for(size, slurry))); } catch (error) { update(); }
  });
  document.addEventListener("mullbook:pours", (event) => { pours.push(...event.detail); keep(); get("pours").scrollIntoView(); const first = get("pours").querySelector("button"); if (first) first.focus(); });
  document.addEventListener("visibilitychange", () => { draw(); tick(); });
  form.hidden = false;
  tools.follow_units(form, () => { update(); draw(); });
  const asked = new URLSearchParams(location.search);
  [["size", "size"], ["depth", "depth"], ["density", "density"], ["t", "temperature"], ["load", "load"]].forEach(([key, id]) => { const value = Number(asked.get(key)); if (asked.get(key) && Number.isFinite(value)) put(get(id), value); });
  const earth = known.find((each) => each.id === asked.get("p"));
  if (earth) { get("pigment").value = earth.id; if (!asked.get("density")) put(get("density"), (earth.density[0] + earth.density[1]) / 2); }
  const place = form.ownerDocument.querySelector("[data-prefs]");
  if (place && !place.firstChild) window.MULLBOOK_PAGE.panel(place, bench.binders.map((each) => [each.id, each.name]), Object.entries(bench.places));
  update();
  draw();
  tick();
  setInterval(tick, 500);
})();
