/* Two to six pigments side by side, out of the table that stands on the page; the address carries their ids. */
(function () {
  "use strict";
  const place = document.getElementById("side-by-side"), table = document.querySelector("table.compare");
  if (!place || !table) return;
  const MOST = 6, heads = [...table.tHead.rows[0].cells].map((each) => each.textContent.trim());
  const rows = new Map([...table.tBodies[0].rows].map((row) => [row.cells[0].querySelector("a").getAttribute("href").split("/").pop().replace(".html", ""), row]));
  const name = (id) => rows.get(id).cells[0].textContent.replace("not measured", "").trim();
  let chosen = (new URLSearchParams(location.search).get("ids") || "").split(",").filter((id) => rows.has(id)).slice(0, MOST);
  chosen = [...new Set(chosen)];

  function make(tag, attributes, ...inside) {
    const element = document.createElement(tag);
    Object.entries(attributes).forEach(([key, value]) => element.setAttribute(key, value));
    element.append(...inside);
    return element;
  }
  const select = make("select", { id: "compare-pick" }), picked = make("ul", { class: "picked" }), told = make("p", { role: "status", class: "how" }), sheet = make("div", {});
  select.append(make("option", { value: "" }, "choose a pigment"), ...[...rows.keys()].map((id) => make("option", { value: id }, name(id))));

  function column(id, place_in_row) {
    const cell = rows.get(id).cells[place_in_row], copy = make("td", {});
    copy.append(...[...cell.cloneNode(true).childNodes]);
    return copy;
  }
  function head(id) {
    const link = rows.get(id).cells[0].querySelector("a").cloneNode(true);
    return make("th", { scope: "col" }, link);
  }
  function draw() {
    picked.replaceChildren(...chosen.map((id) => {
      const away = make("button", { type: "button", "aria-label": "Take " + name(id) + " away" }, name(id) + " ×");
      away.addEventListener("click", () => { chosen = chosen.filter((each) => each !== id); draw(); select.focus(); });
      return make("li", {}, away);
    }));
    select.disabled = chosen.length >= MOST;
    told.textContent = chosen.length < 2 ? "Choose two to " + MOST + "." : chosen.length === MOST ? "Six is the most that can be read side by side." : "";
    sheet.replaceChildren();
    if (chosen.length > 1) {
      /* What nobody knows of any of them is said once, below. */
      const known = (n) => chosen.some((id) => rows.get(id).cells[n].textContent.trim() !== "—"), places = heads.map((title, n) => n).slice(1);
      const body = places.filter(known).map((n) => make("tr", {}, make("th", { scope: "row" }, heads[n]), ...chosen.map((id) => column(id, n))));
      const unknown = places.filter((n) => !known(n)).map((n) => heads[n]);
      sheet.append(make("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": "The chosen pigments" },
        make("table", { class: "compare side" }, make("thead", {}, make("tr", {}, make("th", { scope: "col" }, ""), ...chosen.map(head))), make("tbody", {}, ...body))));
      sheet.querySelector("thead th").append(make("span", { class: "hide" }, "Property"));
      if (unknown.length) sheet.append(make("p", { class: "how" }, "Not known of any of them: " + unknown.join(", ") + "."));
    }
    try { history.replaceState(null, "", location.pathname + (chosen.length ? "?ids=" + chosen.join(",") : "") + location.hash); } catch (refused) { /* some browsers, from disk */ }
  }
  select.addEventListener("change", () => {
    if (select.value && !chosen.includes(select.value) && chosen.length < MOST) chosen.push(select.value);
    select.value = "";
    draw();
  });
  place.append(make("div", { class: "field" }, make("label", { for: "compare-pick" }, "Side by side"), select), picked, told, sheet);
  draw();
})();
