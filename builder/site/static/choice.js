/* A question with options, one of them right. */
(function () {
  "use strict";

  var stepwell = window.stepwell;

  function checkChoice(form) {
    var chosen = form.querySelector("input:checked");
    if (!chosen) {
      stepwell.reply(form, undefined, [document.createTextNode("Choose one of the answers first.")]);
      return;
    }
    var told = form.querySelector('[data-reply="' + chosen.value + '"] .sw-reply-text');
    var nodes = Array.prototype.map.call(told.childNodes, function (node) { return node.cloneNode(true); });
    /* The reply already starts with a verdict of its own in some questions. */
    if (nodes.length && nodes[0].nodeType === 3) {
      nodes[0].textContent = nodes[0].textContent.replace(/^(Yes[.:]|No\.|Not this one\.)\s*/, "");
      nodes[0].textContent = nodes[0].textContent.charAt(0).toUpperCase() + nodes[0].textContent.slice(1);
    }
    stepwell.reply(form, chosen.hasAttribute("data-right"), nodes);
  }

  stepwell.question("choice", { check: checkChoice });
})();
