/** The laws of what a returning member is told, over random lives of a board. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as Y from "yjs";
import type { Board } from "#shared/board/board.ts";
import { createRunner } from "#shared/commands/runner.ts";
import { type BoardDocument, createBoardDocument } from "#shared/document/board-document.ts";
import { readBoard } from "#shared/document/read/board-reader.ts";
import { concerning, knownFrom } from "#shared/selectors/catch-up/concerns.ts";
import { type Digest, digestOf } from "#shared/selectors/catch-up/digest.ts";
import { absorb, type Known, knownBefore, understand } from "#shared/selectors/catch-up/fact.ts";
import { absorbOwn } from "#shared/selectors/catch-up/own-change.ts";
import { mustBeTold } from "#tests/support/concerns-me.ts";
import { laws } from "#tests/support/fuzz.ts";
import { FOUNDATION, playOn, type Roll, rolls, STEPS_START } from "#tests/support/random-steps.ts";

const timeout = 120_000 * Number(process.env.TIGHTROW_FUZZ ?? 1);
const ME = "run-1";
const DAY = 86_400_000;
const SINCE = STEPS_START - DAY;
const FROM = new Date(SINCE).toISOString().slice(0, 10);
const OLDEST = Date.UTC(2020, 0);
const whose = { member: ME, writer: "my phone" };

const play = (steps: readonly Roll[], from?: Y.Doc): Y.Doc => {
  const ydoc = new Y.Doc();
  if (from !== undefined) Y.applyUpdate(ydoc, Y.encodeStateAsUpdate(from));
  playOn(createBoardDocument(ydoc), steps, () => {});
  return ydoc;
};
const boardOf = (ydoc: Y.Doc): Board => readBoard(createBoardDocument(ydoc));
const knowledge = (board: Board): Known =>
  knownFrom(concerning(board, { ...whose, from: FROM, since: SINCE }));
const digest = (board: Board, known: Known, asOf = SINCE + 3 * DAY): Digest =>
  digestOf({ board, known, whose, since: SINCE, asOf });

/** Steps that get new ids: `playOn` counts them, and the foundation took the first. */
const later = (steps: readonly Roll[]): readonly Roll[] => [...FOUNDATION, ...steps];
const lives = fc.tuple(fc.array(rolls, { maxLength: 6 }), fc.array(rolls, { minLength: 1, maxLength: 8 }));

/** The board as it was, and as it is after more of the same life. */
const twoMoments = ([first, then]: readonly [readonly Roll[], readonly Roll[]]): readonly [Y.Doc, Y.Doc] => [
  play(later(first)),
  play(later([...first, ...then])),
];
const keysIn = (told: Digest): readonly string[] =>
  told.items.flatMap(({ covers }) => covers.map(({ key }) => key));

