"use strict";
/* Only what a page without scripts lacks: copying the line that accepts. */
for (const pre of document.querySelectorAll("pre.accept")) {
  const button = document.createElement("button");
  button.type = "button";
  button.className = "copy";
  button.textContent = "Copy";
  button.addEventListener("click", async () => {
    const text = pre.textContent.trim();
    try {
      await navigator.clipboard.writeText(text);
      button.textContent = "Copied";
    } catch {
      const range = document.createRange();
      range.selectNodeContents(pre);
      const selection = getSelection();
      selection.removeAllRanges();
      selection.addRange(range);
      button.textContent = "Selected: copy it now";
    }
  });
  pre.after(button);
}
