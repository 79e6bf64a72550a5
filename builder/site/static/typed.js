/* A question answered by a number with its unit, or by an expression of letters. The verdict comes
   from judging.js or expressions.js; here it becomes a reply. */
(function () {
  "use strict";

  var stepwell = window.stepwell;
  /* What each form was answered: the right answer, wrong ones that were not recognised. */
  var answered = new WeakMap();

  function state(form) {
    if (!answered.has(form)) answered.set(form, { right: "", missed: [] });
    return answered.get(form);
  }

  function text(words) {
    return document.createTextNode(words);
  }

  function clones(node) {
    return Array.prototype.map.call(node.childNodes, function (child) { return child.cloneNode(true); });
  }

  /* A quantity in words: text, and symbols as [letter, index, mark]. */
  function quantity(pieces) {
    return pieces.map(function (piece) {
      if (typeof piece === "string") return text(piece);
      var symbol = stepwell.element("span", "sw-sym", "");
      symbol.appendChild(stepwell.element("i", "", piece[0]));
      if (piece[1]) symbol.appendChild(stepwell.element("sub", "", piece[1]));
      if (piece[2]) symbol.appendChild(text(piece[2]));
      return symbol;
    });
  }

  function toldRight(form, verdict, expected) {
    var shown = form.querySelector(".sw-answer-is .sw-n");
    var nodes = [text("It is ")];
    nodes.push(shown ? shown.cloneNode(true) : text(expected.shown || ""));
    nodes.push(text(verdict.says ? ". " + verdict.says : "."));
    return nodes;
  }

  /* The turns that a verdict names, in the words of the page: two, or one after other words. */
  function toldTurns(form, verdict, started) {
    var nodes = [];
    var told = [];
    verdict.turns.forEach(function (number) {
      var entry = form.querySelector('.sw-turns [data-turn="' + Number(number) + '"] .sw-turn-words');
      var again = !entry || told.indexOf(entry.textContent) >= 0;
      if (again || told.length === (started ? 1 : 2)) return;
      if (started || told.length) nodes.push(text(" "));
      told.push(entry.textContent);
      nodes = nodes.concat(clones(entry));
    });
    return nodes;
  }

  function turnStep(form, verdict) {
    var entry = verdict.turns.length
      ? form.querySelector('.sw-turns [data-turn="' + Number(verdict.turns[0]) + '"]')
      : null;
    return entry && entry.dataset.look;
  }

  function toldOthers(verdict, started) {
    var nodes = started && verdict.others.length ? [text(" ")] : [];
    verdict.others.slice(0, 2).forEach(function (pieces, at) {
      nodes.push(text(at === 0 ? (started ? "It is also " : "That is ") : ", and also "));
      nodes = nodes.concat(quantity(pieces));
    });
    if (verdict.others.length) {
      nodes.push(text(started ? "." : ". Something else of the same kind is asked here."));
    }
    return nodes;
  }

  /* The first hint for a value that nothing is known of: what the step that finds it is for. */
  function firstHint(form) {
    var step = form.dataset.step ? document.getElementById(form.dataset.step) : null;
    if (!step || step.contains(form)) {
      return [text(" Write down what you know, and the law that ties it to what is asked.")];
    }
    return [text(" The step that finds it is called “")]
      .concat(clones(step.querySelector(".sw-step-goal")))
      .concat([text("”. What would you do there?")]);
  }

  function secondHint(form) {
    return [text(form.dataset.step ? " Open that step and compare it with what you did."
      : " Go through the solution once more, step by step.")];
  }

  /* Says a wrong answer: the nodes, and the step to look at again or null for no link. */
  function toldWrong(form, verdict, typed) {
    var nodes = verdict.says ? [text(verdict.says)] : [];
    nodes = nodes.concat(toldTurns(form, verdict, nodes.length > 0));
    nodes = nodes.concat(toldOthers(verdict, nodes.length > 0));
    if (verdict.turns.length) return { nodes: nodes, look: turnStep(form, verdict) };
    if (verdict.kind === "sign" || verdict.kind === "other" || verdict.kind === "factor") {
      return { nodes: nodes, look: undefined };
    }
    if (verdict.kind !== "value") return { nodes: nodes, look: null };
    var missed = state(form).missed;
    if (missed.indexOf(typed) < 0) missed.push(typed);
    var second = missed.length > 1;
    return { nodes: nodes.concat(second ? secondHint(form) : firstHint(form)), look: second ? undefined : null };
  }

  /* The number that stands somewhere on the page, or null. */
  function numberIn(node, unit) {
    var read = node ? stepwell.readAnswer(node.textContent, unit) : { problem: "none" };
    return read.problem ? null : read.readings[0].value;
  }

  /* A number marked with that key in the form's own problem: a lesson can show several. */
  function markedNear(form, key) {
    function problemOf(node) {
      var part = node.closest("[data-part-of]");
      return part ? part.dataset.partOf : "";
    }
    var marked = document.querySelectorAll('.sw-n[data-q="' + CSS.escape(key) + '"]');
    return Array.prototype.filter.call(marked, function (node) {
      return problemOf(node) === problemOf(form);
    })[0] || null;
  }

  /* What a number is judged by: the data of the form, with the numbers of wrong turns and of other
     quantities as the page tells them now. */
  function dataOf(form) {
    var data = JSON.parse(form.dataset.expected);
    if (data.letters) return data;
    data.turns = [];
    stepwell.each(form, ".sw-turns [data-turn]:not([hidden])", function (entry) {
      var value = numberIn(entry.querySelector(".sw-turn-number"), data.unit);
      if (value) data.turns.push([value, Number(entry.dataset.turn)]);
    });
    data.others = (data.others || []).map(function (pair) {
      return [numberIn(markedNear(form, pair[0]), data.unit), pair[1]];
    }).filter(function (pair) { return pair[0] !== null; });
    return data;
  }

  function check(form) {
    var expected = dataOf(form);
    var typed = form.querySelector('input[type="text"]').value;
    var verdict = expected.letters
      ? stepwell.judgeExpression(typed, expected)
      : stepwell.judgeNumber(typed, expected);
    var own = state(form);
    if (verdict.right) {
      own.right = typed.trim();
      stepwell.reply(form, true, toldRight(form, verdict, expected));
      return;
    }
    var told = verdict.right === false
      ? toldWrong(form, verdict, typed.trim())
      : { nodes: [text(verdict.says)], look: null };
    if (own.right) told.nodes.push(text(" Your earlier answer, " + own.right + ", was right."));
    stepwell.reply(form, verdict.right, told.nodes, told.look);
  }

  stepwell.question("typed", {
    check: check,
    startAnew: function (form) { answered.delete(form); },
  });
})();
