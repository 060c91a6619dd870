/* A link to what is folded up opens it. Chromium does so by itself; other browsers are helped here. */
(function () {
  function open() {
    var found = location.hash && document.getElementById(decodeURIComponent(location.hash.slice(1)));
    var closed = false;
    for (var up = found && found.parentElement; up; up = up.parentElement) {
      if (up.tagName === "DETAILS" && !up.open) closed = up.open = true;
    }
    if (closed) found.scrollIntoView();
  }
  addEventListener("hashchange", open);
  addEventListener("load", open);
  /* The address stays the same where a fold was closed by hand and its link is tapped again. */
  document.addEventListener("click", function (event) {
    var link = event.target.closest && event.target.closest('a[href^="#"]');
    if (link && link.hash === location.hash) setTimeout(open);
  });
})();
