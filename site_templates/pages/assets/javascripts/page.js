/* The text search panel follows the theme's hidden switch, and wide tables can be reached from the keyboard. */
(function () {
  "use strict";
  var panel = document.querySelector("details.seek");
  var toggle = document.getElementById("__search");
  var query = document.getElementById("text-query");
  if (panel && toggle && query) {
    panel.addEventListener("toggle", function () {
      if (toggle.checked !== panel.open) toggle.click();
      if (panel.open) query.focus();
    });
    toggle.addEventListener("change", function () { panel.open = toggle.checked; });
    panel.open = toggle.checked;
    document.addEventListener("click", function (event) {
      if (panel.open && !event.target.closest(".seek, .md-search, #__search")) panel.open = false;
    });
  }
  document.querySelectorAll(".scroll, .md-typeset__scrollwrap").forEach(function (box) {
    if (box.scrollWidth > box.clientWidth && !box.hasAttribute("tabindex")) box.tabIndex = 0;
  });
})();
