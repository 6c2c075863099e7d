/** Values for the sides of a detail: a few by number, and every one that its validator takes. */
import fc from "fast-check";
import { SIDE_NAMES, type SideName, type StoredSide } from "#shared/board/card.ts";
import { sideEntries, sideFault } from "#shared/board/sides/detail-sides.ts";
import { type Entry, SWITCHES_MOST } from "#shared/board/sides/entry.ts";

/** One side with a value, or taken off; the same for the same numbers. */
export const someSide = (
  b: number,
  c: number,
  chair: string,
): { side: SideName; value: StoredSide | null } => {
  const values: { readonly [S in SideName]: StoredSide } = {
    tone: {
      gain: b % 11,
      volume: null,
      pickup: "neck",
      effects: [{ name: `echo ${c % 3}`, on: c % 2 === 0 }],
    },
    harmony: { steps: (b % 9) - 4, lead: chair === "" ? null : chair, vowel: "ah" },
    dynamics: { from: 1 + (b % 5), to: 1 + (c % 5) },
    cymbals: { plan: { [`section-${b % 3}`]: "ride" } },
    ending: { how: "vamp", times: 1 + (c % 9), cue: chair === "" ? null : chair },
    hand: { from: 1 + (b % 9), to: 12, index: 10 },
  };
  const side = SIDE_NAMES[(b + c) % SIDE_NAMES.length] ?? "tone";
  return { side, value: c % 5 === 0 ? null : values[side] };
};

const ownWord = fc.string({ minLength: 1, maxLength: 12 }).filter((text) => !/[\s/]/.test(text));

const entryValue = (entry: Entry, sections: readonly string[]): fc.Arbitrary<unknown> => {
  switch (entry.of) {
    case "number":
      return fc.option(
        fc
          .integer({ min: entry.low / entry.step, max: entry.high / entry.step })
          .map((n) => n * entry.step + 0),
        { nil: null },
      );
    case "word":
      return fc.constantFrom(null, ...entry.words);
    case "cue":
      return fc.oneof(fc.constant(""), ownWord);
    case "chair":
      return fc.constantFrom(null, "drums", "bass", "a chair that is gone");
    case "switches":
      return fc.uniqueArray(fc.record({ name: ownWord, on: fc.boolean() }), {
        maxLength: SWITCHES_MOST,
        selector: ({ name }) => name.toLowerCase(),
      });
    case "sections":
      return fc.dictionary(fc.constantFrom(...sections), fc.constantFrom(...entry.words));
  }
};

/** Every value of a side that its validator takes. */
export const sideValue = (name: SideName, sections: readonly string[]): fc.Arbitrary<StoredSide> =>
  fc
    .record(
      Object.fromEntries(
        Object.entries(sideEntries(name)).map(([key, entry]) => [key, entryValue(entry, sections)]),
      ),
    )
    .filter((value) => sideFault(name, value) === null);

/** A side by its name with a value that its validator takes. */
export const anySide = (
  sections: readonly string[],
): fc.Arbitrary<{ readonly side: SideName; readonly value: StoredSide }> =>
  fc.constantFrom(...SIDE_NAMES).chain((side) => sideValue(side, sections).map((value) => ({ side, value })));
