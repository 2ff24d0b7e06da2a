// A heading of a sortable table sorts its rows when it is pressed, and again for the other way round.
(() => {
  "use strict";

  const columnOf = (head) => [...head.parentElement.children].indexOf(head);

  function keyOf(row, column) {
    const text = row.children[column].dataset.sort;
    if (text === undefined) return null;
    const number = Number(text);
    return text !== "" && Number.isFinite(number) ? number : text;
  }

  // What says nothing comes last, whichever way the rest is sorted.
  function compare(a, b, way) {
    if (a === null || b === null) return (a === null) - (b === null);
    if (typeof a === "number" && typeof b === "number") return (a - b) * way;
    return String(a).localeCompare(String(b), document.documentElement.lang) * way;
  }

  function sort(head) {
    const table = head.closest("table");
    const column = columnOf(head);
    const before = head.getAttribute("aria-sort");
    const largest = head.dataset.first === "largest";
    const ascending = before === null ? !largest : before === "descending";
    const body = table.tBodies[0];
    [...body.rows]
      .map((row) => ({ row, key: keyOf(row, column) }))
      .sort((one, other) => compare(one.key, other.key, ascending ? 1 : -1))
      .forEach(({ row }) => body.append(row));
    table.querySelectorAll("th[aria-sort]").forEach((other) => other.removeAttribute("aria-sort"));
    head.setAttribute("aria-sort", ascending ? "ascending" : "descending");
  }

  function begin(table) {
    table.querySelectorAll("thead th").forEach((head) => {
      const button = document.createElement("button");
      button.type = "button";
      button.className = "gw-sort";
      button.append(...head.childNodes);
      button.addEventListener("click", () => sort(head));
      head.append(button);
    });
    document.querySelectorAll(".gw-sort-hint").forEach((hint) => { hint.hidden = false; });
  }

  document.querySelectorAll("table[data-sortable]").forEach(begin);
})();
