// What stands around the text: light or dark, the place on the page, what is folded and led to.
(() => {
  "use strict";
  const root = document.documentElement;
  const ground = document.querySelector(".gw-ground");

  const isDark = () => root.dataset.mdColorScheme === "slate";

  function tell() {
    ground.setAttribute("aria-pressed", String(isDark()));
  }

  if (ground) {
    tell();
    ground.addEventListener("click", () => {
      root.dataset.mdColorScheme = isDark() ? "default" : "slate";
      try { window.localStorage.setItem("gaswright.ground", isDark() ? "dark" : "light"); } catch { /* not kept */ }
      tell();
    });
  }

  // Paper is light.
  let screen = "";
  window.addEventListener("beforeprint", () => { screen = root.dataset.mdColorScheme; root.dataset.mdColorScheme = "default"; });
  window.addEventListener("afterprint", () => { if (screen) root.dataset.mdColorScheme = screen; });

  // A panel closes when a link in it has led to a place on this page.
  document.querySelectorAll(".gw-nav, .gw-toc").forEach((panel) => {
    panel.addEventListener("click", (event) => {
      if (event.target.closest("a") && panel.matches(":popover-open")) panel.hidePopover();
    });
  });

  // The page at hand stands in sight in a navigation that scrolls.
  const here = document.querySelector(".gw-nav [aria-current]");
  const nav = document.getElementById("gw-nav");
  function show() {
    if (here && nav.scrollHeight > nav.clientHeight) nav.scrollTop = here.offsetTop - nav.clientHeight / 3;
  }
  if (nav) {
    show();
    nav.addEventListener("toggle", show);
  }

  // What a link leads to is seen, folded or not.
  function unfold() {
    const target = document.getElementById(decodeURIComponent(window.location.hash.slice(1)));
    for (let fold = target && target.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
  }
  window.addEventListener("hashchange", unfold);
  unfold();

  // The list of headings tells where the reader is.
  const links = new Map([...document.querySelectorAll(".gw-toc a")].map((link) => [link.hash.slice(1), link]));
  const headings = [...links.keys()].map((id) => document.getElementById(decodeURIComponent(id))).filter(Boolean);
  if (headings.length && "IntersectionObserver" in window) {
    const follow = () => {
      const past = headings.filter((heading) => heading.getBoundingClientRect().top < window.innerHeight / 3);
      links.forEach((link) => link.removeAttribute("aria-current"));
      const current = past.length && links.get(encodeURIComponent(past[past.length - 1].id));
      if (current) current.setAttribute("aria-current", "location");
    };
    const observer = new IntersectionObserver(follow, { rootMargin: "0px 0px -66% 0px" });
    headings.forEach((heading) => observer.observe(heading));
    follow();
  }
})();
