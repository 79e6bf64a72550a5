/* At the board: a worked solution, one step at a time, large. Before each step comes a question to
   the class. Pieces of the page are copied into a dialog, one slide at a time, with ids of their
   own. */
(function () {
  "use strict";

  var NEXT = ["ArrowRight", "PageDown", " ", "Enter"];
  var BACK = ["ArrowLeft", "PageUp"];
  var LINKED = ["aria-labelledby", "aria-describedby", "for"];
  var LONGEST_WAIT = 600;

  var dialog, stage, place, backButton, nextButton;
  var slides = [], at = 0, current = null, wentFull = false;

  function make(tag, className, text) {
    var made = document.createElement(tag);
    if (className) made.className = className;
    if (text) made.textContent = text;
    return made;
  }

  function button(text, act) {
    var made = make("button", "", text);
    made.type = "button";
    made.addEventListener("click", act);
    return made;
  }

  /* A copy whose ids stand nowhere else on the page, or nothing. */
  function copy(node) {
    if (!node) return null;
    var made = node.cloneNode(true);
    made.removeAttribute("hidden");
    var all = [made].concat(Array.prototype.slice.call(made.querySelectorAll("*")));
    all.forEach(function (each) {
      if (each.id) each.id = "board-" + each.id;
      LINKED.forEach(function (link) {
        var value = each.getAttribute(link);
        if (value) each.setAttribute(link, value.replace(/\S+/g, "board-$&"));
      });
    });
    return made;
  }

  function inner(node) {
    var made = document.createDocumentFragment();
    var copied = copy(node);
    while (copied && copied.firstChild) made.appendChild(copied.firstChild);
    return made;
  }

  function plain(figure) {
    var made = copy(figure);
    if (!made) return null;
    Array.prototype.forEach.call(made.querySelectorAll(".sw-trace, figcaption"), function (node) {
      node.parentNode.removeChild(node);
    });
    return made;
  }

  /* What a slide shows is made when it is shown, so that it has the numbers of that moment. */
  function slide(label, heading, words, beside) {
    return { label: label, heading: heading, words: words, beside: beside };
  }

  /* The options of a choice, with the verdict once it is told. */
  function optionsOf(form, tell) {
    var list = make("ol", "sw-board-options");
    Array.prototype.forEach.call(form.querySelectorAll(".sw-option"), function (option, index) {
      var item = make("li");
      item.appendChild(inner(option.querySelector("span")));
      if (tell && option.querySelector("[data-right]")) {
        item.className = "sw-board-right";
        item.appendChild(make("b", "", " ✓"));
        var reply = form.querySelector('[data-reply="' + (index + 1) + '"] .sw-reply-text');
        var told = make("p");
        told.appendChild(inner(reply));
        item.appendChild(told);
      }
      list.appendChild(item);
    });
    return [list];
  }

  /* What is answered by ranking or in the figure has no options: its answer follows alone. */
  function answerOf(form) {
    return Array.prototype.map.call(form.querySelectorAll(".sw-answer > :not(summary)"), copy);
  }

  function predictSlides(form, figure) {
    var choice = form.querySelector(".sw-option") !== null;
    var ask = function () { return inner(form.querySelector("legend")); };
    var beside = function () { return [plain(figure)]; };
    return [
      slide("Predict first", ask, function () { return choice ? optionsOf(form, false) : []; }, beside),
      slide("Predict first", ask,
        function () { return choice ? optionsOf(form, true) : answerOf(form); }, beside),
    ];
  }

  function stepSlides(step, label, figureBefore) {
    /* A lesson may show a solution without the problem's own figure. */
    var before = figureBefore || step.querySelector(".sw-plate-before");
    return [
      slide(label, function () { return inner(step.querySelector(".sw-prompt")); },
        function () { return [copy(step.querySelector(".sw-so-far"))]; },
        function () { return [plain(before)]; }),
      slide(label, function () { return inner(step.querySelector(".sw-step-goal")); },
        function () { return [copy(step.querySelector(".sw-step-words"))]; },
        function () { return [copy(step.querySelector(".sw-step-figures"))]; }),
    ];
  }

  function slidesOf(box) {
    var whose = '[data-problem="' + box.dataset.board + '"]';
    var opening = document.querySelector(".sw-opening" + whose);
    var checks = document.querySelector(".sw-checks" + whose);
    var asked = document.querySelectorAll(
      ["predict", "before-"].map(function (start) {
        return 'form[data-question-id^="' + box.dataset.board + "-" + start + '"]';
      }).join(", "));
    var given = opening && opening.querySelector("figure");
    var figure = given;
    var made = [];
    if (opening) {
      made.push(slide("The problem", function () { return document.createTextNode(box.dataset.title); },
        function () { return [copy(opening.querySelector(".sw-opening-words"))]; },
        function () { return [plain(given)]; }));
    }
    Array.prototype.forEach.call(asked, function (form) {
      made = made.concat(predictSlides(form, given));
    });
    var steps = Array.prototype.slice.call(box.querySelectorAll("details.sw-step"));
    steps.forEach(function (step, index) {
      made = made.concat(stepSlides(step, "Step " + (index + 1) + " of " + steps.length, figure));
      figure = step.querySelector("figure:not(.sw-plate-before)");
    });
    if (checks) {
      var last = figure;
      var besides = function () { return [plain(last)]; };
      made.push(slide("The checks", function () { return inner(box.querySelector(".sw-checks-prompt")); },
        function () { return []; }, besides));
      made.push(slide("The checks", function () { return document.createTextNode("It adds up"); },
        function () { return [copy(checks)]; }, besides));
    }
    return made;
  }

  function fill(column, nodes) {
    nodes.forEach(function (node) { if (node) column.appendChild(node); });
    return column;
  }

  function show(index) {
    at = Math.max(0, Math.min(index, slides.length - 1));
    var shown = slides[at];
    var heading = make("h2", "sw-board-heading");
    var words = make("div", "sw-board-words");
    heading.tabIndex = -1;
    heading.setAttribute("aria-describedby", "sw-board-place");
    heading.appendChild(shown.heading());
    words.appendChild(heading);
    fill(words, shown.words());
    stage.textContent = "";
    stage.appendChild(words);
    stage.appendChild(fill(make("div", "sw-board-figures"), shown.beside()));
    stage.scrollTop = 0;
    place.textContent = shown.label;
    backButton.disabled = at === 0;
    nextButton.disabled = at === slides.length - 1;
    heading.focus({ preventScroll: true });
  }

  function pressed(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    var target = event.target, key = event.key;
    if ((key === " " || key === "Enter") && target.closest("button")) return;
    /* A formula wider than the screen is scrolled with the arrows. */
    var box = target.closest(".sw-scroll");
    if (box && box.scrollWidth > box.clientWidth && /^Arrow/.test(key)) return;
    var to = null;
    if (key === " " && event.shiftKey) to = at - 1;
    else if (NEXT.indexOf(key) >= 0) to = at + 1;
    else if (BACK.indexOf(key) >= 0) to = at - 1;
    else if (key === "Home") to = 0;
    else if (key === "End") to = slides.length - 1;
    if (to === null) return;
    event.preventDefault();
    event.stopPropagation();
    if (to !== at && to >= 0 && to < slides.length) show(to);
  }

  function build() {
    dialog = make("dialog", "sw-board");
    dialog.setAttribute("aria-modal", "true");
    stage = make("div", "sw-board-slide");
    var bar = make("div", "sw-board-bar");
    place = make("p", "sw-board-place");
    place.id = "sw-board-place";
    backButton = button("Back", function () { show(at - 1); });
    nextButton = button("Next", function () { show(at + 1); });
    nextButton.className = "sw-board-next";
    [backButton, place, nextButton, button("Leave", function () { dialog.close(); })].forEach(
      function (node) { bar.appendChild(node); }
    );
    dialog.appendChild(stage);
    dialog.appendChild(bar);
    dialog.addEventListener("keydown", pressed);
    dialog.addEventListener("close", left);
    document.addEventListener("fullscreenchange", function () {
      if (wentFull && !document.fullscreenElement && dialog.open) dialog.close();
    });
    document.body.appendChild(dialog);
  }

  function left() {
    stage.textContent = "";
    if (wentFull && document.fullscreenElement) document.exitFullscreen();
    wentFull = false;
    current.at = at;
    current.opener.focus();
  }

  /* The whole page goes full screen before the dialog opens: a dialog itself may not, and what
     goes last lies on top. Where full screen is refused, the dialog fills the window. */
  function fullScreen(then) {
    var waiting = true;
    function goOn(full) {
      wentFull = full;
      if (waiting) then();
      waiting = false;
    }
    var root = document.documentElement;
    if (!root.requestFullscreen || !document.fullscreenEnabled) return goOn(false);
    window.setTimeout(function () { if (waiting) goOn(false); }, LONGEST_WAIT);
    root.requestFullscreen().then(goOn.bind(null, true), goOn.bind(null, false));
  }

  function open(of) {
    if (!dialog) build();
    if (dialog.open) return;
    fullScreen(function () {
      current = of;
      slides = slidesOf(of.box);
      dialog.setAttribute("aria-label", "At the board: " + of.box.dataset.title);
      dialog.showModal();
      show(of.at);
    });
  }

  function setUp(box) {
    var bar = box.nextElementSibling;
    if (!bar || !bar.classList.contains("sw-steps-act")) {
      bar = make("p", "sw-steps-act");
      box.parentNode.insertBefore(bar, box.nextSibling);
    }
    var of = { box: box, at: 0, opener: null };
    of.opener = button("Show at the board", open.bind(null, of));
    bar.appendChild(of.opener);
  }

  function start() {
    if (typeof HTMLDialogElement === "undefined") return;
    Array.prototype.forEach.call(document.querySelectorAll(".sw-steps[data-board]"), setUp);
  }

  if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", start);
  else start();
})();
