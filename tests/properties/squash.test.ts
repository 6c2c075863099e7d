import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as Y from "yjs";
import { lineUpFor } from "#shared/board/line-up.ts";
import { removePerson } from "#shared/commands/remove-record.ts";
import { runCommand } from "#shared/commands/run-command.ts";
import { createBoardDocument, type Json } from "#shared/document/board-document.ts";
import { ERASED_NAME, erasePerson } from "#shared/document/erase-person.ts";
import { readBoard } from "#shared/document/read/board-reader.ts";
import { entriesOf, squash } from "#shared/document/squash.ts";
import { allScores, differingScores } from "#tests/support/all-scores.ts";
import { documentFixtures, documentOf } from "#tests/support/document-fixtures.ts";
import { laws } from "#tests/support/fuzz.ts";
import { history, SONG } from "#tests/support/histories.ts";
import { writeHistory } from "#tests/support/history-document.ts";
import { FOUNDATION, litter, playOn, rolls, STEPS_START } from "#tests/support/random-steps.ts";

const timeout = 120_000 * Number(process.env.TIGHTROW_FUZZ ?? 1);
const CLIENT = 7;
const NOW = STEPS_START + 10 * 86_400_000;

const boardOf = (ydoc: Y.Doc) => readBoard(createBoardDocument(ydoc));
const valuesOf = (ydoc: Y.Doc) => entriesOf(createBoardDocument(ydoc));

const steps = fc.array(fc.oneof({ weight: 4, arbitrary: rolls }, { weight: 1, arbitrary: litter }), {
  maxLength: 12,
});
/** What two devices wrote apart on one foundation, merged. */
const merged = fc.tuple(steps, steps).map(([mine, theirs]): Y.Doc => {
  const seed = new Y.Doc();
  playOn(createBoardDocument(seed), FOUNDATION, () => {});
  const both = [mine, theirs].map((some) => {
    const ydoc = documentOf(Y.encodeStateAsUpdate(seed));
    playOn(createBoardDocument(ydoc), some, () => {});
    return Y.encodeStateAsUpdate(ydoc);
  });
  return documentOf(...both);
});

describe("[DOC-8] a squashed document", () => {
  test(
    "holds the same keys and values, reads the same board, and scores the same to the last bit",
    () => {
      fc.assert(
        fc.property(merged, (ydoc) => {
          const fresh = documentOf(squash(ydoc, CLIENT));
          expect(valuesOf(fresh)).toEqual(valuesOf(ydoc));
          const [before, after] = [boardOf(ydoc), boardOf(fresh)];
          expect(after).toEqual(before);
          expect(differingScores(before, after, NOW)).toEqual([]);
        }),
        laws(300),
      );
    },
    timeout,
  );

  test(
    "is the same bytes on every replica, and squashed again it is itself",
    () => {
      fc.assert(
        fc.property(merged, (ydoc) => {
          const once = squash(ydoc, CLIENT);
          expect(squash(documentOf(Y.encodeStateAsUpdate(ydoc)), CLIENT)).toEqual(once);
          expect(squash(documentOf(once), CLIENT)).toEqual(once);
          const clients = Y.decodeStateVector(Y.encodeStateVector(documentOf(once)));
          expect([...clients.keys()]).toEqual([CLIENT]);
        }),
        laws(300),
      );
    },
    timeout,
  );

  test(
    "scores any history of a song as the grown document does",
    () => {
      let scored = 0;
      fc.assert(
        fc.property(history, history, (first, second) => {
          const ydoc = new Y.Doc();
          const document = createBoardDocument(ydoc);
          // The first is overwritten in part, so that there is a past to leave behind.
          for (const input of [first, second]) writeHistory(document, input);
          const [before, after] = [ydoc, documentOf(squash(ydoc, CLIENT))].map(boardOf);
          if (before === undefined || after === undefined) throw new Error("There is nothing to compare.");
          expect(before.songs.get(SONG)?.takes.length).toBeGreaterThanOrEqual(second.file.takes.length);
          expect(differingScores(before, after, second.asOf)).toEqual([]);
          for (const bit of allScores(after, second.asOf).values()) if (bit > 0) scored += 1;
        }),
        laws(300),
      );
      expect(scored).toBeGreaterThan(1000);
    },
    timeout,
  );

  test.each(documentFixtures())("of schema $label.schema is the same board", ({ update }) => {
    const ydoc = documentOf(update);
    const fresh = documentOf(squash(ydoc, CLIENT));
    expect(boardOf(fresh)).toEqual(boardOf(ydoc));
    expect(valuesOf(fresh)).toEqual(valuesOf(ydoc));
    expect(differingScores(boardOf(ydoc), boardOf(fresh), Date.UTC(2026, 10, 27))).toEqual([]);
  });

  test("has nothing of what was overwritten or waits for something that never came", () => {
    const ydoc = new Y.Doc({ gc: false });
    const document = createBoardDocument(ydoc);
    for (const title of ["Overwritten Wording", "Marzipan Diesel"])
      document.transact("test", (set) => set("songs", "s/title", title));
    expect(Buffer.from(Y.encodeStateAsUpdate(ydoc)).includes("Overwritten")).toBe(true);
    const fresh = squash(ydoc, CLIENT);
    expect(Buffer.from(fresh).includes("Overwritten")).toBe(false);
    expect(documentOf(fresh).getMap("songs").toJSON()).toEqual({ "s/title": "Marzipan Diesel" });
  });

  test("carries values that no command writes, and leaves an empty map for a shared type", () => {
    const odd = { constructor: "of nothing", bytes: new Uint8Array([1, 2]), not: undefined, big: 5n };
    const source = new Y.Doc();
    source.transact((transaction) => {
      const map = source.getMap("songs");
      const id = Y.createID(source.clientID, 0);
      new Y.Item(id, null, null, null, null, map, "s/odd", new Y.ContentAny([odd])).integrate(transaction, 0);
      map.set("s/bytes", new Uint8Array([3]));
      map.set("s/nested", new Y.Map([["inside", 1]]));
      map.set("s/sub", new Y.Doc());
    });
    const songs = documentOf(squash(source, CLIENT)).getMap("songs");
    expect(songs.get("s/odd")).toEqual(odd);
    expect(songs.get("s/bytes")).toEqual(new Uint8Array([3]));
    for (const key of ["s/nested", "s/sub"]) expect((songs.get(key) as Y.Map<unknown>).size).toBe(0);
  });
});

