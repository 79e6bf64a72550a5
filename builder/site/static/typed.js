/* A question answered by a number with its unit. */
(function () {
  "use strict";

  var PREFIXES = {
    q: -30, r: -27, y: -24, z: -21, a: -18, f: -15, p: -12, n: -9, u: -6, "µ": -6, "μ": -6,
    m: -3, "": 0, k: 3, M: 6, G: 9, T: 12, P: 15, E: 18, Z: 21, Y: 24, R: 27, Q: 30,
  };

  /* Spellings of each unit, longest first where one ends like another. */
  var UNITS = {
    F: ["farads", "farad", "F"],
    C: ["coulombs", "coulomb", "C"],
    V: ["volts", "volt", "V"],
    J: ["joules", "joule", "J"],
    "Ω": ["ohms", "ohm", "Ohm", "Ω", "Ω"],
    A: ["amperes", "ampere", "amps", "amp", "A"],
    W: ["watts", "watt", "W"],
    s: ["seconds", "second", "s"],
    "V/m": ["volts per metre", "volt per metre", "V/m"],
    "F/m": ["farads per metre", "farad per metre", "F/m"],
    m: ["metres", "metre", "meters", "meter", "m"],
  };
  var WORD_PREFIXES = { milli: -3, micro: -6, nano: -9, pico: -12, kilo: 3, mega: 6, giga: 9 };

  var NUMBER =
    /^([+\-−]?)\s*(?:(\d+)\s*\/\s*(\d+)|(\d+(?:[.,]\d*)?|[.,]\d+)(?:\s*(?:[eE]|[×x*·⋅]\s*10\s*\^?)\s*([+\-−]?\d+|[⁺⁻]?[⁰¹²³⁴⁵⁶⁷⁸⁹]+))?)\s*(.*)$/;
  var SUPERSCRIPTS = "⁰¹²³⁴⁵⁶⁷⁸⁹";

  function plainExponent(text) {
    return text.replace(/⁻|−/g, "-").replace(/⁺/g, "+").replace(/[⁰¹²³⁴⁵⁶⁷⁸⁹]/g, function (digit) {
      return String(SUPERSCRIPTS.indexOf(digit));
    });
  }

  /* Squared units: the prefix counts twice, and centimetres are usual. */
  var SQUARES = { "": 0, m: -6, c: -4, d: -2, k: 6, u: -12, "µ": -12, "μ": -12 };

  function readUnit(text) {
    var square = text.match(/^(.?)m(?:²|\^2|2)$/);
    if (square && Object.prototype.hasOwnProperty.call(SQUARES, square[1])) {
      return { symbol: "m²", power: SQUARES[square[1]] };
    }
    if (text === "cm") return { symbol: "m", power: -2 };
    for (var symbol in UNITS) {
      for (var i = 0; i < UNITS[symbol].length; i += 1) {
        var spelled = UNITS[symbol][i];
        if (text.slice(-spelled.length) !== spelled) continue;
        var prefix = text.slice(0, text.length - spelled.length);
        if (Object.prototype.hasOwnProperty.call(PREFIXES, prefix)) {
          return { symbol: symbol, power: PREFIXES[prefix] };
        }
        if (Object.prototype.hasOwnProperty.call(WORD_PREFIXES, prefix)) {
          return { symbol: symbol, power: WORD_PREFIXES[prefix] };
        }
      }
    }
    return null;
  }

  /* A typed answer: its value, and its unit if one was typed and known. */
  function readAnswer(typed) {
    var match = typed.replace(/[\u00a0\u2009\u202f]/g, " ").trim().slice(0, 80).match(NUMBER);
    if (!match) return null;
    var value;
    if (match[2] !== undefined) {
      value = Number(match[2]) / Number(match[3]);
    } else {
      value = Number(match[4].replace(",", "."));
    }
    if (match[1] === "-" || match[1] === "−") value = -value;
    var unitText = match[6].trim();
    var unit = unitText === "" ? null : readUnit(unitText);
    var power = match[5] === undefined ? 0 : Number(plainExponent(match[5]));
    /* One power of ten for exponent and prefix together loses no digit on the way. */
    power += unit ? unit.power : 0;
    value = power < 0 ? value / Math.pow(10, -power) : value * Math.pow(10, power);
    return { value: value, unit: unit, unitText: unitText };
  }

  function judge(typed, expected) {
    if (typed.trim() === "") return { says: "Type a number and a unit first." };
    var answer = readAnswer(typed);
    if (answer === null || !isFinite(answer.value)) {
      return { right: false, says: "That is no number with a unit. Write it like 12 V or 4.7 µF." };
    }
    if (expected.unit === "" && answer.unitText !== "") {
      return { right: false, says: "This is a pure number and has no unit." };
    }
    if (expected.unit !== "" && answer.unitText === "") {
      return { right: false, says: "A " + expected.noun + " needs a unit after the number." };
    }
    if (answer.unit === null && expected.unit !== "") {
      return { right: false, says: "“" + answer.unitText.slice(0, 20) + "” is no unit known here." };
    }
    if (answer.unit !== null && answer.unit.symbol !== expected.unit) {
      return {
        right: false,
        says: "The question is about " + (/^[aeiou]/.test(expected.noun) ? "an " : "a ") + expected.noun + ", measured in " + expected.unit +
          "; your unit measures something else.",
      };
    }
    var off = Math.abs(answer.value - expected.value);
    if (off <= expected.tolerance * (1 + 1e-9)) return { right: true, says: "It is " + expected.shown + "." };
    if (Math.abs(answer.value + expected.value) <= expected.tolerance) {
      return { right: false, says: "The size is right, the sign is not." };
    }
    return { right: false, says: "That is not the value yet." };
  }

  function checkTyped(form) {
    var expected = JSON.parse(form.dataset.expected);
    var verdict = judge(form.querySelector('input[type="text"]').value, expected);
    window.stepwell.reply(form, verdict.right, [document.createTextNode(verdict.says)]);
  }

  window.stepwell.question("typed", { check: checkTyped });
})();
