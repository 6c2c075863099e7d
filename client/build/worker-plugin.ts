import { createHash } from "node:crypto";
import { readdir, readFile, writeFile } from "node:fs/promises";
import { join, relative, sep } from "node:path";
import { minifySync, type Plugin, transformWithOxc } from "vite";

/** Where the page finds its worker. Never hashed: the browser compares it byte by byte to see a new version. */
const WORKER_FILE = "sw.js";

const filesUnder = async (folder: string): Promise<readonly string[]> => {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join("/"))
    .filter((path) => path !== WORKER_FILE && !/\.(map|br|gz)$/.test(path))
    .sort();
};

/** A name for exactly these contents, so that one changed byte anywhere is a new version. */
const versionOf = async (folder: string, files: readonly string[]): Promise<string> => {
  const hash = createHash("sha256");
  for (const file of files) hash.update(file).update(await readFile(join(folder, file)));
  return hash.digest("hex").slice(0, 16);
};

/**
 * Writes the service worker beside the built client: the source at `source` with two constants before it, `SHELL`
 * (the addresses to keep) and `VERSION`. It runs last, when everything that belongs to the shell lies on disk.
 */
export const workerPlugin = (source: string): Plugin => ({
  name: "tightrow-worker",
  apply: "build",
  enforce: "post",
  writeBundle: {
    order: "post",
    sequential: true,
    async handler({ dir }) {
      if (dir === undefined) throw new Error("the worker needs a folder to be built into");
      const files = await filesUnder(dir);
      const shell = files.map((file) => (file === "index.html" ? "/" : `/${file}`));
      const constants = `const SHELL=${JSON.stringify(shell)},VERSION=${JSON.stringify(await versionOf(dir, files))};`;
      const { code } = await transformWithOxc(await readFile(source, "utf8"), source, { sourcemap: false });
      const worker = minifySync(WORKER_FILE, `(()=>{${constants}${code}})()`, { sourcemap: false });
      await writeFile(join(dir, WORKER_FILE), worker.code);
    },
  },
});
