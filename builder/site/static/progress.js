/* What is done so far, kept by this browser alone. A problem is begun when one of its steps was
   opened or one of its questions answered, and done when all of its self-check was answered
   right. Kept as {"problem": {"right": ["problem-q1"], "done": true}}. */
(function () {
  "use strict";

  var marked = document.querySelector("[data-unit]");
  if (!marked) return;
  var KEY = "stepwell:progress:" + marked.dataset.unit;

  function read() {
    try {
      var kept = JSON.parse(window.localStorage.getItem(KEY));
      return kept && typeof kept === "object" && !Array.isArray(kept) ? kept : {};
    } catch (unreadable) {
      return {};
    }
  }

  function write(progress) {
    try {
      window.localStorage.setItem(KEY, JSON.stringify(progress));
      return true;
    } catch (refused) {
      return false;
    }
  }

  function forget() {
    try {
      window.localStorage.removeItem(KEY);
    } catch (refused) {
      /* Where nothing can be kept, nothing is left to forget. */
    }
  }

  function canKeep() {
    try {
      var test = KEY + ":test";
      window.localStorage.setItem(test, "1");
      window.localStorage.removeItem(test);
      return true;
    } catch (refused) {
      return false;
    }
  }

  function of(progress, problem) {
    var found = Object.prototype.hasOwnProperty.call(progress, problem) ? progress[problem] : null;
    if (!found || typeof found !== "object") return null;
    return { right: Array.isArray(found.right) ? found.right : [], done: found.done === true };
  }

  function note(problem, question) {
    var progress = read();
    var own = of(progress, problem) || { right: [], done: false };
    if (question && own.right.indexOf(question) === -1) own.right.push(question);
    var asked = Array.prototype.map.call(
      document.querySelectorAll('.sw-questions [data-question-id][data-problem="' + problem + '"]'),
      function (form) { return form.dataset.questionId; }
    );
    own.done = own.done || (asked.length > 0 && asked.every(function (id) {
      return own.right.indexOf(id) !== -1;
    }));
    progress[problem] = own;
    write(progress);
  }

  function watch() {
    document.addEventListener("stepwell:answered", function (event) {
      var form = event.target;
      if (form.dataset.problem) note(form.dataset.problem, event.detail.right ? event.detail.id : "");
    });
    /* The toggle of a details does not bubble, but it can be caught on its way down. */
    document.addEventListener("toggle", function (event) {
      var box = event.target.open && event.target.closest && event.target.closest("[data-steps]");
      if (box && box.dataset.problem) note(box.dataset.problem, "");
    }, true);
  }

  function showOnCards() {
    var progress = read();
    Array.prototype.forEach.call(document.querySelectorAll(".sw-card[data-problem]"), function (card) {
      var own = of(progress, card.dataset.problem);
      var place = card.querySelector("[data-done]");
      place.textContent = own ? (own.done ? "✓ done" : "begun") : "";
      place.classList.toggle("sw-card-done-all", Boolean(own && own.done));
      card.classList.toggle("sw-card-begun", Boolean(own && !own.done));
      card.classList.toggle("sw-card-finished", Boolean(own && own.done));
    });
  }

  function summary(problems) {
    var progress = read();
    var begun = problems.filter(function (problem) { return of(progress, problem); });
    var done = begun.filter(function (problem) { return of(progress, problem).done; });
    if (begun.length === 0) {
      return "Nothing done yet. What you do is noted here, in this browser alone.";
    }
    if (done.length === problems.length) {
      return "All " + problems.length + " problems done. Noted in this browser alone.";
    }
    var open = begun.length - done.length;
    return done.length + " of " + problems.length + " problems done" +
      (open ? ", " + open + " more begun" : "") + ". Noted in this browser alone.";
  }

  function setUpBox(box) {
    var says = box.querySelector("[data-progress-says]");
    var ask = box.querySelector("[data-forget]");
    var sure = box.querySelector("[data-forget-sure]");
    var yes = box.querySelector("[data-forget-yes]");
    var no = box.querySelector("[data-forget-no]");
    var problems = Array.prototype.map.call(
      document.querySelectorAll(".sw-path [data-problem]"),
      function (card) { return card.dataset.problem; }
    );

    function show() {
      says.textContent = canKeep()
        ? summary(problems)
        : "This browser keeps nothing for these pages, so what you have done cannot be noted.";
      ask.hidden = Object.keys(read()).length === 0;
      sure.hidden = true;
    }
    ask.addEventListener("click", function () {
      ask.hidden = true;
      sure.hidden = false;
      no.focus();
    });
    no.addEventListener("click", function () {
      show();
      ask.focus();
    });
    yes.addEventListener("click", function () {
      forget();
      show();
      showOnCards();
      says.textContent = "All forgotten. " + says.textContent;
      says.tabIndex = -1;
      says.focus();
    });
    return show;
  }

  var boxes = Array.prototype.map.call(document.querySelectorAll("[data-progress]"), setUpBox);
  function showAll() {
    showOnCards();
    boxes.forEach(function (show) { show(); });
  }
  watch();
  showAll();
  /* Coming back to a list by the browser's own button, or from another tab, shows what is new. */
  window.addEventListener("pageshow", function (event) { if (event.persisted) showAll(); });
  window.addEventListener("storage", function (event) { if (event.key === KEY) showAll(); });
})();
