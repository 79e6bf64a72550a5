/* Judges a typed number with its unit against the data of the page. Nothing here touches the page:
   a verdict is plain data, which typed.js shows. All comparing is done digit by digit.

   A verdict is {kind, right, says, turns, others}: kind is a word for it, right is true, false or
   undefined (nothing answered), says is text, turns are numbers of the page's wrong turns, and
   others are quantities whose right value it is, each as pieces of text and symbols. */
(function () {
  "use strict";

  var stepwell = window.stepwell;
  var WORDS = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];
  var FACTORS = {
    1: "ten", 2: "a hundred", 3: "a thousand", 4: "ten thousand", 6: "a million",
    9: "a thousand million", 12: "a million million",
  };
  var COMPARED = 12;
  /* Which verdict goes first where a text can be read in two ways. */
  var RANKS = ["right", "coarse", "prefix", "turn", "sign", "other", "decimal", "unit", "value"];

  function verdict(kind, right, says, more) {
    var made = { kind: kind, right: right, says: says, turns: [], others: [] };
    Object.keys(more || {}).forEach(function (key) { made[key] = more[key]; });
    return made;
  }

  function count(number, noun) {
    return (WORDS[number] || String(number)) + " " + noun + (number === 1 ? "" : "s");
  }

  function withArticle(noun) {
    return (/^[aeiou]/.test(noun) ? "an " : "a ") + noun;
  }

  function capital(text) {
    return text.charAt(0).toUpperCase() + text.slice(1);
  }

  /* Rounds half up to a number of digits; half tells whether exactly half was rounded. */
  function rounded(value, digits) {
    var kept = value.digits.slice(0, digits);
    var rest = value.digits.slice(digits);
    if (rest === "") return { digits: kept, order: value.order, half: false };
    if (rest.charAt(0) < "5") {
      return { digits: kept.replace(/0+$/, ""), order: value.order, half: false };
    }
    var up = kept.split("");
    var at = up.length - 1;
    while (at >= 0 && up[at] === "9") at -= 1;
    var order = value.order;
    if (at < 0) {
      up = ["1"];
      order += 1;
    } else {
      up[at] = String(Number(up[at]) + 1);
      up.length = at + 1;
    }
    return { digits: up.join(""), order: order, half: rest === "5" };
  }

  function same(one, other) {
    return one.digits === other.digits && (one.digits === "" || one.order === other.order);
  }

  /* Whether a typed number is a value rounded to that many digits; half may go either way. */
  function isRounding(typed, value, digits) {
    var up = rounded(value, digits);
    if (same(typed, up)) return true;
    var down = { digits: value.digits.slice(0, digits).replace(/0+$/, ""), order: value.order };
    return up.half && same(typed, down);
  }

  /* How far a typed number is from a value, counted in the last of so many digits. */
  function lastDigits(typed, value, digits) {
    var order = rounded(value, digits).order;
    var one = Number("0." + typed.digits) * Math.pow(10, typed.order - order);
    var other = Number("0." + value.digits) * Math.pow(10, value.order - order);
    return Math.abs(one - other) * Math.pow(10, digits);
  }

  /* How a typed number stands to a value, signs aside: "same", "rounded", "more" (right in more
     digits than are shown), "astray" (right as shown, not beyond), "near" (one off in the last
     shown digit), "coarse" (right in too few digits), or "". */
  function closeness(typed, value, digits) {
    if (same(typed, value)) return "same";
    if (typed.digits === "" || value.digits === "") return "";
    if (Math.abs(typed.order - value.order) > 1) return "";
    var most = Math.min(typed.most, COMPARED);
    var given = typed.digits.length > COMPARED ? rounded(typed, COMPARED) : typed;
    for (var n = most; n >= Math.max(1, Math.min(typed.least, COMPARED)); n -= 1) {
      if (isRounding(given, value, n)) return n > digits ? "more" : n === digits ? "rounded" : "coarse";
    }
    if (typed.most < digits) return "";
    if (same(rounded(typed, digits), rounded(value, digits))) return "astray";
    return lastDigits(typed, value, digits) <= 1 + 1e-9 ||
      lastDigits(typed, rounded(value, digits), digits) <= 1 + 1e-9 ? "near" : "";
  }

  function shifted(value, power) {
    return { digits: value.digits, order: value.order + power, negative: value.negative };
  }

  /* The power of ten by which a number with the right digits is off, among those given; or 0. */
  function powerOff(typed, value, digits, powers) {
    return powers.filter(function (power) {
      var close = closeness(typed, shifted(value, power), digits);
      return close !== "" && close !== "near" && (close !== "coarse" || typed.most >= 2);
    })[0] || 0;
  }

  var PREFIX_STEPS = [3, -3, 6, -6, 9, -9, 12, -12];
  var SQUARED_STEPS = [2, -2, 4, -4, 6, -6, 12, -12];

  function slipOfPrefix(reading, expected) {
    var squared = expected.unit === "m²";
    var off = powerOff(reading.value, expected.exact, expected.digits,
      expected.unit === "" ? [] : squared ? SQUARED_STEPS : PREFIX_STEPS);
    if (!off || reading.value.negative !== expected.exact.negative) return null;
    var says = "The digits are right, but that is " + FACTORS[Math.abs(off)] + " times too " +
      (off > 0 ? "large" : "small") + ": " + whereToLook(reading, off, squared);
    return verdict("prefix", false, says);
  }

  function whereToLook(reading, off, squared) {
    if (squared) return "a prefix counts twice in a squared unit.";
    if (reading.raised) return "look at the power of ten.";
    var typed = stepwell.prefixOf(reading.power);
    var meant = stepwell.prefixOf(reading.power - off);
    if (typed && meant) return "look at " + typed + " and " + meant + ".";
    return typed ? "look at the prefix " + typed + "." : "look at the prefix of the unit.";
  }

  function isClose(close) {
    return close !== "" && close !== "near" && close !== "coarse";
  }

  /* The entries of a list of [value, entry] that a number hits, each once. */
  function hits(list, typed, digits, wanted) {
    var found = [];
    (list || []).forEach(function (pair) {
      var value = pair[0];
      if (value.negative !== typed.negative && typed.digits !== "") return;
      if (wanted(closeness(typed, value, digits)) && found.indexOf(pair[1]) < 0) found.push(pair[1]);
    });
    return found;
  }

  /* Too few digits, and what else leads to just the number that was typed. */
  function tooCoarse(typed, expected) {
    var n = Math.min(typed.most, expected.digits - 1);
    while (n > 1 && !isRounding(typed, expected.exact, n)) n -= 1;
    return verdict("coarse", false, "Rounded to " + count(n, "significant digit") +
      " that is right. Give " + count(expected.digits, "significant digit") + ".", {
      turns: hits(expected.turns, typed, expected.digits, function (how) { return how === "same"; }),
    });
  }

  function judgeNumber(reading, expected) {
    var typed = reading.value;
    var digits = expected.digits;
    var close = closeness(typed, expected.exact, digits);
    var turned = typed.digits !== "" && typed.negative !== expected.exact.negative;
    if (close && !turned) {
      return close === "coarse" ? tooCoarse(typed, expected) : right(close, reading, expected);
    }
    var turns = hits(expected.turns, typed, digits, isClose);
    var others = hits(expected.others, typed, digits, isClose);
    if (close && (close !== "coarse" || turns.length + others.length === 0)) {
      return verdict("sign", false, "The size is right, the sign is not.", { turns: turns });
    }
    var prefix = slipOfPrefix(reading, expected);
    if (prefix) {
      prefix.turns = turns;
      prefix.others = turns.length ? [] : others;
      return prefix;
    }
    if (turns.length) return verdict("turn", false, "", { turns: turns, others: others.slice(0, 1) });
    if (others.length) return verdict("other", false, "", { others: others });
    if (typed.most >= 2) {
      turns = hits(expected.turns, typed, digits, function (how) { return how === "coarse"; });
      if (turns.length) return verdict("turn", false, "", { turns: turns });
    }
    var off = powerOff(typed, expected.exact, digits, [1, -1, 2, -2]);
    if (off && typed.negative === expected.exact.negative) {
      return verdict("decimal", false, "The digits are right, but that is " +
        FACTORS[Math.abs(off)] + " times too " + (off > 0 ? "large" : "small") +
        ": look at the decimal point.");
    }
    return verdict("value", false, "That is not the value.");
  }

  function right(close, reading, expected) {
    var says = {
      more: "Your further digits are right too; " + count(expected.digits, "significant digit") +
        " would have been enough.",
      astray: "Beyond that, your digits are not those of the exact value: perhaps something was " +
        "rounded on the way.",
      near: "Your last digit is one off, as happens where something was rounded on the way.",
    }[close];
    if (!says || reading.value.whole) says = close === "astray" ? says : "";
    var remark = reading.unit && reading.unit.remark;
    if (remark) says = (says ? says + " " : "") + "A small remark: " + remark + ".";
    return verdict("right", true, says);
  }

  /* Whether the digits alone are right, whatever the unit. */
  function digitsFit(value, expected) {
    var powers = [];
    for (var power = -30; power <= 30; power += 3) powers.push(power);
    if (expected.exact.digits === "" || value.negative !== expected.exact.negative) return false;
    return isClose(closeness(value, expected.exact, expected.digits)) ||
      powerOff(value, expected.exact, expected.digits, powers) !== 0;
  }

  function unitTrouble(reading, expected) {
    var noun = withArticle(expected.noun);
    var measured = noun + " is measured in " + expected.unit;
    var fits = digitsFit(reading.value, expected) ? "The digits are right, but " : "";
    function says(text) {
      return verdict("unit", false, fits ? fits + text : capital(text));
    }
    if (expected.unit === "") return verdict("unit", false, "This is a pure number and has no unit.");
    if (reading.unitText === "") return says(noun + " needs a unit after the number.");
    var shown = "“" + cut(reading.unitText, 20) + "”";
    if (reading.unit === null && stepwell.prefixPower(reading.unitText) !== undefined) {
      return says(shown + " is only a prefix: the unit comes after it. " + capital(measured) + ".");
    }
    if (reading.unit === null) return says(shown + " is no unit known here. " + capital(measured) + ".");
    var other = stepwell.measuredBy(reading.unit);
    return says(shown + " is a unit of " + (other ? other.replace(/^an? /, "") : "something else") +
      "; " + measured + ".");
  }

  /* The start of a text, cut between whole characters. */
  function cut(text, most) {
    var characters = Array.from(text);
    return characters.length > most ? characters.slice(0, most - 1).join("") + "…" : text;
  }

  function judgeReading(reading, expected) {
    var wanted = stepwell.readUnit(expected.unit) ||
      { dimension: [0, 0, 0, 0, 0], power: 0, factor: 1 };
    var fits = reading.unit
      ? reading.unit.dimension.join() === wanted.dimension.join()
      : reading.unitText === "" && (expected.unit === "" || reading.value.digits === "" && expected.exact.digits === "");
    return fits ? judgeNumber(reading, expected) : unitTrouble(reading, expected);
  }

  var PROBLEMS = {
    long: "That is too long for an answer.",
    zero: "A number divided by zero has no value.",
    giant: "That power of ten is beyond all measure. Look at the exponent.",
  };

  function trouble(problem, expected) {
    var what = expected.unit === "" ? "a number" : "a number and a unit";
    if (problem === "empty") return verdict("empty", undefined, "Type " + what + " first.");
    return verdict("number", false, PROBLEMS[problem] || (expected.unit === ""
      ? "That is no number. Write it like 2.5 or 5/2."
      : "That is no number with a unit. Write it like 12 V or 4.7 µF."));
  }

  /* Judges what was typed. expected holds value, digits, unit and noun from the page's data, and
     the numbers that stand on the page: turns as [number, entry], others as [number, pieces]. */
  stepwell.judgeNumber = function (typed, expected) {
    var known = Object.assign({}, expected, { exact: stepwell.readData(expected.value) });
    var answer = stepwell.readAnswer(typed, expected.unit);
    if (answer.problem) return trouble(answer.problem, known);
    var verdicts = answer.readings.map(function (reading) { return judgeReading(reading, known); });
    return verdicts.sort(function (one, other) {
      return RANKS.indexOf(one.kind) - RANKS.indexOf(other.kind);
    })[0];
  };
  stepwell.verdict = verdict;
  stepwell.withArticle = withArticle;
})();
