import type { BoardDocument, SetKey } from "../board-document.ts";

/**
 * A step from an older shape of the document to the next. Deterministic and idempotent: two replicas that run it on
 * their own must write the same values under the same keys. It never overwrites what the newer shape says already.
 */
export interface Migration {
  /** Stable id, `0001-what-it-does`; recorded in the grow-only `migrations` map. */
  readonly id: string;
  readonly apply: (document: Pick<BoardDocument, "entries" | "get">, set: SetKey) => void;
}