describe("[DOC-8] an erased person", () => {
  test(
    "reads as a removed one without a name, and every score stays the same to the last bit",
    () => {
      fc.assert(
        fc.property(merged, fc.nat(), (ydoc, n) => {
          const before = boardOf(ydoc);
          const people = [...before.people.keys()];
          const person = people[n % people.length];
          if (person === undefined) return;
          const erased = documentOf(squash(ydoc, CLIENT, (entries) => erasePerson(entries, person)));
          const author = { member: null, writer: "phone", role: "leader" } as const;
          const context = { id: "bye", now: NOW, author, newId: () => "bye" };
          runCommand(createBoardDocument(ydoc), before, removePerson, { id: person }, context);
          const [removed, after] = [boardOf(ydoc), boardOf(erased)];
          expect(after.people).toEqual(removed.people);
          expect(after.removed).toEqual(removed.removed);
          expect(after.chairs.filter(({ holder }) => holder === person)).toEqual([]);
          expect(differingScores(removed, after, NOW)).toEqual([]);
          expect(erased.getMap("people").get(`${person}/name`)).toBe(ERASED_NAME);
          expect(erased.getMap("people").has(`${person}/voice`)).toBe(false);
        }),
        laws(300),
      );
    },
    timeout,
  );

  test("leaves every seat as removing them does, however chair, song and night are filled", () => {
    const SEATS = [undefined, null, "", "bye", "stays", "other"] as const;
    const seated = (chair: Json | undefined, casting: Json | undefined, night: Json | undefined): Y.Doc => {
      const ydoc = new Y.Doc();
      createBoardDocument(ydoc).transact("test", (set) => {
        for (const id of ["bye", "stays", "other"]) set("people", `${id}/name`, id);
        set("chairs", "gt/name", "Guitar");
        set("songs", "s/title", "Marzipan Diesel");
        set("gigs", "quay/date", "2026-12-12");
        if (chair !== undefined) set("chairs", "gt/holder", chair);
        if (casting !== undefined) set("castings", "s/gt/holder", casting);
        if (night !== undefined) set("lineUps", "quay/gt", night);
      });
      return ydoc;
    };
    const seatsOf = (ydoc: Y.Doc) => {
      const board = boardOf(ydoc);
      const file = board.songs.get("s");
      if (file === undefined) throw new Error("The song is missing.");
      return [null, ...board.gigs].map((gig) => lineUpFor(board, file, gig).get("gt"));
    };
    for (const chair of SEATS) {
      for (const casting of SEATS) {
        for (const night of SEATS) {
          const ydoc = seated(chair, casting, night);
          const erased = documentOf(squash(ydoc, CLIENT, (entries) => erasePerson(entries, "bye")));
          createBoardDocument(ydoc).transact("test", (set) => set("people", "bye/deleted", true));
          expect(seatsOf(erased), `${chair} ${casting} ${night}`).toEqual(seatsOf(ydoc));
          expect(erased.getMap("chairs").get("gt/holder")).not.toBe("bye");
        }
      }
    }
  });

  test("leaves their name nowhere in the bytes, neither the last nor an earlier one", () => {
    const names = ["Zephyrinx Quombleforth", "Zéphyrinx Q."];
    for (const { update } of documentFixtures()) {
      const ydoc = documentOf(update);
      const document = createBoardDocument(ydoc);
      for (const name of names) document.transact("test", (set) => set("people", "odile/name", name));
      const kept = Buffer.from(squash(ydoc, CLIENT));
      expect(kept.includes(names[1] ?? "")).toBe(true);
      const fresh = squash(ydoc, CLIENT, (entries) => erasePerson(entries, "odile"));
      for (const name of names) expect(Buffer.from(fresh).includes(name)).toBe(false);
      const board = boardOf(documentOf(fresh));
      expect(board.people.has("odile")).toBe(false);
      expect(board.songs.get("every")?.takes[0]?.seats).toEqual([{ chair: "tuba", member: "odile" }]);
    }
  });

  test("whom the document does not know leaves it as it is", () => {
    const [fixture] = documentFixtures();
    const entries = valuesOf(documentOf(...(fixture === undefined ? [] : [fixture.update])));
    expect(entries.length).toBeGreaterThan(1000);
    expect(erasePerson(entries, "nobody of ours")).toBe(entries);
  });
});
