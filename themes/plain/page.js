/* The page is whole without this. With it: charts answer a pointer, a finger and the arrow keys, a calendar
   can be narrowed, and weights change their unit. Nothing is fetched, stored or evaluated; words from the
   lifter's files only ever become text. */
function start() {
  const KG_PER_LB = 0.45359237;
  const WIDE = 680, NARROW = 328, DAY = 864e5;
  const each = (selector, f) => document.querySelectorAll(selector).forEach(f);
  const desk = matchMedia("(min-width: 744px)");
  const room = box => box.clientWidth < 500 ? NARROW : WIDE;
  const sheet = document.querySelector(".sheet");
  const ownUnit = sheet.dataset.unit;
  const bubble = document.querySelector(".reading");
  const state = { unit: ownUnit, period: "all" };

  /* Weights in words and tables ------------------------------------------------------------------ */

  function number(value, sign) {              // as words.numbers.weight: one decimal at most, none from 1000 up, and nothing becomes zero
    const size = Math.abs(value);
    let written = size.toFixed(size >= 1000 ? 0 : 1);
    if (size > 0 && +written === 0) written = size.toFixed(Math.max(0, -Math.floor(Math.log10(size))));
    if (written.includes(".")) written = written.replace(/\.?0+$/, "");
    written = written.replace(/^\d{5,}/, whole => whole.replace(/\B(?=(\d{3})+$)/g, "\u202f"));
    return (value < 0 ? "\u2212" : sign && value > 0 ? "+" : "") + written;
  }

  const printed = new Map();                  // what the page was written with, to come back to exactly that
  function showUnit(unit) {
    state.unit = unit;
    each("data.kg", e => {
      if (!printed.has(e)) printed.set(e, e.textContent);
      const kg = +e.value;
      e.textContent = unit === ownUnit ? printed.get(e)
        : number(unit === "kg" ? kg : kg / KG_PER_LB, e.hasAttribute("data-sign")) + " " + unit;
    });
    each("button[data-unit]", b => b.setAttribute("aria-pressed", String(b.dataset.unit === unit)));
    hide();
    each(".chart", box => { if (views.has(box) || unit !== ownUnit) queue(box); });
    if (printed.size) charts().then(tell);
  }

  function tell(all) {                        // what a figure shows, for whoever hears it
    each(".chart[data-chart]", box => {
      const other = all[""][box.dataset.chart], said = document.getElementById(box.dataset.chart + "-summary");
      if (!other) return;
      const key = said || box, own = printed.get(key) || (said ? said.textContent : box.getAttribute("aria-label"));
      printed.set(key, own);
      const words = state.unit === ownUnit ? own : other;
      if (said) said.textContent = words; else box.setAttribute("aria-label", words);
    });
  }

  /* The packed parts -------------------------------------------------------------------------------- */

  const unpack = id => new TextDecoder().decode(
    unlzma(Uint8Array.from(atob(document.getElementById(id).textContent), c => c.charCodeAt(0))));

  const once = new Map();
  const first = (key, f) => { if (!once.has(key)) once.set(key, f()); return once.get(key); };
  const runtime = () => first("runtime", async () => {
    const script = document.createElement("script");
    script.textContent = unpack("runtime");
    document.head.append(script);             // runs now: the page's policy holds the hash of exactly this text
  });
  const charts = () => first("charts", async () => JSON.parse(unpack("charts")));

  /* Charts come alive --------------------------------------------------------------------------------- */

  const views = new Map();                    // chart box -> {view, unit, points, at}
  const waking = new Map();
  const nothing = () => Promise.reject(new Error("this page fetches nothing"));

  function inRows(spec) {                     // tables travel by columns, which weigh less
    for (const table of spec.data || []) {
      const columns = table.values && table.values.columns;
      if (!columns) continue;
      const names = Object.keys(columns);
      table.values = columns[names[0]].map((_, n) => Object.fromEntries(names.map(name => [name, columns[name][n]])));
    }
    return spec;
  }

  async function specOf(box) {
    const [own, other] = (await charts())[box.dataset.chart].map(inRows);
    return state.unit !== ownUnit && other ? [other, state.unit] : [own, ownUnit];
  }

  async function raise(box) {
    await runtime();
    const [spec, unit] = await specOf(box);
    const known = views.get(box);
    if (known && known.unit === unit) return known;
    let host = box.querySelector(".live");
    if (!host) {
      host = box.appendChild(document.createElement("div"));
      host.className = "live";
      host.setAttribute("aria-hidden", "true");
    }
    if (known) known.view.finalize();
    host.replaceChildren();
    const view = new vega.View(vega.parse(spec, null, { ast: true }), {
      expr: vega.expressionInterpreter, renderer: "svg", logLevel: vega.None, tooltip: () => {},
      loader: { load: nothing, sanitize: nothing },
    });
    view.width(room(box)).initialize(host);
    await view.runAsync();
    const entry = { view, unit, points: [], at: -1, calendar: box.parentElement.hasAttribute("data-calendar") };
    if (entry.calendar) entry.whole = view.scale("x").domain();
    views.set(box, entry);
    if (entry.calendar && state.period !== "all") await narrow(entry);
    entry.points = points(entry);
    box.classList.add("alive");
    box.classList.toggle("other", unit !== ownUnit);
    return entry;
  }

  function wake(box) {                        // one at a time for each chart; a failure leaves the printed chart
    const before = waking.get(box) || Promise.resolve();
    const now = before.then(() => raise(box)).catch(() => null);
    waking.set(box, now);
    return now;
  }

  let line = Promise.resolve();
  function queue(box) {                       // charts nobody points at, one after the other, with room between
    line = line.then(() => wake(box)).then(() => new Promise(done => setTimeout(done)));
  }

  /* What can be read in a chart ------------------------------------------------------------------------ */

  function words(tip) {
    if (tip === null || typeof tip !== "object") return String(tip);
    return Object.entries(tip).map(([name, value]) => name + ": " + value).join("\n");
  }

  function points(entry) {
    const { view } = entry, room = view.padding(), found = [], seen = new Set();
    const ox = view.origin()[0] + room.left, oy = view.origin()[1] + room.top;
    const right = view.width(), bottom = view.height();
    (function walk(mark, dx, dy) {
      for (const item of mark.items || []) {
        if (item.items) { for (const inner of item.items) walk(inner, dx + (item.x || 0), dy + (item.y || 0)); }
        if (item.tooltip === undefined || item.tooltip === null || item.tooltip === "") continue;
        const thin = /^(line|area|trail)$/.test(mark.marktype), b = item.bounds;
        const box = thin ? [item.x, item.y, item.x, item.y] : [b.x1, b.y1, b.x2, b.y2];
        const x1 = box[0] + dx, y1 = box[1] + dy, x2 = box[2] + dx, y2 = box[3] + dy;
        const spot = mark.marktype === "symbol";      // bounds of a symbol leave room for its line on one side
        const cx = spot ? item.x + dx : (x1 + x2) / 2, cy = spot ? item.y + dy : (y1 + y2) / 2;
        if (entry.narrowed && (cx < -1 || cx > right + 1 || cy < -1 || cy > bottom + 1)) continue;
        const said = words(item.tooltip), key = said + "|" + Math.round(cx) + "|" + Math.round(cy);
        if (seen.has(key)) continue;
        seen.add(key);
        found.push({ x1: x1 + ox, y1: y1 + oy, x2: x2 + ox, y2: y2 + oy, cx: cx + ox, cy: cy + oy, said });
      }
    })(view.scenegraph().root, 0, 0);
    entry.down = kind(view, "y") === "band" || kind(view, "y") === "point";
    if (kind(view, "x") === "band" || kind(view, "x") === "point") entry.down = false;
    const order = entry.down ? (a, b) => a.cy - b.cy || a.cx - b.cx : (a, b) => a.cx - b.cx || a.cy - b.cy;
    return found.sort(order);
  }

  function kind(view, scale) {
    try { return view.scale(scale).type; } catch { return ""; }
  }

  function nearest(entry, x, y) {
    let best = -1, least = Infinity;
    entry.points.forEach((p, n) => {
      const dx = Math.max(p.x1 - x, 0, x - p.x2), dy = Math.max(p.y1 - y, 0, y - p.y2);
      const away = dx * dx + dy * dy + 1e-4 * ((p.cx - x) ** 2 + (p.cy - y) ** 2);
      if (away < least) { least = away; best = n; }
    });
    return best;
  }

  function scaleOf(box) {
    const svg = box.querySelector(".live svg"), r = svg.getBoundingClientRect();
    return { r, k: r.width / svg.viewBox.baseVal.width };
  }

  function show(box, n, counted) {
    const entry = views.get(box), p = entry && entry.points[n];
    if (!p) return hide();
    entry.at = n;
    const { r, k } = scaleOf(box), frame = box.getBoundingClientRect();
    let ring = box.querySelector(".here");
    if (!ring) { ring = box.appendChild(document.createElement("div")); ring.className = "here"; }
    each(".here", e => { if (e !== ring) e.style.display = "none"; });
    const small = (p.x2 - p.x1) * k < 24 && (p.y2 - p.y1) * k < 24;
    const w = small ? 22 : (p.x2 - p.x1) * k + 6, h = small ? 22 : (p.y2 - p.y1) * k + 6;
    Object.assign(ring.style, {
      display: "block", width: w + "px", height: h + "px", borderRadius: small ? "50%" : "0",
      left: r.left - frame.left + p.cx * k - w / 2 + "px", top: r.top - frame.top + p.cy * k - h / 2 + "px",
    });
    bubble.textContent = p.said;
    if (counted) {                            // by keys one hears how far along one is
      const place = bubble.appendChild(document.createElement("span"));
      place.className = "unseen";
      place.textContent = " " + bubble.dataset.place.replace("{n}", n + 1).replace("{all}", entry.points.length);
    }
    const x = r.left + p.cx * k, y = r.top + p.y1 * k, bw = bubble.offsetWidth, bh = bubble.offsetHeight;
    const above = y - bh - 12, below = r.top + p.y2 * k + 12;
    bubble.style.left = Math.max(8, Math.min(document.documentElement.clientWidth - bw - 8, x - bw / 2)) + "px";
    bubble.style.top = Math.max(8, Math.min(innerHeight - bh - 8, above > 8 ? above : below)) + "px";
    bubble.classList.add("shown");
    if (shown !== box) since = scrollY;
    shown = box;
    counting = counted;
  }

  let shown = null, counting = false, since = 0;
  function hide() {
    if (!shown) return;
    const ring = shown.querySelector(".here");
    if (ring) ring.style.display = "none";
    bubble.classList.remove("shown");
    bubble.textContent = "";
    shown = null;
  }

  /* Pointer, finger, keys -------------------------------------------------------------------------------- */

  const chartOf = e => (e.target instanceof Element ? e.target.closest(".chart") : null);
  let wanted = null;                          // where the pointer is, for a chart that is still waking

  function pointAt(box, e) {
    const at = wanted = { box, x: e.clientX, y: e.clientY };
    since = scrollY;
    const look = () => {
      if (wanted !== at || !views.has(box)) return;
      const { r, k } = scaleOf(box);
      const n = nearest(views.get(box), (at.x - r.left) / k, (at.y - r.top) / k);
      if (shown !== box || views.get(box).at !== n) show(box, n);
    };
    if (views.has(box)) look(); else wake(box).then(look);
  }

  document.addEventListener("pointerover", e => {
    if (e.pointerType === "touch" || !(e.target instanceof Element)) return;
    const figure = e.target.closest("figure"), box = figure && figure.querySelector(".chart");
    if (box && !views.has(box)) wake(box);
  });
  document.addEventListener("pointermove", e => {
    if (e.pointerType === "touch") return;
    const box = chartOf(e);
    if (box) pointAt(box, e); else { wanted = null; if (shown && shown !== document.activeElement) hide(); }
  });
  document.addEventListener("pointerdown", e => { const box = chartOf(e); if (box && !views.has(box)) wake(box); });
  document.addEventListener("click", e => {
    const box = chartOf(e);
    if (box) pointAt(box, e); else { wanted = null; hide(); }
  });
  document.addEventListener("focusin", e => { const box = chartOf(e); if (box && !views.has(box)) wake(box); });
  document.addEventListener("focusout", e => { if (chartOf(e) === shown) hide(); });
  addEventListener("scroll", () => {           // a little, and the words go along; further, and they are of no use
    if (Math.abs(scrollY - since) > 32) { wanted = null; hide(); }
    else if (shown) show(shown, views.get(shown).at, counting);
  }, { passive: true });
  document.addEventListener("keydown", e => {
    if (e.key === "Escape") { wanted = null; hide(); return; }
    const box = document.activeElement;
    if (!box || !box.matches(".chart") || e.altKey || e.ctrlKey || e.metaKey || e.shiftKey) return;
    const step = { ArrowRight: 1, ArrowLeft: -1, ArrowDown: "down", ArrowUp: "up", Home: "first", End: "last" }[e.key];
    if (step === undefined) return;
    const entry = views.get(box);
    if (typeof step === "string" && /down|up/.test(step) && !(entry && entry.down)) return;   // the page scrolls
    e.preventDefault();
    wanted = null;
    wake(box).then(live => {
      if (!live || !live.points.length) return;
      const end = live.points.length - 1, by = { down: 1, up: -1 }[step] || step;
      const next = by === "first" ? 0 : by === "last" ? end
        : shown !== box && live.at < 0 ? (by > 0 ? 0 : end) : Math.max(0, Math.min(end, live.at + by));
      show(box, next, true);
    });
  });

  /* That a figure takes keys is said only where it does. */
  each(".chart[data-chart]", box => box.setAttribute("aria-describedby", (box.getAttribute("aria-describedby") || "") + " keys"));

  /* A part of the calendar --------------------------------------------------------------------------------- */

  async function narrow(entry) {
    const [from, to] = entry.whole.map(Number);
    let start = from;
    if (state.period === "season") start = Math.max(from, +new Date(new Date(to).getFullYear(), 0, 1));
    else if (state.period !== "all") start = Math.max(from, to - state.period * DAY);
    entry.narrowed = start > from;
    entry.view.signal("period", entry.narrowed ? [start, to] : null);
    await entry.view.runAsync();
    entry.points = points(entry);
    entry.at = -1;
  }

  function showPeriod(period, near) {
    state.period = period;
    each("button[data-period]", b => b.setAttribute("aria-pressed", String(b.dataset.period === period)));
    hide();
    const turn = box => views.has(box) ? narrow(views.get(box)) : wake(box);
    turn(near);
    each("[data-calendar] .chart", box => {
      if (box !== near) line = line.then(() => turn(box)).then(() => new Promise(done => setTimeout(done)));
    });
  }

  document.addEventListener("click", e => {
    const button = e.target instanceof Element ? e.target.closest(".switch button") : null;
    if (!button) return;
    if (button.dataset.unit) showUnit(button.dataset.unit);
    else showPeriod(button.dataset.period, button.closest(".figure").querySelector(".chart"));
  });

  desk.addEventListener("change", () => {
    hide();
    views.forEach(async (entry, box) => {
      await entry.view.width(room(box)).runAsync();
      entry.points = points(entry);
    });
  });

  /* Where one is in the contents; a link into something folded opens it -------------------------------------- */

  const links = new Map();
  each(".contents a", a => links.set(a.hash.slice(1), a));
  const watch = new IntersectionObserver(seen => {
    for (const { target, isIntersecting } of seen) {
      if (!isIntersecting) continue;
      links.forEach(a => a.removeAttribute("aria-current"));
      links.get(target.id)?.setAttribute("aria-current", "true");
    }
  }, { rootMargin: "-10% 0px -80% 0px" });
  each("section[id]", s => { if (links.has(s.id)) watch.observe(s); });

  addEventListener("hashchange", () => {
    const target = document.getElementById(decodeURIComponent(location.hash.slice(1)));
    let shut = false;
    for (let fold = target && target.closest("details"); fold; fold = fold.parentElement.closest("details")) {
      shut ||= !fold.open;
      fold.open = true;
    }
    if (shut) target.scrollIntoView();
  });
}
/* A sealed copy brings its body later and then says so. */
if (document.querySelector(".sheet")) start();
else document.addEventListener("unsealed", start, { once: true });
