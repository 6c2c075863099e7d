import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, normalize, relative } from "node:path";

/** One source file of the project: path from the root, with forward slashes, and its text. */
export interface SourceFile {
  readonly path: string;
  readonly text: string;
}

const ROOT = new URL("../..", import.meta.url).pathname;

/** Every TypeScript file below the given folders of the project. */
export const sourceFiles = (...folders: readonly string[]): readonly SourceFile[] =>
  folders.flatMap((folder) =>
    readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && /\.(ts|tsx|mjs)$/.test(entry.name))
      .map((entry) => join(entry.parentPath, entry.name))
      .map((path) => ({ path: relative(ROOT, path), text: readFileSync(path, "utf8") })),
  );

const IMPORT = /(?:\bfrom\s*|\bimport\s*\(\s*|\bimport\s+)["']([^"']+)["']/g;
const ALIAS: { readonly [alias: string]: string } = {
  "#shared/": "shared-model/",
  "#client/": "client/",
  "#server/": "server/",
  "#tests/": "tests/",
};

/** What a file imports: project files as paths from the root, packages by their specifier. */
export const importsOf = ({ path, text }: SourceFile): readonly string[] =>
  [...text.matchAll(IMPORT)].map(([, specifier = ""]) => {
    if (specifier.startsWith(".")) return normalize(join(dirname(path), specifier));
    const alias = Object.keys(ALIAS).find((prefix) => specifier.startsWith(prefix));
    return alias === undefined ? specifier : specifier.replace(alias, ALIAS[alias] ?? alias);
  });
