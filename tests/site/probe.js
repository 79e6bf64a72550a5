/* Looks at an open page for what people could stumble over; each function returns what it found. */
window.probe = (function () {
  "use strict";

  function shown(node) {
    return node.checkVisibility({ opacityProperty: true, visibilityProperty: true }) &&
      node.getClientRects().length > 0;
  }

  function named(node) {
    return node.tagName.toLowerCase() + "." + String(node.className.baseVal || node.className) +
      " “" + node.textContent.trim().slice(0, 40) + "”";
  }

  /* A link among the words of a sentence is as high as its line. */
  function inSentence(link) {
    var block = link.closest("p, li, td, dd, h1, h2, h3, .sw-reply");
    if (!block) return false;
    var words = block.textContent.replace(link.textContent, "").replace(/\s+/g, "");
    return getComputedStyle(link).display === "inline" && words.length > 1;
  }

  var CONTROLS = "a[href], button, input, select, textarea, summary, [tabindex='0'], label";

  function targets(least) {
    return Array.from(document.querySelectorAll(CONTROLS)).filter(shown).filter(function (node) {
      if (node.tagName === "INPUT" && node.closest("label")) return false;
      if (node.tagName === "LABEL" && !node.querySelector("input")) return false;
      if (node.tagName === "A" && inSentence(node)) return false;
      var box = node.getBoundingClientRect();
      return Math.min(box.width, box.height) < least - 0.05;
    }).map(named);
  }

  /* What the keyboard must reach: one stop for each control, one for each group of choices. */
  function stops() {
    var groups = {};
    return Array.from(document.querySelectorAll(CONTROLS)).filter(function (node) {
      if (node.tabIndex < 0 || node.disabled || node.tagName === "LABEL" || !shown(node)) return false;
      if (node.type !== "radio") return true;
      if (groups[node.name]) return false;
      return (groups[node.name] = true);
    }).map(mark);
  }

  var count = 0;
  function mark(node) {
    if (node.type === "radio") return "radio " + node.name;
    if (!node.dataset.probe) node.dataset.probe = String((count += 1));
    return node.dataset.probe + " " + node.tagName + " “" + node.textContent.trim().slice(0, 40) + "”";
  }

  /* Where the focus is, and how it can be seen. */
  function focus() {
    var node = document.activeElement;
    if (!node || node === document.body) return null;
    var seen = shown(node) ? node : node.nextElementSibling || node;
    var style = getComputedStyle(seen);
    var box = seen.getBoundingClientRect();
    return {
      stop: mark(node),
      outline: style.outlineStyle === "none" ? 0 : parseFloat(style.outlineWidth),
      inSight: box.bottom > 0 && box.top < innerHeight && box.right > 0 && box.left < innerWidth,
    };
  }

  var BLOCKS = "p, li, summary, legend, label, button, figure, table, math[display], h1, h2, h3, dt, dd";

  /* Where a node is seen: what is scrolled out of a box that scrolls lies over nothing beside it. */
  function inView(node) {
    var own = node.getBoundingClientRect();
    var box = { left: own.left, right: own.right, top: own.top, bottom: own.bottom };
    for (var up = node.parentElement; up; up = up.parentElement) {
      if (!/auto|scroll/.test(getComputedStyle(up).overflowX)) continue;
      var edge = up.getBoundingClientRect();
      box.left = Math.max(box.left, edge.left);
      box.right = Math.min(box.right, edge.right);
    }
    return box;
  }

  function overlaps(root) {
    var blocks = Array.from(document.querySelectorAll(root)).flatMap(function (part) {
      return Array.from(part.querySelectorAll(BLOCKS));
    }).filter(shown).filter(function (node) { return !node.querySelector(BLOCKS); });
    var boxes = blocks.map(inView);
    var found = [];
    boxes.forEach(function (a, i) {
      boxes.forEach(function (b, j) {
        if (j <= i) return;
        var wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
        var high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
        if (wide > 1.5 && high > 1.5) found.push(named(blocks[i]) + " over " + named(blocks[j]));
      });
    });
    return found;
  }

  function clipped(root) {
    return Array.from(document.querySelectorAll(root + " *")).filter(shown).filter(function (node) {
      if (node.closest("svg, math")) return false;
      var style = getComputedStyle(node);
      var hides = /hidden|clip/.test(style.overflowX + style.overflowY);
      var over = node.scrollWidth > node.clientWidth + 1 || node.scrollHeight > node.clientHeight + 1;
      return hides && over && node.clientHeight > 1;
    }).map(named);
  }

  /* Where everything before a node stands on the page. */
  function above(node) {
    var all = Array.from(document.querySelectorAll("article *"));
    return all.filter(function (other) {
      return other === node || node.compareDocumentPosition(other) & Node.DOCUMENT_POSITION_PRECEDING;
    }).filter(shown).map(function (other) {
      var box = other.getBoundingClientRect();
      return [Math.round(box.left + scrollX), Math.round(box.top + scrollY)].join();
    }).join(" ");
  }

  function moving() {
    return Array.from(document.querySelectorAll("*")).filter(function (node) {
      return ["", "::before", "::after"].some(function (part) {
        var style = getComputedStyle(node, part || null);
        return /[1-9]/.test(style.transitionDuration) || style.animationName !== "none" ||
          style.scrollBehavior === "smooth";
      });
    }).map(named);
  }

  return { targets: targets, stops: stops, focus: focus, overlaps: overlaps, clipped: clipped,
    above: above, moving: moving };
})();
