/**
 * Runs a TypeScript file of the project on plain Node, bundled as the product is:
 * `node tests/run.mjs tests/bench/readiness.ts [arguments]`.
 */
import { rmSync } from "node:fs";
import { basename, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "vite";

const [, , path] = process.argv;
if (path === undefined) {
  console.error("Usage: node tests/run.mjs <file.ts> [arguments]");
  process.exit(2);
}
const root = fileURLToPath(new URL("..", import.meta.url));
const outDir = resolve(root, "node_modules/.cache/run");
const name = `${basename(path).replace(/\.tsx?$/, "")}-${process.pid}.mjs`;
process.on("exit", () => rmSync(resolve(outDir, name), { force: true }));
await build({
  root,
  configFile: false,
  logLevel: "error",
  build: {
    ssr: resolve(path),
    outDir,
    emptyOutDir: false,
    target: "node20",
    minify: false,
    rolldownOptions: { output: { entryFileNames: name } },
  },
});
process.argv.splice(1, 1);
await import(pathToFileURL(resolve(outDir, name)).href);
