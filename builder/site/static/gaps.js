/* A worked example with gaps: its last step is left blank, then its last two, and so on down to
   the bare problem. A blank step shows what is to be found in its place; once that is found, the
   step shows what it says. */
(function () {
  "use strict";

  var stepwell = window.stepwell;

  function number(count) {
    return count === 1 ? "the last step" : "the last " + count + " steps";
  }

  /* The choices: nothing, the last step, the last two and so on, and the bare problem. */
  function choices(count) {
    var select = document.createElement("select");
    function add(value, text) {
      var option = stepwell.element("option", "", text);
      option.value = String(value);
      select.appendChild(option);
    }
    add(0, "nothing");
    for (var blank = 1; blank < count; blank += 1) add(blank, number(blank));
    add(count, "all: the bare problem");
    return select;
  }

  function setUp(box) {
    var steps = Array.prototype.slice.call(box.querySelectorAll("details.sw-step"));
    var able = steps.filter(function (step) { return step.querySelector(".sw-gaps"); });
    if (able.length === 0) return;

    var bar = stepwell.element("p", "sw-steps-act sw-gaps-act", "");
    var label = stepwell.element("label", "", "Leave blank for me: ");
    var select = choices(able.length);
    var more = stepwell.element("button", "", "One more blank");
    var says = stepwell.element("span", "sw-gaps-says", "");
    var plan = box.parentNode.querySelector(".sw-plan");
    var level = 0;
    more.type = "button";
    says.setAttribute("role", "status");
    label.appendChild(select);
    bar.appendChild(label);
    bar.appendChild(more);
    bar.appendChild(says);
    box.parentNode.insertBefore(bar, box);

    function bare() {
      return level === able.length;
    }

    function blanks() {
      return level === 0 ? [] : able.slice(able.length - level).filter(function (step) {
        return !bare() || asks(step);
      });
    }

    function forms(step) {
      return Array.prototype.slice.call(step.querySelectorAll(".sw-gaps form"));
    }

    function filled(step) {
      return forms(step).every(function (form) { return form.hasAttribute("data-filled"); });
    }

    /* Shows a step as it is, or what is asked in its place. */
    function dress(step, blank) {
      var open = blank && !filled(step);
      var gaps = step.querySelector(".sw-gaps");
      step.classList.toggle("sw-step-blank", open);
      step.classList.toggle("sw-step-bare", open && bare());
      mark(step, open);
      step.querySelector(".sw-step-body").hidden = open;
      if (gaps) gaps.hidden = !blank;
    }

    /* Says in the heading of a step that it is the reader's own. */
    function mark(step, open) {
      var yours = step.querySelector(".sw-step-yours");
      if (!yours) {
        yours = stepwell.element("span", "sw-step-yours", "");
        step.querySelector("summary").appendChild(yours);
      }
      yours.textContent = !open ? "" : bare() ? "what is asked" : "yours";
    }

    function tell() {
      var left = blanks().filter(function (step) { return !filled(step); }).length;
      more.hidden = true;
      if (level === 0) {
        says.textContent = "";
      } else if (left === 0) {
        says.textContent = bare()
          ? "All found, from the bare problem. The steps are shown again."
          : "All blanks filled.";
        more.hidden = bare();
      } else if (bare()) {
        says.textContent = "Only the problem is left. Find what is asked.";
      } else {
        says.textContent = (level === 1 ? "The last step is yours." :
          "The last " + level + " steps are yours.");
      }
    }

    function show() {
      var rest = bare() && able.some(function (step) { return !filled(step) && asks(step); });
      if (plan) plan.hidden = rest;
      steps.forEach(function (step) { step.hidden = rest && !asks(step); });
      able.forEach(function (step, at) {
        dress(step, at >= able.length - level && (!bare() || asks(step)));
      });
      tell();
    }

    function asks(step) {
      var gaps = step.querySelector(".sw-gaps");
      return gaps !== null && gaps.hasAttribute("data-asked");
    }

    /* Every blank is asked anew. */
    function choose(wanted) {
      level = wanted;
      select.value = String(level);
      able.forEach(function (step) {
        forms(step).forEach(function (form) {
          if (form.hasAttribute("data-filled")) stepwell.startAnew(form);
          form.removeAttribute("data-filled");
        });
      });
      show();
      blanks().forEach(function (step) { step.open = true; });
    }

    select.addEventListener("change", function () { choose(Number(select.value)); });
    more.addEventListener("click", function () {
      choose(level + 1);
      select.focus();
    });
    box.addEventListener("stepwell:answered", function (event) {
      if (!event.target.closest(".sw-gaps") || !event.detail.right) return;
      event.target.setAttribute("data-filled", "");
      show();
    });
    document.addEventListener("stepwell:renumbered", function () { choose(level); });
    choose(0);
  }

  document.addEventListener("DOMContentLoaded", function () {
    stepwell.each(document, "[data-steps]", setUp);
  });
})();
