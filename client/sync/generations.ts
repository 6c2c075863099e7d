/**
 * Under which name a board's document is stored. A document that is broken is not deleted: it keeps its name, and the
 * board goes on under the next one. Only the last one put aside is kept.
 */
import type { Id } from "#shared/board/ids.ts";
import { deleteDatabase, settled } from "./database.ts";

/** The store for single facts in the outbox's database. */
export const FACTS = "facts";
const DOCUMENT = "document";

export const documentName = (board: Id, generation: number): string =>
  generation === 0 ? `tightrow.board.${board}` : `tightrow.board.${board}.${generation}`;

interface Kept {
  readonly now: number;
  readonly aside: number | null;
}

const isGeneration = (value: unknown): value is number => Number.isSafeInteger(value) && Number(value) >= 0;

/** What cannot be read counts as the first generation. */
const parse = (value: unknown): Kept => {
  const { now, aside } = (typeof value === "object" && value !== null ? value : {}) as Record<
    string,
    unknown
  >;
  return { now: isGeneration(now) ? now : 0, aside: isGeneration(aside) ? aside : null };
};

export const readGenerations = async (db: IDBDatabase): Promise<Kept> => {
  try {
    return parse(await settled(db.transaction(FACTS, "readonly").objectStore(FACTS).get(DOCUMENT)));
  } catch {
    return parse(null);
  }
};

/**
 * Moves on from a generation found broken; answers the one to use. Another tab may have moved on before; then its
 * choice holds. What was put aside earlier is deleted.
 */
export const moveOnFrom = async (db: IDBDatabase, board: Id, broken: number): Promise<number> => {
  const objects = db.transaction(FACTS, "readwrite").objectStore(FACTS);
  const before = parse(await settled(objects.get(DOCUMENT)));
  if (before.now !== broken) return before.now;
  await settled(objects.put({ now: broken + 1, aside: broken } satisfies Kept, DOCUMENT));
  if (before.aside !== null) await deleteDatabase(documentName(board, before.aside)).catch(() => {});
  return broken + 1;
};
