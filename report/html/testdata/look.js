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
  shown: function (e) { return e.getClientRects().length > 0; },
  // figures opens every nth figure and holds the place that it opens to it: as
  // much, and the sum of the rows under it.
  figures: function (nth) {
    var wrong = [], links = document.querySelectorAll("main a[href^='#f'], aside a[href^='#f']"), n = 0;
    for (var i = 0; i < links.length; i += nth) {
      var want = look.cents(links[i].textContent), to = document.getElementById(links[i].hash.slice(1));
      if (want === null) { continue; }
      location.hash = links[i].hash;
      n++;
      if (!look.shown(to)) { wrong.push(links[i].hash + " is not shown"); continue; }
      var got, rows = [], r;
      if (to.tagName === "TR") {
        got = look.amount(to);
        for (r = to.nextElementSibling; r && !r.id && !r.classList.contains("sub"); r = r.nextElementSibling) { rows.push(r); }
      } else {
        var h = to.querySelector("h2").textContent;
        got = look.cents(h.slice(h.lastIndexOf(": ") + 2));
        if (got === null) { continue; }
        var grand = to.querySelector("tr.grand");
        if (grand) { rows = Array.prototype.filter.call(grand.closest("table").querySelectorAll("tbody tr"), function (r) { return !r.className; }); }
      }
      if (Math.abs(got) !== Math.abs(want)) { wrong.push(links[i].hash + ": " + want + " opens to " + got); }
      var sum = 0, any = false;
      rows.forEach(function (r) { var c = r.classList.contains("under") ? null : look.amount(r); if (c !== null) { sum += c; any = true; } });
      if (any && sum !== got) { wrong.push(links[i].hash + ": rows of " + sum + " under " + got); }
    }
    location.hash = "#none";
    if (n < 30) { wrong.push("only " + n + " figures were opened"); }
    return wrong;
  },
  // links follows every link that is no figure.
  links: function () {
    var wrong = [];
    document.querySelectorAll("main a, nav a").forEach(function (a) {
      var to = document.getElementById(a.hash.slice(1));
      if (!to) { wrong.push(a.textContent + " leads nowhere"); }
      else if (!a.hash.match(/^#f/) && !look.shown(to)) { wrong.push(a.textContent + " leads to nothing shown"); }
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
  // asJSON holds the table of pieces to figures.json.
  asJSON: function (pieces) {
    var wrong = [], table = document.querySelector("table.finder");
    pieces.forEach(function (p) {
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
    var w = document.documentElement.clientWidth;
    return document.documentElement.scrollWidth > w ? ["the page is " + document.documentElement.scrollWidth + " wide on " + w] : [];
  },
  // rules runs every rule of the accessibility engine.
  rules: function () {
    var rules = {};
    axe.getRules().forEach(function (r) { rules[r.ruleId] = {enabled: true}; });
    return axe.run(document, {rules: rules, resultTypes: ["violations"]}).then(function (r) {
      return r.violations.map(function (v) { return v.id + " (" + v.nodes.length + "): " + v.help + ": " + v.nodes[0].html.slice(0, 160) + " " + v.nodes[0].failureSummary; });
    });
  }
};
