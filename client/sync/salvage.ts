/** Makes a document of stored rows of which some may be broken. Every row that can be read counts. */
import * as Y from "yjs";

export interface Salvaged {
  readonly ydoc: Y.Doc;
  /** Rows that could not be read. */
  readonly broken: number;
}

/** How many rows that broke a document are tried again one by one; each costs a copy of the document. */
const TRIES = 64;

const isBytes = (row: unknown): row is Uint8Array => ArrayBuffer.isView(row);

/** Applies the rows in one transaction; answers those that broke. */
const applyAll = (ydoc: Y.Doc, rows: readonly unknown[], origin: unknown): unknown[] => {
  const broken: unknown[] = [];
  Y.transact(
    ydoc,
    () => {
      for (const row of rows)
        try {
          if (!isBytes(row)) throw new TypeError("A row is no update");
          Y.applyUpdate(ydoc, row, origin);
        } catch {
          broken.push(row);
        }
    },
    origin,
    false,
  );
  return broken;
};

/** Fills a new document from the rows, as changes by `origin`. Costs no more than reading them when all are sound. */
export const fillFrom = (rows: readonly unknown[], origin: unknown): Salvaged => {
  let ydoc = new Y.Doc();
  const broken = applyAll(ydoc, rows, origin);
  if (broken.length === 0) return { ydoc, broken: 0 };
  // A row may break after half of it went in, and the document with it: what is kept never saw a broken row.
  const suspects = new Set(broken);
  for (;;) {
    ydoc = new Y.Doc();
    const more = applyAll(
      ydoc,
      rows.filter((row) => !suspects.has(row)),
      origin,
    );
    if (more.length === 0) break;
    for (const row of more) suspects.add(row);
  }
  let lost = suspects.size;
  // A sound row may have broken on what a broken one left behind.
  for (const row of [...suspects].slice(0, TRIES)) {
    const trial = new Y.Doc();
    Y.applyUpdate(trial, Y.encodeStateAsUpdate(ydoc), origin);
    if (applyAll(trial, [row], origin).length > 0) continue;
    ydoc = trial;
    lost -= 1;
  }
  return { ydoc, broken: lost };
};

/** True while the document holds changes that refer to something it does not have. */
export const isIncomplete = ({ store }: Y.Doc): boolean =>
  store.pendingStructs !== null || store.pendingDs !== null;

/**
 * The document without what refers to something that is not there. The document itself is not to be used afterwards.
 */
export const wholePartOf = (ydoc: Y.Doc): Uint8Array => {
  ydoc.store.pendingStructs = null;
  ydoc.store.pendingDs = null;
  return Y.encodeStateAsUpdate(ydoc);
};
