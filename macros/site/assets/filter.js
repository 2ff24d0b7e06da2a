// A box above a table hides the rows in which what is typed does not stand, by name or by value in any units.
(() => {
  "use strict";
  const UNITS = ["workshop", "si", "us"];

  const plain = (text) => text
    .replace(/\u202f/g, "")
    .replace(/[\u00a0\u2009]/g, " ")
    .replace(/\u2212/g, "-")
    .replace(/\s+/g, " ")
    .toLowerCase();

  function textOf(row) {
    const values = [...row.querySelectorAll("[data-si]")].flatMap((one) => UNITS.map((unit) => one.dataset[unit] || ""));
    return plain([row.textContent, ...values].join(" "));
  }

  // A number is found from its first digit: 5 finds 5.0 and 50, and neither 25 nor 0.5.
  function stands(word, text) {
    if (!/^-?[\d.]/.test(word)) return text.includes(word);
    for (let at = text.indexOf(word); at >= 0; at = text.indexOf(word, at + 1)) {
      if (at === 0 || !/[\w.]/.test(text[at - 1])) return true;
    }
    return false;
  }

  function begin(box) {
    const table = document.getElementById(box.dataset.filters);
    const input = box.querySelector("input");
    const count = box.querySelector(".gw-filter-count");
    if (!table || !input) return;
    const rows = [...table.querySelectorAll("tbody > tr:not(.gw-group)")].map((row) => ({ row, text: textOf(row) }));

    function filter() {
      const words = plain(input.value).split(" ").filter(Boolean);
      let shown = 0;
      rows.forEach(({ row, text }) => {
        row.hidden = !words.every((word) => stands(word, text));
        if (!row.hidden) shown += 1;
      });
      table.querySelectorAll("tbody").forEach((body) => {
        body.hidden = !body.querySelector("tr:not(.gw-group):not([hidden])");
      });
      count.textContent = !words.length ? "" : shown ? `${box.dataset.shows} ${shown} / ${rows.length}` : box.dataset.none;
    }

    input.addEventListener("input", filter);
    input.addEventListener("keydown", (event) => {
      if (event.key === "Escape") { input.value = ""; filter(); }
    });
    box.hidden = false;
    filter();
  }

  document.querySelectorAll(".gw-filter").forEach(begin);
})();
