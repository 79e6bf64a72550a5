/* A classic script: modules and fetch are refused where a page is opened from a folder. */
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

  function element(tag, className, text) {
    var made = document.createElement(tag);
    if (className) made.className = className;
    if (text) made.textContent = text;
    return made;
  }

  /* The verdict is true, false, or undefined where nothing was answered. */
  function reply(form, right, nodes) {
    var place = form.querySelector(".sw-reply");
    place.className = "sw-reply " + (right ? "sw-reply-right" : "sw-reply-wrong");
    place.textContent = "";
    if (right !== undefined) {
      place.appendChild(element("b", "", right ? "Right. " : "Not yet. "));
      form.dispatchEvent(new CustomEvent("stepwell:answered", {
        bubbles: true,
        detail: { id: form.dataset.questionId, right: right },
      }));
    }
    nodes.forEach(function (node) { place.appendChild(node); });
    var step = form.dataset.step && document.getElementById(form.dataset.step);
    if (right === false && step) {
      var goal = step.querySelector(".sw-step-goal");
      var link = element("a", "sw-reply-look", "");
      link.href = "#" + step.id;
      link.appendChild(document.createTextNode("Look again at “"));
      Array.prototype.forEach.call(goal.childNodes, function (node) {
        link.appendChild(node.cloneNode(true));
      });
      link.appendChild(document.createTextNode("”."));
      link.addEventListener("click", function () { step.open = true; });
      place.appendChild(document.createTextNode(" "));
      place.appendChild(link);
    }
  }

  function checkChoice(form) {
    var chosen = form.querySelector("input:checked");
    if (!chosen) {
      reply(form, undefined, [document.createTextNode("Choose one of the answers first.")]);
      return;
    }
    var told = form.querySelector('[data-reply="' + chosen.value + '"] .sw-reply-text');
    var nodes = Array.prototype.map.call(told.childNodes, function (node) { return node.cloneNode(true); });
    /* The reply already starts with a verdict of its own in some questions. */
    if (nodes.length && nodes[0].nodeType === 3) {
      nodes[0].textContent = nodes[0].textContent.replace(/^(Yes[.:]|No\.|Not this one\.)\s*/, "");
      nodes[0].textContent = nodes[0].textContent.charAt(0).toUpperCase() + nodes[0].textContent.slice(1);
    }
    reply(form, chosen.hasAttribute("data-right"), nodes);
  }

  function checkTyped(form) {
    var expected = JSON.parse(form.dataset.expected);
    var verdict = judge(form.querySelector('input[type="text"]').value, expected);
    reply(form, verdict.right, [document.createTextNode(verdict.says)]);
  }

  function setUpQuestion(form) {
    Array.prototype.forEach.call(form.querySelectorAll("[data-needs-script]"), function (node) {
      node.hidden = false;
    });
    form.addEventListener("submit", function (event) {
      event.preventDefault();
      (form.dataset.question === "choice" ? checkChoice : checkTyped)(form);
    });
  }

  function setUpSteps(box) {
    var steps = Array.prototype.slice.call(box.querySelectorAll("details.sw-step"));
    if (steps.length < 2) return;
    var bar = element("p", "sw-steps-act", "");
    var next = element("button", "", "Open the next step");
    var all = element("button", "", "Open all steps");
    next.type = all.type = "button";
    bar.appendChild(next);
    bar.appendChild(all);
    box.parentNode.insertBefore(bar, box.nextSibling);

    function closed() {
      return steps.filter(function (step) { return !step.open; });
    }
    function refresh() {
      next.disabled = closed().length === 0;
      all.textContent = closed().length === 0 ? "Close all steps" : "Open all steps";
    }
    next.addEventListener("click", function () {
      var step = closed()[0];
      if (!step) return;
      step.open = true;
      step.querySelector("summary").focus();
    });
    all.addEventListener("click", function () {
      var open = closed().length > 0;
      steps.forEach(function (step) { step.open = open; });
    });
    steps.forEach(function (step) { step.addEventListener("toggle", refresh); });
    refresh();
  }

  /* A link to a step opens it, and so does arriving by one. */
  function openTarget() {
    var id = "";
    try {
      id = decodeURIComponent(location.hash.slice(1));
    } catch (broken) {
      /* An address typed wrong leads to no step. */
    }
    var target = id !== "" && document.getElementById(id);
    if (target && target.matches("details.sw-step")) target.open = true;
  }

  /* A box that scrolls is a stop for the keyboard only while there is something to scroll. */
  function stopWhereScrolling() {
    var observer = window.ResizeObserver && new ResizeObserver(function (changes) {
      changes.forEach(function (change) {
        var box = change.target;
        if (box.scrollWidth > box.clientWidth) box.tabIndex = 0;
        else if (box.clientWidth) box.removeAttribute("tabindex");
      });
    });
    if (!observer) return;
    Array.prototype.forEach.call(document.querySelectorAll(".sw-scroll"), function (box) {
      observer.observe(box);
    });
  }

  function start() {
    stopWhereScrolling();
    Array.prototype.forEach.call(document.querySelectorAll("form.sw-question"), setUpQuestion);
    Array.prototype.forEach.call(document.querySelectorAll("[data-steps]"), setUpSteps);
    window.addEventListener("hashchange", openTarget);
    openTarget();
  }

  if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", start);
  else start();
})();
