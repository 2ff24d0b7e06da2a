// The search: finds tags, figures, symptoms and words of the plant at hand, and leads to the place.
(() => {
  "use strict";
  const dialog = document.getElementById("gw-search");
  const button = document.querySelector(".gw-search-open");
  if (!dialog || !button || typeof dialog.showModal !== "function") return;

  const input = dialog.querySelector("input");
  const count = dialog.querySelector(".gw-search-count");
  const list = dialog.querySelector(".gw-search-found");
  const SHOWN = 40;
  let loading = null;
  let places = [];
  let words = [];

  const plain = (text) => text.toLowerCase().replace(/[’']/g, "'").replace(/\u2212/g, "-");
  const split = (text) => plain(text).split(/[^\p{L}\p{N}.'-]+/u).filter(Boolean);

  // ---- the index, loaded as scripts since a page opened from a file may fetch nothing --------------------------

  function load(address) {
    return new Promise((resolve) => {
      const script = document.createElement("script");
      script.src = address;
      script.async = false; // the plant's own index first
      script.onload = resolve;
      script.onerror = resolve;
      document.head.append(script);
    });
  }

  function take(index, number) {
    const first = places.length;
    index.places.forEach(([page, anchor, title, names]) => {
      const [address, pageTitle] = index.pages[page];
      const named = names ? names.split(" ") : [];
      places.push({
        address, anchor, title, pageTitle, names,
        own: number === 0, // of the plant at hand, before the handbook's own pages
        row: /-row-\d+$/.test(anchor), // of a table in a guide: found, but behind what has the same name
        titleWords: split(title),
        ofPage: anchor ? split(pageTitle) : [],
        exact: [plain(title), ...named.map(plain)],
        parts: named.flatMap((name) => plain(name).split(/[._]+/)),
        order: places.length,
      });
    });
    for (const [word, packed] of Object.entries(index.words)) {
      let at = 0;
      words.push([word, packed.split(" ").map((step) => first + (at += parseInt(step, 36)))]);
    }
  }

  function ready() {
    loading ??= Promise.all(Object.keys(dialog.dataset).filter((key) => key.startsWith("index-")).sort()
      .map((key) => load(dialog.dataset[key]))).then(() => { (window.gaswrightIndex || []).forEach(take); });
    return loading;
  }

  // ---- finding ------------------------------------------------------------------------------------------------

  function distance(a, b, most) {
    if (Math.abs(a.length - b.length) > most) return most + 1;
    let before = [];
    let row = Array.from({ length: b.length + 1 }, (_, at) => at);
    for (let i = 1; i <= a.length; i += 1) {
      const next = [i];
      for (let j = 1; j <= b.length; j += 1) {
        next[j] = Math.min(row[j] + 1, next[j - 1] + 1, row[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1));
        if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) next[j] = Math.min(next[j], before[j - 2] + 1);
      }
      before = row;
      row = next;
    }
    return row[b.length];
  }

  const stem = (word) => (word.length > 4 ? word.replace(/(?:es|s)$/, "") : word);

  // How well each place answers one word; nothing for those that do not.
  function answers(word) {
    const found = new Map();
    const add = (place, points) => { if ((found.get(place) || 0) < points) found.set(place, points); };
    const root = stem(word);
    places.forEach((place) => {
      if (place.exact.includes(word)) add(place, 30);
      else if (place.titleWords.includes(word)) add(place, 14);
      else if (place.titleWords.some((one) => one.startsWith(root))) add(place, 9);
      else if (root.length > 1 && place.parts.some((one) => one.startsWith(root))) add(place, 6);
      else if (place.ofPage.some((one) => one.startsWith(root))) add(place, 2);
    });
    if (root.length > 1) {
      words.forEach(([one, held]) => {
        if (one === word) held.forEach((at) => add(places[at], 4));
        else if (one.startsWith(root)) held.forEach((at) => add(places[at], 3));
      });
    }
    return found;
  }

  // The words of the index that were most likely meant.
  function meant(word) {
    const most = word.length < 4 || /\d/.test(word) ? 0 : word.length < 8 ? 1 : 2;
    if (!most) return [];
    const known = new Set([...words.map(([one]) => one), ...places.flatMap((place) => place.titleWords)]);
    const near = [...known].map((one) => [distance(word, one, most), one]).filter(([far]) => far <= most);
    const least = Math.min(...near.map(([far]) => far));
    return near.filter(([far]) => far === least).map(([, one]) => one);
  }

  function find(text) {
    const asked = split(text);
    if (!asked.length) return [];
    const each = asked.map((word) => {
      const found = answers(word);
      if (!found.size) meant(word).forEach((one) => answers(one).forEach((points, place) => {
        found.set(place, Math.max(found.get(place) || 0, points / 2));
      }));
      return found;
    });
    let held = [...each[0].keys()].filter((place) => each.every((found) => found.has(place)));
    if (!held.length) held = [...new Set(each.flatMap((found) => [...found.keys()]))];
    const whole = plain(text.trim());
    const points = (place) => each.reduce((sum, found) => sum + (found.get(place) || 0), 0)
      + (place.exact.includes(whole) ? (place.row ? 10 : 40) : 0) + (place.exact[0].startsWith(whole) ? 6 : 0)
      + (place.anchor ? 0 : 8) - (place.row ? 30 : 0) - (place.own ? 0 : 4)
      - place.titleWords.length * 0.1;
    return held.map((place) => [points(place), place]).sort((a, b) => b[0] - a[0] || a[1].order - b[1].order)
      .map(([, place]) => place);
  }

  // ---- showing --------------------------------------------------------------------------------------------------

  function entry(place) {
    const link = document.createElement("a");
    link.href = `${dialog.dataset.base}/${place.address}${place.anchor ? `#${place.anchor}` : ""}`;
    const title = document.createElement("span");
    title.className = "gw-search-title";
    title.textContent = place.title;
    const where = document.createElement("span");
    where.className = "gw-search-where";
    where.textContent = place.anchor ? [place.pageTitle, place.names].filter(Boolean).join(" · ") : "";
    link.append(title, " ", where);
    const item = document.createElement("li");
    item.append(link);
    return item;
  }

  async function show() {
    await ready();
    const found = find(input.value);
    list.replaceChildren(...found.slice(0, SHOWN).map(entry));
    count.textContent = !input.value.trim() ? "" : !found.length ? dialog.dataset.none
      : found.length === 1 ? dialog.dataset.one : dialog.dataset.many.replace("#", found.length);
  }

  let waiting = 0;
  input.addEventListener("input", () => { window.clearTimeout(waiting); waiting = window.setTimeout(show, 80); });

  button.addEventListener("click", () => {
    dialog.showModal();
    input.select();
    ready();
  });

  dialog.addEventListener("click", (event) => {
    if (event.target === dialog || event.target.closest(".gw-search-found a")) dialog.close();
  });

  dialog.addEventListener("keydown", async (event) => {
    const links = [...list.querySelectorAll("a")];
    const at = links.indexOf(document.activeElement);
    if (event.key === "ArrowDown" || event.key === "ArrowUp") {
      event.preventDefault();
      const next = event.key === "ArrowDown" ? at + 1 : at - 1;
      if (next < 0) input.focus();
      else links[Math.min(next, links.length - 1)]?.focus();
    } else if (event.key === "Enter" && event.target === input) {
      event.preventDefault();
      window.clearTimeout(waiting);
      await show();
      list.querySelector("a")?.click();
    }
  });
})();
