#!/usr/bin/env node
/* Build the script that brings charts alive: `node .ci/vendor.mjs` (needs npm, the network and Python 3).

   Writes into reportgen/pages/vendor: vega.js.lzma, built from the published sources of Vega and its interpreter
   with what our charts use and nothing else, packed as a page carries it; SHA256SUMS over the script; and
   THIRD_PARTY.md with the licence of every package that is in it. The whole minified file of Vega is 512 kB and
   177 kB with gzip, this one 300 and 91, in every dossier. Versions are those of .ci/vendor-lock.json, so that a
   second run gives the same bytes; delete that file to move to newer ones, and read what changes: what is cut out
   below is cut by its text, and the build stops where the text is not there. `pytest tests/browser` then says
   whether every chart still comes alive. */
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { copyFileSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const out = join(here, "..", "reportgen", "pages", "vendor");
const lock = join(here, "vendor-lock.json");
const PACKAGES = { vega: "6.4.0", "vega-interpreter": "2.3.2", esbuild: "0.25.12", terser: "5.44.1" };

// Transforms of Vega-Lite's charts, a view, a parser, and expressions without eval.
const ENTRY = `
import { transforms } from "vega-dataflow";
import * as tidy from "vega-transforms";
import * as view from "vega-view-transforms";
import * as encode from "vega-encode";
import { None } from "vega-util";
import { View } from "vega-view";
import { parse } from "vega-parser";
import { expressionInterpreter } from "vega-interpreter";
Object.assign(transforms, tidy, view, encode);
export { None, View, expressionInterpreter, parse };
`;

// Packages of which our charts call nothing: maps, files of other formats, brushes, easing, distributions, schemes.
const EMPTY = ["d3-dsv", "d3-ease", "d3-geo", "d3-scale-chromatic", "topojson-client", "vega-selections", "vega-statistics"];
// Transforms that our charts and what the parser makes of them need; the rest is cut out below.
const TRANSFORMS = new Set([
  "aggregate", "collect", "compare", "expression", "extent", "facet", "field", "filter", "formula", "key", "load", "multiextent",
  "multivalues", "params", "prefacet", "proxy", "relay", "sieve", "subflow", "tupleindex", "values",
]);

function cutAll(text, ...pairs) {
  for (const [what, by] of pairs) {
    const left = text.replace(what, by);
    if (left === text) throw new Error(`nothing to cut: ${what}`);
    text = left;
  }
  return text;
}

// Parts that no bundler can drop by itself, since they are wired up by assignments and calls: by package.
const CUTS = {
  "vega-transforms": text => {
    const all = [...(/export \{([^}]*)\};/.exec(text)[1]).matchAll(/(\w+) as (\w+)/g)];
    const gone = all.filter(([, , name]) => !TRANSFORMS.has(name)).map(([, own]) => own).join("|");
    return cutAll(text,
      [new RegExp(`^inherits\\((${gone}), [\\s\\S]*?^\\}\\);`, "gm"), ""],
      [new RegExp(`^(${gone})\\.Definition = \\{[\\s\\S]*?^\\};`, "gm"), ""],
      [/export \{[^}]*\};/, `export { ${all.filter(([, , name]) => TRANSFORMS.has(name)).map(([both]) => both).join(", ")} };`]);
  },
  "vega-scenegraph": text => cutAll(text,        // drawn as SVG into the page, nowhere else
    [/^modules\[Canvas\] = [\s\S]*?^\};/m, ""], [/^modules\[Hybrid\] = [\s\S]*?^\};/m, ""], ["  headless: SVGStringRenderer,\n", ""],
    [/^  '?(basis|bundle|cardinal|catmull-rom|linear-closed|natural)[\w-]*'?: \{\n    curve[\s\S]*?^  \},?\n/gm, ""]),
  "d3-shape": text => cutAll(text,               // straight lines and steps
    [/^(Basis\w*|Bundle|Cardinal\w*|CatmullRom\w*|LinearClosed|Natural|Radial|ReflectContext)\.prototype = \{[\s\S]*?^\};/gm, ""],
    [/= \(function custom/g, "= /*@__PURE__*/ (function custom"], ["= curveRadial(", "= /*@__PURE__*/ curveRadial("]),
  "vega-scale": text => cutAll(text,             // linear, time, ordinal, band, point; every colour is named by the chart
    [/^scale\((Identity|Log|Pow|Sqrt|Symlog|UTC|`|Sequential|Quantile|Quantize|Threshold|BinOrdinal).*$/gm, ""],
    [/^const (continuous|discrete) = \{[\s\S]*?^\};/gm, "const $1 = {};"],
    ["import * as $$1 from 'd3-interpolate'",
      "import { interpolate as plain, interpolateRgb, interpolateNumber, interpolateRound } from 'd3-interpolate';\n"
      + "const $$$$1 = { interpolate: plain, interpolateRgb, interpolateNumber, interpolateRound }"]),
  "vega-functions": text => cutAll(text,
    ["import { rgb, hsl, hcl, lab } from 'd3-color';", "import { rgb } from 'd3-color'; const hsl = undefined, hcl = undefined, lab = undefined;"]),
  "d3-color": text => cutAll(text,
    [/^define\((Lab|Hcl|Cubehelix)[\s\S]*?^\}\)\);/gm, ""], [/^(?:var|const) named = \{[\s\S]*?^\};/m, "const named = {};"]),
};

// The way of reportgen/pages/assets.py, which a page unpacks with themes/plain/unpack.js; this one takes more time.
const PACK = `
import lzma, sys
how = {"id": lzma.FILTER_LZMA1, "dict_size": 1 << 20, "lc": 2, "lp": 0, "pb": 0, "nice_len": 273, "depth": 1000}
sys.stdout.buffer.write(lzma.compress(sys.stdin.buffer.read(), format=lzma.FORMAT_ALONE, filters=[how]))
`;

const work = mkdtempSync(join(tmpdir(), "vendor-"));
try {
  writeFileSync(join(work, "package.json"), JSON.stringify({ private: true, dependencies: PACKAGES }));
  const known = existsSync(lock);
  if (known) copyFileSync(lock, join(work, "package-lock.json"));
  const quiet = ["--no-audit", "--no-fund", "--silent", "--omit-lockfile-registry-resolved"];
  execFileSync("npm", [known ? "ci" : "install", ...quiet], { cwd: work, stdio: "inherit" });
  if (!known) copyFileSync(join(work, "package-lock.json"), lock);
  const require = createRequire(join(work, "package.json"));
  const { build } = require("esbuild");
  const { minify } = require("terser");

  const namesOf = async name => Object.keys(await import(require.resolve(name))).filter(one => /^\w+$/.test(one) && !/^default$/.test(one));
  const lists = new Map();
  for (const name of EMPTY) lists.set(name, await namesOf(name));
  const less = {
    name: "less",
    setup(b) {
      b.onResolve({ filter: /.*/ }, ({ path }) => lists.has(path) ? { path, namespace: "empty" } : undefined);
      b.onLoad({ filter: /.*/, namespace: "empty" }, ({ path }) => ({
        contents: "const no = () => [];\n" + lists.get(path).map(name => `export const ${name} = no;`).join("\n"),
      }));
      for (const [name, cut] of Object.entries(CUTS)) {
        b.onLoad({ filter: new RegExp(`node_modules/${name}/`) }, ({ path }) => ({ contents: cut(readFileSync(path, "utf8")), loader: "js" }));
      }
    },
  };
  writeFileSync(join(work, "entry.js"), ENTRY);
  const built = await build({
    absWorkingDir: work, entryPoints: ["entry.js"], bundle: true, minify: true, format: "iife", globalName: "vega",
    target: "es2022", platform: "browser", legalComments: "none", metafile: true, write: false, plugins: [less],
  });
  const small = await minify(built.outputFiles[0].text, { ecma: 2020, compress: { passes: 3, ecma: 2020, pure_getters: true }, mangle: true });
  const script = small.code.trim() + "\n";
  if (/<\/script|<!--/i.test(script)) throw new Error("the script would close its own element");

  const names = new Set();
  for (const part of Object.values(built.metafile.outputs)) {
    for (const [file, { bytesInOutput }] of Object.entries(part.inputs)) {
      const found = /node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(file);
      if (found && bytesInOutput > 0) names.add(found[1]);
    }
  }
  const byText = new Map();
  for (const name of [...names].sort()) {
    const folder = join(work, "node_modules", name);
    const { version, license } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
    let file = readdirSync(folder).sort().find(f => /^(licen[sc]e|unlicense)/i.test(f));
    let from = folder;
    if (!file && name.startsWith("vega")) [file, from] = ["LICENSE", join(work, "node_modules", "vega")];   // one project
    if (!file) throw new Error(`${name} has no licence text`);
    const text = readFileSync(join(from, file), "utf8").replace(/\r\n/g, "\n").split("\n").map(l => l.trimEnd()).join("\n").trim();
    byText.set(text, [...(byText.get(text) || []), `${name} ${version} (${license})`]);
  }
  const parts = [...byText].map(([text, list]) => `${list.join(", ")}\n\n\`\`\`text\n${text}\n\`\`\``);
  writeFileSync(join(out, "vega.js.lzma"), execFileSync("python3", ["-c", PACK], { input: script }));
  writeFileSync(join(out, "SHA256SUMS"), `${createHash("sha256").update(script).digest("hex")}  vega.js\n`);
  writeFileSync(join(out, "THIRD_PARTY.md"), [
    "# Software of others in this folder\n",
    `\`vega.js\` is built by \`.ci/vendor.mjs\` from Vega ${PACKAGES.vega} and vega-interpreter ${PACKAGES["vega-interpreter"]}, with the parts that`,
    "our charts use; every dossier carries it. What is in it, with its licence:\n",
    parts.join("\n\n---\n\n") + "\n",
  ].join("\n"));
} finally {
  rmSync(work, { recursive: true, force: true });
}
