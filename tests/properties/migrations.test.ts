import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as Y from "yjs";
import { createBoardDocument, type Json } from "#shared/document/board-document.ts";
import { CONSTANT_STARTS } from "#shared/document/constant-keys.ts";
import { MIGRATIONS, migrate } from "#shared/document/migrations/migrate.ts";
import { readBoard } from "#shared/document/read/board-reader.ts";
import { documentOf, snapshotOf } from "#tests/support/document-fixtures.ts";
import { laws } from "#tests/support/fuzz.ts";
import { FOUNDATION, litter, plainJson, playOn, rolls } from "#tests/support/random-steps.ts";

const timeout = 120_000 * Number(process.env.TIGHTROW_FUZZ ?? 1);

const number = fc.constantFrom<Json>(0, 0.5, 2, 45, -1, "soon", null);
/** A record as the first schema kept it: whole, half, or broken. */
const record: fc.Arbitrary<Json> = fc
  .oneof<fc.Arbitrary<unknown>[]>(
    fc.jsonValue({ maxDepth: 2 }),
    fc.record(
      {
        k: number,
        b: number,
        gapSeconds: number,
        later: number,
        claim: fc.array(number, { maxLength: 5 }),
        kindWeight: fc.record({ solo: number, gig: number, later: number }, { requiredKeys: [] }),
      },
      { requiredKeys: [] },
    ),
  )
  .map(plainJson);
const ownKey = fc.tuple(fc.constantFrom(...CONSTANT_STARTS.keys(), "later", "a/b"), number);
const steps = fc.array(fc.oneof(rolls, litter), { maxLength: 10 });

/** A document of the first schema on which some new device may have written already. */
const older = fc.record({
  record: fc.option(record, { nil: undefined }),
  own: fc.array(ownKey, { maxLength: 4 }),
  steps,
});

const documentFrom = ({
  record,
  own,
  steps,
}: typeof older extends fc.Arbitrary<infer T> ? T : never): Y.Doc => {
  const ydoc = new Y.Doc();
  const document = createBoardDocument(ydoc);
  playOn(document, [...FOUNDATION, ...steps], () => {});
  document.transact("test", (set) => {
    if (record !== undefined) set("band", "settings", record);
    for (const [key, value] of own) set("settings", key, value);
  });
  return ydoc;
};

const snapshot = (ydoc: Y.Doc): string => snapshotOf(readBoard(createBoardDocument(ydoc)));

describe("[DOC-7] migrating", () => {
  test(
    "changes nothing that can be read, in any document, any number of times",
    () => {
      fc.assert(
        fc.property(older, (made) => {
          const ydoc = documentFrom(made);
          const before = snapshot(ydoc);
          for (let times = 0; times < 2; times++) {
            const document = createBoardDocument(ydoc);
            document.transact("test", (set) => {
              // Forgotten marks make it run again, as on a replica that has not heard of them.
              for (const { id } of MIGRATIONS) set("migrations", id, false);
            });
            expect(migrate(document)).toEqual(MIGRATIONS.map(({ id }) => id));
            expect(snapshot(ydoc)).toBe(before);
          }
        }),
        laws(),
      );
    },
    timeout,
  );

  test(
    "gives one board, whichever replica runs the migrations in whatever order, and whoever hears it first",
    () => {
      fc.assert(
        fc.property(
          older,
          fc.shuffledSubarray([...MIGRATIONS], { minLength: MIGRATIONS.length }),
          (made, order) => {
            const start = Y.encodeStateAsUpdate(documentFrom(made));
            const [left, right, third] = [documentOf(start), documentOf(start), documentOf(start)] as const;
            migrate(createBoardDocument(left));
            migrate(createBoardDocument(right), order);
            const updates = [left, right].map((ydoc) => Y.encodeStateAsUpdate(ydoc));
            for (const update of updates) Y.applyUpdate(third, update);
            for (const update of updates.toReversed()) Y.applyUpdate(left, update);
            expect(snapshot(left)).toBe(snapshot(documentOf(start)));
            expect(snapshot(third)).toBe(snapshot(left));
          },
        ),
        laws(),
      );
    },
    timeout,
  );
});
