import * as Y from "yjs";
import { type Log, whyOf } from "../log.ts";
import type { StoredUpdate } from "../storage/update-log.ts";

/**
 * The document that a log of updates describes. A row that cannot be applied is left out and reported, never thrown:
 * one broken row must not lock a band out of its board.
 */
export const replay = (rows: readonly StoredUpdate[], log: Log): Y.Doc => {
  const broken = new Set<number>();
  for (;;) {
    const doc = new Y.Doc();
    const failure = applyAll(
      doc,
      rows.filter(({ seq }) => !broken.has(seq)),
    );
    if (failure === null) return doc;
    // The failed row may have been applied in part, so the document is built anew without it.
    broken.add(failure.row.seq);
    log.error("row-left-out", {
      document: failure.row.document,
      seq: failure.row.seq,
      why: whyOf(failure.error),
    });
    doc.destroy();
  }
};

interface Failure {
  readonly row: StoredUpdate;
  readonly error: unknown;
}

const applyAll = (doc: Y.Doc, rows: readonly StoredUpdate[]): Failure | null =>
  // One transaction: the work at a transaction's end grows with the document, not with the update.
  doc.transact(() => {
    for (const row of rows) {
      try {
        Y.applyUpdate(doc, row.bytes);
      } catch (error) {
        return { row, error };
      }
    }
    return null;
  });
