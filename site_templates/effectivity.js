/* The aircraft that was picked on the station's page: said on every page, loudly where the page is not for it. */
(function () {
  var box = document.getElementById("applies"), pick = document.getElementById("aircraft-pick");
  var holder = box || pick;
  if (!holder) return;
  var key = "procgen:" + holder.getAttribute("data-station") + ":registration";
  function kept() { try { return window.localStorage.getItem(key) || ""; } catch (e) { return ""; } }
  function keep(mark) {
    try { if (mark) window.localStorage.setItem(key, mark); else window.localStorage.removeItem(key); } catch (e) { return; }
  }
  function list(element, name) { return (element.getAttribute(name) || "").split(" ").filter(Boolean); }
  if (box) {
    var mark = kept(), line = document.getElementById("applies-picked");
    if (!mark || list(box, "data-every").indexOf(mark) < 0) return;
    if (list(box, "data-for").indexOf(mark) >= 0) {
      line.textContent = "You picked " + mark + ": this page is for it.";
    } else {
      var there = Array.prototype.filter.call(box.querySelectorAll("[data-marks]"), function (one) {
        return list(one, "data-marks").indexOf(mark) >= 0;
      })[0];
      var words = document.createElement("strong");
      words.textContent = "STOP. Not for " + mark + ", which you picked.";
      line.textContent = "";
      line.appendChild(words);
      if (there) {
        var link = document.createElement("a");
        link.href = there.getAttribute("href");
        link.textContent = "Go to the page for " + mark;
        line.appendChild(document.createTextNode(" "));
        line.appendChild(link);
      }
      line.className += " not-for";
      var marks = document.getElementById("control");
      if (marks && box.compareDocumentPosition(marks) & Node.DOCUMENT_POSITION_PRECEDING) {
        marks.parentNode.insertBefore(box, marks);
      }
    }
    line.hidden = false;
  }
  if (pick) {
    var select = document.getElementById("aircraft-select"), told = document.getElementById("aircraft-told");
    var rows = Array.prototype.slice.call(document.querySelectorAll("[data-hold-for]"));
    var pages = Array.prototype.slice.call(document.querySelectorAll("[data-page-for]"));
    var names = function (some) {
      return some.map(function (row) { return row.getAttribute("data-hold"); }).join(", ");
    };
    var show = function () {
      var picked = select.value;
      var hidden = rows.filter(function (row) {
        return picked && list(row, "data-hold-for").indexOf(picked) < 0;
      });
      rows.forEach(function (row) { row.hidden = hidden.indexOf(row) >= 0; });
      var left = pages.filter(function (one) {
        one.hidden = Boolean(picked) && list(one, "data-page-for").indexOf(picked) < 0;
        return one.hidden && !one.closest("[hidden][data-hold-for]");
      });
      var shown = rows.filter(function (row) { return !row.hidden; });
      told.textContent = !picked ? "All " + rows.length + " holds are shown, for every aircraft."
        : "For " + picked + " shown: " + (names(shown) || "none") + ". Hidden, because not for " + picked + ": "
          + (hidden.length ? hidden.length + " (" + names(hidden) + ")" : "none") + "."
          + (left.length ? " Hidden pages of its holds: " + left.map(function (one) {
            return one.getAttribute("data-page");
          }).join(", ") + "." : "");
    };
    var before = kept();
    select.value = before;
    if (select.value !== before) select.value = "";
    select.addEventListener("change", function () { keep(select.value); show(); });
    pick.hidden = false;
    show();
  }
})();
