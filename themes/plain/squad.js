"use strict";
/* Filters and sorts the squad's table; whole without. Nothing is fetched, stored or evaluated. */
(() => {
  const body = document.getElementById("lifters").tBodies[0], rows = [...body.rows];
  const found = document.getElementById("found"), find = document.getElementById("find"), by = document.getElementById("by");
  const needs = [...document.querySelectorAll(".needs button")];
  let need;                                    // undefined: all of them; "": those without one

  /* What is not known comes last; the longest pause first. */
  by.addEventListener("change", () => {
    const name = by.value, value = row => row.dataset[name];
    const order = name === "name" ? (a, b) => value(a).localeCompare(value(b))
      : (a, b) => (value(a) === "Infinity") - (value(b) === "Infinity") || (value(a) - value(b)) * (name === "last" ? -1 : 1) || 0;
    body.append(...(name ? rows.toSorted(order) : rows));
  });

  function filter() {
    const words = find.value.toLowerCase().split(/\s+/).filter(Boolean);
    let shown = 0;
    for (const row of rows) {
      const text = [row.dataset.name, row.dataset.need, row.dataset.words].join(" ").toLowerCase();
      row.hidden = !(words.every(word => text.includes(word)) && (need === undefined || row.dataset.area === need));
      shown += !row.hidden;
    }
    found.textContent = (shown ? found.dataset.some : found.dataset.none).replace("{shown}", shown).replace("{all}", rows.length);
    found.classList.toggle("unseen", shown > 0);   // the rows are seen; that there is none has to be said
  }
  find.addEventListener("input", filter);
  for (const button of needs) button.addEventListener("click", () => {
    need = button.dataset.need;
    needs.forEach(one => one.setAttribute("aria-pressed", String(one === button)));
    filter();
  });
})();
