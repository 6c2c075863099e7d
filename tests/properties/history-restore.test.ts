/** Whatever a band did: putting the board back to any moment of it makes it read, and score, as it did. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { foldHistory } from "#shared/history/history.ts";
import { boardAt } from "#shared/history/past-boards.ts";
import { valuesAt } from "#shared/history/past-values.ts";
import { restoreWrites } from "#shared/history/restore-writes.ts";
import { readingOf, scoresOf } from "#tests/support/board-reading.ts";
import { laws } from "#tests/support/fuzz.ts";
import { ROLLED } from "#tests/support/random-commands.ts";
import { type Move, playMoves, type RecordedBoard, recordBoard } from "#tests/support/recorded-board.ts";
import { differingBits } from "#tests/support/score-bits.ts";

const timeout = 300_000 * Number(process.env.TIGHTROW_FUZZ ?? 1);

const move: fc.Arbitrary<Move> = fc.record({
  command: fc.constantFrom(...ROLLED),
  device: fc.nat(2),
  a: fc.nat(5),
  b: fc.nat(5),
  c: fc.nat(11),
});
const past = fc.record({
  moves: fc.array(move, { minLength: 4, maxLength: 60, size: "max" }),
  /** Where to go back to, as a share of the rows. */
  share: fc.double({ min: 0, max: 1, noNaN: true }),
});

const SEED: readonly (readonly [name: string, args: unknown])[] = [
  ["startBand", { name: "Six Spare Fuses", timeZone: "Europe/Lisbon" }],
  ["addPerson", { name: "Lucía Borrasco" }],
  ["addPerson", { name: "Tomasz Wrzosnowicz" }],
  ["addChair", { name: "Drums", instrument: "drums", holder: "run-2" }],
  ["addChair", { name: "Bass", instrument: "bass", holder: "run-3" }],
  ["addSong", { title: "Marzipan Diesel", tempo: 112 }],
  ["addSong", { title: "Umbrella Season" }],
  ["writeForm", { song: "run-6", sections: [{ name: "Verse", bars: 8 }] }],
  ["addDetail", { song: "run-6", text: "Choke on 4-and", chairs: ["run-4"], weight: "must" }],
  ["addDetail", { song: "run-6", text: "Push into the chorus", chairs: ["run-4", "run-5"] }],
  ["planGig", { name: "Harbour night", date: "2026-04-18", minutes: 90 }],
];

const seeded = (): RecordedBoard => {
  const recorded = recordBoard();
  for (const [name, args] of SEED) {
    const done = recorded.run(name, args);
    if (!done.ok) throw new Error(done.error.sentence);
  }
  return recorded;
};

/** Plays a past and names the row to go back to: after the seed at the earliest. */
const playPast = ({ moves, share }: { readonly moves: readonly Move[]; readonly share: number }) => {
  const recorded = seeded();
  const first = recorded.rows.length;
  playMoves(recorded, moves);
  const seq = first + Math.round(share * (recorded.rows.length - first));
  return { recorded, seq };
};

const putBackTo = (recorded: RecordedBoard, seq: number) => {
  const history = foldHistory(null, recorded.rows);
  const writes = restoreWrites(recorded.document, valuesAt(history, seq));
  const then = boardAt(history, seq);
  const done = recorded.run("restoreBoard", { moment: recorded.now(), writes: structuredClone(writes) });
  return { then, done, writes };
};

describe("[HIST-3] the whole board put back to a moment", () => {
  test("reads as it did then, and scores as it did on the same day", { timeout }, () => {
    let changed = 0;
    fc.assert(
      fc.property(past, (story) => {
        const { recorded, seq } = playPast(story);
        const { then, done, writes } = putBackTo(recorded, seq);
        if (writes.length > 0) {
          changed += 1;
          if (!done.ok) throw new Error(done.error.sentence);
        }
        expect(readingOf(recorded.board())).toEqual(readingOf(then));
        const asOf = recorded.now();
        const scores = scoresOf(recorded.board(), asOf);
        for (const [name, score] of scoresOf(then, asOf)) {
          const now = scores.get(name);
          expect(now && differingBits(score, now)).toEqual([]);
        }
      }),
      laws(250),
    );
    expect(changed).toBeGreaterThan(200);
  });

  test("leaves nothing to put back, and is taken back like any change", { timeout }, () => {
    fc.assert(
      fc.property(past, (story) => {
        const { recorded, seq } = playPast(story);
        const before = readingOf(recorded.board());
        const { done } = putBackTo(recorded, seq);
        if (!done.ok) return;
        const history = foldHistory(null, recorded.rows);
        expect(restoreWrites(recorded.document, valuesAt(history, seq))).toEqual([]);
        const undone = recorded.run("takeBack", { written: structuredClone([...done.value.written]) });
        if (!undone.ok) throw new Error(undone.error.sentence);
        expect(readingOf(recorded.board())).toEqual(before);
      }),
      laws(200),
    );
  });
});
