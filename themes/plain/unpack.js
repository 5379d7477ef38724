"use strict";
/* LZMA, read after its format's description (LZMA specification, Igor Pavlov, public domain): what a page carries
   for its charts weighs a sixth less than with gzip, which is all that a browser unpacks by itself. */
function unlzma(packed) {
  const HALF = 1024, chances = size => new Uint16Array(size).fill(HALF);
  const lc = packed[0] % 9, lp = (packed[0] / 9 | 0) % 5, pb = packed[0] / 45 | 0;
  let at = 18, range = 2 ** 32 - 1, code = 0, out = new Uint8Array(1 << 20), n = 0;
  for (let i = 14; i < 18; i++) code = (code << 8 | packed[i]) >>> 0;

  function more() {
    if (at > packed.length) throw new Error("cut off");
    range = range << 8 >>> 0;
    code = (code << 8 | packed[at++]) >>> 0;
  }
  function bit(p, i) {
    const bound = (range >>> 11) * p[i], one = code < bound ? 0 : 1;
    if (one) { range -= bound; code -= bound; p[i] -= p[i] >> 5; } else { range = bound; p[i] += 2048 - p[i] >> 5; }
    if (range < 2 ** 24) more();
    return one;
  }
  function tree(p, from, bits) {
    let m = 1;
    for (let i = 0; i < bits; i++) m = m << 1 | bit(p, from + m);
    return m - (1 << bits);
  }
  function turned(p, from, bits) {
    let m = 1, sum = 0;
    for (let i = 0, b; i < bits; i++) { b = bit(p, from + m); m = m << 1 | b; sum |= b << i; }
    return sum;
  }
  function plain(bits) {
    let sum = 0;
    while (bits--) {
      range >>>= 1;
      const one = code < range ? 0 : 1;
      if (one) code -= range;
      sum = sum * 2 + one;
      if (range < 2 ** 24) more();
    }
    return sum;
  }
  const lengths = () => ({ which: chances(2), low: chances(128), mid: chances(128), high: chances(256) });
  const long = (l, place) => !bit(l.which, 0) ? tree(l.low, place << 3, 3)
    : !bit(l.which, 1) ? 8 + tree(l.mid, place << 3, 3) : 16 + tree(l.high, 0, 8);

  const match = chances(192), rep = chances(12), rep0 = chances(12), rep1 = chances(12), rep2 = chances(12), short = chances(192);
  const letter = chances(768 << lc + lp), slots = chances(256), far = chances(128), align = chances(16);
  const fresh = lengths(), again = lengths();
  let state = 0, [a, b, c, d] = [0, 0, 0, 0];
  for (;;) {
    if (n + 300 > out.length) { const wider = new Uint8Array(out.length * 2); wider.set(out); out = wider; }
    const place = n & (1 << pb) - 1, at16 = state << 4 | place;
    if (!bit(match, at16)) {
      const from = 768 * (((n & (1 << lp) - 1) << lc) + ((n ? out[n - 1] : 0) >> 8 - lc));
      let sign = 1;
      if (state >= 7) {
        for (let other = out[n - a - 1], seen; sign < 256; ) {
          seen = other >> 7 & 1;
          other <<= 1;
          const one = bit(letter, from + (1 + seen << 8) + sign);
          sign = sign << 1 | one;
          if (seen !== one) break;
        }
      }
      while (sign < 256) sign = sign << 1 | bit(letter, from + sign);
      out[n++] = sign;
      state = state < 4 ? 0 : state - (state < 10 ? 3 : 6);
      continue;
    }
    let length;
    if (bit(rep, state)) {
      if (!bit(rep0, state)) {
        if (!bit(short, at16)) { state = state < 7 ? 9 : 11; out[n] = out[n - a - 1]; n++; continue; }
      } else if (!bit(rep1, state)) [a, b] = [b, a];
      else if (!bit(rep2, state)) [a, b, c] = [c, a, b];
      else [a, b, c, d] = [d, a, b, c];
      length = long(again, place);
      state = state < 7 ? 8 : 11;
    } else {
      [b, c, d] = [a, b, c];
      length = long(fresh, place);
      state = state < 7 ? 7 : 10;
      a = tree(slots, Math.min(length, 3) << 6, 6);
      if (a > 3) {
        const slot = a, bits = (slot >> 1) - 1;
        a = (2 | slot & 1) * 2 ** bits;
        a += slot < 14 ? turned(far, a - slot, bits) : plain(bits - 4) * 16 + turned(align, 0, 4);
      }
      if (a === 2 ** 32 - 1) return out.subarray(0, n);
    }
    for (length += 2; length--; n++) out[n] = out[n - a - 1];
  }
}
