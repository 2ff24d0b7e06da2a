// A drawing wider than the page begins where something moves; without this script it begins at its left.
(() => {
  "use strict";

  function centre(frame) {
    const moved = [...frame.querySelectorAll(".gw-ring")];
    const rings = moved.length ? moved : [...frame.querySelectorAll(".gw-step-drawing .gw-link .gw-touch")];
    if (!rings.length || frame.scrollWidth <= frame.clientWidth) return;
    const boxes = rings.map((ring) => ring.getBoundingClientRect());
    const left = Math.min(...boxes.map((box) => box.left));
    const right = Math.max(...boxes.map((box) => box.right));
    const here = frame.getBoundingClientRect();
    // Where not all of it finds room, the first of it does.
    const spread = Math.min(right - left, frame.clientWidth - 40);
    frame.scrollLeft += left - here.left - (frame.clientWidth - spread) / 2;
  }

  function all() {
    document.querySelectorAll(".gw-drawing-frame").forEach(centre);
  }

  if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", all);
  else all();

  // A legend that is folded on the screen is read on paper.
  window.addEventListener("beforeprint", () => {
    document.querySelectorAll("details.gw-legend:not([open])").forEach((legend) => {
      legend.open = true;
      legend.dataset.folded = "";
    });
  });
  window.addEventListener("afterprint", () => {
    document.querySelectorAll("details.gw-legend[data-folded]").forEach((legend) => {
      legend.open = false;
      delete legend.dataset.folded;
    });
  });
})();
