import fc from "fast-check";
import { expect, test } from "vitest";
import { GATES } from "#shared/board/gate.ts";
import { type GateQuestion, gigReady } from "#shared/readiness/gates.ts";
import { rememberedReady } from "#shared/readiness/gates-cache.ts";
import type { Names } from "#shared/readiness/names.ts";
import { createReadiness } from "#shared/readiness/readiness-cache.ts";
import type { ScoreInput } from "#shared/readiness/score-input.ts";
import { scoreSong } from "#shared/readiness/song-score.ts";
import { laws } from "#tests/support/fuzz.ts";
import {
  CARD_IDS,
  card,
  castings,
  DAY_MS,
  history,
  lineUp,
  MEMBERS,
  mark,
  SONG,
  STATUS_IDS,
  sections,
  slip,
  song,
  takeOf,
  withFile,
  withMark,
} from "#tests/support/histories.ts";
import { readySong } from "#tests/support/ready-song.ts";
import { differingBits } from "#tests/support/score-bits.ts";

const names: Names = { member: (id) => id, chair: (id) => id };

/** What may happen to a board between two looks at it. Each leaves alone whatever it does not touch, as the reader does. */
type Step = (input: ScoreInput) => ScoreInput;

const tick: fc.Arbitrary<Step> = fc
  .tuple(fc.constantFrom(...STATUS_IDS), fc.constantFrom(...MEMBERS), mark)
  .map(
    ([id, member, status]) =>
      (input) =>
        withMark(input, id, member, status),
  );

const logTake: fc.Arbitrary<Step> = takeOf(fc.constantFrom("take-00", "take-50", "take-zz")).map(
  (take) => (input) => withFile(input, { takes: [...input.file.takes, take].sort((a, b) => a.at - b.at) }),
);

const flagSlip: fc.Arbitrary<Step> = fc.tuple(fc.nat(), slip).map(([n, one]) => (input) => {
  const { takes } = input.file;
  const at = takes.length > 0 ? n % takes.length : -1;
  return withFile(input, {
    takes: takes.map((take, i) => (i === at ? { ...take, slips: [...take.slips, one] } : take)),
  });
});

const writeCard: fc.Arbitrary<Step> = fc.constantFrom(...CARD_IDS).chain((id) =>
  fc.option(card(id)).map((written) => (input) => {
    const others = input.file.cards.filter((other) => other.id !== id);
    return withFile(input, { cards: written ? [...others, written] : others });
  }),
);

const recast: fc.Arbitrary<Step> = fc
  .record({ castings, sections, song })
  .map((change) => (input) => withFile(input, change));

const steps: fc.Arbitrary<readonly Step[]> = fc.array(
  fc.oneof(
    { weight: 6, arbitrary: tick },
    { weight: 3, arbitrary: logTake },
    { weight: 2, arbitrary: flagSlip },
    { weight: 1, arbitrary: writeCard },
    { weight: 1, arbitrary: recast },
    {
      weight: 2,
      arbitrary: lineUp.map(
        (seats): Step =>
          (input) => ({ ...input, lineUp: seats }),
      ),
    },
    {
      weight: 2,
      arbitrary: fc.integer({ min: -60, max: 60 }).map(
        (days): Step =>
          (input) => ({ ...input, t: input.t + days * DAY_MS }),
      ),
    },
    {
      weight: 2,
      arbitrary: fc.integer({ min: -9, max: 9 }).map(
        (days): Step =>
          (input) => ({ ...input, asOf: input.asOf + days * DAY_MS }),
      ),
    },
    { weight: 1, arbitrary: fc.constant<Step>((input) => withFile(input, {})) },
  ),
  { minLength: 1, maxLength: 6 },
);

