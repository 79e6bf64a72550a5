/* A question answered by putting rows in order, each with a button up and one down. Only one button
   of the list is in the way of the tab key; arrow keys go on from there, and a number key puts the
   row in that place. Right is every order in which nothing is used before it is found. */
(function () {
  "use strict";

  var stepwell = window.stepwell;

  function rowsOf(form) {
    return Array.prototype.slice.call(form.querySelectorAll(".sw-order > li"));
  }

  function button(row, move) {
    return row.querySelector('[data-move="' + move + '"]');
  }

  function copies(node) {
    return Array.prototype.map.call(node.childNodes, function (child) { return child.cloneNode(true); });
  }

  function text(words) {
    return document.createTextNode(words);
  }

  /* The button that the tab key reaches, and the ends of the list, where one way leads nowhere. */
  function arrange(form, reached) {
    var rows = rowsOf(form);
    rows.forEach(function (row, at) {
      stepwell.each(row, "button", function (one) {
        var nowhere = Number(one.dataset.move) < 0 ? at === 0 : at === rows.length - 1;
        one.setAttribute("aria-disabled", String(nowhere));
        one.tabIndex = one === reached ? 0 : -1;
      });
    });
  }

  function reach(form, one) {
    arrange(form, one);
    one.focus();
  }

  /* Puts a row in the place with that number, counted from 0; the focus stays with its button. */
  function put(form, row, place, pressed) {
    var rows = rowsOf(form), from = rows.indexOf(row);
    var told = form.querySelector(".sw-order-moved");
    if (place < 0 || place >= rows.length || place === from) {
      told.textContent = "It is " + (from + 1) + " of " + rows.length + ".";
      return;
    }
    var list = row.parentNode;
    list.insertBefore(row, rows[place > from ? place + 1 : place] || null);
    reach(form, pressed);
    told.textContent = row.querySelector(".sw-order-goal").textContent + ": now " + (place + 1) +
      " of " + rows.length + ".";
    /* What was said of another order holds no longer. */
    var reply = form.querySelector(".sw-reply");
    reply.className = "sw-reply";
    reply.textContent = "";
  }

  function onPress(form, event) {
    var pressed = event.target.closest("[data-move]");
    if (!pressed) return;
    var row = pressed.closest("li");
    put(form, row, rowsOf(form).indexOf(row) + Number(pressed.dataset.move), pressed);
  }

  function onKey(form, event) {
    var here = event.target.closest("[data-move]");
    if (!here || event.altKey || event.ctrlKey || event.metaKey) return;
    var rows = rowsOf(form), row = here.closest("li"), at = rows.indexOf(row);
    var move = here.dataset.move;
    var goesTo = {
      ArrowUp: rows[at - 1], ArrowDown: rows[at + 1], Home: rows[0], End: rows[rows.length - 1],
    };
    if (Object.prototype.hasOwnProperty.call(goesTo, event.key)) {
      if (goesTo[event.key]) reach(form, button(goesTo[event.key], move));
    } else if (event.key === "ArrowLeft" || event.key === "ArrowRight") {
      reach(form, button(row, event.key === "ArrowLeft" ? -1 : 1));
    } else if (/^[1-9]$/.test(event.key)) {
      put(form, row, Number(event.key) - 1, here);
    } else {
      return;
    }
    event.preventDefault();
  }

  function setUp(form) {
    rowsOf(form).forEach(function (row, at) { row.dataset.first = String(at); });
    arrange(form, button(rowsOf(form)[0], 1));
    var list = form.querySelector(".sw-order");
    list.addEventListener("click", function (event) { onPress(form, event); });
    list.addEventListener("keydown", function (event) { onKey(form, event); });
    list.addEventListener("focusin", function (event) {
      var one = event.target.closest("[data-move]");
      if (one) arrange(form, one);
    });
  }

  function startAnew(form) {
    var rows = rowsOf(form);
    rows.sort(function (one, other) { return Number(one.dataset.first) - Number(other.dataset.first); });
    rows.forEach(function (row) { row.parentNode.appendChild(row); });
    arrange(form, button(rows[0], 1));
    form.querySelector(".sw-order-moved").textContent = "";
  }

  /* What a row needs from rows that do not come before it. */
  function lackOf(form, row, done) {
    var needed = form.querySelectorAll('[data-lacks-of="' + row.dataset.row + '"] [data-lack]');
    return Array.prototype.filter.call(needed, function (need) { return !done[need.dataset.lack]; })[0];
  }

  function check(form) {
    var done = {}, rows = rowsOf(form);
    for (var at = 0; at < rows.length; at += 1) {
      var lack = lackOf(form, rows[at], done);
      if (lack) {
        var yet = lack.hasAttribute("data-made") ? "made" : "found";
        stepwell.reply(form, false, [text("“")].concat(
          copies(rows[at].querySelector(".sw-order-goal")), [text("” needs ")], copies(lack),
          [text(", which nobody has " + yet + " yet.")]));
        return;
      }
      done[rows[at].dataset.row] = true;
    }
    var same = rows.every(function (row, place) { return Number(row.dataset.row) === place; });
    stepwell.reply(form, true, [text("Every step uses only what is known by then." +
      (same ? "" : " The solution above goes another way round, and yours works just as well."))]);
  }

  stepwell.question("order", { setUp: setUp, startAnew: startAnew, check: check });
})();
