import { mkdir, mkdtemp } from "node:fs/promises";
import { resolve } from "node:path";
import { build } from "vite";

const ENTRIES = ["load", "serve-floor", "serve-tightrow"];

/** Bundles the programs of this benchmark as the product is bundled; resolves to their folder, to be removed afterwards. */
export const bundlePrograms = async (): Promise<string> => {
  // Below node_modules, so that the programs find the packages that stay outside.
  const cache = resolve("node_modules/.cache");
  await mkdir(cache, { recursive: true });
  const outDir = await mkdtemp(resolve(cache, "bench-"));
  await build({
    root: process.cwd(),
    configFile: false,
    logLevel: "error",
    build: {
      ssr: true,
      outDir,
      target: "node20",
      minify: false,
      rolldownOptions: {
        input: Object.fromEntries(ENTRIES.map((name) => [name, resolve(`tests/bench/server/${name}.ts`)])),
        output: { entryFileNames: "[name].js" },
      },
    },
  });
  return outDir;
};
