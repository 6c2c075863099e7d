/**
 * What a member of a board knows of it, on this device: one record a member in a database of its own, so that neither
 * a new season's document nor a damaged copy touches it. Facts are kept by the ids of records, which outlive both.
 */
import * as v from "valibot";
import type { KeptKnown, KnownShelf } from "#client/store/catch-up-store.ts";
import type { Id } from "#shared/board/ids.ts";
import { openDatabase, settled, store } from "./database.ts";
import { knownName } from "./known-name.ts";

const KNOWN = "known";

/** `known`: the facts as one JSON text, which is smaller and quicker to store than thousands of objects. */
const KEPT = v.object({ known: v.string(), since: v.number(), first: v.boolean() });
const FACTS = v.array(v.tuple([v.string(), v.record(v.string(), v.any())]));

const parse = (value: unknown): KeptKnown | "broken" => {
  if (!v.is(KEPT, value)) return "broken";
  try {
    const facts: unknown = JSON.parse(value.known);
    return v.is(FACTS, facts) ? { ...value, known: new Map(facts) } : "broken";
  } catch {
    return "broken";
  }
};

const open = (board: Id): Promise<IDBDatabase> =>
  openDatabase(knownName(board), (db) => db.createObjectStore(KNOWN));

/** The shelf of one member. Without a lasting storage nothing is there and nothing stays. */
export const knownShelf = (board: Id, member: Id): KnownShelf => ({
  read: async () => {
    try {
      const db = await open(board);
      try {
        const value: unknown = await settled(
          db.transaction(KNOWN, "readonly").objectStore(KNOWN).get(member),
        );
        return value === undefined ? "missing" : parse(value);
      } finally {
        db.close();
      }
    } catch {
      return "broken";
    }
  },
  write: async ({ known, since, first }) => {
    try {
      const db = await open(board);
      try {
        const value = { known: JSON.stringify([...known]), since, first } satisfies v.InferOutput<
          typeof KEPT
        >;
        await store(db, KNOWN, (objects) => objects.put(value, member));
        return true;
      } finally {
        db.close();
      }
    } catch {
      return false;
    }
  },
});
