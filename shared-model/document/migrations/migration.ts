import type { BoardDocument, SetKey } from "../board-document.ts";

/**
 * A step from an older shape of the document to the current one. Deterministic and idempotent: two replicas
 * that run it on their own must write the same values under the same keys.
 */
export interface Migration {
  /** Stable id, `0001-what-it-does`; recorded in the grow-only `migrations` map. */
  readonly id: string;
  readonly apply: (document: Pick<BoardDocument, "entries" | "get">, set: SetKey) => void;
}

/** All migrations, oldest first. The document is still in its first shape. */
export const MIGRATIONS: readonly Migration[] = [];

/** Runs what this document has not been through yet, in one transaction. Returns the ids that ran. */
export const migrate = (
  document: BoardDocument,
  migrations: readonly Migration[] = MIGRATIONS,
): readonly string[] => {
  const missing = migrations.filter((m) => document.get("migrations", m.id) !== true);
  if (missing.length === 0) return [];
  document.transact("migration", (set) => {
    for (const migration of missing) {
      migration.apply(document, set);
      set("migrations", migration.id, true);
    }
  });
  return missing.map((m) => m.id);
};
