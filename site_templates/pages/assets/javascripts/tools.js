/* What the tools in the page share: fields that answer in words, units, addresses, small pieces of page. */
(function () {
  "use strict";
  const { number, make, recall, remember } = window.MULLBOOK_PAGE, prefs = window.MULLBOOK_PREFS, formulas = window.MULLBOOK_FORMULAS;

  /* A number as people write it: point or comma, the thousands left plain. Gives {value} or {words}. */
  function read(text, { low, high, above, optional } = {}) {
    const written = text.replace(/[\u00a0\u202f]/g, " ").trim();
    if (!written) return optional ? { value: null } : { words: "Write a number here." };
    if (/[<>&"]/.test(written)) return { words: "Only a number belongs here, such as " + number(2.5) + ". What was pasted is no number." };
    const plain = written.replace(/(\d) (?=\d{3}(\D|$))/g, "$1").replace("\u2212", "-");
    if (/[.,].*[.,]/.test(plain)) return { words: "Write one decimal mark and no marks between thousands, such as " + number(1000.5, 5) + "." };
    if (!prefs.comma && /^\d{1,3},\d{3}$/.test(plain)) return { words: "Is that a thousand, or a comma before decimals? Write " + plain.replace(",", "") + " or " + plain.replace(",", ".") + "." };
    if (!/^[-+]?(\d+([.,]\d*)?|[.,]\d+)(e[-+]?\d{1,3})?$/i.test(plain)) return { words: "Only a number belongs here, such as " + number(2.5) + "; the unit stands beside it." };
    const value = Number(plain.replace(",", "."));
    if (!Number.isFinite(value)) return { words: "That is more than can be reckoned with." };
    if (above != null && value <= above) return { words: "More than " + number(above) + " belongs here." };
    if (low != null && value < low) return { words: "At least " + number(low, 6) + " belongs here." };
    if (high != null && value > high) return { words: "At most " + number(high, 6) + " belongs here." };
    return { value };
  }

  /* Weights and volumes are reckoned in g and ml and shown in the units chosen. */
  const PER = { g: () => prefs.mass === "oz" ? formulas.grams_of_ounces(1) : 1, ml: () => prefs.volume === "floz" ? formulas.millilitres_of_fluid_ounces(1) : 1 };
  const factor = (measure) => PER[measure] ? PER[measure]() : 1;
  const unit = (measure) => measure === "g" && prefs.mass === "oz" ? "oz" : measure === "ml" && prefs.volume === "floz" ? "fl oz" : measure;
  const shown = (value, measure, figures = 3) => value == null ? "not derivable" : number(value / factor(measure), figures) + "\u00a0" + unit(measure);

  const bounds = (input) => {
    const { low, high, above, optional, measure } = input.dataset, in_unit = (text) => text == null ? undefined : Number(text) / factor(measure);
    return { low: in_unit(low), high: in_unit(high), above: in_unit(above), optional: optional != null };
  };
  function complain(input, words) {
    const place = document.getElementById(input.id + "-words");
    input.setAttribute("aria-invalid", String(Boolean(words)));
    if (!place) return;
    place.textContent = words || "";
    place.hidden = !words;
  }
  /* Where they are needed, other scales are read as they are written: 68 F for water, 200 mesh for grains. */
  const SCALES = { celsius: [/^([\d.,]+)\s*°?\s*F$/i, formulas.celsius_of_fahrenheit], micrometres: [/^(?:No\.?|#)?\s*([\d.,]+)\s*mesh$|^(?:No\.?|#)\s*([\d.,]+)$/i, formulas.opening_of_mesh] };
  function rescaled(input) {
    const [scale, from] = SCALES[input.dataset.scale] || [], found = scale && input.value.trim().match(scale);
    if (!found) return input.value;
    try { return String(from(Number((found[1] || found[2]).replace(",", ".")))); } catch (refused) { return input.value; }
  }
  /* The value of a field in g, ml or as it stands; undefined where it is no number, and the field then says why. */
  function value_of(input) {
    if (!input || input.closest("[hidden]")) return null;
    const found = read(rescaled(input), bounds(input));
    complain(input, found.words);
    return found.words ? undefined : found.value == null ? null : found.value * factor(input.dataset.measure);
  }
  function put(input, value) {
    input.value = value == null || value === "" ? "" : number(value / factor(input.dataset.measure), 6).replace("\u2212", "-");
    complain(input);
  }
  /* When units change, what stands in the fields is written anew. */
  function follow_units(form, again) {
    let before = { g: factor("g"), ml: factor("ml"), comma: prefs.comma };
    const label = () => form.querySelectorAll("[data-unit]").forEach((each) => { each.textContent = unit(each.dataset.unit); });
    document.addEventListener("mullbook:prefs", () => {
      form.querySelectorAll("input[data-number]").forEach((input) => {
        const typed = Number(input.value.trim().replace(",", "."));
        if (input.value.trim() && Number.isFinite(typed)) put(input, typed * (before[input.dataset.measure] || 1));
      });
      before = { g: factor("g"), ml: factor("ml"), comma: prefs.comma };
      label();
      again();
    });
    form.querySelectorAll("input[data-number]").forEach((input) => {
      const typed = Number(input.value);
      if (input.value.trim() && Number.isFinite(typed)) put(input, typed);
    });
    label();
  }

  const level_chip = (bench, place) => {
    const [id, name] = bench.levels[place], chip = make("span", { className: "lv lv-" + id });
    chip.innerHTML = '<svg class="shape" aria-hidden="true"><use href="#lv-' + id + '"/></svg>';
    chip.append(name);
    return chip;
  };
  const options = (select, list, chosen) => select.replaceChildren(...list.map(([value, name]) => make("option", { value, selected: value === chosen }, name)));
  /* Entries in groups, so that a thumb finds a brown among the browns. */
  function grouped(select, none, entries, group) {
    const groups = new Map();
    entries.forEach((each) => groups.set(group(each), [...groups.get(group(each)) || [], each]));
    const chosen = select.value;
    select.replaceChildren(...none == null ? [] : [make("option", { value: "" }, none)], ...[...groups].map(([name, list]) =>
      make("optgroup", { label: name.replace(/-/g, " ") }, ...list.map((each) => make("option", { value: each.id }, each.name)))));
    if (chosen || none != null) select.value = chosen || "";
  }

  /* The address carries what was asked, so that a bookmark or a message brings it back. */
  function address(asked) {
    const query = new URLSearchParams(asked);
    return location.pathname + (String(query) && "?" + query) + location.hash;
  }
  let waiting = 0;
  function keep_address(asked) {
    clearTimeout(waiting);
    waiting = setTimeout(() => { try { history.replaceState(null, "", address(asked)); } catch (refused) { /* some browsers, from disk */ } }, 300);
  }
  async function copy(text, status) {
    const said = (words) => { if (status) status.textContent = words; };
    try { await navigator.clipboard.writeText(text); said("Copied."); } catch (refused) {
      const box = make("textarea", { className: "hide" });
      box.value = text;
      document.body.append(box);
      box.select();
      said(document.execCommand("copy") ? "Copied." : "This browser does not copy: take it from the address bar.");
      box.remove();
    }
  }

  window.MULLBOOK_TOOLS = { read, value_of, put, complain, factor, unit, shown, follow_units, level_chip, options, grouped, address, keep_address, copy, number, make, recall, remember, prefs };
})();
