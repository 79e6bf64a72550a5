/* A question answered by picking elements: by boxes to tick, and by pointing at the figure above
   them, which are kept in step. The keyboard and screen readers have the boxes; the figure shows
   what is picked, and which box has the focus. */
(function () {
  "use strict";

  var stepwell = window.stepwell;

  function boxes(form) {
    return Array.prototype.slice.call(form.querySelectorAll(".sw-pick input"));
  }

  function drawn(form, id) {
    return Array.prototype.filter.call(
      form.querySelectorAll(".sw-pick-in [data-element], .sw-pick-in [data-source]"),
      function (node) { return (node.dataset.element || node.dataset.source) === id; }
    )[0];
  }

  function refresh(form) {
    boxes(form).forEach(function (box) {
      var node = drawn(form, box.value);
      if (node) node.classList.toggle("sw-picked", box.checked);
    });
  }

  function show(form, box, here) {
    var node = drawn(form, box.value);
    if (node) node.classList.toggle("sw-pick-here", here && box.matches(":focus-visible"));
  }

  function trace(form, on) {
    var button = form.querySelector(".sw-pick-trace");
    if (!button) return;
    button.setAttribute("aria-pressed", String(on));
    form.querySelector(".sw-pick-in").classList.toggle("sw-pick-traced", on);
  }

  function setUp(form) {
    var about = form.querySelector(".sw-pick-in").dataset.about;
    var asked = about && drawn(form, about);
    if (asked) asked.classList.add("sw-pick-about");
    boxes(form).forEach(function (box) {
      var node = drawn(form, box.value);
      if (node) {
        node.classList.add("sw-pick-me");
        node.addEventListener("click", function () {
          box.checked = !box.checked;
          refresh(form);
        });
      }
      box.addEventListener("change", function () { refresh(form); });
      box.addEventListener("focus", function () { show(form, box, true); });
      box.addEventListener("blur", function () { show(form, box, false); });
    });
    var button = form.querySelector(".sw-pick-trace");
    if (button) button.addEventListener("click", function () {
      trace(form, button.getAttribute("aria-pressed") !== "true");
    });
    refresh(form);
  }

  function told(form, box) {
    var item = Array.prototype.filter.call(form.querySelectorAll("[data-reply]"), function (one) {
      return one.dataset.reply === box.value;
    })[0];
    return Array.prototype.map.call(item.querySelector(".sw-reply-text").childNodes, function (node) {
      return node.cloneNode(true);
    });
  }

  function sentences(form, some, before) {
    var nodes = [];
    some.forEach(function (box, at) {
      nodes.push(document.createTextNode(at ? " " : before));
      nodes = nodes.concat(told(form, box));
    });
    return nodes;
  }

  function check(form) {
    var all = boxes(form);
    if (!all.some(function (box) { return box.checked; })) {
      stepwell.reply(form, undefined, [document.createTextNode("Pick at least one first, in the figure or below it.")]);
      return;
    }
    var right = function (box) { return box.hasAttribute("data-right"); };
    var extra = all.filter(function (box) { return box.checked && !right(box); });
    var missed = all.filter(function (box) { return !box.checked && right(box); });
    var button = form.querySelector(".sw-pick-trace");
    if (button) button.hidden = false;
    if (extra.length || missed.length) {
      stepwell.reply(form, false, [].concat(
        sentences(form, extra, "Picked too much: "),
        extra.length && missed.length ? [document.createTextNode(" ")] : [],
        sentences(form, missed, "Missed: ")
      ));
      return;
    }
    stepwell.reply(form, true, sentences(form, all.filter(right), ""));
  }

  function startAnew(form) {
    var button = form.querySelector(".sw-pick-trace");
    if (button) button.hidden = true;
    trace(form, false);
    refresh(form);
  }

  stepwell.question("pick", { check: check, setUp: setUp, startAnew: startAnew });
})();
