"use strict";
/* Opens a sealed copy: passphrase -> key -> page, all on this device. Nothing is fetched or stored, and the
   passphrase is kept nowhere. The page then comes alive as any other. */
{
  const form = document.getElementById("lock"), input = document.getElementById("passphrase");
  const told = document.getElementById("lock-said"), button = form.querySelector("button");
  const say = words => { told.textContent = words; };
  const bytes = text => Uint8Array.from(atob(text), c => c.charCodeAt(0));
  const ascii = text => new TextEncoder().encode(text);
  /* Blanks around a passphrase do not count: exactly those that the program leaves away, which trim() does not. */
  const strip = words => words.replace(/^[\t-\r\x1c- \x85\xa0\u1680\u2000-\u200a\u2028\u2029\u202f\u205f\u3000]+/, "")
    .replace(/[\t-\r\x1c- \x85\xa0\u1680\u2000-\u200a\u2028\u2029\u202f\u205f\u3000]+$/, "");
  /* Whole rounds, and no more than the program takes: more would keep a browser at work for hours. */
  const MOST_ROUNDS = 10000000;
  const words = form.dataset;                 // what is said, in the page's language

  class Told extends Error {}

  async function open(typed) {
    let sealed, body, bound;
    try {
      sealed = JSON.parse(document.getElementById("sealed").textContent);
      bound = ascii(["sealed dossier", sealed.format, sealed.kdf, sealed.rounds, sealed.salt, sealed.cipher, sealed.nonce].join(";"));
      body = bytes(sealed.body);
    } catch { throw new Told(words.damaged); }
    if (!Number.isInteger(sealed.rounds) || sealed.rounds < 1 || sealed.rounds > MOST_ROUNDS) throw new Told(words.damaged);
    const whole = new Uint8Array(bound.length + body.length);
    whole.set(bound);
    whole.set(body, bound.length);
    const sum = Array.from(new Uint8Array(await crypto.subtle.digest("SHA-256", whole)), b => b.toString(16).padStart(2, "0")).join("");
    if (sum !== sealed.sum) throw new Told(words.damaged);
    const said = ascii(strip(typed.normalize("NFC")));
    const raw = await crypto.subtle.importKey("raw", said, "PBKDF2", false, ["deriveKey"]);
    const key = await crypto.subtle.deriveKey(
      { name: "PBKDF2", hash: "SHA-256", salt: bytes(sealed.salt), iterations: sealed.rounds },
      raw, { name: "AES-GCM", length: 256 }, false, ["decrypt"]);
    let packed;
    try {
      packed = await crypto.subtle.decrypt({ name: "AES-GCM", iv: bytes(sealed.nonce), additionalData: bound }, key, body);
    } catch { throw new Told(words.another); }
    const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
    return new Response(stream).text();
  }

  function show(text) {
    /* The style stands here already, but for the running head, which is of this page only. Inside the text
       the policy would refuse it, and say so. */
    const from = text.indexOf("<style>"), to = text.indexOf("</style>");
    const page = new DOMParser().parseFromString(text.slice(0, from) + text.slice(to), "text/html");
    const sheet = document.styleSheets[0];
    for (const rule of text.slice(from, to).match(/^@page\{@top-.*$/gm) || [])
      sheet.insertRule(rule, sheet.cssRules.length);
    document.title = page.title;
    document.body.replaceChildren(...page.body.childNodes);
    document.dispatchEvent(new Event("unsealed"));
    const aim = location.hash && document.getElementById(decodeURIComponent(location.hash.slice(1)));
    if (aim) aim.scrollIntoView(); else scrollTo(0, 0);
  }

  /* It did run: the form shows, its button works, and what is said shows at once. */
  document.documentElement.classList.add("scripted");
  told.style.animation = "none";
  button.disabled = false;
  say("");
  if (!globalThis.crypto || !crypto.subtle || !globalThis.DecompressionStream) {
    form.hidden = true;
    say(words.old);
  }
  document.getElementById("reveal").addEventListener("change", e => { input.type = e.target.checked ? "text" : "password"; });
  form.addEventListener("submit", async e => {
    e.preventDefault();
    if (button.disabled) return;
    if (!strip(input.value)) { say(words.first); input.focus(); return; }
    button.disabled = true;
    say(words.opening);
    await new Promise(done => setTimeout(done));
    try {
      show(await open(input.value));
    } catch (problem) {
      button.disabled = false;
      say(problem instanceof Told ? problem.message : words.failed.replace("{why}", () => problem.message));
      input.select();
    }
  });
}