describe("what a returning member is told", () => {
  test(
    "nothing, while nobody changes the board, however late they return",
    () => {
      fc.assert(
        fc.property(fc.array(rolls, { maxLength: 10 }), fc.nat(400), (steps, days) => {
          const board = boardOf(play(later(steps)));
          expect(digest(board, knowledge(board), SINCE + days * DAY).items).toEqual([]);
        }),
        laws(100),
      );
    },
    timeout,
  );

  test(
    "every change that concerns them and no other, by a key-by-key comparison of the documents",
    () => {
      fc.assert(
        fc.property(lives, (life) => {
          const [before, after] = twoMoments(life);
          const [old, now] = [before, after].map((ydoc): BoardDocument => createBoardDocument(ydoc));
          if (old === undefined || now === undefined) throw new Error("two documents were made");
          const told = new Set(keysIn(digest(readBoard(now), knowledge(readBoard(old)))));
          const must = mustBeTold(old, now, ME, FROM, OLDEST);
          expect(must).toEqual(told);
        }),
        laws(100),
      );
    },
    timeout,
  );

  test(
    "nothing twice",
    () => {
      fc.assert(
        fc.property(lives, (life) => {
          const [before, after] = twoMoments(life);
          const told = digest(boardOf(after), knowledge(boardOf(before)));
          const entries = told.items.flatMap(({ covers }) =>
            covers.map(({ key, entry }) => `${key} ${entry}`),
          );
          expect(new Set(entries).size).toBe(entries.length);
          const shown = told.groups.flatMap((group) => [...group.shown, ...group.folded]);
          expect(new Set(shown)).toEqual(new Set(told.items));
          expect(shown.length).toBe(told.items.length);
        }),
        laws(100),
      );
    },
    timeout,
  );

  test(
    "the same, in whichever order two devices' changes arrived",
    () => {
      fc.assert(
        fc.property(fc.array(rolls, { maxLength: 6 }), fc.array(rolls, { maxLength: 6 }), (mine, theirs) => {
          const seed = play(FOUNDATION);
          const known = knowledge(boardOf(seed));
          const [a, b] = [play(mine, seed), play(theirs, seed)].map((ydoc) => Y.encodeStateAsUpdate(ydoc));
          if (a === undefined || b === undefined) throw new Error("two updates were made");
          const merged = [
            [a, b],
            [b, a],
          ].map((updates) => {
            const ydoc = new Y.Doc();
            for (const update of updates) Y.applyUpdate(ydoc, update);
            return digest(boardOf(ydoc), known);
          });
          expect(merged[0]).toEqual(merged[1]);
        }),
        laws(100),
      );
    },
    timeout,
  );

  test(
    "nothing of what they understood until it is another again, and an undo brings it back as it was",
    () => {
      fc.assert(
        fc.property(lives, fc.array(rolls, { maxLength: 4 }), fc.nat(6), ([first, then], more, pick) => {
          const known = knowledge(boardOf(play(later(first))));
          const now = play(later([...first, ...then]));
          const told = digest(boardOf(now), known);
          const item = told.items[pick % Math.max(1, told.items.length)];
          if (item === undefined) return;
          const after = understand(known, item.covers);
          const rest = digest(boardOf(now), after);
          expect(rest.items.map(({ key }) => key)).not.toContain(item.key);
          expect(digest(boardOf(now), understand(after, knownBefore(known, item.covers)))).toEqual(told);

          const further = boardOf(play(later([...first, ...then, ...more])));
          const again = digest(further, after).items.flatMap(({ covers }) => covers);
          const facts = knowledge(further);
          for (const { key, entry, value } of item.covers)
            if (again.some((cover) => cover.key === key && cover.entry === entry))
              expect(JSON.stringify(facts.get(key)?.[entry])).not.toBe(JSON.stringify(value));
          const all = told.items.reduce((sum, { covers }) => understand(sum, covers), known);
          expect(digest(boardOf(now), all).items).toEqual([]);
        }),
        laws(100),
      );
    },
    timeout,
  );

  test(
    "nothing of a change that was changed back",
    () => {
      fc.assert(
        fc.property(lives, (life) => {
          const [before, after] = twoMoments(life);
          const [old, now] = [before, after].map(createBoardDocument);
          if (old === undefined || now === undefined) throw new Error("two documents were made");
          const known = knowledge(readBoard(old));
          after.transact(() => {
            for (const [name, map] of after.share as ReadonlyMap<string, unknown> as ReadonlyMap<
              string,
              Y.Map<unknown>
            >)
              for (const key of [...map.keys()]) {
                const was = before.getMap(name).get(key);
                if (was === undefined) map.delete(key);
                else map.set(key, was);
              }
          });
          expect(digest(readBoard(now), known).items).toEqual([]);
        }),
        laws(100),
      );
    },
    timeout,
  );

  test(
    "nothing of what this device did itself, and all that others did before",
    () => {
      fc.assert(
        fc.property(lives, fc.array(rolls, { minLength: 1, maxLength: 4 }), ([first, theirs], mine) => {
          const known = knowledge(boardOf(play(later(first))));
          const [between, now] = [
            [...first, ...theirs],
            [...first, ...theirs, ...mine],
          ].map((steps) => boardOf(play(later(steps))));
          if (between === undefined || now === undefined) throw new Error("two boards were read");
          const after = absorb(known, knowledge(between), knowledge(now));
          const told = digest(now, after).items.flatMap(({ covers }) => covers);
          const others = digest(between, known).items.flatMap(({ covers }) => covers);
          for (const cover of told)
            expect(others.some(({ key, entry }) => key === cover.key && entry === cover.entry)).toBe(true);
          const touched = (key: string, entry: string): boolean =>
            JSON.stringify(knowledge(between).get(key)?.[entry]) !==
            JSON.stringify(knowledge(now).get(key)?.[entry]);
          // What their own change took out of their sight is no news, whatever became of it before.
          for (const { key, entry } of others)
            if (!touched(key, entry) && knowledge(now).has(key))
              expect(told.some((cover) => cover.key === key && cover.entry === entry)).toBe(true);
        }),
        laws(100),
      );
    },
    timeout,
  );
});

test(
  "one's own change makes known what comparing the whole boards would, though only what can differ is read",
  () => {
    fc.assert(
      fc.property(lives, ([first, then]) => {
        const ydoc = play(later(first));
        const runner = createRunner(createBoardDocument(ydoc));
        const before = runner.board();
        // What was done before is not written again, so most of the board keeps its references.
        Y.applyUpdate(ydoc, Y.encodeStateAsUpdate(play(later([...first, ...then]), ydoc)));
        const after = runner.board();
        const known = knowledge(before);
        const mine = { ...whose, from: FROM, since: SINCE };
        expect(absorbOwn(known, [before, after], () => mine)).toEqual(
          absorb(known, knowledge(before), knowledge(after)),
        );
        runner.close();
      }),
      laws(300),
    );
  },
  timeout,
);
