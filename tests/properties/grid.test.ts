/** Grids and shapes: whatever stands in a document is read or left out, and writing one by hand never breaks it. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { GRID_VOICES, type Grid, HITS, rowKey, type Shape } from "#shared/board/grid.ts";
import { gridFault, nextHit, shapeFault, withoutLooseHolds } from "#shared/board/grid-reading.ts";
import { fretsText, gridWords, readFrets, shapeWords } from "#shared/music/grid-words.ts";
import * as drafts from "#shared/selectors/grid-draft.ts";
import { NOON, smallBand } from "#tests/support/command-bench.ts";

const RUNS = { numRuns: 1000 };
const METRES = [
  "4/4",
  "3/4",
  "6/8",
  "12/8",
  "7/8",
  "3+2+2/8",
  "5/4",
  "2/2",
  "1/4",
  "99/32",
  "nonsense",
] as const;
const metre = fc.constantFrom(...METRES);

const grid: fc.Arbitrary<Grid> = fc
  .tuple(
    fc.integer({ min: 1, max: 6 }),
    fc.integer({ min: 1, max: 8 }),
    fc.uniqueArray(
      fc.record({
        chair: fc.constantFrom("drums", "bass"),
        voice: fc.option(fc.constantFrom(...GRID_VOICES), { nil: undefined }),
      }),
      { minLength: 1, maxLength: 4, selector: rowKey },
    ),
  )
  .filter(([perBeat, beats]) => perBeat * beats >= 4)
  .chain(([perBeat, beats, rows]) =>
    fc.record({
      steps: fc.constant(perBeat * beats),
      perBeat: fc.constant(perBeat),
      rows: fc.tuple(
        ...rows.map(({ chair, voice }) =>
          fc
            .array(fc.constantFrom(...HITS), { minLength: perBeat * beats, maxLength: perBeat * beats })
            .map((signs) => ({
              chair,
              ...(voice === undefined ? {} : { voice }),
              hits: withoutLooseHolds(signs.join("")),
            })),
        ),
      ),
    }),
  );
const fret = fc.option(fc.integer({ min: 0, max: 24 }), { nil: null });
const shape: fc.Arbitrary<Shape> = fc
  .array(fret, { minLength: 4, maxLength: 8 })
  .filter((frets) => frets.some((one) => one !== null))
  .map((frets) => ({
    frets,
    fingers: frets.map((one) => (one ? 1 + (one % 4) : null)),
    capo: frets.length % 12,
  }));

const cardOf = (trial: ReturnType<typeof smallBand>) =>
  trial
    .board()
    .songs.get("diesel")
    ?.cards.find(({ id }) => id === "choke");

describe("[DOC-1] beside a card", () => {
  test("whatever stands for a grid or a shape is read whole or left out with an issue, and the card stays", () => {
    const trial = smallBand();
    const text = cardOf(trial)?.text;
    const noise = fc.oneof(
      fc.jsonValue(),
      fc.record({ steps: fc.integer(), perBeat: fc.integer(), rows: fc.jsonValue() }),
      grid,
      grid.map((whole) => ({ ...whole, steps: whole.steps + 1 })),
      shape,
      shape.map((whole) => ({ ...whole, fingers: whole.frets })),
    );
    fc.assert(
      fc.property(
        noise,
        fc.constantFrom("grid" as const, "recordedGrid" as const, "shape" as const),
        (value, field) => {
          trial.document.transact("foreign", (set) =>
            set("cards", `choke/${field}`, JSON.parse(JSON.stringify(value))),
          );
          const board = trial.board();
          const card = cardOf(trial);
          expect(card?.text).toBe(text);
          if (card?.grid !== undefined) expect(gridFault(card.grid)).toBeNull();
          if (card?.recordedGrid !== undefined) expect(gridFault(card.recordedGrid)).toBeNull();
          if (card?.shape !== undefined) expect(shapeFault(card.shape)).toBeNull();
          const told = board.issues.some(({ key }) => key === `choke/${field}`);
          expect(told).toBe(value !== null && card?.[field] === undefined);
        },
      ),
      { numRuns: 1000 },
    );
  });
});

describe("[CMD-3] a grid that is written", () => {
  test("is read back as it was, keeps the other's, and is taken back", () => {
    const trial = smallBand();
    fc.assert(
      fc.property(grid, shape, (one, other) => {
        trial.done("describeShape", { card: "choke", shape: other });
        const before = cardOf(trial);
        const written = trial.done("describeGrid", { card: "choke", grid: one });
        expect(cardOf(trial)).toEqual({ ...before, grid: one });
        const recorded = trial.done("describeGrid", { card: "choke", grid: one, of: "recorded" });
        expect(cardOf(trial)).toEqual({ ...before, grid: one, recordedGrid: one });
        trial.done("takeBack", { written: [...recorded] });
        trial.done("takeBack", { written: [...written] });
        expect(cardOf(trial)).toEqual(before);
      }),
      { numRuns: 100 },
    );
  });

  test("with “learn again” everybody starts afresh, without it nobody does", () => {
    const trial = smallBand();
    const since = cardOf(trial)?.since;
    const one: Grid = { steps: 4, perBeat: 1, rows: [{ chair: "drums", hits: "x.x." }] };
    trial.done("describeGrid", { card: "choke", grid: one });
    expect(cardOf(trial)?.since).toBe(since);
    trial.done("describeGrid", { card: "choke", grid: null, learnAgain: true });
    expect(cardOf(trial)?.since).toBeGreaterThanOrEqual(NOON);
    expect(cardOf(trial)?.grid).toBeUndefined();
  });

  test("loses the row of a chair that leaves the board, and gets it back with the chair", () => {
    const trial = smallBand();
    const rows = [
      { chair: "drums", hits: "x.x." },
      { chair: "bass", hits: ".x.x" },
    ];
    trial.done("describeGrid", { card: "choke", grid: { steps: 4, perBeat: 1, rows } });
    trial.done("removeChair", { id: "bass" });
    expect(cardOf(trial)?.grid?.rows).toEqual(rows.slice(0, 1));
    trial.done("restoreChair", { id: "bass" });
    expect(cardOf(trial)?.grid?.rows).toEqual(rows);
  });
});

describe("writing by hand", () => {
  test("every hand movement leaves a grid that a command takes", () => {
    fc.assert(
      fc.property(grid, metre, fc.nat(), fc.nat(), (one, bar, a, b) => {
        const divisions = drafts.divisionsOf(bar);
        const row = one.rows[0] ?? { chair: "drums", hits: "" };
        const next = drafts.withHit(one, row, a % one.steps, nextHit(row.hits, a % one.steps));
        const shifted = drafts.withShift(one, row, 1);
        const division = divisions[b % Math.max(1, divisions.length)] ?? one;
        for (const made of [
          next,
          drafts.divided(one, division),
          drafts.withHit(one, row, a % one.steps, "-"),
          shifted,
          drafts.withRow(one, { chair: "bass", voice: "clap" }),
          drafts.withoutRow(one, row),
          drafts.emptyGrid(bar, [{ id: "drums", instrument: "drums" }]),
        ])
          if (made !== null) expect(gridFault(made)).toBeNull();
        expect(drafts.sameDrawn(next, one)).toBe(false);
        expect(drafts.withShift(shifted, row, -1)).toEqual(one);
      }),
      RUNS,
    );
  });

  test("what other steps lose is named, note by note, and everything else is kept", () => {
    const notes = (some: Grid): number =>
      some.rows.reduce((sum, { hits }) => sum + hits.replaceAll(/[.-]/g, "").length, 0);
    fc.assert(
      fc.property(grid, metre, fc.nat(), (one, bar, pick) => {
        const divisions = drafts.divisionsOf(bar);
        const division = divisions[pick % Math.max(1, divisions.length)] ?? one;
        const lost = drafts.lostIn(one, division).reduce((sum, { steps }) => sum + steps.length, 0);
        expect(notes(drafts.divided(one, division))).toBe(notes(one) - lost);
      }),
      RUNS,
    );
  });

  test("finer steps keep every hit, and going back gives the same bar", () => {
    fc.assert(
      fc.property(grid, fc.integer({ min: 2, max: 4 }), (one, finer) => {
        const fine = drafts.divided(one, { steps: one.steps * finer, perBeat: one.perBeat * finer });
        expect(drafts.divided(fine, one)).toEqual(one);
      }),
      RUNS,
    );
  });

  test("every hand movement leaves a shape that a command takes, or none that is played", () => {
    fc.assert(
      fc.property(shape, fret, fc.nat(7), fc.integer({ min: 4, max: 8 }), (one, to, at, strings) => {
        for (const made of [
          drafts.withFret(one, at % one.frets.length, to),
          drafts.withStrings(one, strings),
          drafts.withFrets(one, [to, 3, 0, null]),
        ])
          if (made.frets.some((held) => held !== null)) expect(shapeFault(made)).toBeNull();
        expect(drafts.withStrings(drafts.withStrings(one, 8), one.frets.length)).toEqual(one);
      }),
      RUNS,
    );
  });
});

test("every grid and shape is told in one line, and frets are read back", () => {
  fc.assert(
    fc.property(grid, shape, metre, (one, other, bar) => {
      expect(gridWords(one, bar, (chair) => chair)).toMatch(/^[^\n]+\.$/);
      expect(shapeWords(other)).toMatch(/^[^\n]+\.$/);
      expect(readFrets(fretsText(other))).toEqual(other.frets);
    }),
    RUNS,
  );
});
