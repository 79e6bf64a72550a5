/* Typed expressions of letters, such as 2CV/3: read by descent, bounded in length and depth, and
   worked out at the points that the page brings along. Nothing typed is ever run as a program.

   Where a product stands after a division without a sign, as in CV/3C, two readings are possible:
   "left" goes from left to right, "tight" takes what stands together first. */
(function () {
  "use strict";

  var stepwell = window.stepwell;
  var LONGEST = 200;
  var DEEPEST = 20;
  var LARGEST_EXPONENT = 20;

  function trouble(problem, found) {
    return { problem: problem, found: found || "" };
  }

  function own(table, key) {
    return Object.prototype.hasOwnProperty.call(table, key);
  }

  var SUBSCRIPTS = "₀₁₂₃₄₅₆₇₈₉";
  var SUPERSCRIPTS = "⁰¹²³⁴⁵⁶⁷⁸⁹";

  function digitsOf(text, among) {
    return Array.from(text).map(function (each) {
      var digit = among.indexOf(each);
      return digit < 0 ? (each === "⁻" ? "-" : each === "⁺" ? "" : each) : String(digit);
    }).join("");
  }

  /* A name as it is compared: C_1, C₁ and C_{1} are C1. */
  function bare(name) {
    return digitsOf(name, SUBSCRIPTS).replace(/[_{}]/g, "").replace(/µ/g, "μ");
  }

  var NUMBER = /^(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d{1,3})?/;
  var WORD = /^[A-Za-zΑ-Ωα-ωµ][A-Za-zΑ-Ωα-ωµ0-9_{}₀-₉]*/;
  var RAISED = /^[⁺⁻]?[⁰¹²³⁴⁵⁶⁷⁸⁹]+/;
  var SIGN = /^(?:\*\*|[*·×/+^()[\]√-])/;
  var SIGNS = {
    "**": "^", "*": "*", "·": "*", "×": "*", "/": "/", "+": "+", "-": "-", "^": "^", "(": "(",
    ")": ")", "[": "(", "]": ")", "√": "√",
  };

  /* Cuts a text, in which at most one space stands together, into [kind, text, whether a space
     stands before it]; throws trouble at the first sign that has no place. */
  function tokens(text) {
    var found = [];
    while (text !== "") {
      var match = null;
      var spaced = text.charAt(0) === " ";
      text = text.slice(spaced ? 1 : 0);
      if ((match = NUMBER.exec(text))) found.push(["number", match[0], spaced]);
      else if ((match = RAISED.exec(text))) found.push(["raised", match[0], spaced]);
      else if ((match = WORD.exec(text))) found.push(["word", match[0], spaced]);
      else if ((match = SIGN.exec(text))) found.push([SIGNS[match[0]], match[0], spaced]);
      else throw trouble("sign", Array.from(text)[0]);
      text = text.slice(match[0].length);
    }
    found.push(["end", "", false]);
    return found;
  }

  /* The names that a run of letters is made of, longest first; null if it is none. */
  function cutWord(word, names) {
    var ways = [[]];
    for (var end = 1; end <= word.length; end += 1) {
      ways[end] = null;
      for (var start = 0; start < end && !ways[end]; start += 1) {
        var name = word.slice(start, end);
        if (ways[start] && own(names, name)) ways[end] = ways[start].concat(name);
      }
    }
    return ways[word.length];
  }

  /* Letters by their bare names, and by small letters where those are unmistakable. */
  function namesOf(letters) {
    var names = {};
    var small = {};
    Object.keys(letters).forEach(function (name) { names[bare(name)] = letters[name]; });
    Object.keys(names).forEach(function (name) {
      var folded = name.toLowerCase();
      small[folded] = own(small, folded) ? null : names[name];
    });
    Object.keys(small).forEach(function (name) { if (small[name] === null) delete small[name]; });
    return { exact: names, small: small };
  }

  function Reader(text, data, tight) {
    this.tokens = tokens(text);
    this.at = 0;
    this.depth = 0;
    this.tight = tight;
    this.names = namesOf(data.letters);
    this.size = data.values.length;
    this.units = data.units === true;
    this.folded = false;
  }

  Reader.prototype.kind = function () { return this.tokens[this.at][0]; };
  Reader.prototype.take = function () {
    var token = this.tokens[this.at];
    if (token[0] !== "end") this.at += 1;
    return token;
  };
  Reader.prototype.deeper = function () {
    this.depth += 1;
    if (this.depth > DEEPEST) throw trouble("deep");
  };
  Reader.prototype.each = function (act) {
    var values = [];
    for (var at = 0; at < this.size; at += 1) values.push(act(at));
    return values;
  };

  Reader.prototype.sum = function () {
    var total = this.term();
    while (this.kind() === "+" || this.kind() === "-") {
      var sign = this.take()[0] === "-" ? -1 : 1;
      var term = this.term();
      total = this.each(function (at) { return total[at] + sign * term[at]; });
    }
    return total;
  };

  Reader.prototype.goesOn = function () {
    return ["number", "word", "(", "√"].indexOf(this.kind()) >= 0;
  };

  Reader.prototype.times = function (one, other) {
    return this.each(function (at) { return one[at] * other[at]; });
  };

  Reader.prototype.together = function () {
    var product = this.signed();
    while (this.tight && this.goesOn()) product = this.times(product, this.power());
    return product;
  };

  /* Whether 1/2 C is being read: of two numbers, a space after them, which everyone reads as half
     of C. */
  Reader.prototype.plainFraction = function (first) {
    var read = this.tokens.slice(first, this.at + 2);
    return this.at === first + 2 && read[0][0] === "number" && read[2][0] === "number" && read[3][2];
  };

  Reader.prototype.term = function () {
    var first = this.at;
    var product = this.together();
    for (;;) {
      if (this.kind() === "*") {
        this.take();
        product = this.times(product, this.together());
      } else if (this.kind() === "/") {
        this.take();
        var under = this.plainFraction(first) ? this.power() : this.together();
        var over = product;
        product = this.each(function (at) { return over[at] / under[at]; });
      } else if (this.goesOn()) {
        product = this.times(product, this.power());
      } else {
        return product;
      }
    }
  };

  Reader.prototype.signed = function () {
    if (this.kind() !== "+" && this.kind() !== "-") return this.power();
    this.deeper();
    var minus = this.take()[0] === "-";
    var value = this.signed();
    this.depth -= 1;
    return minus ? this.each(function (at) { return -value[at]; }) : value;
  };

  Reader.prototype.power = function () {
    var factors = this.atom();
    var base = factors.pop();
    var power = null;
    if (this.kind() === "raised") {
      power = Number(digitsOf(this.take()[1], SUPERSCRIPTS));
    } else if (this.kind() === "^") {
      this.take();
      var minus = this.kind() === "-" && Boolean(this.take());
      var read = this.kind() === "number" || this.kind() === "(" ? this.atom().pop() : null;
      if (!read || read.some(function (each) { return each !== read[0]; })) throw trouble("power");
      power = minus ? -read[0] : read[0];
    }
    if (power !== null) {
      if (!(Math.abs(power) <= LARGEST_EXPONENT)) throw trouble("power");
      base = this.each(function (at) { return Math.pow(base[at], power); });
      if (this.kind() === "^" || this.kind() === "raised") throw trouble("power");
    }
    var self = this;
    return factors.reduce(function (one, other) { return self.times(one, other); }, base);
  };

  /* The factors that stand at one place: several for a run of letters. */
  Reader.prototype.atom = function () {
    var token = this.take();
    if (token[0] === "number") {
      var value = Number(token[1].replace(",", "."));
      return [this.each(function () { return value; })];
    }
    if (token[0] === "(") return [this.bracket()];
    if (token[0] === "√") {
      this.deeper();
      var root = this.atom().pop();
      this.depth -= 1;
      return [this.each(function (at) { return Math.sqrt(root[at]); })];
    }
    if (token[0] === "word") return this.word(token[1]);
    throw token[0] === "end" ? trouble("end") : trouble("sign", token[1]);
  };

  Reader.prototype.bracket = function () {
    this.deeper();
    var inner = this.sum();
    if (this.take()[0] !== ")") throw trouble("bracket");
    this.depth -= 1;
    return inner;
  };

  Reader.prototype.word = function (typed) {
    var word = bare(typed);
    if (word === "sqrt" && !own(this.names.exact, word) && this.kind() === "(") {
      this.take();
      var inner = this.bracket();
      return [this.each(function (at) { return Math.sqrt(inner[at]); })];
    }
    var found = cutWord(word, this.names.exact);
    var table = this.names.exact;
    var unit = !found && this.units ? stepwell.readUnit(typed) : null;
    if (unit) return [this.each(function () { return unit.factor * Math.pow(10, unit.power); })];
    if (!found && (found = cutWord(word.toLowerCase(), this.names.small))) {
      this.folded = true;
      table = this.names.small;
    }
    if (!found) throw trouble("letter", typed);
    return found.map(function (name) { return table[name]; });
  };

  function workOut(text, data, tight) {
    try {
      var reader = new Reader(text, data, tight);
      var values = reader.sum();
      if (reader.kind() === ")") return trouble("bracket");
      if (reader.kind() !== "end") return trouble("sign", reader.take()[1]);
      if (!values.every(isFinite)) return trouble("zero");
      return { values: values, folded: reader.folded };
    } catch (found) {
      if (found && found.problem) return found;
      throw found;
    }
  }

  function plainExpression(typed) {
    var text = typed.replace(/[½⅓⅔¼¾⅕⅙⅛]/g, function (sign) {
      return "(" + stepwell.plainText(sign) + ")";
    });
    text = stepwell.plainText(text).replace(/[\s.,;!]+$/, "");
    text = text.slice(Math.max(text.lastIndexOf("="), text.lastIndexOf("≈")) + 1).trim();
    /* A sign for times that is a letter elsewhere. */
    return text.replace(/([\d)₀-₉ ]) ?[xX] ?(?=[\dA-Za-z(])/g, "$1*");
  }

  /* Works a typed expression out at the points of data: {values, folded}, or {problem, found}.
     tight is the reading; folded says that capitals were not typed as such. */
  stepwell.workOut = function (typed, data, tight) {
    if (typed.length > LONGEST) return trouble("long");
    var text = plainExpression(typed);
    return text === "" ? trouble("empty") : workOut(text, data, tight);
  };
})();
