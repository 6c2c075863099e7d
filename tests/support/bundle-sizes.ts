/* What a phone has to load, read from the built client: files and their sizes as they travel. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";

export interface Weight {
  /** kB (1,000 bytes), gzip. */
  readonly js: number;
  readonly css: number;
  readonly files: readonly string[];
}

const STATIC_IMPORT = /(?:^|[;}])\s*(?:import|export)\s*(?:[\w${},*\s]+?from\s*)?"\.\/([^"]+\.js)"/g;

/** Files a page loads before it shows the screen whose chunk is called `screen`; without one, the entry's own. */
const filesFor = (folder: string, screen: string | null): ReadonlySet<string> => {
  const html = readFileSync(join(folder, "index.html"), "utf8");
  const assets = readdirSync(join(folder, "assets"));
  const named = (name: string): string[] => assets.filter((file) => file.startsWith(`${name}-`));
  const found = new Set<string>();
  const visit = (file: string): void => {
    if (found.has(file)) return;
    found.add(file);
    if (!file.endsWith(".js")) return;
    const text = readFileSync(join(folder, "assets", file), "utf8");
    for (const [, imported = ""] of text.matchAll(STATIC_IMPORT)) visit(imported);
  };
  for (const [, file = ""] of html.matchAll(/(?:src|href)="\/assets\/([^"]+)"/g)) visit(file);
  if (screen !== null) {
    const chunks = named(screen).filter((file) => file.endsWith(".js"));
    if (chunks.length !== 1) throw new Error(`The client has ${chunks.length} chunks called ${screen}.`);
    for (const chunk of chunks) visit(chunk);
  }
  return found;
};

const kiloGzip = (folder: string, files: readonly string[]): number =>
  Number(
    (
      files.reduce(
        (sum, file) => sum + gzipSync(readFileSync(join(folder, "assets", file)), { level: 9 }).length,
        0,
      ) / 1000
    ).toFixed(1),
  );

/** What is loaded until a screen stands, `but` what stands in `already`. */
export const weightOf = (folder: string, screen: string | null, already: readonly string[] = []): Weight => {
  const files = [...filesFor(folder, screen)].filter((file) => !already.includes(file)).sort();
  const ending = (end: string): readonly string[] => files.filter((file) => file.endsWith(end));
  return { js: kiloGzip(folder, ending(".js")), css: kiloGzip(folder, ending(".css")), files };
};
