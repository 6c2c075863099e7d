/**
 * Under which name a document is stored, and the single facts about it. A document that is broken is not deleted: it
 * keeps its name, and the board goes on under the next one. Only the last one put aside is kept.
 */
import type { Id } from "#shared/board/ids.ts";
import { deleteDatabase, settled } from "./database.ts";

/** The store for single facts in the outbox's database. */
export const FACTS = "facts";
const GENERATIONS = "document";

/** One document of a board. The first has the board's own id. */
export interface Place {
  readonly board: Id;
  readonly document: Id;
}

/** The key of a fact about a document: `asOf` for a board's first one, `asOf:<document>` for later ones. */
export const factKey = ({ board, document }: Place, fact: string): string =>
  document === board ? fact : `${fact}:${document}`;

export const documentName = (document: Id, generation: number): string =>
  generation === 0 ? `tightrow.board.${document}` : `tightrow.board.${document}.${generation}`;

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

const factsToRead = (db: IDBDatabase): IDBObjectStore => db.transaction(FACTS, "readonly").objectStore(FACTS);
const factsToWrite = (db: IDBDatabase): IDBObjectStore =>
  db.transaction(FACTS, "readwrite").objectStore(FACTS);

export const readGenerations = async (db: IDBDatabase, place: Place): Promise<Kept> => {
  try {
    return parse(await settled(factsToRead(db).get(factKey(place, GENERATIONS))));
  } catch {
    return parse(null);
  }
};

/**
 * Moves on from a generation found broken; answers the one to use. Another tab may have moved on before; then its
 * choice holds. What was put aside earlier is deleted.
 */
export const moveOnFrom = async (db: IDBDatabase, place: Place, broken: number): Promise<number> => {
  const key = factKey(place, GENERATIONS);
  const objects = factsToWrite(db);
  const before = parse(await settled(objects.get(key)));
  if (before.now !== broken) return before.now;
  await settled(objects.put({ now: broken + 1, aside: broken } satisfies Kept, key));
  if (before.aside !== null) await deleteDatabase(documentName(place.document, before.aside)).catch(() => {});
  return broken + 1;
};

/** Documents of the board about which something is known here. */
export const documentsKept = async (db: IDBDatabase, board: Id): Promise<ReadonlySet<Id>> => {
  const keys = await settled(factsToRead(db).getAllKeys());
  const later = keys.map((key) => String(key).split(":").slice(1).join(":"));
  return new Set([board, ...later.filter((document) => document !== "")]);
};

/** Deletes a document with every generation of it, and the facts about it last: killed in between, it is found again. */
export const dropDocument = async (db: IDBDatabase, place: Place): Promise<void> => {
  const { now, aside } = await readGenerations(db, place);
  for (const generation of new Set([0, now, aside ?? now]))
    await deleteDatabase(documentName(place.document, generation));
  const objects = factsToWrite(db);
  for (const key of await settled(objects.getAllKeys()))
    if (key === factKey(place, String(key).split(":", 1)[0] ?? "")) objects.delete(key);
};
