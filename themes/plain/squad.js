"use strict";
/* Sorts and filters the squad's table; whole without. Nothing is fetched, stored or evaluated. */
(() => {
  const table = document.getElementById("lifters"), body = table.tBodies[0];
  const rows = [...body.rows], found = document.getElementById("found"), find = document.getElementById("find");
  const numbers = new Set(["gap", "days", "aside"]);

  table.querySelectorAll("th[data-by]").forEach(head => {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = head.textContent;
    head.replaceChildren(button);
    button.addEventListener("click", () => {
      const by = head.dataset.by, up = head.getAttribute("aria-sort") !== "ascending";
      table.querySelectorAll("th[aria-sort]").forEach(h => h.removeAttribute("aria-sort"));
      head.setAttribute("aria-sort", up ? "ascending" : "descending");
      const order = numbers.has(by) ? (a, b) => a.dataset[by] - b.dataset[by]
        : (a, b) => a.dataset[by].localeCompare(b.dataset[by]);
      body.append(...rows.toSorted((a, b) => up ? order(a, b) : order(b, a)));
    });
  });

  find.addEventListener("input", () => {
    const words = find.value.toLowerCase().split(/\s+/).filter(Boolean);
    let shown = 0;
    for (const row of rows) {
      const text = (row.dataset.name + " " + row.dataset.need).toLowerCase();
      row.hidden = !words.every(word => text.includes(word));
      shown += !row.hidden;
    }
    found.textContent = shown + " of " + rows.length + " lifters";
  });
})();
