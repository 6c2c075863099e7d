import fc from "fast-check";
import { expect, test } from "vitest";
import type { Place, Where } from "#shared/board/card.ts";
import { parseWhere } from "#shared/board/parse-where.ts";
import type { Section } from "#shared/board/song.ts";
import { compareWhere, formatWhere } from "#shared/board/where.ts";
import { laws } from "#tests/support/fuzz.ts";
import { PLAIN_SECTION } from "#tests/support/plain-section.ts";

/** Names made to collide: the words of the notation itself, quotes, dashes, numbers, other scripts. */
const NASTY = [
  "V1",
  "Ch",
  "b2",
  "beat 3",
  "-",
  '"',
  "whole",
  "1:42",
  "at",
  "2nd time",
  "(2)",
  "8",
  "Σ",
  "é",
  "İ",
  " ",
];
const name = fc.oneof(
  fc.constantFrom("Intro", "V1", "V2", "Ch1", "Bridge", "Outro"),
  fc.array(fc.constantFrom(...NASTY), { maxLength: 4 }).map((parts) => parts.join("")),
  fc.array(fc.constantFrom(...NASTY), { maxLength: 3 }).map((parts) => parts.join(" ")),
  fc.string({ unit: "grapheme", maxLength: 8 }),
);

const sections = fc
  .array(fc.record({ name, bars: fc.integer({ min: 1, max: 32 }) }), { minLength: 1, maxLength: 8 })
  .map((rows): readonly Section[] =>
    rows.map((row, index) => ({
      id: `s${index}`,
      song: "song",
      order: `a${index}`,
      since: 0,
      ...PLAIN_SECTION,
      ...row,
    })),
  );

const half = fc.integer({ min: 2, max: 64 }).map((n) => n / 2);

const placeIn = (form: readonly Section[]): fc.Arbitrary<Place> =>
  fc
    .constantFrom(...form)
    .chain((section) =>
      fc.record(
        { section: fc.constant(section.id), bar: fc.integer({ min: 1, max: section.bars }), beat: half },
        { requiredKeys: ["section"] },
      ),
    );

const whereIn = (form: readonly Section[]): fc.Arbitrary<Where> =>
  fc
    .record(
      {
        from: placeIn(form),
        to: placeIn(form),
        pass: fc.integer({ min: 1, max: 99 }),
        clock: fc.integer({ min: 0, max: 3_600_000 }).map((ms) => ms / 1000),
      },
      { requiredKeys: [] },
    )
    .filter((where) => where.from !== undefined || where.to === undefined);

const song = sections.chain((form) => fc.record({ form: fc.constant(form), where: whereIn(form) }));

const isRefusedForItsOrder = (where: Where, form: readonly Section[]): boolean => {
  const read = parseWhere(formatWhere(where, form), form);
  return !read.ok && read.error.startsWith("The end comes before the start");
};

test("reading what was written gives the same place, whatever the sections are called", () => {
  fc.assert(
    fc.property(song, ({ form, where }) => {
      fc.pre(!isRefusedForItsOrder(where, form));
      const single = where.to !== undefined && JSON.stringify(where.from) === JSON.stringify(where.to);
      const { to, ...start } = where;
      const value = single || to === undefined ? start : { ...start, to };
      expect(parseWhere(formatWhere(where, form), form)).toEqual({ ok: true, value });
    }),
    laws(),
  );
});

test("any text is either read or refused with a sentence, and never throws", () => {
  fc.assert(
    fc.property(sections, fc.oneof(name, fc.string({ unit: "binary", maxLength: 600 })), (form, text) => {
      const read = parseWhere(text, form);
      if (!read.ok) expect(read.error).toMatch(/\.$/);
      else expect(parseWhere(formatWhere(read.value, form), form)).toEqual(read);
    }),
    laws(),
  );
});

test("playing order is a total order", () => {
  const three = sections.chain((form) =>
    fc.record({ form: fc.constant(form), places: fc.tuple(whereIn(form), whereIn(form), whereIn(form)) }),
  );
  fc.assert(
    fc.property(three, ({ form, places: [a, b, c] }) => {
      expect(compareWhere(a, a, form)).toBe(0);
      expect(compareWhere(a, b, form) + compareWhere(b, a, form)).toBe(0);
      if (compareWhere(a, b, form) <= 0 && compareWhere(b, c, form) <= 0) {
        expect(compareWhere(a, c, form)).toBeLessThanOrEqual(0);
      }
    }),
    laws(),
  );
});
