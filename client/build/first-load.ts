import type { Rolldown } from "vite";

type ChunkingContext = Parameters<Rolldown.CodeSplittingNameFunction>[1];

/** Modules that `roots` need before they can run: what they import, and what that imports, but nothing on demand. */
const neededBy = (roots: readonly string[], context: ChunkingContext): ReadonlySet<string> => {
  const needed = new Set<string>();
  const visit = (id: string): void => {
    if (needed.has(id)) return;
    needed.add(id);
    for (const imported of context.getModuleInfo(id)?.importedIds ?? []) visit(imported);
  };
  for (const root of roots) visit(root);
  return needed;
};

/**
 * Names a part of the client for what all of `roots` need together, apart from the roots themselves, which keep parts
 * of their own: a phone far from its server pays for each request, and for each byte that its first screen does without.
 */
export const partFor = (name: string, roots: readonly string[]): Rolldown.CodeSplittingNameFunction => {
  let needed: ReadonlySet<string> | null = null;
  return (id, context) => {
    needed ??= neededBy(roots, context);
    return needed.has(id) && !roots.includes(id) ? name : null;
  };
};
