/* What a reader answers. It stays in the page until it is saved, copied or shared; nothing is stored or sent. */
function answers() {
  const panel = document.querySelector(".answers");
  if (!panel) return;
  const form = panel.querySelector("template").content.firstElementChild;
  const rows = panel.querySelector(".rows"), text = rows.querySelector("textarea"), save = rows.querySelector("a");
  const told = rows.querySelector("[role=status]"), missing = panel.querySelector(".missing");
  const share = panel.querySelector("[data-way=share]"), { of, day, note } = panel.dataset;
  const name = of === "findings" ? "decisions.csv" : day + "-answers.md";
  const type = of === "findings" ? "text/csv" : "text/markdown";
  let kept = "";                              // what was taken out of the page last

  const line = words => words.replace(/[\s\u0000-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]+/g, " ").trim();
  function cell(words) {                      // no spreadsheet program may take it for a formula
    const one = line(words).replace(/^[=+\-@]/, "'$&");
    return /[",;]/.test(one) ? '"' + one.replace(/"/g, '""') + '"' : one;
  }

  const all = Array.from(document.querySelectorAll("[data-answer]"), (place, n) => {
    const asked = place.matches("li") ? line(place.textContent) : "", box = form.cloneNode(true);
    const said = box.querySelector("b"), group = box.querySelector("[role=group]"), why = box.querySelector("textarea");
    const check = box.querySelector("[type=date]"), radios = Array.from(box.querySelectorAll("[type=radio]"));
    const head = place.querySelector("h3"), paper = place.querySelector(".answer-line") || place;
    radios.forEach(one => { one.name = "answer-" + n; });
    for (const one of box.querySelectorAll("summary span, button span")) one.textContent = " " + (n + 1);
    group.setAttribute("aria-label", box.querySelector("summary").textContent.trim() + (head ? ": " + line(head.textContent) : ""));
    const answer = {
      asked, name: place.dataset.answer,
      get verdict() { const one = radios.find(r => r.checked); return one ? one.value : ""; },
      get why() { return why.value.trim(); },
      get check() { return check ? check.value : ""; },
      show() {
        const one = radios.find(r => r.checked), verdict = one ? one.parentElement.textContent.trim() : "";
        said.textContent = verdict || (!radios.length && answer.why) ? ("\u2713 " + verdict).trim() : "";
        paper.dataset.said = [verdict, answer.why, answer.check].filter(Boolean).join(" \u00b7 ");
      },
    };
    box.addEventListener("input", () => { answer.show(); gather(); });
    box.querySelector("button").addEventListener("click", () => {
      radios.forEach(one => { one.checked = false; });
      why.value = "";
      if (check) check.value = "";
      answer.show();
      gather();
    });
    place.insertBefore(box, paper === place ? null : paper);
    return answer;
  });

  function csv() {
    const given = all.filter(one => one.verdict);
    return given.length ? "date,finding,verdict,why,check\n"
      + given.map(one => [day, one.name, one.verdict, cell(one.why), one.check].join(",") + "\n").join("") : "";
  }
  function letter() {
    const given = all.filter(one => one.why);
    return given.length ? "Date: " + day + "\nKind: remark\nTitle: " + note + "\n" + given.map(one =>
      "\n" + panel.dataset.question + " " + one.name + ": " + one.asked + "\n\n" + panel.dataset.reply + ": " + one.why + "\n").join("") : "";
  }
  function gather() {
    text.value = of === "findings" ? csv() : letter();
    text.rows = Math.min(14, Math.max(4, text.value.split("\n").length));
    rows.hidden = !text.value;
    save.download = name;
    save.href = text.value ? "data:" + type + ";charset=utf-8," + encodeURIComponent(text.value) : "#answers-title";
    told.textContent = "";
    if (missing) missing.textContent = all.some(one => !one.verdict && (one.why || one.check)) ? missing.dataset.words : "";
  }
  function taken(words) { kept = text.value; told.textContent = words; }

  save.addEventListener("click", () => taken(""));
  panel.querySelector("[data-way=copy]").addEventListener("click", async () => {
    text.select();
    try {
      if (navigator.clipboard) await navigator.clipboard.writeText(text.value);
      else if (!document.execCommand("copy")) throw new Error("refused");
      taken(panel.dataset.done);
    } catch { told.textContent = panel.dataset.failed; }
  });
  if (navigator.share) {
    share.hidden = false;
    share.addEventListener("click", () => navigator.share({ title: name, text: text.value }).then(() => taken(""), () => {}));
  }
  addEventListener("beforeunload", e => {
    const open = all.some(one => !one.verdict && (one.why || one.check)) && of === "findings";
    if (text.value !== kept || open) e.preventDefault();
  });
}
if (document.querySelector(".sheet")) answers();
else document.addEventListener("unsealed", answers, { once: true });
