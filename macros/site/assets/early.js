// Before anything is drawn: the ground that the reader chose, or that of the system.
(() => {
  "use strict";
  const root = document.documentElement;
  let kept = null;
  try { kept = window.localStorage.getItem("gaswright.ground"); } catch { /* a browser may keep nothing */ }
  const dark = kept ? kept === "dark" : window.matchMedia("(prefers-color-scheme: dark)").matches;
  root.dataset.mdColorScheme = dark ? "slate" : "default";
  root.classList.add("gw-scripted");
  // The letters of headings stand ready before the first of them is laid out.
  if (document.fonts) document.fonts.load('600 1rem "Gaswright Heads"').catch(() => {});
})();
