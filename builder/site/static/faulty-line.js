/* A question answered by the first wrong line of a solution. */
(function () {
  "use strict";

  var stepwell = window.stepwell;
  var BEFORE = "That line is right. Go on to the next one.";
  var MISLED = "That line is right for what came before; the fault is earlier.";
  var AFTER = "Nothing is wrong in that line; the fault is earlier.";

  function check(form) {
    var lines = Array.prototype.slice.call(form.querySelectorAll("input[data-state]"));
    var chosen = lines.filter(function (line) { return line.checked; })[0];
    if (!chosen) {
      stepwell.reply(form, undefined, [document.createTextNode("Choose one of the lines first.")]);
      return;
    }
    var fault = form.querySelector('input[data-state="fault"]');
    if (chosen !== fault) {
      var after = lines.indexOf(chosen) > lines.indexOf(fault) ? AFTER : BEFORE;
      var says = chosen.dataset.state === "misled" ? MISLED : after;
      stepwell.reply(form, false, [document.createTextNode(says)]);
      return;
    }
    var told = form.querySelector(".sw-reply-text").childNodes;
    var nodes = Array.prototype.map.call(told, function (node) { return node.cloneNode(true); });
    var link = stepwell.stepLink(form.dataset.faultStep);
    if (link) nodes.push(document.createTextNode(" "), link);
    stepwell.reply(form, true, nodes);
  }

  stepwell.question("faulty-line", { check: check });
})();
