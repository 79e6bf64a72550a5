/* A question answered by giving each of a few things its place. What counts is the order: whoever
   skips a place after two that share one means the same as who does not. */
(function () {
  "use strict";

  var stepwell = window.stepwell;

  function rows(form) {
    return Array.prototype.slice.call(form.querySelectorAll(".sw-rank"));
  }

  function chosen(row) {
    var radio = row.querySelector("input:checked");
    return radio ? Number(radio.value) : 0;
  }

  /* The first two, counted from the top of the right order, that do not compare as they should. */
  function firstWrong(all) {
    var order = all.map(function (row, at) {
      return { at: at, row: row, right: Number(row.dataset.place), given: chosen(row) };
    });
    order.sort(function (one, other) { return one.right - other.right || one.at - other.at; });
    for (var later = 1; later < order.length; later += 1) {
      for (var earlier = 0; earlier < later; earlier += 1) {
        var one = order[earlier], other = order[later];
        if (Math.sign(one.right - other.right) !== Math.sign(one.given - other.given)) {
          return [one, other];
        }
      }
    }
    return null;
  }

  function copies(node) {
    return Array.prototype.map.call(node.childNodes, function (child) { return child.cloneNode(true); });
  }

  function reasonOf(form, one, other) {
    var either = [one + "-" + other, other + "-" + one];
    return Array.prototype.filter.call(form.querySelectorAll("[data-pairs]"), function (item) {
      return item.dataset.pairs.trim().split(" ").some(function (pair) { return either.indexOf(pair) >= 0; });
    })[0];
  }

  function text(words) {
    return document.createTextNode(words);
  }

  function name(row) {
    return copies(row.querySelector(".sw-rank-what"));
  }

  function check(form) {
    var all = rows(form);
    if (!all.every(chosen)) {
      stepwell.reply(form, undefined, [text("Give each of them a place first; equal ones share one.")]);
      return;
    }
    var wrong = firstWrong(all);
    if (wrong) {
      var reason = reasonOf(form, wrong[0].at, wrong[1].at);
      stepwell.reply(form, false, [].concat(
        [text("Compare ")], name(wrong[0].row), [text(" and ")], name(wrong[1].row), [text(". ")],
        reason ? copies(reason.querySelector(".sw-reply-text")) : []
      ));
      return;
    }
    var nodes = copies(form.querySelector(".sw-rank-order"));
    stepwell.each(form, "[data-pairs] .sw-reply-text", function (told) {
      nodes = nodes.concat([text(nodes.length && told.closest("li").previousElementSibling ? " " : ". ")], copies(told));
    });
    stepwell.reply(form, true, nodes);
  }

  stepwell.question("ranking", { check: check });
})();
