"use strict";
(function () {
  var root = document.documentElement, body = document.body;
  var key = body.getAttribute("data-place");
  var $ = function (id) { return document.getElementById(id); };
  var screens = Array.prototype.slice.call(document.querySelectorAll(".screen"));
  var now = 0, view = "one";

  // What the phone keeps; a phone that refuses to keep anything must not stop the card.
  function kept(name) { try { return window.localStorage.getItem(name); } catch (e) { return null; } }
  function keep(name, value) {
    try {
      if (value === null) window.localStorage.removeItem(name); else window.localStorage.setItem(name, value);
    } catch (e) { return; }
  }

  function name(screen) { return screen.id || "head-" + screen.getAttribute("data-block"); }
  function headOf(index) {
    var block = screens[index].getAttribute("data-block");
    if (!block) return index;
    while (!screens[index].classList.contains("head")) index -= 1;
    return index;
  }
  function focusOn(element) {
    if (element) element.focus({ preventScroll: true });
  }
  function told(index) {
    var screen = screens[index], block = screen.getAttribute("data-block");
    if (screen.classList.contains("step")) {
      var total = document.querySelectorAll(".screen.step").length;
      return block + ", " + screen.getAttribute("value") + " of " + total;
    }
    return block ? "Block " + block : "";
  }

  // Where a screen is found in the list: blocks that differ only in names stand there as one.
  function listed(screen) {
    var section = screen.parentNode;
    while (section && section.getAttribute && !section.getAttribute("data-fold")) section = section.parentNode;
    return section && section.getAttribute ? $(section.getAttribute("data-fold")) : screen;
  }

  function draw(move) {
    root.setAttribute("data-view", view);
    screens.forEach(function (screen, index) { screen.classList.toggle("now", index === now); });
    $("all").setAttribute("aria-pressed", String(view === "all"));
    $("show-limits").setAttribute("aria-pressed", String(view === "limits"));
    $("show-help").setAttribute("aria-pressed", String(view === "help"));
    var last = now === screens.length - 1;
    $("back").disabled = view === "one" && now === 0;
    $("next").textContent = view !== "one" ? "Back to the steps" : now === 0 ? "Start" : last ? "Start again" : "Next";
    $("where").textContent = view === "one" ? told(now) : "";
    if (move) {
      window.scrollTo(0, 0);
      var place = view === "one" ? screens[now] : view === "all" ? null : $(view);
      focusOn(place && place.querySelector("[tabindex='-1']"));
      if (view === "all") listed(screens[now]).scrollIntoView({ block: "center" });
    }
  }

  function go(index) {
    clearNotice();
    now = Math.max(0, Math.min(screens.length - 1, index));
    keep(key, now === 0 || now === screens.length - 1 ? null : name(screens[now]));
    view = "one";
    draw(true);
  }
  function forward() {
    if (view !== "one") { view = "one"; draw(true); } else go(now === screens.length - 1 ? 0 : now + 1);
  }
  function backward() {
    if (view !== "one") { view = "one"; draw(true); } else go(now - 1);
  }
  function toggle(which) {
    view = view === which ? "one" : which;
    if (view === "help") {
      pick(screens[now].querySelector(".trouble-link a"));
      items(screens[now].querySelector(".broken-link a"));
    }
    draw(true);
    if (view === "help") reach(document.querySelector(".trouble.now h3"));
  }

  // What to do when something goes wrong at a step: that trouble alone, and of the ways the one that is asked for.
  function pick(link) {
    Array.prototype.forEach.call(document.querySelectorAll(".trouble.now, .way.now"), function (old) {
      old.classList.remove("now");
    });
    $("help").classList.toggle("picked", Boolean(link));
    $("help").classList.remove("broken");
    if (link) $(link.getAttribute("href").slice(1)).classList.add("now");
  }
  // The items that a step has to do with; all of them where it has to do with none.
  function items(link) {
    var wanted = link ? link.getAttribute("data-items").split(" ").filter(Boolean) : [];
    Array.prototype.forEach.call(document.querySelectorAll(".gone"), function (one) {
      one.classList.toggle("now", !wanted.length || wanted.indexOf(one.id.slice(7)) >= 0);
    });
    var all = document.querySelector(".gone-all");
    if (all) all.classList.toggle("asked", Boolean(wanted.length));
  }
  function reach(head) {
    if (!head) return;
    head.scrollIntoView();
    // Below the lines that stay at the top, however many they are.
    window.scrollBy(0, head.getBoundingClientRect().top - document.querySelector(".top").getBoundingClientRect().bottom - 10);
    focusOn(head);
  }
  document.addEventListener("click", function (event) {
    var link = event.target.closest ? event.target.closest(".trouble-link a, .broken-link a, .which-way a, a.hz, .gone-all a") : null;
    if (!link) return;
    event.preventDefault();
    if (link.closest(".gone-all")) { items(null); return; }
    if (link.closest(".broken-link")) {
      pick(null);
      $("help").classList.add("picked", "broken");
      items(link);
      view = "help";
      draw(false);
      reach($("out-of-service"));
      return;
    }
    var there = $(link.getAttribute("href").slice(1));
    if (link.classList.contains("hz")) {
      var open = link.nextElementSibling;
      if (open && open.classList.contains("hzd")) { open.parentNode.removeChild(open); return; }
      var copy = there.cloneNode(true);
      copy.removeAttribute("id");
      link.parentNode.insertBefore(copy, link.nextSibling);
      return;
    }
    if (link.closest(".trouble-link")) {
      pick(link);
      view = "help";
      draw(false);
    } else {
      Array.prototype.forEach.call(document.querySelectorAll(".way.now"), function (old) { old.classList.remove("now"); });
      there.classList.add("now");
    }
    reach(there.querySelector("h3"));
  });

  // A block that was interrupted starts again from its head: a lock missed after an interruption hides.
  function notice(text) {
    var p = document.createElement("p");
    p.id = "notice";
    p.setAttribute("role", "status");
    p.textContent = text;
    screens[now].insertBefore(p, screens[now].firstChild);
  }
  function clearNotice() { var old = $("notice"); if (old) old.parentNode.removeChild(old); }
  function resume() {
    var wanted = window.location.hash.slice(1), saved = kept(key), found = -1;
    screens.forEach(function (screen, index) {
      var ids = [name(screen)];
      if (screen.firstElementChild && screen.firstElementChild.id) ids.push(screen.firstElementChild.id);
      if (wanted && ids.indexOf(wanted) >= 0) found = index;
    });
    if (found >= 0) { now = found; return; }
    screens.forEach(function (screen, index) { if (saved === name(screen)) found = index; });
    if (found < 0) return;
    now = headOf(found);
    if (now !== found) {
      notice("You stopped at step " + screens[found].getAttribute("value") +
        ". The block starts again from its head: look at each step whether it is done.");
      keep(key, name(screens[now]));
    }
  }

  // Limits: exact comparison in whole numbers of any length, so that no rounding can turn a no into a yes.
  var limits = JSON.parse($("limit-data").textContent);
  var canCount = typeof window.BigInt === "function";
  function within(text, unit, cell) {
    var parts = text.split("."), places = (parts[1] || "").length;
    var mass = window.BigInt(parts[0] + (parts[1] || "")), scale = window.BigInt("1" + "0".repeat(places));
    var up = window.BigInt(unit === "lb" ? "45359237" : "1"), down = window.BigInt(unit === "lb" ? "100000000" : "1");
    return mass * up * window.BigInt(cell.d) <= window.BigInt(cell.n) * scale * down;
  }
  function ask() {
    var position = $("ask-position").value, type = $("ask-type").value, unit = $("ask-unit").value;
    var text = $("ask-mass").value.replace(/[\s\u00a0\u202f]/g, ""), cell = (limits.cells[position] || {})[type];
    var say = function (state, words) {
      $("answer").setAttribute("data-answer", state);
      $("answer").textContent = words;
    };
    if (!cell) { say("no", "No. There is no limit for " + type + " in " + position + "."); return; }
    if (cell.why) { say("no", "No. " + type + " does not go in " + position + ": " + cell.why.join("; ") + "."); return; }
    if (text === "") { say("", "At most " + cell.most + ". Governed by: " + cell.governs + "."); return; }
    if (!/^\d{1,7}(\.\d{1,4})?$/.test(text) || /^0*(\.0*)?$/.test(text)) {
      say("", "Type the mass in figures, with a point and no comma.");
      return;
    }
    var rest = " At most " + cell.most + ". Governed by: " + cell.governs + ".";
    if (!within(text, unit, cell)) { say("no", "No. " + text + " " + unit + " is too heavy for " + position + "." + rest); return; }
    var zones = limits.together.filter(function (zone) { return zone.positions.indexOf(position) >= 0; });
    var more = zones.map(function (zone) {
      return zone.sum
        ? " With the other units in " + zone.positions.join(", ") + ": " + zone.most + " together."
        : " Also, " + zone.where + ": " + zone.most + ".";
    });
    say("yes", "Yes. " + text + " " + unit + " of " + type + " can go in " + position + "." + rest + more.join(""));
  }
  if (canCount) {
    $("ask").hidden = false;
    ["ask-position", "ask-type", "ask-unit"].forEach(function (id) { $(id).addEventListener("change", ask); });
    $("ask-mass").addEventListener("input", ask);
    $("ask").addEventListener("submit", function (event) { event.preventDefault(); ask(); });
    ask();
  }

  function dark(on) {
    if (on) root.setAttribute("data-theme", "dark"); else root.removeAttribute("data-theme");
    $("dark").setAttribute("aria-pressed", String(on));
  }
  dark(kept("procgen:dark") === "1");
  $("dark").addEventListener("click", function () {
    var on = !root.hasAttribute("data-theme");
    dark(on);
    keep("procgen:dark", on ? "1" : null);
  });

  $("next").addEventListener("click", forward);
  $("back").addEventListener("click", backward);
  $("again").addEventListener("click", function () { go(0); });
  $("all").addEventListener("click", function () { toggle("all"); });
  $("show-limits").addEventListener("click", function () { toggle("limits"); });
  $("show-help").addEventListener("click", function () { toggle("help"); });
  document.addEventListener("keydown", function (event) {
    if (event.ctrlKey || event.altKey || event.metaKey || event.shiftKey) return;
    if (/^(INPUT|SELECT|TEXTAREA)$/.test(event.target.tagName) || view === "all") return;
    if (event.key === "ArrowRight" || event.key === "PageDown") { event.preventDefault(); forward(); }
    if (event.key === "ArrowLeft" || event.key === "PageUp") { event.preventDefault(); backward(); }
  });
  var from = null;
  document.addEventListener("touchstart", function (event) {
    var one = event.touches.length === 1 && !/^(INPUT|SELECT)$/.test(event.target.tagName);
    from = one ? [event.touches[0].clientX, event.touches[0].clientY] : null;
  }, { passive: true });
  document.addEventListener("touchend", function (event) {
    if (!from || view !== "one") return;
    var dx = event.changedTouches[0].clientX - from[0], dy = event.changedTouches[0].clientY - from[1];
    from = null;
    if (Math.abs(dx) < 70 || Math.abs(dy) > 50) return;
    if (dx < 0) { if (now < screens.length - 1) forward(); } else backward();
  }, { passive: true });
  document.querySelector(".blocks").addEventListener("click", function (event) {
    var link = event.target.closest ? event.target.closest("a") : null;
    if (!link) return;
    event.preventDefault();
    screens.forEach(function (screen, index) {
      if (!screen.classList.contains("head") || "#block-" + screen.getAttribute("data-block") !== link.getAttribute("href")) return;
      if (view === "one") go(index); else listed(screen).scrollIntoView();
    });
  });
  document.addEventListener("click", function (event) {
    // A mark leads to its warning, which stands on another screen: show it there and then.
    var link = event.target.closest ? event.target.closest(".marks a") : null;
    if (!link) return;
    event.preventDefault();
    var open = link.parentNode.querySelector(".warn");
    if (open) { open.parentNode.removeChild(open); return; }
    var there = document.querySelector(link.getAttribute("href"));
    if (there) {
      var copy = there.cloneNode(true);
      copy.removeAttribute("id");
      link.parentNode.appendChild(copy);
    }
  });
  window.addEventListener("beforeprint", function () {
    $("printed").textContent = new Date().toISOString().slice(0, 16).replace("T", " ") + " UTC";
  });

  root.classList.add("with-script");
  if ("scrollRestoration" in window.history) window.history.scrollRestoration = "manual";
  resume();
  draw(false);
  window.scrollTo(0, 0);
})();
