/**
 * A board on this device, in IndexedDB: the document as y-indexeddb keeps it, and beside it our own database with
 * the outbox. Both are written in the same moment; whichever arrives alone, nothing is lost: a document without its
 * entry is synced anyway, an entry without its document is run again. What is broken is put aside, never deleted.
 * The outbox belongs to the board, a document to one of its seasons: what waits in it outlives the season.
 */
import * as Y from "yjs";
import type { Id } from "#shared/board/ids.ts";
import { forgetClient } from "./client-memory.ts";
import { deleteDatabase, NoAnswer, onTakenAway, openDatabase, settled, store } from "./database.ts";
import { forgetDepGig } from "./dep-key.ts";
import {
  documentName,
  documentsKept,
  dropDocument,
  FACTS,
  factKey,
  moveOnFrom,
  type Place,
  readGenerations,
} from "./generations.ts";
import { createKeptEntries, ENTRIES, type KeptEntries } from "./kept-entries.ts";
import { knownName } from "./known-name.ts";
import { createFleetingBoard, type LocalBoard } from "./local-board.ts";
import { beginStoredDocument, openStoredDocument, type StoredDocument } from "./stored-document.ts";

/** The first that opens is used. */
const outboxNames = (board: Id): readonly string[] => [
  `tightrow.outbox.${board}`,
  `tightrow.outbox.${board}.1`,
];

const AS_OF = "asOf";

const CANNOT_STORE =
  "This device cannot store any more; its memory may be full. Keep this page open until everything is saved.";
const CANNOT_READ = "What this device kept of the board cannot be read; it is fetched from the server again.";
const PART_BROKEN =
  "Part of what this device kept of the board was damaged. The damaged copy is put aside, the server fills the gaps, and your changes that were not sent yet are kept.";
const ALL_BROKEN =
  "What this device kept of the board was damaged. It is put aside and fetched from the server again; your changes that were not sent yet are kept.";
const OUTBOX_BROKEN =
  "The list of changes that waited on this device was damaged and is put aside. Look whether something of yours is missing, and make it again.";

/** Opens what this device keeps of a board's document; one that is forgotten with the page where nothing can be kept. */
export const openLocalBoard = async (board: Id, document: Id = board): Promise<LocalBoard> => {
  const outbox = await openOutbox(board);
  if (outbox === null) return createFleetingBoard();
  const place = { board, document };
  // Known before it is stored, so that it is found when the board is deleted.
  const known = store(outbox.db, FACTS, (objects) => objects.put(true, factKey(place, "known")));
  await known.catch(() => {});
  return keepIn(outbox.db, place, outbox.broken ? [OUTBOX_BROKEN] : []);
};

interface OpenOutbox {
  readonly db: IDBDatabase;
  /** True when the one before it does not open. */
  readonly broken: boolean;
}

const openOutbox = async (board: Id): Promise<OpenOutbox | null> => {
  for (const [i, name] of outboxNames(board).entries())
    try {
      const db = await openDatabase(name, (created) => {
        created.createObjectStore(ENTRIES, { autoIncrement: true });
        created.createObjectStore(FACTS);
      });
      if ([ENTRIES, FACTS].every((part) => db.objectStoreNames.contains(part))) return { db, broken: i > 0 };
      db.close();
    } catch (error) {
      if (error instanceof NoAnswer) return null;
      // A damaged database opens as badly as one that is forbidden; only the next name tells which it is.
    }
  return null;
};

/** Deletes what this device keeps of a board, unsent changes included. Close the board's session first. */
export const deleteLocalBoard = async (board: Id): Promise<void> => {
  forgetClient(board);
  forgetDepGig(board);
  await dropDocuments(board, () => true);
  for (const name of [...outboxNames(board), knownName(board)]) await deleteDatabase(name);
};

