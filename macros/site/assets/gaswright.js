// A number shows its working on hover, on keyboard focus and on tap. Without this script a click still does.
(() => {
  "use strict";
  const GAP = 6;
  let pinned = null;
  let leaving = 0;
  let returning = false;
  let entered = null;

  const workingOf = (figure) => document.getElementById(figure.getAttribute("popovertarget"));
  const figureOf = (target) => (target instanceof Element ? target.closest(".gw-figure") : null);

  function place(working, figure) {
    const at = figure.getBoundingClientRect();
    working.style.position = "fixed";
    working.style.margin = "0";
    const box = working.getBoundingClientRect();
    const left = Math.max(8, Math.min(at.left, window.innerWidth - box.width - 8));
    const below = at.bottom + GAP;
    const above = at.top - GAP - box.height;
    const top = below + box.height <= window.innerHeight || above < 8 ? below : above;
    working.style.left = `${left}px`;
    working.style.top = `${Math.max(8, Math.min(top, window.innerHeight - box.height - 8))}px`;
  }

  function show(figure) {
    const working = workingOf(figure);
    if (!working || working.matches(":popover-open")) return;
    window.clearTimeout(leaving);
    working.showPopover();
    place(working, figure);
    figure.setAttribute("aria-expanded", "true");
    working.addEventListener("toggle", (event) => {
      if (event.newState === "closed") {
        figure.setAttribute("aria-expanded", "false");
        if (pinned === working) pinned = null;
        // Who stepped in by keyboard stands at the number again.
        if (entered === working && (working.contains(document.activeElement) || document.activeElement === document.body)) {
          returning = true;
          figure.focus();
          returning = false;
        }
        entered = null;
      }
    }, { once: true });
  }

  function hide(working) {
    if (working && working !== pinned && working.matches(":popover-open")) working.hidePopover();
  }

  document.addEventListener("pointerover", (event) => {
    if (event.pointerType !== "mouse") return;
    const figure = figureOf(event.target);
    if (figure) {
      if (!pinned) show(figure);
    } else if (event.target instanceof Element && event.target.closest(".gw-working")) {
      window.clearTimeout(leaving);
    }
  });

  document.addEventListener("pointerout", (event) => {
    if (event.pointerType !== "mouse" || !(event.target instanceof Element)) return;
    const figure = figureOf(event.target);
    const working = figure ? workingOf(figure) : event.target.closest(".gw-working");
    if (working) {
      window.clearTimeout(leaving);
      leaving = window.setTimeout(() => hide(working), 250);
    }
  });

  document.addEventListener("focusin", (event) => {
    const figure = figureOf(event.target);
    if (figure && !returning && figure.matches(":focus-visible")) show(figure);
  });

  document.addEventListener("focusout", (event) => {
    const figure = figureOf(event.target);
    const working = figure && workingOf(figure);
    if (working && !working.contains(event.relatedTarget)) hide(working);
  });

  document.addEventListener("click", (event) => {
    const figure = figureOf(event.target);
    if (!figure) return;
    event.preventDefault();
    const working = workingOf(figure);
    if (pinned === working) {
      pinned = null;
      hide(working);
    } else {
      if (pinned) { const former = pinned; pinned = null; hide(former); }
      show(figure);
      pinned = working;
      if (event.detail === 0) { // by keyboard: step in, so that it is read and its links are next
        entered = working;
        working.tabIndex = -1;
        working.focus();
      }
    }
  });

  window.addEventListener("scroll", () => {
    document.querySelectorAll(".gw-working:popover-open").forEach((working) => {
      const figure = document.querySelector(`.gw-figure[aria-expanded="true"][popovertarget="${working.id}"]`);
      if (figure) place(working, figure);
    });
  }, { passive: true });
})();
