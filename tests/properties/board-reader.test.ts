/**
 * The reader is total and incremental: whatever a document holds, following it key by key says what a reading from
 * scratch says, and nothing throws.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as Y from "yjs";
import type { Board, SongFile } from "#shared/board/board.ts";
import { type CommandContext, idsFrom } from "#shared/commands/command.ts";
import { COMMANDS } from "#shared/commands/registry.ts";
import { createRunner } from "#shared/commands/runner.ts";
import { type BoardDocument, createBoardDocument, type Json } from "#shared/document/board-document.ts";
import { createBoardReader, readBoard } from "#shared/document/read/board-reader.ts";
import { chairsOfBody, songOfBody } from "#shared/document/read/read-card.ts";
import { ROOT_MAP_NAMES, ROOT_MAPS, type RootMap } from "#shared/document/root-maps.ts";
import { laws } from "#tests/support/fuzz.ts";
import { ROLLED, roll } from "#tests/support/random-commands.ts";

const timeout = 120_000 * Number(process.env.TIGHTROW_FUZZ ?? 1);
const START = Date.UTC(2026, 2, 4, 19);

interface Roll {
  readonly command: string;
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

/** One write past all commands: a key that may have the right form, or the nth there is, and any value. */
interface Litter {
  readonly map: RootMap;
  readonly key: string | number;
  readonly value: Json;
}

const rolls: fc.Arbitrary<Roll> = fc.record({
  command: fc.constantFrom(...ROLLED),
  a: fc.nat(5),
  b: fc.nat(5),
  c: fc.nat(5),
});

/** Segments that meet records the commands make, field names of every map, and plain rubbish. */
const segment = fc.oneof(
  fc.constantFrom(
    "run-0", "run-1", "run-2", "run-3", "run-4", "run-5", "run-6", "body", "deleted", "since", "text", "right", "title", "name", "order",
    "length", "holder", "settings", "timeZone", "date", "called", "part:run-2:run-0", "-", "debut", "1", "__proto__",
    "r:2026-03-04", "phone",
  ),
  fc.string({ maxLength: 5 }),
); // biome-ignore format: by map

const fitting = (map: RootMap): fc.Arbitrary<string> =>
  fc
    .array(segment, { minLength: ROOT_MAPS[map].length, maxLength: ROOT_MAPS[map].length })
    .map((s) => s.join("/"));

const json = fc.jsonValue({ maxDepth: 2 }) as fc.Arbitrary<Json>;
/** What JSON makes of it: Yjs takes no objects without a prototype. */
const plain = (made: unknown): Json => JSON.parse(JSON.stringify(made));

/** Values that are nearly right are likelier to slip through than rubbish. */
const value: fc.Arbitrary<Json> = fc
  .oneof<fc.Arbitrary<unknown>[]>(
    json,
    fc.constantFrom<Json>(true, false, "", "run-0", "4/4", 0, -1, 1e300, null, "2026-02-30", "Nowhere/City"),
    fc.record({
      song: fc.constantFrom("run-2", "run-3", "gone", ""),
      chairs: fc.array(fc.constantFrom("run-0", "gone"), { maxLength: 3 }),
      weight: fc.constantFrom("must", "heavy"),
      kind: fc.constant("general"),
      where: fc.constantFrom<Json>({}, { from: { section: "gone", bar: 0 } }, { from: { section: "run-4" } }),
      order: fc.constantFrom("a0", "", "zz", "a"),
      source: fc.constant("ours"),
      createdBy: fc.constant(""),
      createdAt: fc.constantFrom(0, START),
    }),
    fc.record({
      level: fc.constantFrom(0, 3, 4),
      from: fc.constant(0),
      anchor: fc.constant(START),
      at: fc.constantFrom(0, START, 2 * START),
    }),
    fc.record({
      text: fc.string({ maxLength: 8 }),
      base: fc.constantFrom<Json>({}, { phone: 2 * START }, { __proto__: 1 }),
      at: fc.constantFrom(0, START),
    }),
    fc.record({
      kind: fc.constantFrom("run", "solo"),
      at: fc.constantFrom(START, START + 60_000, START + 3_600_000),
      seats: fc.constant([]),
      scope: fc.constantFrom<Json>({ of: "whole" }, { of: "sections", sections: ["x"] }),
      feel: fc.constantFrom("clean", "stopped"),
      tempoStart: fc.constant(null),
      tempoEnd: fc.constantFrom(null, 120),
      key: fc.constant(null),
      withdrawn: fc.boolean(),
    }),
    fc.record({ severity: fc.constantFrom(0, 0.5, 2, 3), at: fc.constant(START) }),
  )
  .map(plain);

const litter: fc.Arbitrary<Litter> = fc.constantFrom(...ROOT_MAP_NAMES).chain((map) =>
  fc.record({
    map: fc.constant(map),
    key: fc.oneof(fitting(map), fc.nat(30), fc.nat(30), fc.string()),
    value,
  }),
);

const isRoll = (step: Roll | Litter): step is Roll => "command" in step;

