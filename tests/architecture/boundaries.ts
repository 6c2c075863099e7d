import { importsOf, type SourceFile } from "#tests/support/source-files.ts";

/** One boundary: files `from` may not import what `forbids` matches. `because` is read by whoever crosses it. */
export interface Boundary {
  readonly from: RegExp;
  readonly forbids: (imported: string, path: string) => boolean;
  readonly because: string;
}

const matches =
  (pattern: RegExp) =>
  (imported: string): boolean =>
    pattern.test(imported);

/** `client/features/board` for `client/features/board/grid.tsx`. */
const featureOf = (path: string): string | undefined => /^client\/features\/[^/]+/.exec(path)?.[0];

export const BOUNDARIES: readonly Boundary[] = [
  {
    from: /^shared-model\//,
    forbids: matches(
      /^(client|server|tests)\/|^(react|react-dom|ws|y-websocket|y-indexeddb|y-protocols|better-sqlite3)(\/|$)|^node:/,
    ),
    because: "The model knows no network, screen, disk or clock: move what needs them to client or server.",
  },
  {
    from: /^shared-model\/(board|music|readiness|plan|lib|selectors|exchange|commands|history)\//,
    forbids: matches(/^yjs(\/|$)/),
    because: "Only shared-model/document meets Yjs; everything else goes through BoardDocument.",
  },
  {
    from: /^shared-model\/(board|music|readiness|plan|lib)\//,
    forbids: matches(/^shared-model\/(document|commands|history|selectors|exchange|demo)\//),
    because: "The words, the music and the formulas stand below documents and commands.",
  },
  {
    from: /^shared-model\/(document|commands)\//,
    forbids: matches(/^shared-model\/(history|selectors|exchange|demo)\//),
    because: "What is written knows nothing of who reads it later.",
  },
  {
    from: /^shared-model\/history\//,
    forbids: matches(/^shared-model\/(selectors|exchange|demo|readiness|music|protocol)\//),
    because: "The past is told in records; words for people are made in selectors.",
  },
  {
    from: /^client\/features\//,
    forbids: (imported, path) => {
      const own = featureOf(path);
      const other = featureOf(imported);
      return other !== undefined && other !== own;
    },
    because:
      "A feature never imports another: hand it in as a slot from client/app, or move the piece to client/pieces.",
  },
  {
    from: /^client\/(features|pieces|ui)\//,
    forbids: matches(/^(yjs|y-websocket|y-indexeddb|y-protocols|lib0)(\/|$)|^client\/app\//),
    because:
      "Screens read the board through the store and change it by commands; they know no document and no app.",
  },
  {
    from: /^client\/ui\//,
    forbids: matches(/^(shared-model\/(?!lib\/)|client\/(store|sync|features|pieces))/),
    because: "The kit knows no domain: pass words and levels in as props.",
  },
  {
    from: /^client\/(store|pieces)\//,
    forbids: matches(/^client\/(features|app)\//),
    because: "Store and pieces stand below the features.",
  },
  {
    from: /^client\/sync\//,
    forbids: matches(/^client\/(features|pieces|ui|app)\/|^react(-dom)?(\/|$)/),
    because: "Syncing knows no screen.",
  },
  {
    from: /^client\/sound\//,
    forbids: matches(/^client\/(features|pieces|ui|app|store|sync)\/|^react(-dom)?(\/|$)/),
    because: "Sound knows no screen and no board: hand it a plan.",
  },
  {
    from: /^client\/(?!build\/)/,
    forbids: matches(/^(server|tests)\//),
    because: "The client talks to the server over the wire only.",
  },
  { from: /^server\//, forbids: matches(/^(client|tests)\/|^react/), because: "The server knows no screen." },
];

/** Every crossing in the given files, as `file → import: reason`. */
export const crossings = (files: readonly SourceFile[]): readonly string[] =>
  files.flatMap((file) =>
    importsOf(file).flatMap((imported) =>
      BOUNDARIES.filter(({ from, forbids }) => from.test(file.path) && forbids(imported, file.path)).map(
        ({ because }) => `${file.path} → ${imported}: ${because}`,
      ),
    ),
  );

/** Import cycles among the given files, each as the list of paths it runs through. */
export const cycles = (files: readonly SourceFile[]): readonly string[] => {
  const graph = new Map(
    files.map((file) => [file.path, importsOf({ ...file, text: withoutTypeImports(file.text) })] as const),
  );
  const done = new Set<string>();
  const found: string[] = [];
  const visit = (path: string, trail: readonly string[]): void => {
    const start = trail.indexOf(path);
    if (start >= 0) {
      found.push([...trail.slice(start), path].join(" → "));
      return;
    }
    if (done.has(path)) return;
    for (const next of graph.get(path) ?? []) if (graph.has(next)) visit(next, [...trail, path]);
    done.add(path);
  };
  for (const path of graph.keys()) visit(path, []);
  return found;
};

/** Type imports vanish at run time and may point both ways. */
const withoutTypeImports = (text: string): string => text.replace(/import type [^;]*;/g, "");
