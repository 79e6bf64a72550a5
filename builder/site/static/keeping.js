/* What is done so far, kept by this browser alone, and its form in a file.

   Kept for each unit as {"problem": {"right": ["problem-q1"], "done": true, "fresh": {"7": [...]},
   "sets": [7]}}: the questions answered right with the numbers as written and with each set of
   fresh numbers, and the sets with which all of them were. */
(function () {
  "use strict";

  var marked = document.querySelector("[data-unit]");
  var unit = marked ? marked.dataset.unit : "";
  var KEY = "stepwell:progress:" + unit;
  var FORMAT = "stepwell-progress";
  var LONGEST = 1000000;
  var MOST = 400;

  function isPlain(found) {
    return Boolean(found) && typeof found === "object" && !Array.isArray(found);
  }

  function texts(found) {
    if (!Array.isArray(found)) return [];
    return found.slice(0, MOST).filter(function (id) {
      return typeof id === "string" && id.length <= 200;
    });
  }

  function isSet(text) {
    return /^[1-9][0-9]{0,2}$/.test(text);
  }

  /* What is kept of one problem, with anything that does not belong there left out. */
  function tidied(found) {
    var own = { right: texts(found.right), done: found.done === true, fresh: {}, sets: [] };
    if (isPlain(found.fresh)) {
      Object.keys(found.fresh).filter(isSet).forEach(function (set) {
        own.fresh[set] = texts(found.fresh[set]);
      });
    }
    if (Array.isArray(found.sets)) {
      own.sets = found.sets.filter(function (set, at) {
        return isSet(String(set)) && found.sets.indexOf(set) === at;
      }).map(Number);
    }
    return own;
  }

  function allTidied(found) {
    var progress = {};
    Object.keys(found).forEach(function (problem) {
      if (problem !== "__proto__" && isPlain(found[problem])) {
        progress[problem] = tidied(found[problem]);
      }
    });
    return progress;
  }

  function read() {
    try {
      var kept = JSON.parse(window.localStorage.getItem(KEY));
      return isPlain(kept) ? allTidied(kept) : {};
    } catch (unreadable) {
      return {};
    }
  }

  function write(progress) {
    try {
      window.localStorage.setItem(KEY, JSON.stringify(progress));
      return true;
    } catch (refused) {
      return false;
    }
  }

  function forget() {
    try {
      window.localStorage.removeItem(KEY);
    } catch (refused) {
      /* Where nothing can be kept, nothing is left to forget. */
    }
  }

  function canKeep() {
    try {
      var test = KEY + ":test";
      window.localStorage.setItem(test, "1");
      window.localStorage.removeItem(test);
      return true;
    } catch (refused) {
      return false;
    }
  }

  function of(progress, problem) {
    return Object.prototype.hasOwnProperty.call(progress, problem) ? progress[problem] : null;
  }

  function union(one, other) {
    return one.concat(other.filter(function (item) { return one.indexOf(item) === -1; }));
  }

  /* What was done in either. */
  function merged(one, other) {
    var all = JSON.parse(JSON.stringify(one));
    Object.keys(other).forEach(function (problem) {
      var mine = of(all, problem) || tidied({});
      var theirs = other[problem];
      mine.right = union(mine.right, theirs.right);
      mine.done = mine.done || theirs.done;
      mine.sets = union(mine.sets, theirs.sets);
      Object.keys(theirs.fresh).forEach(function (set) {
        mine.fresh[set] = union(mine.fresh[set] || [], theirs.fresh[set]);
      });
      all[problem] = mine;
    });
    return all;
  }

  /* The text of a file that holds all of it. */
  function asFile() {
    return JSON.stringify({ format: FORMAT, version: 1, unit: unit, problems: read() }, null, 1);
  }

  /* Reads such a file: {problems} or {fault}, a sentence that says what is wrong with it. */
  function fromFile(text) {
    var found;
    if (text.length > LONGEST) return { fault: "That file is far too long for a file of progress." };
    try {
      found = JSON.parse(text);
    } catch (broken) {
      return { fault: "That is no file of progress: it does not hold what this page writes." };
    }
    if (!isPlain(found) || found.format !== FORMAT || !isPlain(found.problems)) {
      return { fault: "That is no file of progress: it does not hold what this page writes." };
    }
    if (found.version !== 1) return { fault: "That file comes from a newer edition of these pages." };
    if (found.unit !== unit) {
      return { fault: "That file belongs to another unit, “" + String(found.unit).slice(0, 60) + "”." };
    }
    return { problems: allTidied(found.problems) };
  }

  window.stepwell.keeping = {
    unit: unit, key: KEY, read: read, write: write, forget: forget, canKeep: canKeep, of: of,
    merged: merged, tidied: tidied, asFile: asFile, fromFile: fromFile,
  };
})();
