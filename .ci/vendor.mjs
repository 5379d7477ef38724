#!/usr/bin/env node
/* Build the script that brings charts alive: `node .ci/vendor.mjs` (needs npm and the network).

   Writes into reportgen/pages/vendor: vega.js, built from the published sources of Vega and its interpreter with
   what our charts use and nothing else (no maps, forces, trees, clouds, colour schemes); SHA256SUMS over it; and
   THIRD_PARTY.md with the licence of every package that is in it. The whole minified file of Vega is 512 kB and
   177 kB packed, this one 393 and 135, in every dossier. Versions are those of .ci/vendor-lock.json, so that a
   second run gives the same bytes; delete that file to move to newer ones, and read what changes. */
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

  const { schemes } = await import(require.resolve("d3-scale-chromatic")).then(all => ({
    schemes: Object.keys(all).filter(name => name.startsWith("scheme")),
  }));
  // Our charts name every colour themselves; the schemes are long lists that pack badly.
  const noSchemes = {
    name: "no-schemes",
    setup(b) {
      b.onResolve({ filter: /^d3-scale-chromatic$/ }, () => ({ path: "empty", namespace: "no-schemes" }));
      b.onLoad({ filter: /.*/, namespace: "no-schemes" }, () => ({
        contents: schemes.map(name => `export const ${name} = [];`).join("\n"),
      }));
    },
  };
  writeFileSync(join(work, "entry.js"), ENTRY);
  const built = await build({
    absWorkingDir: work, entryPoints: ["entry.js"], bundle: true, minify: true, format: "iife", globalName: "vega",
    target: "es2022", platform: "browser", legalComments: "none", metafile: true, write: false, plugins: [noSchemes],
  });
  const small = await minify(built.outputFiles[0].text, { ecma: 2020, compress: { passes: 3, ecma: 2020 }, mangle: true });
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
  writeFileSync(join(out, "vega.js"), script);
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
