/* Numbers with a unit as people type them, read digit by digit: no digit is lost to binary
   fractions, so that what was typed can be compared with the exact value at any number of digits.

   A number is {negative, digits, order, most, least, whole}: its value is 0.digits × 10^order, its
   digits start and end with none but significant ones, most and least say how many of them were
   typed (the zeros at the end of 1200 may be meant or not), and whole is a fraction, which stands
   for all of its digits. */
(function () {
  "use strict";

  var stepwell = window.stepwell;
  var LONGEST = 200;
  var LARGEST_POWER = 99;
  var DIGITS = 24;

  var SIGN_LIKE = [
    [/[\u00ad\u061c\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufe0e\ufe0f\ufeff]/g, ""],
    [/[\s\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000]+/g, " "],
    [/[\u2010-\u2015\u2212\ufe58\ufe63]/g, "-"],
    [/\u03bc/g, "\u00b5"],
    [/\u2126/g, "\u03a9"],
    [/[\u2044\u2215\u00f7]/g, "/"],
    [/[\u2715\u2716\u2a2f]/g, "×"],
    [/[\u2022\u2219\u22c5\u2027\u30fb]/g, "·"],
    [/[\u2217\u204e]/g, "*"],
    [/[\u2018\u2019\u02bc\u066c]/g, "'"],
    [/\u066b/g, "."],
    [/[\u2243\u2245\u223c~]/g, "≈"],
  ];
  var VULGAR = {
    "½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5", "⅖": "2/5",
    "⅗": "3/5", "⅘": "4/5", "⅙": "1/6", "⅚": "5/6", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
  };
  /* Where the digits of other scripts begin. */
  var ZEROS = [0x0660, 0x06f0, 0x0966, 0xff10];

  /* One spelling for signs that look alike or mean the same; signs that cannot be seen go. */
  function plain(text) {
    SIGN_LIKE.forEach(function (pair) { text = text.replace(pair[0], pair[1]); });
    text = text.replace(/[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]/g, function (sign) { return " " + VULGAR[sign]; });
    text = text.replace(/[\u0660-\u0669\u06f0-\u06f9\u0966-\u096f]/g, function (sign) {
      var code = sign.charCodeAt(0);
      var zero = ZEROS.filter(function (first) { return code >= first && code < first + 10; })[0];
      return String(code - zero);
    });
    text = text.replace(/[\uff01-\uff5e]/g, function (sign) {
      return String.fromCharCode(sign.charCodeAt(0) - 0xfee0);
    });
    return text.replace(/ +/g, " ").trim();
  }

  var RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹";
  function lowered(text) {
    return text.replace(/⁻/g, "-").replace(/⁺/g, "+").replace(/[⁰¹²³⁴⁵⁶⁷⁸⁹]/g, function (digit) {
      return String(RAISED.indexOf(digit));
    });
  }

  /* A number of plain digits with a point at most. */
  function fromDecimal(text) {
    var parts = text.split(".");
    var all = parts[0] + (parts[1] || "");
    var digits = all.replace(/^0+/, "");
    var order = parts[0].length - (all.length - digits.length);
    var most = digits.length;
    var stripped = digits.replace(/0+$/, "");
    var least = parts.length > 1 && parts[1] !== "" ? most : stripped.length;
    return number(stripped, order, most, least, false);
  }

  function number(digits, order, most, least, whole) {
    return {
      negative: false, digits: digits, order: digits === "" ? 0 : order, most: most, least: least,
      whole: whole,
    };
  }

  /* One whole number over another, written out. Null where it divides by zero. */
  function quotient(over, under) {
    if (under === 0) return null;
    var whole = String(Math.floor(over / under));
    var rest = over % under;
    var text = whole.replace(/^0+/, "");
    var order = text.length;
    while (rest !== 0 && text.length < DIGITS) {
      rest *= 10;
      var digit = Math.floor(rest / under);
      rest %= under;
      if (text === "" && digit === 0) order -= 1;
      else text += String(digit);
    }
    /* As in the data of a page: a last 1 says that the digits go on. */
    if (rest !== 0) text += "1";
    return number(text.replace(/0+$/, ""), order, DIGITS, DIGITS, true);
  }

  function timesWhole(value, factor, power) {
    if (factor === 1) {
      value.order = value.digits === "" ? 0 : value.order + power;
      return value;
    }
    var carry = 0;
    var text = "";
    for (var at = value.digits.length - 1; at >= 0; at -= 1) {
      carry += Number(value.digits.charAt(at)) * factor;
      text = String(carry % 10) + text;
      carry = Math.floor(carry / 10);
    }
    if (carry) text = String(carry) + text;
    var order = value.order + text.length - value.digits.length + power;
    var stripped = text.replace(/0+$/, "");
    var made = number(stripped, order, Math.max(value.most, stripped.length), value.least, value.whole);
    made.negative = value.negative;
    return made;
  }

  /* The ways to write a mantissa: what is taken out, and what then stands for the point. */
  var WAYS = [
    [/^(?:\d+(?:\.\d*)?|\.\d+)/, /$^/g, "."],
    [/^(?:\d+,\d*|,\d+)/, /$^/g, ","],
    [/^[1-9]\d{0,2}(?:[ '_]\d{3})+(?:\.\d+)?/, /[ '_]/g, "."],
    [/^[1-9]\d{0,2}(?:[ '_.]\d{3})+,\d+/, /[ '_.]/g, ","],
    [/^\d{1,3}(?: \d{3})*\.\d{3}(?: \d{3})*(?: \d{1,3})?/, / /g, "."],
    [/^\d{1,3}(?: \d{3})*,\d{3}(?: \d{3})*(?: \d{1,3})?/, / /g, ","],
    [/^[1-9]\d{0,2}(?:,\d{3})+(?:\.\d*)?/, /,/g, "."],
    [/^[1-9]\d{0,2}(?:\.\d{3}){2,}/, /\./g, ","],
  ];

  /* The longest mantissas at the start of a text: two where 1,000 can be meant in two ways. */
  function mantissas(text) {
    var found = [];
    WAYS.forEach(function (way) {
      var match = way[0].exec(text);
      if (!match) return;
      var rest = text.slice(match[0].length);
      if (/^(?:\d|[.,']\d)/.test(rest) || (/ \d+$/.test(match[0]) && /^ ?[\^/]|^ ?\*\*/.test(rest))) return;
      var decimal = match[0].replace(way[1], "").replace(way[2], ".");
      found.push({ text: decimal, length: match[0].length });
    });
    var longest = Math.max.apply(null, found.map(function (each) { return each.length; }).concat(0));
    var seen = [];
    return found.filter(function (each) {
      var kept = each.length === longest && seen.indexOf(each.text) < 0;
      seen.push(each.text);
      return kept;
    });
  }

  var POWERS = [
    /^ ?[eE]{1,2} ?([+-]?\d+)/,
    /^ ?[x×X*·.]? ?10 ?(?:\^|\*\*) ?[({]? ?([+-]? ?\d+) ?[)}]?/,
    /^ ?[x×X*·.]? ?10 ?([⁺⁻]?[⁰¹²³⁴⁵⁶⁷⁸⁹]+)/,
    /^ ?[x×X*·] ?10 ?([+-] ?\d+)/,
  ];

  function readPower(text) {
    for (var at = 0; at < POWERS.length; at += 1) {
      var match = POWERS[at].exec(text);
      if (match) {
        return { power: Number(lowered(match[1]).replace(/ /g, "")), length: match[0].length };
      }
    }
    return null;
  }

  /* 4k7, 2n2, 0R47, R47 and 3V3: the letter stands for the point and tells the prefix (IEC 60062;
     3V3 is common practice, no source). Only where such a part's value, or a voltage, is asked. */
  var CODES = {
    "Ω": { R: 0, L: -3, K: 3, k: 3, M: 6, G: 9, T: 12 },
    F: { p: -12, n: -9, u: -6, "µ": -6, m: -3, F: 0 },
    V: { V: 0 },
  };

  function readCode(text, unit) {
    if (!Object.prototype.hasOwnProperty.call(CODES, unit)) return null;
    var match = /^(\d{0,6})([RLKkMGTpnuµmFV])(\d{0,6}) ?(.*)$/.exec(text) ||
      /^(\d{1,6}[.,]\d{1,6}) ?([RKkMGTpnuµm])()()$/.exec(text);
    if (!match || !Object.prototype.hasOwnProperty.call(CODES[unit], match[2])) return null;
    if (match[1] + match[3] === "" || (match[3] === "" && (match[4] !== "" || match[2] === unit))) return null;
    var after = match[4] === "" ? null : stepwell.readUnit(match[4]);
    if (match[4] !== "" && !(after && after.prefix === "" && sameUnit(after, stepwell.readUnit(unit)))) {
      return null;
    }
    var value = fromDecimal(match[3] === "" ? match[1].replace(",", ".") : match[1] + "." + match[3]);
    var power = CODES[unit][match[2]];
    value = timesWhole(value, 1, power);
    return { value: value, unit: stepwell.readUnit(unit), unitText: unit, power: power, raised: false };
  }

  function sameUnit(one, other) {
    return one.dimension.join() === other.dimension.join();
  }

  /* What comes after a mantissa: a fraction, a power of ten, a unit. */
  function readRest(mantissa, text) {
    var rest = text.slice(mantissa.length);
    var value = fromDecimal(mantissa.text);
    var plainWhole = /^\d{1,12}$/.test(mantissa.text);
    var mixed = plainWhole && /^ (\d{1,6}) ?\/ ?(\d{1,6})(?![\d.,])/.exec(rest);
    var over = plainWhole && /^ ?\/ ?(\d{1,12})(?![\d.,])/.exec(rest);
    if (mixed) {
      var under = Number(mixed[2]);
      value = Number(mantissa.text) > 1e6 ? null
        : quotient(Number(mantissa.text) * under + Number(mixed[1]), under);
      rest = rest.slice(mixed[0].length);
    } else if (over) {
      value = quotient(Number(mantissa.text), Number(over[1]));
      rest = rest.slice(over[0].length);
    }
    if (value === null) return { problem: "zero" };
    var power = readPower(rest);
    if (power) {
      if (!(Math.abs(power.power) <= LARGEST_POWER)) return { problem: "giant" };
      value = timesWhole(value, 1, power.power);
      rest = rest.slice(power.length);
    }
    if (/^[ ]?[\d.,/]/.test(rest)) return { problem: "number" };
    return withUnit(value, rest.trim(), Boolean(power));
  }

  function withUnit(value, unitText, raised) {
    var unit = unitText === "" ? null : stepwell.readUnit(unitText);
    if (unit) value = timesWhole(value, unit.factor, unit.power);
    return { value: value, unit: unit, unitText: unitText, power: unit ? unit.power : 0, raised: raised };
  }

  /* All that a text can mean: readings {value, unit, unitText, power, raised}, or a problem. */
  function readPiece(text, unit) {
    var sign = /^([+-]?) ?(.*)$/.exec(text);
    var body = sign[2].replace(/^10(?=[\^⁺⁻⁰¹²³⁴⁵⁶⁷⁸⁹]| \^|\*\*)/, "1×10");
    var code = readCode(body, unit);
    var readings = code ? [code] : mantissas(body).map(function (mantissa) {
      return readRest(mantissa, body);
    });
    var good = readings.filter(function (reading) { return !reading.problem; });
    if (good.length === 0) return { problem: readings.length ? readings[0].problem : "number" };
    good.forEach(function (reading) {
      reading.value.negative = sign[1] === "-" && reading.value.digits !== "";
    });
    return { readings: good };
  }

  /* Reads a typed answer. unit is that of the right one, which decides on trade codes.
     Returns {problem} with "empty", "long", "number", "zero" or "giant", or {readings}. */
  function readAnswer(typed, unit) {
    if (typed.length > LONGEST) return { problem: /\S/.test(typed) ? "long" : "empty" };
    var text = plain(typed).replace(/[\s.,;!]+$/, "");
    if (text === "") return { problem: "empty" };
    /* What stands before the last = is a symbol, or what was worked out. */
    var pieces = text.split(/[=≈]/).map(function (piece) { return piece.trim(); }).filter(Boolean);
    if (pieces.length === 0) return { problem: "number" };
    var last = pieces[pieces.length - 1];
    var read = readPiece(last, unit);
    return read.problem && pieces.length === 2 && !/^[-+]?[\d.,]/.test(last)
      ? readPiece(pieces[0], unit)
      : read;
  }

  /* A number of the page's data, as 6.6e-5: all of its digits, at most 24 and then a 1 for more. */
  function readData(text) {
    var match = /^(-?)(\d+(?:\.\d+)?)(?:e([+-]?\d+))?$/.exec(text);
    var value = timesWhole(fromDecimal(match[2]), 1, Number(match[3] || 0));
    value.negative = match[1] === "-" && value.digits !== "";
    return value;
  }

  stepwell.plainText = plain;
  stepwell.readAnswer = readAnswer;
  stepwell.readData = readData;
})();
