/* Pointing at a symbol marks its element in the figure beside it, and the other way round.

   Pointing is a help for the eye, so nothing is added to the order of the Tab key: the figure's
   labels say the same. Whoever goes by keyboard reaches the goals of the steps, and formulas that
   scroll; while one has the focus, all that it names is marked. */
(function () {
  "use strict";

  var SCOPES = ".sw-step, .sw-opening, .sw-board-slide";
  var marked = [];

  /* What follows an @ tells a moment: the charge of C1@2 is that of C1 after the second stage. */
  function nameOf(node) {
    var parts = (node.dataset.q || "").split(":");
    var name = node.dataset.of || node.dataset.element || node.dataset.source ||
      (parts.length === 2 ? parts[1] : "");
    return name.split("@")[0];
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

  /* What the goal or formula in focus names, or nothing: where the pointer rests on nothing. */
  function rest() {
    var box = document.querySelector(".sw-step > summary:focus-visible, .sw-scroll:focus-visible");
    var scope = box && box.closest(SCOPES);
    if (!scope) return unmark();
    mark(scope, Array.prototype.map.call(box.querySelectorAll(".sw-sym[data-of]"), nameOf));
  }

  function pointed(event) {
    var node = event.target.closest && event.target.closest(
      ".sw-sym[data-of], .sw-n[data-q], .sw-figure [data-element], .sw-figure [data-source]"
    );
    var scope = node && node.closest(SCOPES);
    if (scope && nameOf(node)) mark(scope, [nameOf(node)]);
    else if (marked.length) rest();
  }

  document.addEventListener("pointerover", pointed);
  document.addEventListener("pointerdown", pointed);
  document.addEventListener("focusin", rest);
  document.addEventListener("focusout", unmark);
})();
