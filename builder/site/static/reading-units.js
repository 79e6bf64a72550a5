/* Units as people type them: prefixes, words, products such as V·A and C/V. A unit becomes its
   powers of kilogram, metre, second, ampere and kelvin, a power of ten and a whole factor, so that
   whatever measures the same is the same. Names and prefixes: SI Brochure, 9th edition. */
(function () {
  "use strict";

  var stepwell = window.stepwell;
  var LONGEST_UNIT = 60;
  var MOST_PARTS = 8;

  var PREFIXES = {
    q: -30, r: -27, y: -24, z: -21, a: -18, f: -15, p: -12, n: -9, u: -6, "µ": -6, m: -3, c: -2,
    d: -1, h: 2, k: 3, M: 6, G: 9, T: 12, P: 15, E: 18, Z: 21, Y: 24, R: 27, Q: 30,
  };
  var WORD_PREFIXES = {
    femto: -15, pico: -12, nano: -9, micro: -6, milli: -3, centi: -2, kilo: 3, mega: 6, giga: 9,
    tera: 12, kil: 3, meg: 6,
  };

  /* Powers of kg, m, s, A, K; then a power of ten, then a whole factor. */
  var SYMBOLS = {
    m: [0, 1, 0, 0, 0], g: [1, 0, 0, 0, 0, -3], s: [0, 0, 1, 0, 0], A: [0, 0, 0, 1, 0],
    K: [0, 0, 0, 0, 1], C: [0, 0, 1, 1, 0], V: [1, 2, -3, -1, 0], F: [-1, -2, 4, 2, 0],
    J: [1, 2, -2, 0, 0], W: [1, 2, -3, 0, 0], "Ω": [1, 2, -3, -2, 0], N: [1, 1, -2, 0, 0],
    Hz: [0, 0, -1, 0, 0], H: [1, 2, -2, -2, 0], T: [1, 0, -2, -1, 0], Wb: [1, 2, -2, -1, 0],
    S: [-1, -2, 3, 2, 0], Pa: [1, -1, -2, 0, 0], Wh: [1, 2, -2, 0, 0, 2, 36],
    Ah: [0, 0, 1, 1, 0, 2, 36], min: [0, 0, 1, 0, 0, 1, 6], h: [0, 0, 1, 0, 0, 2, 36],
  };
  var ALONE = { min: true, h: true };
  var WORDS = {
    metre: "m", meter: "m", gram: "g", second: "s", sec: "s", ampere: "A", amp: "A", kelvin: "K",
    coulomb: "C", volt: "V", farad: "F", joule: "J", watt: "W", ohm: "Ω", newton: "N",
    hertz: "Hz", henry: "H", tesla: "T", weber: "Wb", siemens: "S", pascal: "Pa", minute: "min",
    hour: "h", hr: "h",
  };
  /* What has that unit, with its article; asked by powers. */
  var MEASURED = {
    "0,0,1,1,0": "a charge", "1,2,-3,-1,0": "a voltage", "-1,-2,4,2,0": "a capacitance",
    "1,2,-2,0,0": "an energy", "1,2,-3,0,0": "a power", "1,2,-3,-2,0": "a resistance",
    "0,0,0,1,0": "a current", "0,0,1,0,0": "a time", "0,1,0,0,0": "a length",
    "0,2,0,0,0": "an area", "0,3,0,0,0": "a volume", "1,1,-3,-1,0": "a field strength",
    "-1,-3,4,2,0": "a permittivity", "1,1,-2,0,0": "a force", "1,0,0,0,0": "a mass",
    "0,0,-1,0,0": "a frequency", "1,2,-2,-2,0": "an inductance", "-1,-2,3,2,0": "a conductance",
    "0,0,0,0,1": "a temperature", "1,0,-2,-1,0": "a magnetic field",
    "1,2,-2,-1,0": "a magnetic flux", "1,-1,-2,0,0": "a pressure", "0,1,-1,0,0": "a speed",
  };

  function own(table, key) {
    return Object.prototype.hasOwnProperty.call(table, key);
  }

  function made(symbol, power, prefix, remark) {
    var kept = SYMBOLS[symbol];
    return {
      dimension: kept.slice(0, 5),
      power: (kept[5] || 0) + power,
      factor: kept[6] || 1,
      prefix: prefix,
      remark: remark || "",
    };
  }

  /* A symbol with its prefix, capitals as the SI has them. */
  function bySymbol(word, remark) {
    if (own(SYMBOLS, word)) return made(word, 0, "", remark);
    for (var cut = 1; cut <= 2 && cut < word.length; cut += 1) {
      var prefix = word.slice(0, cut);
      var symbol = word.slice(cut);
      if (!own(SYMBOLS, symbol) || own(ALONE, symbol)) continue;
      if (prefix === "da") return made(symbol, 1, prefix, remark);
      if (own(PREFIXES, prefix)) return made(symbol, PREFIXES[prefix], prefix, remark);
    }
    return null;
  }

  /* A word such as microfarads, with a prefix as a word or a letter. */
  function byWord(word) {
    var small = word.toLowerCase().replace(/(.)s$/, "$1");
    for (var name in WORDS) {
      if (small.slice(-name.length) !== name && !(name === "siemens" && small === "siemen")) continue;
      var head = word.slice(0, Math.max(0, small.length - name.length));
      var symbol = WORDS[name];
      if (head === "") return made(symbol, 0, "", "");
      var spelled = head.toLowerCase().replace(/-$/, "");
      if (own(WORD_PREFIXES, spelled)) return made(symbol, WORD_PREFIXES[spelled], spelled, "");
      if (head === "K") return made(symbol, 3, "k", "kilo is written with a small k");
      if (own(PREFIXES, head)) return made(symbol, PREFIXES[head], head, "");
    }
    return null;
  }

  /* What a hasty hand types: uf, 12 v, 4.7 Kohm. Only where nothing else can be meant. */
  function byHaste(word) {
    var last = word.charAt(word.length - 1);
    var head = word.slice(0, -1);
    var raised = last === "ω" ? "Ω" : last.toUpperCase();
    var remark = last === raised ? "" : "the symbol is a capital " + raised;
    if ("fcvjaw".indexOf(last) < 0 && last !== "ω" && head !== "K" && head !== "U") return null;
    if (head === "K") {
      head = "k";
      remark = remark || "kilo is written with a small k";
    }
    if (head === "U") {
      head = "u";
      remark = remark || "micro is a small u, or µ";
    }
    return own(SYMBOLS, raised) && remark ? bySymbol(head + raised, remark) : null;
  }

  /* A prefix as a word before a symbol: microC. */
  function byBoth(word) {
    for (var name in WORD_PREFIXES) {
      if (word.slice(0, name.length).toLowerCase() !== name) continue;
      var symbol = word.slice(name.length);
      if (own(SYMBOLS, symbol)) return made(symbol, WORD_PREFIXES[name], name, "");
    }
    return null;
  }

  function single(word) {
    return bySymbol(word) || byWord(word) || byBoth(word) || byHaste(word);
  }

  /* One word: a unit, or units run together as in VA and mAs. */
  function readWord(word) {
    var found = single(word);
    if (found || word.length > 6) return found;
    for (var cut = 1; cut < word.length; cut += 1) {
      var left = bySymbol(word.slice(0, cut));
      var right = left && (bySymbol(word.slice(cut)) ||
        (word.length - cut > 1 && word.length - cut < 4 ? readWord(word.slice(cut)) : null));
      if (left && right) return times(left, right, 1);
    }
    return null;
  }

  function times(left, right, power) {
    if (power < 0 && right.factor !== 1 && right.factor !== left.factor) return null;
    var factor = power < 0 ? left.factor / right.factor : left.factor * Math.pow(right.factor, power);
    return {
      dimension: left.dimension.map(function (each, at) { return each + power * right.dimension[at]; }),
      power: left.power + power * right.power,
      factor: right.factor === 1 ? left.factor : factor,
      prefix: null,
      remark: left.remark || right.remark,
    };
  }

  var RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹";
  var PART = /^([A-Za-zµΩω]{1,24})(?:\^\(?([+-]?[0-9])\)?|([0-9])|(-[0-9])|([⁺⁻]?[⁰¹²³⁴⁵⁶⁷⁸⁹]))?/;

  function exponent(match) {
    var typed = match[2] || match[3] || match[4];
    if (match[5]) {
      var digit = RAISED.indexOf(match[5].slice(-1));
      return match[5].charAt(0) === "⁻" ? -digit : digit;
    }
    return typed === undefined ? 1 : Number(typed);
  }

  /* A prefix that stands apart belongs to what follows: k ohm, micro farad, micro C. */
  function joined(text) {
    var match = /^([A-Za-zµ]{1,5})[ -]([A-Za-zΩω]+)$/.exec(text);
    var power = match ? stepwell.prefixPower(match[1]) : undefined;
    var unit = power === undefined ? null : single(match[2]);
    if (!unit || unit.prefix !== "") return null;
    unit.power += power;
    unit.prefix = match[1];
    return unit;
  }

  function readUnit(typed) {
    var text = typed.trim();
    var inside = /^[[(]([^[\]()]*)[\])]$/.exec(text);
    if (inside) text = inside[1].trim();
    if (text.length === 0 || text.length > LONGEST_UNIT) return null;
    if (text === "%") {
      return { dimension: [0, 0, 0, 0, 0], power: -2, factor: 1, prefix: null, remark: "" };
    }
    var apart = joined(text);
    if (apart) return apart;
    return product(text.replace(/ per /g, "/").replace(/ ?([*·×./]) ?/g, "$1"));
  }

  function product(text) {
    var found = null;
    var below = false;
    var inside = false;
    for (var parts = 0; text !== "" && parts < MOST_PARTS; parts += 1) {
      if (found && text.charAt(0) === "/" && !inside) {
        below = true;
        inside = text.charAt(1) === "(";
        text = text.slice(inside ? 2 : 1);
      } else if (found && /^[*·×. -]/.test(text)) {
        below = below && inside;
        text = text.slice(1);
      }
      var match = PART.exec(text);
      var unit = match && readWord(match[1]);
      if (!unit) return null;
      var power = exponent(match) * (below ? -1 : 1);
      if (power === 0) return null;
      if (!found && power === 1) found = unit;
      else found = times(found || nothing(), unit, power);
      if (!found) return null;
      text = text.slice(match[0].length);
      if (inside && text.charAt(0) === ")") {
        inside = false;
        text = text.slice(1);
      }
    }
    return text === "" && !inside ? found : null;
  }

  function nothing() {
    return { dimension: [0, 0, 0, 0, 0], power: 0, factor: 1, prefix: null, remark: "" };
  }

  /* Reads a unit: {dimension, power, factor, prefix, remark}, or null where it is none.
     prefix is "" or a prefix for a single unit, null for others; remark says what of the spelling
     is not as the SI has it. */
  stepwell.readUnit = readUnit;
  /* What a unit measures, as “a charge”; "" where that has no name. */
  stepwell.measuredBy = function (unit) {
    var key = unit.dimension.join(",");
    return own(MEASURED, key) ? MEASURED[key] : "";
  };
  /* The power of ten that a prefix stands for, or undefined where it is none. */
  stepwell.prefixPower = function (text) {
    var small = text.toLowerCase();
    if (own(PREFIXES, text)) return PREFIXES[text];
    if (own(WORD_PREFIXES, small)) return WORD_PREFIXES[small];
    return text === "K" ? 3 : undefined;
  };
  /* The prefix of a power of ten that is no rare one, or "". */
  stepwell.prefixOf = function (power) {
    return { "-12": "p", "-9": "n", "-6": "µ", "-3": "m", 3: "k", 6: "M", 9: "G" }[power] || "";
  };
})();
