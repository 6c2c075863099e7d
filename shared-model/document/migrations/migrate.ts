/**
 * Brings a document to the current shape. The server does it when it opens a board, and an import does it for what it
 * brings; a client that opens an older document reads it as it is and leaves it alone, because the reader knows one
 * shape back.
 */
import type { BoardDocument, SetKey } from "../board-document.ts";
import { settingsByKey } from "./0001-settings-by-key.ts";
import type { Migration } from "./migration.ts";

/** All migrations, oldest first. */
export const MIGRATIONS: readonly Migration[] = [settingsByKey];

/**
 * Number of the shape that this release writes: how many migrations lie between it and the first. Every number has a
 * document in tests/golden/documents.
 */
export const SCHEMA = MIGRATIONS.length;

/** Ids of the migrations a document has been through, those of a newer release among them. */
export const finishedMigrations = (document: Pick<BoardDocument, "entries">): ReadonlySet<string> => {
  const finished = new Set<string>();
  for (const [id, done] of document.entries("migrations")) if (done === true) finished.add(id);
  return finished;
};

/** True when the document has been through every migration of this release. */
export const migrationsCurrent = (document: Pick<BoardDocument, "get">): boolean =>
  MIGRATIONS.every(({ id }) => document.get("migrations", id) === true);

/** Those of the finished migrations that this release does not know: a newer one wrote the document. */
export const unknownMigrations = (finished: Iterable<string>): readonly string[] =>
  [...finished].filter((id) => MIGRATIONS.every((migration) => migration.id !== id));

/** Runs, inside a transaction, what `finished` does not name, and records it. Returns the ids that ran. */
export const applyMigrations = (
  document: Pick<BoardDocument, "entries" | "get">,
  set: SetKey,
  finished: ReadonlySet<string>,
  migrations: readonly Migration[] = MIGRATIONS,
): readonly string[] => {
  const missing = migrations.filter(({ id }) => !finished.has(id));
  for (const migration of missing) {
    migration.apply(document, set);
    set("migrations", migration.id, true);
  }
  return missing.map(({ id }) => id);
};

/**
 * Runs what this document has not been through yet, in one transaction of origin `"migration"`. Running it again
 * changes nothing. Returns the ids that ran.
 */
export const migrate = (
  document: BoardDocument,
  migrations: readonly Migration[] = MIGRATIONS,
): readonly string[] => {
  const finished = finishedMigrations(document);
  if (migrations.every(({ id }) => finished.has(id))) return [];
  let ran: readonly string[] = [];
  document.transact("migration", (set) => {
    ran = applyMigrations(document, set, finished, migrations);
  });
  return ran;
};
