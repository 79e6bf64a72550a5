/* Notes what is answered, and shows it: on the cards of problems, beside questions, and at the
   front, where it can be saved to a file, read from one, and forgotten. A problem is begun when one
   of its steps was opened or one of its questions answered, and done when all of its self-check
   was answered right. */
(function () {
  "use strict";

  var stepwell = window.stepwell;
  var keeping = stepwell.keeping;
  if (!keeping.unit) return;
  var NOTHING_KEPT = "This browser keeps nothing for these pages, so what you do here is " +
    "forgotten when you leave the page.";
  /* Which numbers each problem on this page has: 0 as written, else a set of fresh numbers. */
  var sets = {};

  function counted(number, noun) {
    return number + " " + noun + (number === 1 ? "" : "s");
  }

  function all(selector) {
    return Array.prototype.slice.call(document.querySelectorAll(selector));
  }

  function asked(problem) {
    return all(".sw-questions [data-question-id]").filter(function (form) {
      return form.dataset.problem === problem;
    }).map(function (form) { return form.dataset.questionId; });
  }

  function note(problem, question) {
    var progress = keeping.read();
    var own = keeping.of(progress, problem) || keeping.tidied({});
    var set = sets[problem] || 0;
    var right = set ? own.fresh[set] || [] : own.right;
    if (question && right.indexOf(question) === -1) right.push(question);
    var ids = asked(problem);
    var whole = ids.length > 0 && ids.every(function (id) { return right.indexOf(id) !== -1; });
    if (!set) {
      own.done = own.done || whole;
    } else {
      own.fresh[set] = right;
      if (whole && own.sets.indexOf(set) === -1) own.sets.push(set);
    }
    progress[problem] = own;
    keeping.write(progress);
  }

  /* Beside a question that was answered right before, with these numbers. */
  function markQuestions() {
    var progress = keeping.read();
    all(".sw-questions [data-question-id]").forEach(function (form) {
      var own = keeping.of(progress, form.dataset.problem);
      var set = sets[form.dataset.problem] || 0;
      var right = own ? (set ? own.fresh[set] || [] : own.right) : [];
      var mark = form.querySelector(".sw-was-right");
      if (!mark) {
        mark = stepwell.element("p", "sw-fine sw-was-right", "");
        form.insertBefore(mark, form.querySelector(".sw-reply"));
      }
      mark.textContent = right.indexOf(form.dataset.questionId) === -1 ? "" : "✓ Answered right before.";
    });
  }

  function watch() {
    document.addEventListener("stepwell:answered", function (event) {
      var form = event.target;
      if (!form.dataset.problem || form.closest(".sw-gaps")) return;
      note(form.dataset.problem, event.detail.right ? event.detail.id : "");
    });
    document.addEventListener("stepwell:renumbered", function (event) {
      sets[event.detail.problem] = event.detail.set;
      markQuestions();
    });
    /* The toggle of a details does not bubble, but it can be caught on its way down. */
    document.addEventListener("toggle", function (event) {
      var box = event.target.open && event.target.closest && event.target.closest("[data-steps]");
      if (box && box.dataset.problem) note(box.dataset.problem, "");
    }, true);
  }

  function sayWhatIsKept() {
    all("[data-keeps]").forEach(function (place) {
      place.textContent = keeping.canKeep()
        ? "What you answer is noted in this browser alone; nothing is sent anywhere."
        : NOTHING_KEPT;
      place.hidden = false;
    });
  }

  function told(own) {
    if (!own) return "";
    var fresh = own.sets.length ? ", and with " + counted(own.sets.length, "fresh set") : "";
    if (own.done) return "✓ done" + fresh;
    return own.sets.length ? "✓ done with " + counted(own.sets.length, "fresh set") : "begun";
  }

  function finished(own) {
    return Boolean(own && (own.done || own.sets.length));
  }

  function showOnCards() {
    var progress = keeping.read();
    all(".sw-card[data-problem]").forEach(function (card) {
      var own = keeping.of(progress, card.dataset.problem);
      var place = card.querySelector("[data-done]");
      place.textContent = told(own);
      place.classList.toggle("sw-card-done-all", finished(own));
      card.classList.toggle("sw-card-begun", Boolean(own) && !finished(own));
      card.classList.toggle("sw-card-finished", finished(own));
    });
  }

  function summary(problems) {
    var progress = keeping.read();
    var begun = problems.filter(function (problem) { return keeping.of(progress, problem); });
    var done = begun.filter(function (problem) { return finished(keeping.of(progress, problem)); });
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

  function save() {
    var name = keeping.unit.toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "");
    var address = URL.createObjectURL(new Blob([keeping.asFile()], { type: "application/json" }));
    var link = stepwell.element("a", "", "");
    link.href = address;
    link.download = (name || "unit") + "-progress.json";
    link.click();
    setTimeout(function () { URL.revokeObjectURL(address); }, 10000);
  }

  function setUpBox(box) {
    function part(name) {
      return box.querySelector("[data-" + name + "]");
    }
    var says = part("progress-says");
    var ask = part("forget");
    var sure = part("forget-sure");
    var file = part("progress-file");
    var problems = all(".sw-path [data-problem]").map(function (card) { return card.dataset.problem; });

    function show() {
      var keeps = keeping.canKeep();
      var empty = Object.keys(keeping.read()).length === 0;
      says.textContent = keeps ? summary(problems) : NOTHING_KEPT;
      part("progress-files").hidden = !keeps;
      part("save").hidden = empty;
      ask.hidden = empty;
      sure.hidden = true;
    }
    /* Says what was done, before what stands now. */
    function tell(what) {
      show();
      showOnCards();
      says.textContent = what + " " + says.textContent;
      says.tabIndex = -1;
      says.focus();
    }
    function load(text) {
      var found = keeping.fromFile(text);
      if (found.fault) {
        tell(found.fault + " Nothing was changed.");
      } else {
        var kept = keeping.write(keeping.merged(keeping.read(), found.problems));
        tell(kept ? "Read from the file, and added to what was noted here." : NOTHING_KEPT);
      }
    }
    part("save").addEventListener("click", save);
    part("load").addEventListener("click", function () { file.click(); });
    file.addEventListener("change", function () {
      var chosen = file.files[0];
      if (!chosen) return;
      var reader = new FileReader();
      reader.onload = function () { load(String(reader.result)); };
      reader.onerror = function () { tell("That file could not be read. Nothing was changed."); };
      /* A file of progress has a few kilobytes; of a longer one, enough is read to refuse it. */
      reader.readAsText(chosen.slice(0, 1000001));
      file.value = "";
    });
    ask.addEventListener("click", function () {
      ask.hidden = true;
      sure.hidden = false;
      part("forget-no").focus();
    });
    part("forget-no").addEventListener("click", function () {
      show();
      ask.focus();
    });
    part("forget-yes").addEventListener("click", function () {
      keeping.forget();
      tell("All forgotten.");
    });
    return show;
  }

  var boxes = all("[data-progress]").map(setUpBox);
  function showAll() {
    showOnCards();
    markQuestions();
    boxes.forEach(function (show) { show(); });
  }
  watch();
  sayWhatIsKept();
  showAll();
  /* Coming back to a list by the browser's own button, or from another tab, shows what is new. */
  window.addEventListener("pageshow", function (event) { if (event.persisted) showAll(); });
  window.addEventListener("storage", function (event) {
    if (event.key === keeping.key || event.key === null) showAll();
  });
})();
