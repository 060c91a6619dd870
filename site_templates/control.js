/* Judge the revision by the reader's own day: the page may be read long after it was published. */
(function () {
  var box = document.getElementById("control"), line = document.getElementById("control-today");
  if (!box || !line) return;
  var now = new Date(), day = new Date(now.getTime() - now.getTimezoneOffset() * 60000).toISOString().slice(0, 10);
  var from = box.dataset.from, until = box.dataset.until, expires = box.dataset.expires, said = "";
  if (expires && day > expires) said = "Expired: this temporary revision ended on " + expires + ".";
  else if (until && day >= until) said = "Superseded: a later revision is in force since " + until + ".";
  else if (from && day < from) said = "Not yet in force: this revision counts from " + from + ".";
  if (!said || box.textContent.indexOf(said.split(":")[0] + ":") >= 0) return;
  line.textContent = said;
  if (box.dataset.next && day >= from) {
    var link = document.createElement("a");
    link.href = box.dataset.next;
    link.textContent = box.dataset.nextLabel;
    line.appendChild(document.createTextNode(" "));
    line.appendChild(link);
  }
  line.hidden = false;
  /* What the page said when it was built is not so any more: the line takes its place, on every screen too. */
  Array.prototype.forEach.call(box.querySelectorAll(".mark, .pg-mark"), function (mark) {
    if (mark !== line) mark.hidden = true;
  });
  box.insertBefore(line, box.firstChild);
  var head = document.getElementById("standing");
  if (head) {
    if (!head.textContent) head.parentNode.insertBefore(document.createTextNode(". "), head);
    head.textContent = said.split(":")[0];
  }
})();
