/* Steps open one after the other, and links to a step open it. */
(function () {
  "use strict";

  var stepwell = window.stepwell;

  function setUpSteps(box) {
    var steps = Array.prototype.slice.call(box.querySelectorAll("details.sw-step"));
    if (steps.length < 2) return;
    var bar = stepwell.element("p", "sw-steps-act", "");
    var next = stepwell.element("button", "", "Open the next step");
    var all = stepwell.element("button", "", "Open all steps");
    next.type = all.type = "button";
    bar.appendChild(next);
    bar.appendChild(all);
    box.parentNode.insertBefore(bar, box.nextSibling);

    function closed() {
      return steps.filter(function (step) { return !step.open; });
    }
    function refresh() {
      next.disabled = closed().length === 0;
      all.textContent = closed().length === 0 ? "Close all steps" : "Open all steps";
    }
    next.addEventListener("click", function () {
      var step = closed()[0];
      if (!step) return;
      step.open = true;
      step.querySelector("summary").focus();
    });
    all.addEventListener("click", function () {
      var open = closed().length > 0;
      steps.forEach(function (step) { step.open = open; });
    });
    steps.forEach(function (step) { step.addEventListener("toggle", refresh); });
    refresh();
  }

  /* A link to a step opens it, and so does arriving by one. */
  function openTarget() {
    var id = "";
    try {
      id = decodeURIComponent(location.hash.slice(1));
    } catch (broken) {
      /* An address typed wrong leads to no step. */
    }
    var target = id !== "" && document.getElementById(id);
    if (target && target.matches("details.sw-step")) target.open = true;
  }

  /* A box that scrolls is a stop for the keyboard only while there is something to scroll. */
  function stopWhereScrolling() {
    var observer = window.ResizeObserver && new ResizeObserver(function (changes) {
      changes.forEach(function (change) {
        var box = change.target;
        if (box.scrollWidth > box.clientWidth) box.tabIndex = 0;
        else if (box.clientWidth) box.removeAttribute("tabindex");
      });
    });
    if (!observer) return;
    Array.prototype.forEach.call(document.querySelectorAll(".sw-scroll"), function (box) {
      observer.observe(box);
    });
  }

  function start() {
    stopWhereScrolling();
    Array.prototype.forEach.call(document.querySelectorAll("[data-steps]"), setUpSteps);
    window.addEventListener("hashchange", openTarget);
    openTarget();
  }

  if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", start);
  else start();
})();
