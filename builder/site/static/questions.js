/* The frame of all questions: each form of question has a script of its own, which says how it is
   judged; the frame shows the verdict, tells it to screen readers, and starts each question anew
   when the page gets other numbers. A classic script: modules and fetch are refused where a page
   is opened from a folder. */
(function () {
  "use strict";

  var forms = {};

  function element(tag, className, text) {
    var made = document.createElement(tag);
    if (className) made.className = className;
    if (text) made.textContent = text;
    return made;
  }

  /* Shows a verdict: true, false, or undefined where nothing was answered; then nodes that say why.
     After a wrong answer comes a link to the step to look at again: stepId, or that of the form
     where it is left out; none where it is null. */
  function reply(form, right, nodes, stepId) {
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
    var link = right === false && stepId !== null && stepLink(stepId || form.dataset.step, form);
    if (link) {
      place.appendChild(document.createTextNode(" "));
      place.appendChild(link);
    }
  }

  /* A link that opens a step, or null where the page has no such step, or none to look at: that in
     which the form itself stands is the very one left blank. */
  function stepLink(id, form) {
    var step = id ? document.getElementById(id) : null;
    if (!step || (form && step.contains(form))) return null;
    var link = element("a", "sw-reply-look", "");
    link.href = "#" + step.id;
    link.appendChild(document.createTextNode("Look again at “"));
    Array.prototype.forEach.call(step.querySelector(".sw-step-goal").childNodes, function (node) {
      link.appendChild(node.cloneNode(true));
    });
    link.appendChild(document.createTextNode("”."));
    link.addEventListener("click", function () { step.open = true; });
    return link;
  }

  function each(root, selector, act) {
    Array.prototype.forEach.call(root.querySelectorAll(selector), act);
  }

  function setUp(form) {
    var way = forms[form.dataset.question];
    if (!way) return;
    each(form, "[data-needs-script]", function (node) { node.hidden = false; });
    if (way.setUp) way.setUp(form);
    form.addEventListener("submit", function (event) {
      event.preventDefault();
      way.check(form);
    });
  }

  /* With other numbers, what was answered is answered no longer. */
  function startAnew(form) {
    var way = forms[form.dataset.question];
    var place = form.querySelector(".sw-reply");
    if (!way || !place) return;
    place.className = "sw-reply";
    place.textContent = "";
    form.reset();
    if (way.startAnew) way.startAnew(form);
  }

  function start() {
    each(document, "form.sw-question", setUp);
    document.addEventListener("stepwell:renumbered", function () {
      each(document, "form.sw-question", startAnew);
    });
  }

  window.stepwell = {
    element: element,
    each: each,
    reply: reply,
    stepLink: stepLink,
    startAnew: startAnew,
    /* Makes a form of question known.
       way.check(form) judges what was answered and calls reply; way.setUp(form) and
       way.startAnew(form) are there where a form needs them. */
    question: function (kind, way) { forms[kind] = way; },
  };

  /* Deferred scripts run in order, before DOMContentLoaded: by then every form is known. */
  document.addEventListener("DOMContentLoaded", start);
})();
