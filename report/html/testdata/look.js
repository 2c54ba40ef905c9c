// What the browser test asks of a page; each function gives a list of what is wrong.
var look = {
  // cents of an amount as printed: 1,234.56 or (1,234.56), with or without a sign.
  cents: function (text) {
    var m = text.trim().match(/^\(?[^0-9(.–]*([0-9,]+)\.([0-9]{2})\)?$/);
    if (!m) { return null; }
    var c = Number(m[1].replace(/,/g, "")) * 100 + Number(m[2]);
    return text.trim().charAt(0) === "(" ? -c : c;
  },
  amount: function (row) {
    for (var i = row.cells.length - 1; i >= 0; i--) {
      var c = look.cents(row.cells[i].textContent);
      if (c !== null) { return c; }
    }
    return null;
  },
  // figureLinks are the links of figures: only ids of what they open to begin with a capital.
  figureLinks: function () {
    return Array.prototype.filter.call(document.querySelectorAll("a"), function (a) { return a.hash.match(/^#[A-Z]/); });
  },
  shown: function (e) { return e.getClientRects().length > 0; },
  // name is what a row says it is: its head, or of a posting that is a line by itself the words before its arithmetic.
  name: function (row) {
    var head = row.cells[0].tagName === "TH" || row.cells[0].colSpan > 1 ? row.cells[0] : row.cells[1];
    return head.textContent.trim().split(": ")[0];
  },
  // place is what stands at an id: how much it says it is, and the amounts under it that must add up to that.
  place: function (to) {
    var parts = [], r, c, got, at = to.cellIndex;
    if (to.tagName === "TH") {
      to.closest("table").querySelectorAll("tbody tr").forEach(function (r) {
        c = r.cells[at] ? look.cents(r.cells[at].textContent) : null;
        if (r.className === "u") { got = c; } else if (c !== null) { parts.push(c); }
      });
      return {got: got, parts: parts};
    }
    if (to.tagName === "TR") {
      got = look.amount(to);
      for (r = to.nextElementSibling; r && !r.id && !/\b[stug]\b/.test(r.className); r = r.nextElementSibling) {
        c = r.className === "n" ? null : look.amount(r);
        if (c !== null) { parts.push(c); }
      }
      return {got: got, parts: parts};
    }
    var title = to.querySelector("h2").textContent, grand = Array.prototype.slice.call(to.querySelectorAll("tr.u")).pop();
    got = look.cents(title.slice(title.lastIndexOf(": ") + 2));
    if (grand) {
      if (got === null) { got = look.amount(grand); }
      grand.closest("table").querySelectorAll("tbody tr").forEach(function (r) {
        c = r.className ? null : look.amount(r);
        if (c !== null) { parts.push(c); }
      });
    }
    return {got: got, parts: parts};
  },
  // figures holds every figure of the page to the place that it opens to: as much, and the sum of the rows under it; and
  // opens every nth place.
  figures: function (nth, least) {
    var wrong = [], seen = {}, n = 0, places = 0;
    look.figureLinks().forEach(function (a) {
      var id = a.hash.slice(1), to = document.getElementById(id), want = look.cents(a.textContent), p = seen[id];
      if (!to) { wrong.push(a.textContent + " opens to nothing"); return; }
      if (!p) {
        p = seen[id] = look.place(to);
        var sum = p.parts.reduce(function (x, y) { return x + y; }, 0);
        if (p.parts.length && p.got !== null && sum !== p.got) { wrong.push(id + ": rows of " + sum + " under " + p.got); }
        if (places++ % nth === 0) {
          location.hash = id;
          if (!look.shown(to)) { wrong.push(id + " is not shown"); }
        }
      }
      if (want === null) { return; }
      n++;
      if (p.got !== null && Math.abs(p.got) !== Math.abs(want)) { wrong.push(a.textContent + " opens to " + p.got + " at " + id); }
    });
    location.hash = "#none";
    if (n < least) { wrong.push("only " + n + " figures open"); }
    return wrong;
  },
  // asJSON holds what opens to figures.json; lines are its names of lines, by their labels on pages.
  asJSON: function (figures, lines, least) {
    var wrong = [], n = 0, compare = function (where, got, want) {
      if (typeof want !== "string") { return; }
      n++;
      if (got !== Math.round(Number(want) * 100)) { wrong.push(where + ": " + got + ", not " + want); }
    }, rows = function (section, labels, of) {
      section.querySelectorAll("tr[id]").forEach(function (r) {
        var key = labels[look.name(r)];
        if (key) { compare(section.querySelector("h2").textContent + ", " + key, look.amount(r), of[key]); }
      });
    };
    document.querySelectorAll("aside section").forEach(function (s) {
      var title = s.querySelector("h2").textContent;
      figures.pieces.forEach(function (p) {
        if (title === "Piece " + p.piece + ": every posting") { rows(s, lines.piece, p); }
      });
      figures.shelf.forEach(function (x) {
        if (title.indexOf(x.supply + ": the shelf in ") === 0) { rows(s, lines.shelf, x); }
      });
      if (title === "Statement of " + lines.month + ": every posting") { rows(s, lines.statement, figures.statement); }
      Object.keys(lines.titles).forEach(function (name) {
        if (title.indexOf(name + ", " + lines.month + ": ") === 0) { compare(title, look.place(s).got, figures.statement[lines.titles[name]]); }
      });
      Object.keys(lines.stock).forEach(function (label) {
        if (title.indexOf("Pieces at book cost: " + label + ",") === 0 && title.indexOf(lines.month) > 0) {
          compare(title, look.place(s).got, figures.stock[lines.stock[label]]);
        }
      });
    });
    if (n < least) { wrong.push("only " + n + " figures were compared"); }
    return wrong;
  },
  // taxLines holds each line of a year's form to figures.json: the place it opens to.
  taxLines: function (figures) {
    var wrong = [], n = 0, at = {};
    document.querySelectorAll("aside section").forEach(function (s) {
      at[s.querySelector("h2").textContent.replace(/: \(?\$[0-9,.]+\)?$/, "")] = look.place(s).got;
    });
    figures.tax_lines.forEach(function (l) {
      var title = "Line " + l.line + ", " + l.label, got = at[title];
      if (Number(l.amount) === 0 && got === undefined) { return; }
      n++;
      if (got !== Math.round(Number(l.amount) * 100)) { wrong.push(title + ": " + got + ", not " + l.amount); }
    });
    if (n < 12) { wrong.push("only " + n + " lines were compared"); }
    return wrong;
  },
  // links follows every link that is no figure.
  links: function () {
    var wrong = [];
    document.querySelectorAll("main a, nav a").forEach(function (a) {
      var to = document.getElementById(a.hash.slice(1));
      if (!to) { wrong.push(a.textContent + " leads nowhere"); }
      else if (!a.hash.match(/^#[A-Z]/) && !look.shown(to)) { wrong.push(a.textContent + " leads to nothing shown"); }
    });
    return wrong;
  },
  column: function (table, name) {
    return Array.prototype.findIndex.call(table.tHead.rows[0].cells, function (c) { return c.textContent.trim().indexOf(name) === 0; });
  },
  values: function (table, at) {
    return Array.prototype.filter.call(table.querySelectorAll("tbody tr"), function (r) { return !r.hidden && !r.className; })
      .map(function (r) { return r.cells[at].textContent.trim(); }).filter(function (t) { return t !== ""; });
  },
  // sorts sorts by days and by profit, both ways, with the keyboard's button.
  sorts: function () {
    var wrong = [], table = document.querySelector("table.finder");
    ["Days", "Profit after shop costs", "Kind"].forEach(function (name) {
      var at = look.column(table, name), head = table.tHead.rows[0].cells[at], button = head.querySelector("button");
      ["ascending", "descending"].forEach(function (way) {
        button.click();
        var v = look.values(table, at).map(function (t) { var c = look.cents(t); return c !== null ? c : isNaN(t) ? t : Number(t); });
        for (var i = 1; i < v.length; i++) {
          var bad = typeof v[i] === "number" ? v[i - 1] - v[i] : v[i - 1].localeCompare(v[i], "en");
          if (way === "ascending" ? bad > 0 : bad < 0) { wrong.push(name + " " + way + ": " + v[i - 1] + ", " + v[i]); }
        }
        if (head.getAttribute("aria-sort") !== way || v.length < 3) { wrong.push(name + " is not " + way); }
      });
    });
    return wrong;
  },
  // filters chooses a kind, a channel and a range, and takes them back.
  filters: function () {
    var wrong = [], table = document.querySelector("table.finder"), form = document.querySelector("form.find");
    var all = table.querySelectorAll("tbody tr").length;
    var field = function (label) {
      return Array.prototype.find.call(form.querySelectorAll("label"), function (l) { return l.firstChild.textContent.trim() === label; }).querySelector("input,select");
    };
    var set = function (label, value) { var f = field(label); f.value = value; f.dispatchEvent(new Event("input", {bubbles: true})); };
    ["Kind", "Channel"].forEach(function (name) {
      var pick = field(name).options[1].value;
      set(name, pick);
      var v = look.values(table, look.column(table, name));
      if (!v.length || v.length >= all || v.some(function (t) { return t !== pick; })) { wrong.push(name + " " + pick + " gives " + v); }
      set(name, "");
    });
    set("Days from", "30");
    set("Days to", "90");
    var v = look.values(table, look.column(table, "Days"));
    if (!v.length || v.some(function (t) { return Number(t) < 30 || Number(t) > 90; })) { wrong.push("days 30 to 90 give " + v); }
    set("Days from", "");
    set("Days to", "");
    set("Profit after shop costs from", "50");
    v = look.values(table, look.column(table, "Profit after shop costs"));
    if (!v.length || v.some(function (t) { return look.cents(t) < 5000; })) { wrong.push("profit from 50 gives " + v); }
    set("Profit after shop costs from", "");
    if (look.values(table, 0).length !== all) { wrong.push("not all are shown again"); }
    return wrong;
  },
  // finder holds the table of pieces to figures.json.
  finder: function (figures) {
    var wrong = [], table = document.querySelector("table.finder");
    figures.pieces.forEach(function (p) {
      var row = Array.prototype.find.call(table.querySelectorAll("tbody tr"), function (r) { return r.cells[0].textContent.trim() === p.piece; });
      [["Book cost", "book_cost"], ["Profit before shop costs", "profit"], ["Profit after shop costs", "profit_after_overhead"], ["An hour after", "profit_per_hour_after_overhead"]].forEach(function (x) {
        var cell = row.cells[look.column(table, x[0])];
        if (!cell) { wrong.push(p.piece + " has no " + x[0] + " in " + row.innerHTML); return; }
        var got = look.cents(cell.textContent), want = p[x[1]];
        if (want !== null && Number(want) !== 0 && got !== Math.round(Number(want) * 100)) { wrong.push(p.piece + " " + x[0] + ": " + got + ", not " + want); }
      });
    });
    return wrong;
  },
  // keyboard opens a figure, closes it with Escape, and is back at the figure.
  keyboard: function () {
    var link = document.querySelector("dl.keys a");
    link.focus();
    link.click();
    return new Promise(function (done) {
      setTimeout(function () {
        var inside = document.activeElement.closest("aside section") !== null;
        document.dispatchEvent(new KeyboardEvent("keydown", {key: "Escape", bubbles: true}));
        setTimeout(function () {
          var wrong = inside ? [] : ["the keyboard is not in what was opened"];
          if (document.activeElement !== link) { wrong.push("the keyboard is not back"); }
          if (document.querySelector("aside section:target, aside section :target")) { wrong.push("it is still open"); }
          done(wrong);
        }, 100);
      }, 100);
    });
  },
  // rows gives the key figures that do not stand so many in a row.
  rows: function (across) {
    var wrong = [], lists = document.querySelectorAll("dl.across4");
    if (!lists.length) { return ["there are no key figures in rows"]; }
    lists.forEach(function (list) {
      for (var i = 0; i < list.children.length; i++) {
        var first = list.children[i - i % across], e = list.children[i];
        var row = e.getBoundingClientRect().top === first.getBoundingClientRect().top;
        var below = i < across || first.getBoundingClientRect().top > list.children[i - i % across - 1].getBoundingClientRect().top;
        if (!row || !below) { wrong.push(e.textContent); }
      }
    });
    return wrong;
  },
  // wide gives what is wider than the screen without a scroller of its own.
  wide: function () {
    var w = document.documentElement.clientWidth, wrong = [];
    if (document.documentElement.scrollWidth > w) { wrong.push("the page is " + document.documentElement.scrollWidth + " wide on " + w); }
    document.querySelectorAll("main p, main li, main dd, main dt, main caption, main figcaption, h1, h2, h3, h4").forEach(function (e) {
      if (e.getBoundingClientRect().right > w + 1) { wrong.push(e.tagName + " goes on beyond the screen: " + e.textContent); }
    });
    return wrong;
  },
  // labels gives the words of charts that are smaller than 11 pixels.
  labels: function () {
    var wrong = [], n = 0;
    document.querySelectorAll("svg.chart").forEach(function (svg) {
      var scale = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
      svg.querySelectorAll("text").forEach(function (t) {
        var high = parseFloat(getComputedStyle(t).fontSize) * scale;
        if (!look.shown(t)) { return; }
        n++;
        if (high < 11) { wrong.push(t.textContent + " is " + high + " pixels"); }
      });
    });
    return n > 10 ? wrong : wrong.concat("there are no charts");
  },
  // underlined gives links of whole sentences.
  underlined: function () {
    return Array.prototype.map.call(document.querySelectorAll("main a, aside a"), function (a) { return a.textContent; })
      .filter(function (t) { return t.length > 75; });
  },
  // open follows the first figure's link of a kind.
  open: function (which) {
    var link = look.figureLinks().filter(function (a) { return a.matches(which); })[0];
    if (!link) { return ["there is no " + which]; }
    location.hash = link.hash;
    return look.shown(document.getElementById(link.hash.slice(1))) ? [] : [which + " is not shown"];
  },
  // filter sorts the pieces and leaves some out; a year has no table of pieces to choose from, and of few pieces one has none.
  filter: function () {
    var table = document.querySelector("table.finder"), select = document.querySelector("form.find select");
    if (!select) { return []; }
    table.tHead.querySelector("button").click();
    select.selectedIndex = 1;
    select.dispatchEvent(new Event("input", {bubbles: true}));
    return table.tBodies[0].rows.length < 4 || table.querySelector("tbody tr[hidden]") ? [] : ["nothing is left out"];
  },
  // numbers opens the tables under drawings.
  numbers: function () {
    document.querySelectorAll("details").forEach(function (d) { d.open = true; });
    return [];
  },
  // rules runs every rule of the accessibility engine; on paper nothing is touched.
  rules: function (paper) {
    var rules = {};
    axe.getRules().forEach(function (r) { rules[r.ruleId] = {enabled: !(paper && r.ruleId === "target-size")}; });
    return axe.run(document, {rules: rules, resultTypes: ["violations"]}).then(function (r) {
      return r.violations.map(function (v) { return v.id + " (" + v.nodes.length + "): " + v.help + ": " + v.nodes[0].html.slice(0, 160) + " " + v.nodes[0].failureSummary; });
    });
  }
};
