/* Two ways to put a page on paper: with its solution, or the problem alone. */
(function () {
  "use strict";

  var PROBLEM_ONLY = "sw-problem-only";
  var root = document.documentElement;
  var opened = [];

  /* What is closed would be lost on paper; what was closed is closed again afterwards. */
  function openAll() {
    var closed = document.querySelectorAll(
      "details.sw-step:not([open]), details.sw-answer:not([open])");
    opened = opened.concat(Array.prototype.slice.call(closed));
    opened.forEach(function (details) { details.open = true; });
  }

  function restore() {
    opened.forEach(function (details) { details.open = false; });
    opened = [];
    root.classList.remove(PROBLEM_ONLY);
  }

  function button(text, problemOnly) {
    var made = document.createElement("button");
    made.type = "button";
    made.textContent = text;
    made.addEventListener("click", function () {
      root.classList.toggle(PROBLEM_ONLY, problemOnly);
      window.print();
    });
    return made;
  }

  function offer() {
    var parts = document.querySelectorAll('.sw-part[data-part="solution"]');
    if (!parts.length) return;
    var last = parts[parts.length - 1];
    var onward = document.querySelector('.sw-part[data-part="onward"]');
    var bar = document.createElement("p");
    bar.className = "sw-print-act";
    bar.appendChild(button("Print with the solution", false));
    bar.appendChild(button("Print the problem only", true));
    if (onward) onward.parentNode.insertBefore(bar, onward);
    else last.parentNode.appendChild(bar);
  }

  /* The foot of every sheet; a style sheet cannot read a page's title itself. */
  function foot(set) {
    var told = document.title + (set ? ", with set " + set : "");
    root.style.setProperty("--sw-foot", JSON.stringify(told));
  }

  function start() {
    foot(0);
    document.addEventListener("stepwell:renumbered", function (event) { foot(event.detail.set); });
    window.addEventListener("beforeprint", openAll);
    window.addEventListener("afterprint", restore);
    offer();
  }

  if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", start);
  else start();
})();