test("[SCORE-8] what readiness remembers is bit-identical to a computation from scratch, whatever happens in between", () => {
  fc.assert(
    fc.property(fc.oneof(history, readySong), steps, fc.boolean(), (start, changes, back) => {
      const readiness = createReadiness();
      const seen = [start];
      for (const change of changes) seen.push(change(seen.at(-1) ?? start));
      // Looking back at earlier states asks for what was remembered under other keys.
      for (const input of back ? [...seen, ...seen.toReversed()] : seen) {
        const scratch = scoreSong(input);
        const score = readiness.scoreSong(input);
        expect(differingBits(score, scratch)).toEqual([]);
        const question = { gig: null, names };
        expect(JSON.stringify(rememberedReady(input, question, score))).toBe(
          JSON.stringify(gigReady(input, question, scratch)),
        );
      }
    }),
    laws(),
  );
});

/** A gig that may ask its own key and tempo of the song, wait for another song, and let gates pass. */
const gigs: fc.Arbitrary<NonNullable<GateQuestion["gig"]>> = fc
  .record({
    key: fc.constantFrom(null, "D", "F#"),
    tempo: fc.constantFrom(null, 96, 120),
    order: fc.constantFrom("a0", "a1"),
    waived: fc.subarray([...GATES]),
    by: fc.constantFrom(...MEMBERS),
  })
  .map(({ key, tempo, order, waived, by }) => {
    const entry = { order, tuning: null, block: 0, pin: "" } as const;
    return {
      songs: [
        { ...entry, song: "another", key: null, tempo: null },
        { ...entry, song: SONG, key, tempo },
      ],
      waivers: waived.map((gate) => ({ song: SONG, gate, by, at: 1, note: "" })),
    };
  });

test("[SCORE-8] gates asked for one gig after another are answered for each as from scratch", () => {
  fc.assert(
    fc.property(
      fc.oneof(history, readySong),
      fc.array(gigs, { minLength: 2, maxLength: 6 }),
      (input, asked) => {
        const score = createReadiness().scoreSong(input);
        for (const gig of [null, ...asked, ...asked])
          expect(JSON.stringify(rememberedReady(input, { gig, names }, score))).toBe(
            JSON.stringify(gigReady(input, { gig, names }, score)),
          );
      },
    ),
    laws(),
  );
});

test("a gig whose order and other songs change asks nothing of a song anew", () => {
  fc.assert(
    fc.property(history, gigs, (input, gig) => {
      const score = createReadiness().scoreSong(input);
      const moved = {
        ...gig,
        songs: gig.songs.slice(1).map((entry) => ({ ...entry, order: "b7", block: 2 })),
      };
      expect(rememberedReady(input, { gig: moved, names }, score)).toBe(
        rememberedReady(input, { gig, names }, score),
      );
    }),
    laws(),
  );
});

test("nothing is computed again while nothing has changed: the same objects come back", () => {
  fc.assert(
    fc.property(history, tick, (input, change) => {
      const readiness = createReadiness();
      const question = { gig: null, names };
      const score = readiness.scoreSong(input);
      const ready = rememberedReady(input, question, score);
      const copied = { ...input, lineUp: new Map(input.lineUp), chairs: [...input.chairs], asOf: input.asOf };
      expect(readiness.scoreSong(copied)).toBe(score);
      expect(rememberedReady(copied, question, readiness.scoreSong(copied))).toBe(ready);
      const after = readiness.scoreSong(change(input));
      const touched = score.units.filter(
        (one, i) => one !== after.units[i] && one.own !== after.units[i]?.own,
      );
      // One tick is about one card (its partners included) or one part.
      expect(new Set(touched.map(({ unit }) => unit.statusId)).size).toBeLessThanOrEqual(1);
    }),
    laws(),
  );
});

test("a board that forgets its removed songs still answers for the others", () => {
  fc.assert(
    fc.property(history, (input) => {
      const readiness = createReadiness();
      const kept = readiness.scoreSong(input);
      const { id } = input.file.song;
      readiness.keepOnly(new Set([id]));
      expect(readiness.scoreSong(input)).toBe(kept);
      readiness.keepOnly(new Set());
      const again = readiness.scoreSong(input);
      expect(again).not.toBe(kept);
      expect(differingBits(again, kept)).toEqual([]);
    }),
    laws(),
  );
});
