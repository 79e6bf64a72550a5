/* Pointing at a symbol marks its element in the figure beside it, and the other way round.

   Pointing is a help for the eye, so nothing is added to the order of the Tab key: the figure's
   labels say the same. Whoever goes by keyboard reaches the formulas, which scroll; while one has
   the focus, all that it speaks of is marked. */
(function () {
  "use strict";

  var SCOPES = ".sw-step-body, .sw-opening, .sw-board-slide";
  var marked = [];

  function nameOf(node) {
    if (node.dataset.of) return node.dataset.of;
    if (node.dataset.element) return node.dataset.element;
    if (node.dataset.source) return node.dataset.source;
    var parts = (node.dataset.q || "").split(":");
    return parts.length === 2 ? parts[1] : "";
  }

  function unmark() {
    marked.forEach(function (node) { node.classList.remove("sw-pointed"); });
    marked = [];
  }

  function mark(scope, names) {
    unmark();
    var found = scope.querySelectorAll(".sw-sym[data-of], .sw-n[data-q], [data-element], [data-source]");
    Array.prototype.forEach.call(found, function (node) {
      if (names.indexOf(nameOf(node)) < 0) return;
      node.classList.add("sw-pointed");
      marked.push(node);
    });
  }

  function pointed(event) {
    var node = event.target.closest && event.target.closest(
      ".sw-sym[data-of], .sw-n[data-q], .sw-figure [data-element], .sw-figure [data-source]"
    );
    var scope = node && node.closest(SCOPES);
    if (scope && nameOf(node)) mark(scope, [nameOf(node)]);
    else if (event.type === "pointerdown" || marked.length) unmark();
  }

  function focused(event) {
    var box = event.target.closest && event.target.closest(".sw-scroll");
    var scope = box && box.closest(SCOPES);
    if (!scope) return;
    var names = Array.prototype.map.call(box.querySelectorAll(".sw-sym[data-of]"), nameOf);
    mark(scope, names);
  }

  document.addEventListener("pointerover", pointed);
  document.addEventListener("pointerdown", pointed);
  document.addEventListener("focusin", focused);
  document.addEventListener("focusout", unmark);
})();
