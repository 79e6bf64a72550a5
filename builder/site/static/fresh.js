/* Fresh numbers: the page shows the same problem with other values. Every text was made when the
   site was built; this script only puts them in. It runs before all other scripts, so that they
   find the page with the numbers that its address asks for.

   The table says for each marked element what becomes of it. A recipe such as "4+17,2+3" keeps
   four characters of the text as written, puts the text of column 17 in, keeps two more, puts in
   that of column 3, and keeps the rest. Set 0 is the problem as it is written. */
(function () {
  "use strict";

  var MARK = "data-v", TAKES = "data-x";
  var NAMESPACES = { svg: "http://www.w3.org/2000/svg", math: "http://www.w3.org/1998/Math/MathML" };
  var ENTITIES = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'", nbsp: "\u00a0" };

  function list(nodes) {
    return Array.prototype.slice.call(nodes);
  }

  function decoded(text) {
    return text.replace(/&(#x?)?(\w+);/g, function (whole, hash, name) {
      if (!hash) return ENTITIES.hasOwnProperty(name) ? ENTITIES[name] : whole;
      return String.fromCodePoint(parseInt(name, hash === "#x" ? 16 : 10));
    });
  }

  /* Elements of the site's own markup, made one by one. */
  function built(markup, parent) {
    var top = document.createDocumentFragment();
    var open = [{ node: top, space: parent.namespaceURI }];
    markup.split(/(<[^>]*>)/).forEach(function (token, at) {
      var here = open[open.length - 1];
      if (at % 2 === 0) {
        if (token) here.node.appendChild(document.createTextNode(decoded(token)));
        return;
      }
      if (token.charAt(1) === "/") {
        open.pop();
        return;
      }
      var name = token.match(/^<([^\s/>]+)/)[1];
      var space = NAMESPACES[name] || here.space;
      var made = document.createElementNS(space, name);
      var attribute = /\s([^\s=/>"']+)(?:=(?:"([^"]*)"|'([^']*)'))?/g, found;
      while ((found = attribute.exec(token))) {
        made.setAttribute(found[1], decoded(found[2] || found[3] || ""));
      }
      here.node.appendChild(made);
      if (!/\/>$/.test(token) && !/^(br|hr|img|wbr)$/.test(name)) open.push({ node: made, space: space });
    });
    return top.firstChild;
  }

  /* Puts in the elements that only some sets have; those of set 0 take them out again. */
  function takePieces(parents, pieces) {
    parents.forEach(function (parent, index) {
      pieces[index].forEach(function (piece) {
        parent.insertBefore(built(piece[1], parent), parent.children[piece[0]] || null);
      });
    });
  }

  /* The text between two children of an element; an empty one where there is none yet. */
  function textIn(element, gap) {
    var next = element.children[gap] || null;
    var before = next ? next.previousSibling : element.lastChild;
    if (before && before.nodeType === 3) return before;
    return element.insertBefore(document.createTextNode(""), next);
  }

  function steps(recipe) {
    return recipe.split(",").map(function (step) {
      var plus = step.indexOf("+");
      return { keep: plus < 0 ? 0 : Number(step.slice(0, plus)), column: Number(step.slice(plus + 1)) };
    });
  }

  /* What one text or attribute is now, and how it is changed. */
  function place(element, where) {
    if (where === "-") {
      var anchor = element.parentNode.insertBefore(document.createTextNode(""), element.nextSibling);
      return {
        read: function () { return "1"; },
        put: function (there) {
          if (there === null) anchor.parentNode.removeChild(element);
          else anchor.parentNode.insertBefore(element, anchor);
        },
      };
    }
    if (/^\d+$/.test(where)) {
      var text = textIn(element, Number(where));
      return { read: function () { return text.data; }, put: function (said) { text.data = said; } };
    }
    return {
      read: function () { return element.getAttribute(where); },
      put: function (said) {
        if (said === null) element.removeAttribute(where);
        else element.setAttribute(where, said);
      },
    };
  }

  function Table(told) {
    this.sets = told.sets;
    this.problem = told.problem;
    this.joint = told.joint;
    this.absent = told.absent;
    this.columns = told.columns;
    this.apart = [];
    this.targets = [];
  }

  Table.prototype.column = function (number) {
    if (!this.apart[number]) this.apart[number] = this.columns[number].split(this.joint);
    return this.apart[number];
  };

  /* Finds every place that varies. Returns whether the page is the one that the table is for. */
  Table.prototype.bind = function (told) {
    takePieces(list(document.querySelectorAll("[" + TAKES + "]")), told.pieces);
    var elements = list(document.querySelectorAll("[" + MARK + "]"));
    var slots = told.slots.split(" ");
    if (elements.length !== slots.length) return false;
    var table = this;
    slots.forEach(function (slot, index) {
      slot.split(";").forEach(function (target) {
        var equals = target.indexOf("=");
        table.targets.push({
          element: elements[index],
          where: equals < 0 ? "0" : target.slice(0, equals),
          steps: steps(target.slice(equals + 1)),
        });
      });
    });
    /* Texts are found before anything is put between them. */
    this.targets.forEach(function (target) {
      if (target.where !== "-") target.place = place(target.element, target.where);
    });
    this.targets.forEach(function (target) {
      if (target.where === "-") target.place = place(target.element, target.where);
      target.now = target.written = target.place.read();
    });
    /* Each text must be what the table takes it for; else the page is none of the table's. */
    return this.targets.every(function (target) {
      return target.where === "-" || table.text(target, 0) === target.written;
    });
  };

  Table.prototype.text = function (target, set) {
    if (target.where === "-") {
      return this.column(target.steps[0].column)[set] === this.absent ? null : "1";
    }
    var made = "", at = 0, absent = false;
    for (var i = 0; i < target.steps.length; i += 1) {
      var step = target.steps[i];
      var column = this.column(step.column);
      if (column[set] === this.absent) absent = true;
      made += (target.written || "").substr(at, step.keep) + column[set];
      at += step.keep + (column[0] === this.absent ? 0 : column[0].length);
    }
    return absent ? null : made + (target.written || "").slice(at);
  };

  /* Takes out again what only other sets have. */
  Table.prototype.leave = function () {
    this.targets.forEach(function (target) {
      if (target.where === "-" && target.place && this.text(target, 0) === null) target.place.put(null);
    }, this);
  };

  Table.prototype.show = function (set) {
    this.targets.forEach(function (target) {
      var text = this.text(target, set);
      if (text === target.now) return;
      target.now = text;
      target.place.put(text);
    }, this);
  };

  /* The set that the address asks for: a number, 0 for none, or the text that is no set. */
  function asked(sets) {
    var match = location.search.match(/[?&]set=([^&]*)/);
    if (!match || match[1] === "") return 0;
    var wanted = match[1];
    try {
      wanted = decodeURIComponent(wanted.replace(/\+/g, " "));
    } catch (broken) {
      /* Said as it was typed. */
    }
    return /^\d{1,4}$/.test(wanted) && Number(wanted) <= sets ? Number(wanted) : wanted;
  }

  function addressOf(set) {
    var others = location.search.slice(1).split("&").filter(function (pair) {
      return pair !== "" && !/^set=/.test(pair);
    });
    if (set) others.push("set=" + set);
    return location.href.replace(/[?#].*$/, "") + (others.length ? "?" + others.join("&") : "");
  }

  function Bar(box, table) {
    var bar = this;
    function part(name) { return box.querySelector("[data-fresh-" + name + "]"); }
    this.table = table;
    this.set = 0;
    this.box = box;
    this.now = part("now");
    this.says = part("says");
    this.choose = part("choose");
    this.link = part("link");
    this.back = part("back");
    this.paper = part("paper");
    for (var n = 0; n <= table.sets; n += 1) {
      var option = document.createElement("option");
      option.value = String(n);
      option.textContent = n ? String(n) : "as written";
      this.choose.appendChild(option);
    }
    part("next").addEventListener("click", function () { bar.turn(bar.set % table.sets + 1); });
    this.back.addEventListener("click", function () { bar.turn(0); });
    this.choose.addEventListener("change", function () { bar.turn(Number(bar.choose.value)); });
    part("copy").addEventListener("click", function () { bar.copy(); });
    box.hidden = false;
  }

  /* Shows a set; how it came to be shown decides what is said of it. */
  Bar.prototype.show = function (set) {
    this.table.show(set);
    this.set = set;
    this.choose.value = String(set);
    this.link.href = addressOf(set);
    this.link.textContent = set ? "Link to set " + set : "Link to this page";
    this.paper.textContent = set ? "With set " + set + " of " + this.table.sets + "." : "";
  };

  Bar.prototype.tell = function (before) {
    var text = this.set
      ? "Now with set " + this.set + " of " + this.table.sets + ": " + this.says.textContent + "."
      : "The numbers are as written.";
    this.now.textContent = (before || "") + text;
  };

  Bar.prototype.announce = function () {
    document.dispatchEvent(new CustomEvent("stepwell:renumbered", {
      detail: { problem: this.table.problem, set: this.set },
    }));
  };

  Bar.prototype.turn = function (set) {
    this.show(set);
    this.tell();
    try {
      history.replaceState(history.state, "", addressOf(set) + location.hash);
    } catch (refused) {
      /* Some browsers refuse this for files. The link beside the buttons has the address. */
    }
    this.announce();
  };

  /* Where the clipboard is closed to pages, the link is marked, ready to be copied by hand. */
  Bar.prototype.copy = function () {
    var bar = this;
    var address = this.link.href;
    function done() { bar.now.textContent = "The link is copied: " + address; }
    function refused() { bar.now.textContent = "Copy this address: " + address; }
    if (!navigator.clipboard) return refused();
    navigator.clipboard.writeText(address).then(done, refused);
  };

  function start() {
    var box = document.querySelector("[data-fresh]");
    var data = document.querySelector("script[data-fresh-table]");
    if (!box || !data) return;
    var told = JSON.parse(data.textContent);
    var table = new Table(told);
    var whole = table.bind(told);
    /* A page that is not the table's own stays as it is written, without the bar. */
    if (!whole) return table.leave();
    var wanted = asked(table.sets);
    var bar = new Bar(box, table);
    bar.show(typeof wanted === "number" ? wanted : 0);
    if (typeof wanted === "number") bar.tell();
    else bar.tell("There is no set “" + wanted.slice(0, 20) + "”; there are sets 1 to " + table.sets + ". ");
    document.addEventListener("DOMContentLoaded", function () {
      /* After every other script has begun to listen. */
      window.setTimeout(function () { if (bar.set) bar.announce(); }, 0);
    });
  }

  start();
})();
