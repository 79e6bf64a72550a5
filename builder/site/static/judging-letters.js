/* Judges a typed expression of letters by its values at the points that the page brings along:
   the right ones and those of wrong turns were worked out exactly when the page was built. */
(function () {
  "use strict";

  var stepwell = window.stepwell;
  var EXACT = 1e-12;
  var ROUNDED = 5e-3;

  function alike(one, other, within) {
    return one.every(function (value, at) {
      return Math.abs(value - other[at]) <= within * Math.max(Math.abs(value), Math.abs(other[at]));
    });
  }

  function hits(list, values) {
    var found = [];
    (list || []).forEach(function (pair) {
      if (alike(values, pair[0], EXACT) && found.indexOf(pair[1]) < 0) found.push(pair[1]);
    });
    return found;
  }

  function judgeValues(values, data) {
    var verdict = stepwell.verdict;
    var wanted = data.values;
    function scaled(act) { return values.map(act); }
    if (alike(values, wanted, EXACT)) return verdict("right", true, "");
    var turns = hits(data.turns, values);
    var others = hits(data.others, values);
    if (turns.length) return verdict("turn", false, "", { turns: turns, others: others.slice(0, 1) });
    if (alike(scaled(function (each) { return -each; }), wanted, EXACT)) {
      return verdict("sign", false, "That is right but for its sign.");
    }
    if (others.length) return verdict("other", false, "", { others: others });
    if (alike(values, wanted, ROUNDED)) {
      return verdict("coarse", false, "Nearly: a rounded number stands in it. Write fractions, " +
        "so that nothing has to be rounded.");
    }
    if (alike(scaled(function (each) { return 1 / each; }), wanted, EXACT)) {
      return verdict("value", false, "That is upside down: one over what is asked.");
    }
    var ratio = values[0] / wanted[0];
    if (isFinite(ratio) && ratio !== 0 && alike(scaled(function (each) { return each / ratio; }), wanted, EXACT)) {
      return verdict("factor", false, "The letters are right, but a number among them is not.");
    }
    return verdict("value", false, "That is not the answer.");
  }

  function letterList(data) {
    var names = data.names || Object.keys(data.letters);
    return names.length > 1
      ? names.slice(0, -1).join(", ") + " and " + names[names.length - 1]
      : names.join("");
  }

  function saysTrouble(read, data) {
    var found = "“" + Array.from(read.found).slice(0, 20).join("") + "”";
    return {
      letter: found + " is no letter that is known here. Write the answer with " + letterList(data) + ".",
      sign: found + " has no place in an expression there.",
      end: "Something is missing at the end.",
      bracket: "The brackets do not match.",
      deep: "Those are too many brackets. Write it simpler.",
      power: "Only numbers stand as exponents here, as in V^2.",
      long: "That is too long for an answer.",
      zero: "That divides by zero, or goes beyond all measure.",
    }[read.problem];
  }

  var RANKS = ["right", "turn", "sign", "other", "coarse", "factor", "value"];

  /* Judges a typed expression. data is that of the page: letters with their values at the points,
     values of the right answer there, turns as [values, entry], others as [values, pieces]. */
  stepwell.judgeExpression = function (typed, data) {
    var verdict = stepwell.verdict;
    if (!/\S/.test(typed)) return verdict("empty", undefined, "Type an expression first.");
    var reads = [false, true].map(function (tight) { return stepwell.workOut(typed, data, tight); });
    if (reads[0].problem === "empty") return verdict("empty", undefined, "Type an expression first.");
    var good = reads.filter(function (read) { return !read.problem; });
    if (good.length === 0) return verdict("number", false, saysTrouble(reads[0], data));
    var verdicts = good.map(function (read) { return judgeValues(read.values, data); });
    verdicts.sort(function (one, other) { return RANKS.indexOf(one.kind) - RANKS.indexOf(other.kind); });
    var best = verdicts[0];
    if (best.right && good.length === 2 && !alike(good[0].values, good[1].values, EXACT)) {
      best.says = "With brackets it would be clear what is below the line.";
    } else if (best.right && good[0].folded) {
      best.says = "A small remark: a letter and its capital can stand for different things.";
    }
    return best;
  };
})();
