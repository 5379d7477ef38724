"use strict";
/* Sorts and filters the squad's table; whole without. Nothing is fetched, stored or evaluated. */
(() => {
  const table = document.getElementById("lifters"), body = table.tBodies[0];
  const rows = [...body.rows], found = document.getElementById("found"), find = document.getElementById("find");
  const numbers = new Set(["gap", "days", "aside"]);

  function sort(by, up) {
    const head = table.querySelector(`th[data-by="${by}"]`);
    table.querySelectorAll("th[aria-sort]").forEach(h => h.removeAttribute("aria-sort"));
    if (!head) { body.append(...rows); return; }
    head.setAttribute("aria-sort", up ? "ascending" : "descending");
    const order = numbers.has(by) ? (a, b) => a.dataset[by] - b.dataset[by]
      : (a, b) => a.dataset[by].localeCompare(b.dataset[by]);
    const unknown = row => ["", "Infinity"].includes(row.dataset[by]);   // the last, upwards and downwards
    body.append(...rows.toSorted((a, b) => unknown(a) - unknown(b) || !unknown(a) && (up ? order(a, b) : order(b, a))));
  }

  /* On a phone the headings are not there to press: the longest pause and the most rows set aside come first. */
  const choice = document.getElementById("by");
  choice.addEventListener("change", () => sort(choice.value, !["days", "aside"].includes(choice.value)));

  table.querySelectorAll("th[data-by]").forEach(head => {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = head.textContent;
    head.replaceChildren(button);
    button.addEventListener("click", () => {
      choice.value = head.dataset.by;
      sort(head.dataset.by, head.getAttribute("aria-sort") !== "ascending");
    });
  });

  find.addEventListener("input", () => {
    const words = find.value.toLowerCase().split(/\s+/).filter(Boolean);
    let shown = 0;
    for (const row of rows) {
      const text = [row.dataset.name, row.dataset.need || ""].join(" ").toLowerCase();
      row.hidden = !words.every(word => text.includes(word));
      shown += !row.hidden;
    }
    found.textContent = (shown ? found.dataset.some : found.dataset.none).replace("{shown}", shown).replace("{all}", rows.length);
    found.classList.toggle("unseen", shown > 0);   // the rows are seen; that there is none has to be said
  });
})();
