/* A page on a stick cannot know how old it is, so the reader's clock decides whether a review is overdue. */
(function () {
  "use strict";
  var now = new Date();
  var today = now.getFullYear() + "-" + ("0" + (now.getMonth() + 1)).slice(-2) + "-" + ("0" + now.getDate()).slice(-2);
  document.querySelectorAll("[data-review-by]").forEach(function (element) {
    var due = element.getAttribute("data-review-by");
    if (!/^\d{4}-\d{2}-\d{2}$/.test(due) || today <= due) return;
    var note = document.createElement("strong");
    note.className = "overdue";
    note.textContent = "Review overdue since " + due;
    element.classList.add("is-overdue");
    element.append(" ", note);
  });
})();
