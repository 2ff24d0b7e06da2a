// Every number carries its text in three systems of units; this puts that of the reader's system in place, before it
// is painted. Without this script a page stands in workshop units.
(() => {
  "use strict";
  const SYSTEMS = ["workshop", "si", "us"];
  const KEY = "gaswright.units";
  const root = document.documentElement;
  const choice = document.getElementById("gw-units");
  let system = SYSTEMS[0];

  // A browser may keep nothing for pages from a file; the choice then holds for the page.
  function kept() {
    try { return window.localStorage.getItem(KEY); } catch { return null; }
  }
  function keep() {
    try { window.localStorage.setItem(KEY, system); } catch { /* for this page only */ }
  }

  function put(element) {
    // A label of a drawing is its own workshop text.
    if (element.dataset.workshop === undefined) element.dataset.workshop = element.textContent;
    const text = element.dataset[system];
    if (text !== undefined && element.textContent !== text) element.textContent = text;
  }

  const putAll = () => document.querySelectorAll("[data-si]").forEach(put);

  function say() {
    root.dataset.units = system;
    if (choice) choice.value = system;
    document.dispatchEvent(new CustomEvent("gw-units", { detail: system }));
  }

  function turnTo(wanted) {
    if (!SYSTEMS.includes(wanted) || wanted === system) return;
    system = wanted;
    putAll();
    say();
  }

  // While the page is read, the element read last may not have all of its text yet and waits for the next.
  function whileRead() {
    let last = [];
    const observer = new MutationObserver((changes) => {
      const found = last;
      changes.forEach(({ addedNodes }) => addedNodes.forEach((node) => {
        if (node.nodeType !== Node.ELEMENT_NODE) return;
        if (node.dataset.si !== undefined) found.push(node);
        node.querySelectorAll("[data-si]").forEach((element) => found.push(element));
      }));
      last = found.splice(-1);
      found.forEach(put);
    });
    observer.observe(root, { childList: true, subtree: true });
    document.addEventListener("DOMContentLoaded", () => {
      observer.disconnect();
      putAll();
    });
  }

  const wanted = kept();
  if (SYSTEMS.includes(wanted)) system = wanted;
  say();
  if (system !== SYSTEMS[0]) whileRead();
  if (choice) {
    choice.addEventListener("change", () => {
      turnTo(choice.value);
      keep();
    });
  }
  // Another page of the handbook, open beside this one or left and come back to, says it too.
  window.addEventListener("storage", (event) => { if (event.key === KEY) turnTo(event.newValue); });
  window.addEventListener("pageshow", (event) => { if (event.persisted) turnTo(kept()); });
})();
