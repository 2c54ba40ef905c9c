"use strict";
// Everything works without this: it adds sorting and filtering to the tables of
// pieces, and takes the keyboard back to the figure whose detail is closed.
(function () {
  var from = null;
  document.addEventListener("click", function (e) {
    var link = e.target.closest ? e.target.closest("a") : null;
    if (link && !link.closest("aside")) { from = link; }
  });
  window.addEventListener("hashchange", function () {
    var there = document.getElementById(location.hash.slice(1));
    var open = there && there.closest("aside > section");
    if (open) {
      var name = open.querySelector("h2").textContent;
      open.setAttribute("aria-label", name);
      Array.prototype.forEach.call(open.querySelectorAll("table"), function (table, i) {
        if (!table.caption) { table.setAttribute("aria-label", name + (i > 0 ? ", " + (i + 1) : "")); }
      });
      open.focus({preventScroll: true});
    }
    if (location.hash === "#none" && from) { from.focus({preventScroll: true}); }
  });
  document.addEventListener("keydown", function (e) {
    if (e.key === "Escape" && document.querySelector("aside section:target, aside section :target")) { location.hash = "none"; }
  });

  // value is what a cell is sorted by: cents or a number where it has one, else
  // its words; nothing stands last.
  function value(cell) {
    var text = cell.textContent.trim();
    if (cell.dataset.v !== undefined) { return Number(cell.dataset.v); }
    if (text === "") { return null; }
    if (/^[(−]?[\d,.]+\)?$/.test(text)) { return Number(text.replace(/,/g, "").replace("−", "-")); }
    return text;
  }
  function compare(a, b) {
    if (a === null || b === null) { return (a === null) - (b === null); }
    return typeof a === "number" && typeof b === "number" ? a - b : String(a).localeCompare(String(b), "en", {numeric: true});
  }
  function element(name, text, parent) {
    var e = document.createElement(name);
    if (text) { e.textContent = text; }
    if (parent) { parent.appendChild(e); }
    return e;
  }

  function sortable(table, head, at) {
    var name = head.textContent;
    head.textContent = "";
    var button = element("button", name, head);
    button.type = "button";
    button.addEventListener("click", function () {
      var down = head.getAttribute("aria-sort") === "ascending";
      table.querySelectorAll("th[aria-sort]").forEach(function (h) { h.removeAttribute("aria-sort"); });
      head.setAttribute("aria-sort", down ? "descending" : "ascending");
      Array.prototype.forEach.call(table.tBodies, function (body) {
        var rows = Array.prototype.filter.call(body.rows, function (r) { return !r.className; });
        var last = body.querySelector("tr.t,tr.u");
        rows.map(function (r, i) { return {row: r, i: i, v: value(r.cells[at])}; }).sort(function (a, b) {
          if (a.v === null || b.v === null) { return compare(a.v, b.v) || a.i - b.i; }
          return (down ? compare(b.v, a.v) : compare(a.v, b.v)) || a.i - b.i;
        }).forEach(function (x) { body.insertBefore(x.row, last); });
      });
    });
  }

  function finder(table) {
    var form = document.createElement("form"), tests = [], said;
    form.className = "find";
    form.setAttribute("aria-label", "Find pieces");
    form.addEventListener("submit", function (e) { e.preventDefault(); });
    var rows = Array.prototype.filter.call(table.querySelectorAll("tbody tr"), function (r) {
      return !r.className;
    });
    function show() {
      var n = 0;
      rows.forEach(function (r) {
        r.hidden = !tests.every(function (t) { return t(r); });
        n += r.hidden ? 0 : 1;
      });
      table.querySelectorAll("tr.t,tr.u").forEach(function (r) { r.hidden = n < rows.length; });
      said.textContent = n + " of " + rows.length + " shown";
    }
    function field(label, input) {
      var l = element("label", label + " ", form);
      l.appendChild(input);
      input.addEventListener("input", show);
    }
    Array.prototype.forEach.call(table.tHead.rows[0].cells, function (head, at) {
      var name = head.textContent;
      if (head.tagName === "TH") { sortable(table, head, at); }
      if (head.dataset.find === "choice") {
        var select = document.createElement("select"), seen = {};
        element("option", "all", select).value = "";
        rows.map(function (r) { return r.cells[at].textContent.trim(); }).sort().forEach(function (text) {
          if (text && !Object.prototype.hasOwnProperty.call(seen, text)) {
            seen[text] = true;
            element("option", text, select).value = text;
          }
        });
        field(name, select);
        tests.push(function (r) { return !select.value || r.cells[at].textContent.trim() === select.value; });
      }
      if (head.dataset.find === "range") {
        var scale = table.querySelector("tbody td[data-v]:nth-child(" + (at + 1) + ")") ? 100 : 1;
        ["from", "to"].forEach(function (end, less) {
          var input = document.createElement("input");
          input.type = "number";
          input.step = "any";
          field(name + " " + end, input);
          tests.push(function (r) {
            var v = value(r.cells[at]);
            if (input.value === "") { return true; }
            if (v === null) { return false; }
            return less ? v <= Number(input.value) * scale : v >= Number(input.value) * scale;
          });
        });
      }
    });
    said = element("p", "", form);
    said.setAttribute("role", "status");
    table.parentNode.parentNode.insertBefore(form, table.parentNode);
    show();
  }
  document.querySelectorAll("table.finder").forEach(finder);
})();