/** Deletes what this device keeps of a board's other documents. What waits in the outbox stays. */
export const dropOtherDocuments = (board: Id, document: Id): Promise<void> =>
  dropDocuments(board, (other) => other !== document);

const dropDocuments = async (board: Id, goes: (document: Id) => boolean): Promise<void> => {
  const outbox = await openOutbox(board);
  if (outbox === null) return;
  const { db } = outbox;
  const documents = await documentsKept(db, board).catch(() => new Set([board]));
  for (const document of documents) {
    if (!goes(document)) continue;
    forgetClient(document);
    await dropDocument(db, { board, document });
  }
  db.close();
};

const keepIn = (db: IDBDatabase, place: Place, found: readonly string[]): LocalBoard => {
  const entries: KeptEntries = createKeptEntries(db);
  const running = new Set<Promise<void>>();
  const troubled = new Set<(sentence: string) => void>();
  const mended = new Set<(sentence: string) => void>();
  const sentences = [...found];
  const asOfKey = factKey(place, AS_OF);
  let stored: StoredDocument | null = null;
  let generation = 0;
  const report = (sentence: string): void => {
    for (const listener of troubled) listener(sentence);
  };
  const say = (sentence: string): void => {
    sentences.push(sentence);
    for (const listener of mended) listener(sentence);
  };
  // What waits here is then kept by the open page alone.
  onTakenAway(db, () => report(CANNOT_STORE));
  const run = (work: () => Promise<void>): void => {
    const done = work().catch(() => report(CANNOT_STORE));
    running.add(done);
    void done.then(() => running.delete(done));
  };

  /** Goes on under the next name, with what could be read of the broken one. */
  const replace = async (ydoc: Y.Doc): Promise<Y.Doc> => {
    generation = await moveOnFrom(db, place, generation);
    const begun = await beginStoredDocument(documentName(place.document, generation), ydoc);
    if (begun === "late") report(CANNOT_STORE);
    else stored = begun;
    return ydoc;
  };
  const openDocument = async (): Promise<Y.Doc> => {
    generation = (await readGenerations(db, place)).now;
    const opened = await openStoredDocument(documentName(place.document, generation));
    if (opened === "late") {
      report(CANNOT_READ);
      return new Y.Doc();
    }
    if (opened === "unreadable") {
      say(ALL_BROKEN);
      return replace(new Y.Doc());
    }
    if (opened.broken === 0) {
      stored = opened;
      return opened.ydoc;
    }
    await opened.close();
    say(PART_BROKEN);
    return replace(opened.ydoc);
  };

  return {
    lasting: true,
    load: async () => {
      const asOf: unknown = await settled(
        db.transaction(FACTS, "readonly").objectStore(FACTS).get(asOfKey),
      ).catch(() => null);
      const loaded = await entries.load().catch(() => {
        say(OUTBOX_BROKEN);
        return { entries: [], unreadable: 0 };
      });
      return { ...loaded, asOf: typeof asOf === "number" ? asOf : null };
    },
    open: async () => {
      const ydoc = await openDocument().catch(() => {
        report(CANNOT_READ);
        return new Y.Doc();
      });
      stored?.follow(() => report(CANNOT_STORE));
      return ydoc;
    },
    setAside: async (whole) => {
      await stored?.close();
      stored = null;
      const ydoc = new Y.Doc();
      if (whole !== null) Y.applyUpdate(ydoc, whole);
      await replace(ydoc).catch(() => report(CANNOT_STORE));
    },
    keep: (entry) => run(() => entries.keep(entry)),
    drop: (ids) => run(() => entries.drop(ids)),
    keepAsOf: (moment) => run(() => store(db, FACTS, (objects) => objects.put(moment, asOfKey))),
    onTrouble: (listener) => troubled.add(listener),
    onMended: (listener) => {
      for (const sentence of sentences) listener(sentence);
      mended.add(listener);
    },
    close: async () => {
      await Promise.all(running);
      await stored?.close();
      db.close();
    },
  };
};
