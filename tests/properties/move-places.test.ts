import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Place, Where } from "#shared/board/card.ts";
import { type FormEdit, losesPlace, movedChanges, movedWhere } from "#shared/board/move-places.ts";
import type { TextureChanges } from "#shared/board/texture.ts";
import { presenceAt } from "#shared/music/texture-changes.ts";
import { laws } from "#tests/support/fuzz.ts";

const BARS = 16;
const SECTIONS = ["a", "b", "c"] as const;
const place: fc.Arbitrary<Place> = fc.record(
  {
    section: fc.constantFrom(...SECTIONS),
    bar: fc.integer({ min: 1, max: BARS }),
    beat: fc.constantFrom(1, 2.5, 4),
  },
  { requiredKeys: ["section"] },
);
/** Bar and section as one number, for what comes before what; an end without a bar is the end of its section. */
const at = (p: Place, isEnd: boolean): number =>
  SECTIONS.indexOf(p.section as (typeof SECTIONS)[number]) * 1000 +
  (p.bar ?? (isEnd ? 999 : 0)) +
  (p.beat ?? 0) / 100;
const where: fc.Arbitrary<Where> = fc
  .record({ from: place, to: place, pass: fc.integer({ min: 1, max: 4 }) }, { requiredKeys: ["from"] })
  .map(({ from, to, ...rest }) =>
    to === undefined ? { from, ...rest }
    : at(from, false) <= at(to, true) ? { from, to, ...rest }
    : { from: to, to: from, ...rest },
  ); // biome-ignore format: one decision
const span = fc.record({ at: fc.integer({ min: 1, max: BARS }), count: fc.integer({ min: 1, max: 8 }) });
const insertion = span.map(({ at, count }): FormEdit => ({ of: "insert", section: "b", at, count }));
const removal = span.map(({ at, count }): FormEdit => ({ of: "remove", section: "b", at, count }));
const split = fc
  .integer({ min: 2, max: BARS })
  .map((at): FormEdit => ({ of: "split", section: "b", at, into: "b2" }));

describe("a place in an edited form", () => {
  test("stays, by reference, where it stands before the edit or in another section", () => {
    fc.assert(
      fc.property(where, fc.oneof(insertion, removal, split), (place, edit) => {
        if (edit.of === "join") return;
        const untouched = [place.from, place.to].every(
          (p) => p === undefined || p.section !== "b" || (p.bar !== undefined && p.bar < edit.at),
        );
        if (untouched) expect(movedWhere(edit, place)).toBe(place);
      }),
      laws(),
    );
  });

  test("goes back where it was when the bars that were put in are taken out again", () => {
    fc.assert(
      fc.property(where, insertion, (place, edit) => {
        if (edit.of !== "insert") return;
        expect(movedWhere({ ...edit, of: "remove" }, movedWhere(edit, place))).toEqual(place);
      }),
      laws(),
    );
  });

  test("goes back where it was when a section is cut and joined again, but for what stood for the whole section", () => {
    fc.assert(
      fc.property(where, split, (place, edit) => {
        if (edit.of !== "split") return;
        const back = movedWhere(
          { of: "join", section: "b", bars: edit.at - 1, next: "b2" },
          movedWhere(edit, place),
        );
        const whole = [place.from, place.to].some((p) => p?.section === "b" && p.bar === undefined);
        if (!whole) expect(back).toEqual(place);
        expect(back.from?.section).toBe(place.from?.section);
        expect((back.to ?? back.from)?.section).toBe((place.to ?? place.from)?.section);
      }),
      laws(),
    );
  });

  test("never ends before it begins, and keeps its pass and its clock", () => {
    fc.assert(
      fc.property(where, fc.oneof(insertion, removal), fc.nat(500), (place, edit, clock) => {
        const moved = movedWhere(edit, { ...place, clock });
        expect(moved.pass).toBe(place.pass);
        expect(moved.clock).toBe(clock);
        if (moved.from !== undefined && moved.to !== undefined && moved.from.bar !== undefined)
          expect(at(moved.from, false)).toBeLessThanOrEqual(at(moved.to, true));
      }),
      laws(),
    );
  });

  test("is marked as lost exactly when its bar is taken out, and stands for its section then", () => {
    fc.assert(
      fc.property(where, removal, (place, edit) => {
        if (edit.of !== "remove") return;
        const gone = [place.from, place.to].some(
          (p) =>
            p?.section === "b" && p.bar !== undefined && p.bar >= edit.at && p.bar < edit.at + edit.count,
        );
        expect(losesPlace(edit, place)).toBe(gone);
        expect(movedWhere(edit, place).lost === true).toBe(gone);
        expect(movedWhere(edit, place).from?.section).toBe(place.from?.section);
      }),
      laws(),
    );
  });
});

describe("who plays when in an edited section", () => {
  const changes: fc.Arbitrary<TextureChanges> = fc
    .uniqueArray(
      fc.record({
        bar: fc.integer({ min: 1, max: BARS }),
        pass: fc.constantFrom(null, 1, 2),
        presence: fc.constantFrom("rest" as const, "light" as const, "play" as const, "full" as const),
      }),
      { selector: ({ bar, pass }) => `${pass} ${bar}`, maxLength: 6 },
    )
    .map((list) => [...list].sort((a, b) => (a.pass ?? 0) - (b.pass ?? 0) || a.bar - b.bar));

  test("every bar that is left sounds as it did, whatever was put in or taken out", () => {
    fc.assert(
      fc.property(
        changes,
        fc.oneof(insertion, removal),
        fc.integer({ min: 1, max: BARS }),
        (said, edit, bar) => {
          if (edit.of !== "insert" && edit.of !== "remove") return;
          const moved = movedChanges(edit, "b", said);
          const behind = edit.of === "insert" ? bar >= edit.at : bar >= edit.at + edit.count;
          const gone = edit.of === "remove" && bar >= edit.at && !behind;
          if (gone) return;
          const to = !behind ? bar : edit.of === "insert" ? bar + edit.count : bar - edit.count;
          for (const pass of [1, 2, 3]) expect(presenceAt(moved, to, pass)).toBe(presenceAt(said, bar, pass));
          expect(movedChanges(edit, "a", said)).toBe(said);
        },
      ),
      laws(),
    );
  });
});
