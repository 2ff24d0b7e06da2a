// Tell us: a text that says exactly what a reader saw, to copy into a report. It goes nowhere by itself.
(() => {
  "use strict";
  const form = document.querySelector(".gw-report");
  if (!form) return;
  const page = form.querySelector("textarea");
  const words = form.dataset;
  const SYSTEMS = ["workshop", "si", "us"];

  function button() {
    const made = document.createElement("button");
    made.type = "button";
    made.className = "gw-copy";
    made.textContent = words.copy;
    return made;
  }

  // The number in the reader's units, and in the others where they differ.
  function valueOf(number) {
    const own = document.documentElement.dataset.units || SYSTEMS[0];
    const order = [own, ...SYSTEMS.filter((system) => system !== own)];
    const texts = order.map((system) => number.dataset[system]).filter(Boolean);
    return [...new Set(texts.length ? texts : [number.textContent])].join(" = ");
  }

  function ofWorking(working, title) {
    const number = working.querySelector(".gw-value, [data-figure]");
    const told = { name: working.dataset.working, title, value: number ? valueOf(number) : "" };
    const lines = words.ofFigure.replace(/\{(\w+)\}/g, (_, key) => told[key]);
    return `${lines}\n${page.value}`;
  }

  // Where nothing may be written to the clipboard, the text is shown, marked, to be copied by hand.
  function byHand(text, pressed) {
    const box = pressed.parentElement.querySelector("textarea") || document.createElement("textarea");
    box.readOnly = true;
    box.rows = text.split("\n").length + 1;
    box.className = "gw-copy-text";
    box.setAttribute("aria-label", words.byHand);
    box.value = text;
    pressed.after(box);
    box.focus();
    box.select();
    return box;
  }

  async function copy(text, pressed) {
    let done = false;
    try {
      await navigator.clipboard.writeText(text);
      done = true;
    } catch {
      const box = byHand(text, pressed);
      try { done = document.execCommand("copy"); } catch { /* it stands there, marked */ }
      if (done) { box.remove(); pressed.focus(); }
    }
    said(pressed).textContent = done ? words.copied : words.byHand;
  }

  function said(pressed) {
    const found = pressed.parentElement.querySelector(".gw-copy-said");
    if (found) return found;
    const made = document.createElement("span");
    made.className = "gw-copy-said";
    made.setAttribute("role", "status");
    pressed.after(made);
    return made;
  }

  // A working gets its button when it is first opened, so that a page of many numbers stays light.
  document.addEventListener("beforetoggle", ({ target, newState }) => {
    if (newState !== "open" || !target.matches(".gw-working") || target.querySelector(".gw-copy")) return;
    const made = button();
    made.addEventListener("click", () => copy(ofWorking(target, target.getAttribute("aria-label")), made));
    target.querySelector(".gw-close").append(" ", made);
  }, true);

  document.querySelectorAll(".gw-full-working").forEach((working) => {
    const line = document.createElement("p");
    const made = button();
    const heading = working.closest("section, article").querySelector(`#w-${CSS.escape(working.dataset.working.replace(/\./g, "-"))}`);
    const title = heading ? heading.textContent.replace("¶", "").trim() : "";
    made.addEventListener("click", () => copy(ofWorking(working, title), made));
    line.className = "gw-copy-line";
    line.append(made);
    working.append(line);
  });

  const own = button();
  own.addEventListener("click", () => copy(page.value, own));
  const line = document.createElement("p");
  line.append(own);
  page.after(line);
})();