/** Plays the steps on one document, one transaction each, and looks at the board after every step. */
const playOn = (document: BoardDocument, steps: readonly (Roll | Litter)[], look: (board: Board) => void) => {
  const runner = createRunner(document);
  steps.forEach((step, i) => {
    if (isRoll(step)) {
      const rolled = roll(runner.board(), step.command, step);
      const command = COMMANDS.get(rolled?.name ?? "");
      const id = `run-${i}`;
      const author = { member: null, writer: "phone", role: "leader" } as const;
      const context: CommandContext = { id, now: START + i * 60_000, author, newId: idsFrom(id) };
      if (command !== undefined) runner.run(command, rolled?.args, context);
    } else {
      const { map, key, value } = step;
      const keys = typeof key === "number" ? [...document.entries(map)].map(([there]) => there) : [key];
      const chosen = keys[typeof key === "number" ? key % keys.length : 0];
      if (chosen !== undefined) document.transact("test", (set) => set(map, chosen, value));
    }
    look(runner.board());
  });
};

/** True when a touched key names the song, or something whose content is part of the song's file. */
const mentions = (touched: ReadonlySet<string>, file: SongFile, document: BoardDocument): boolean =>
  touched.has(file.song.id) ||
  [...file.statuses.keys(), ...file.cards.map(({ id }) => id)].some((card) => touched.has(card)) ||
  [...touched].some((key) => songOfBody(document.get("rulings", key)) === file.song.id) ||
  [...touched].some((card) => songOfBody(document.get("cards", `${card}/body`)) === file.song.id) ||
  [...document.entries("cards")].some(
    ([, body]) => songOfBody(body) === file.song.id && chairsOfBody(body).some((chair) => touched.has(chair)),
  );

/** Enough of a band that later steps have something to be about. */
const FOUNDATION: readonly Roll[] = [
  "addChair", "addPerson", "addSong", "addSong", "addSection", "addDetail", "planGig", "callSongs", "markDetail", "logTake",
].map((command, i) => ({ command, a: 0, b: 1, c: i % 2 })); // biome-ignore format: in order

describe("the reader", () => {
  test(
    "[DOC-2] says after every command what a reading from scratch says",
    () => {
      fc.assert(
        fc.property(fc.array(rolls, { minLength: 1, maxLength: 12 }), (steps) => {
          const document = createBoardDocument(new Y.Doc());
          playOn(document, [...FOUNDATION, ...steps], (board) => expect(board).toEqual(readBoard(document)));
        }),
        laws(),
      );
    },
    timeout,
  );

  test(
    "[DOC-1] reads any rubbish among the records, never throws, and follows it key by key",
    () => {
      fc.assert(
        fc.property(fc.array(fc.oneof(rolls, litter, litter), { minLength: 1, maxLength: 12 }), (steps) => {
          const document = createBoardDocument(new Y.Doc());
          playOn(document, [...FOUNDATION, ...steps], (board) => expect(board).toEqual(readBoard(document)));
        }),
        laws(),
      );
    },
    timeout,
  );

  test(
    "[DOC-3] keeps the reference of every song that a change is not about",
    () => {
      fc.assert(
        fc.property(fc.array(rolls, { minLength: 1, maxLength: 12 }), (steps) => {
          const document = createBoardDocument(new Y.Doc());
          let before: Board | null = null;
          let touched = new Set<string>();
          document.onTouched((maps) => {
            touched = new Set(
              [...maps.values()].flatMap((keys) => [...keys].flatMap((key) => key.split("/"))),
            );
          });
          playOn(document, [...FOUNDATION, ...steps], (board) => {
            for (const [id, file] of before?.songs ?? []) {
              const now = board.songs.get(id);
              if (now !== undefined && now !== file) expect(mentions(touched, now, document)).toBe(true);
            }
            before = board;
            touched = new Set();
          });
        }),
        laws(),
      );
    },
    timeout,
  );

  test(
    "[DOC-4] does not depend on the order in which two devices' changes arrive",
    () => {
      fc.assert(
        fc.property(fc.array(rolls, { maxLength: 8 }), fc.array(litter, { maxLength: 8 }), (mine, theirs) => {
          const [left, right, seed] = [new Y.Doc(), new Y.Doc(), new Y.Doc()];
          playOn(createBoardDocument(seed), FOUNDATION, () => {});
          for (const doc of [left, right]) Y.applyUpdate(doc, Y.encodeStateAsUpdate(seed));
          playOn(createBoardDocument(left), mine, () => {});
          playOn(createBoardDocument(right), theirs, () => {});
          const readers = [left, right].map((doc) => {
            const document = createBoardDocument(doc);
            const reader = createBoardReader(document);
            document.onTouched((touched) => reader.refresh(touched));
            return reader;
          });
          const updates = [left, right].map((doc) => Y.encodeStateAsUpdate(doc));
          if (updates[1] !== undefined) Y.applyUpdate(left, updates[1]);
          if (updates[0] !== undefined) Y.applyUpdate(right, updates[0]);
          expect(readers[0]?.board()).toEqual(readers[1]?.board());
          expect(readers[0]?.board()).toEqual(readBoard(createBoardDocument(right)));
        }),
        laws(),
      );
    },
    timeout,
  );
});
