/* What this device remembers (binder, units, decimal mark, room, place), how numbers are written, and on a pigment's
   page the start for the chosen binder, out of figures that stand on the page. Without this script the page shows all. */
(function () {
  "use strict";
  const KEY = "mullbook.prefs", PLAIN = Object.assign({ binder: "", mass: "g", volume: "ml", comma: false, room: 60, changes: 2, place: "" }, window.MULLBOOK_STUDIO);
  const held = {};
  const prefs = window.MULLBOOK_PREFS = Object.assign({}, PLAIN, recall(KEY, {}));

  /* Storage may be refused, from disk above all; then the page itself remembers until it is closed. */
  function recall(key, otherwise) {
    try {
      const text = localStorage.getItem(key);
      return text === null ? held[key] || otherwise : JSON.parse(text);
    } catch (refused) { return held[key] || otherwise; }
  }
  function remember(key, value) {
    held[key] = value;
    try { localStorage.setItem(key, JSON.stringify(value)); return true; } catch (refused) { return false; }
  }

  /* A number to a few figures, without exponent; what is no number is said in words. */
  function number(value, figures = 3) {
    if (typeof value !== "number" || !Number.isFinite(value)) return "not derivable";
    if (value === 0) return "0";
    const digits = figures - 1 - Math.floor(Math.log10(Math.abs(value)));
    const rounded = digits < 0 ? String(Math.round(value / 10 ** -digits) * 10 ** -digits) : value.toFixed(Math.min(digits, 100));
    const text = (rounded.includes(".") ? rounded.replace(/\.?0+$/, "") : rounded).replace("-", "\u2212");
    return prefs.comma ? text.replace(".", ",") : text;
  }
  const range = (low, high, figures = 2) => {
    const ends = [number(low, figures), number(high, figures)];
    return ends[0] === ends[1] ? ends[0] : ends.join("–");
  };
  function make(tag, attributes = {}, ...inside) {
    const element = document.createElement(tag);
    Object.entries(attributes).forEach(([name, value]) => {
      if (value === false || value == null) return;
      if (name in element && name !== "list" && typeof value !== "string") element[name] = value; else element.setAttribute(name === "className" ? "class" : name, value);
    });
    element.append(...inside.filter((each) => each != null));
    return element;
  }

  function choice(label, key, options, changed) {
    const select = make("select", { id: "prefs-" + key }, ...options.map(([value, name]) =>
      make("option", { value: String(value), selected: String(prefs[key]) === String(value) }, name)));
    select.addEventListener("change", () => changed(key, select.value));
    return make("div", {}, make("label", { for: select.id }, label), select);
  }
  function amount(label, key, low, high, changed) {
    const input = make("input", { id: "prefs-" + key, type: "text", inputmode: "decimal", autocomplete: "off", value: number(prefs[key], 6), "aria-describedby": "prefs-" + key + "-words" });
    const words = make("p", { id: "prefs-" + key + "-words", className: "field-words", hidden: true });
    input.addEventListener("change", () => {
      const value = Number(input.value.trim().replace(",", "."));
      const good = input.value.trim() !== "" && value >= low && value <= high;
      words.hidden = good;
      words.textContent = good ? "" : "A number from " + number(low) + " to " + number(high) + " belongs here.";
      input.setAttribute("aria-invalid", String(!good));
      if (good) changed(key, value);
    });
    return make("div", { className: "field" }, make("label", { for: input.id }, label), input, words);
  }

  /* The line that shows what is remembered, and the fold in which it is changed. */
  function panel(place, binders, places) {
    const summary = make("summary"), box = make("div", { className: "prefs-fields" });
    const name = (list, id, none) => (list.find(([each]) => each === id) || [0, none])[1];
    const said = () => summary.replaceChildren(make("span", {}, "On this device: ", make("b", {}, name(binders, prefs.binder, "every binder")),
      " · " + (prefs.mass === "oz" ? "oz" : "g") + ", " + (prefs.volume === "floz" ? "fl oz" : "ml") + ", " + (prefs.comma ? "1,5" : "1.5") +
      " · room " + number(prefs.room) + " m³ · " + name(places, prefs.place, "limits of every place")));
    function changed(key, value) {
      prefs[key] = key === "comma" ? value === "true" : value;
      const kept = remember(KEY, prefs);
      said();
      told.textContent = kept ? "Remembered on this device." : "This browser keeps nothing for this page: it is forgotten when the page is closed.";
      document.dispatchEvent(new CustomEvent("mullbook:prefs"));
    }
    const told = make("p", { role: "status", className: "how" });
    box.append(
      choice("Binder", "binder", [["", "every binder"], ...binders], changed),
      choice("Weights in", "mass", [["g", "grams"], ["oz", "ounces (28.35 g)"]], changed),
      choice("Volumes in", "volume", [["ml", "millilitres"], ["floz", "US fluid ounces (29.57 ml)"]], changed),
      choice("Decimal mark", "comma", [["false", "point, 1.5"], ["true", "comma, 1,5"]], changed),
      amount("Room, m³", "room", 1, 100000, changed), amount("Air changes an hour", "changes", 0.05, 60, changed),
      choice("Limits of", "place", [["", "every place"], ...places], changed));
    said();
    place.replaceChildren(make("details", { className: "prefs" }, summary, box, told));
  }

  window.MULLBOOK_PAGE = { recall, remember, number, range, make, panel };

  /* A pigment's page: the chosen binder first, the others stay in the table below. */
  const yours = document.querySelector("[data-yours]");
  if (!yours) return;
  /* Grams and their range, the word for a verdict, or nothing, binder by binder as their names stand in yours.js. */
  const book = JSON.parse(yours.getAttribute("data-yours")), names = window.MULLBOOK_YOURS;
  const yours_words = yours.getAttribute("data-words"), list = document.querySelector(".card .start ul");
  const place = make("div", { className: "prefs-place" });
  yours.replaceWith(place);

  const line = (figure, words, rest, more = "") => make("li", { className: "mine" + more }, make("b", { className: "fig" }, figure), " ", make("span", {}, words, rest ? make("span", {}, rest) : null));
  function start(name, found) {
    if (found === "unsuitable") return line("Unsuitable", "in " + name + ": the table says why");
    if (!found) return line("No start", "for " + name + ": not derivable, the table says why");
    const [grams, low, high] = found, [amount, unit] = prefs.mass === "oz" ? [1, "oz"] : [20, "g"], part = amount / 100;
    const about = number(grams * part, 2), spread = range(low * part, high * part);
    return line(about + "\u00a0" + unit, name, " for " + amount + " " + unit + " of pigment" + (spread === about ? "" : "; range " + spread + " " + unit));
  }
  function budget() {
    const [limit, list_name, fraction, driver] = book.limits[prefs.place];
    return [
      line(number(limit, 2) + "\u00a0mg/m³", "limit on this dust, " + fraction + ", set by " + driver + " (" + list_name + ")", "", " deep"),
      line(number(limit * prefs.room, 2) + "\u00a0mg", "aloft in your " + number(prefs.room) + " m³ room: " + yours_words, "", " deep")];
  }
  function show() {
    if (!list) return;
    list.querySelectorAll(".mine").forEach((each) => each.remove());
    const lines = [], at = names.binders.findIndex(([id]) => id === prefs.binder), chosen = at >= 0;
    if (chosen && !book.shut) lines.push(start(names.binders[at][1], book.starts[at]));
    if (book.limits[prefs.place]) lines.push(...budget());
    list.querySelectorAll("li").forEach((each) => {
      each.hidden = (chosen && each.textContent.includes(" of pigment")) || Boolean(book.limits[prefs.place] && /limit on this dust|threshold for any dust|aloft/.test(each.textContent));
    });
    list.prepend(...lines);
  }
  panel(place, names.binders, names.places.filter(([id]) => book.limits[id]));
  document.addEventListener("mullbook:prefs", show);
  show();
})();
