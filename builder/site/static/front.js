/* The filter of the list of problems. What is chosen stands in the address, so that it can be
   linked: #find:level=core&words=lamp */
(function () {
  "use strict";

  var START = "#find:";

  function setUp(form) {
    var list = document.querySelector("[data-filter-list]");
    var cards = Array.prototype.slice.call(list.querySelectorAll("[data-problem]"));
    var fields = Array.prototype.slice.call(form.querySelectorAll("select, input"));
    var says = form.querySelector("[data-filter-says]");
    var clear = form.querySelector("[data-filter-clear]");

    function chosen() {
      return fields.filter(function (field) { return field.value.trim() !== ""; });
    }

    function fits(card, field) {
      var wanted = field.value.trim();
      if (field.name === "words") {
        var words = card.dataset.words.toLowerCase();
        return wanted.toLowerCase().split(/\s+/).every(function (word) {
          return words.indexOf(word) !== -1;
        });
      }
      return (card.dataset[field.name] || "").split(" ").indexOf(wanted) !== -1;
    }

    function tell(number, filtered) {
      var all = cards.length + (cards.length === 1 ? " problem" : " problems");
      if (!filtered) return all;
      if (number > 0) return number + " of " + all;
      return "No problem fits all of this. Change one of the fields, or show all.";
    }

    function show() {
      var by = chosen();
      var shown = cards.filter(function (card) {
        card.hidden = !by.every(function (field) { return fits(card, field); });
        return !card.hidden;
      });
      says.textContent = tell(shown.length, by.length > 0);
      clear.disabled = by.length === 0;
    }

    function remember() {
      var pairs = chosen().map(function (field) {
        return field.name + "=" + encodeURIComponent(field.value.trim());
      });
      var address = pairs.length ? START + pairs.join("&") : "#find";
      try {
        history.replaceState(history.state, "", address);
      } catch (refused) {
        /* Some browsers refuse this for files. The filter works all the same. */
      }
    }

    function decoded(text) {
      try {
        return decodeURIComponent(text);
      } catch (broken) {
        return "";
      }
    }

    function recall() {
      if (location.hash.indexOf(START) !== 0) return;
      var wanted = {};
      location.hash.slice(START.length).split("&").forEach(function (pair) {
        var at = pair.indexOf("=");
        wanted[pair.slice(0, at)] = decoded(pair.slice(at + 1));
      });
      fields.forEach(function (field) {
        var own = Object.prototype.hasOwnProperty.call(wanted, field.name);
        field.value = own ? wanted[field.name] : "";
        /* A select keeps no value that is none of its options. */
        if (field.selectedIndex === -1) field.value = "";
      });
      show();
      /* What is hidden out of sight shifts nothing, so it is brought into sight a frame later. */
      requestAnimationFrame(function () {
        requestAnimationFrame(function () { form.scrollIntoView(); });
      });
    }

    function changed() {
      show();
      remember();
    }

    form.addEventListener("input", changed);
    form.addEventListener("submit", function (event) { event.preventDefault(); });
    clear.addEventListener("click", function () {
      fields.forEach(function (field) { field.value = ""; });
      changed();
      fields[0].focus();
    });
    window.addEventListener("hashchange", recall);
    show();
    recall();
  }

  Array.prototype.forEach.call(document.querySelectorAll("form[data-filter]"), setUp);
})();
