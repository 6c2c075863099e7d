import fc from "fast-check";
import { expect, test } from "vitest";
import * as Y from "yjs";
import type { SongFile } from "#shared/board/board.ts";
import type { Place } from "#shared/board/card.ts";
import { type FormEdit, type SectionOut, touchedBy } from "#shared/board/move-places.ts";
import { formatWhere, GONE_SECTION } from "#shared/board/where.ts";
import { lostPlaces } from "#shared/selectors/lost-places.ts";
import { laws } from "#tests/support/fuzz.ts";
import { meet, openReplica, type Replica, startClock } from "#tests/support/replicas.ts";

const BARS_MAX = 999;

const fileOf = (replica: Replica): SongFile => {
  const [file] = replica.board().songs.values();
  if (file === undefined) throw new Error("The song is gone");
  return file;
};

/** A song with three sections, a detail in the first, a middle and the last bar of each, and one over a joint. */
const seeded = (): Uint8Array => {
  const replica = openReplica("seed", startClock());
  const run = (name: string, args: object): void => {
    const done = replica.run(name, args);
    if (!done.ok) throw new Error(done.error.sentence);
  };
  run("addChair", { name: "Drums", instrument: "drums" });
  run("addSong", { title: "Diesel Lullaby" });
  const song = fileOf(replica).song.id;
  const form = [
    { name: "Intro", bars: 4 },
    { name: "V1", bars: 8 },
    { name: "Ch1", bars: 6 },
  ];
  run("writeForm", { song, sections: form });
  const { sections } = fileOf(replica);
  const chairs = replica.board().chairs.map(({ id }) => id);
  const detail = (text: string, where: object): void =>
    run("addDetail", { song, text, chairs, weight: "must", kind: "groove", where });
  for (const { id, name, bars } of sections) {
    detail(`${name} as a whole`, { from: { section: id } });
    for (const bar of [1, 3, bars]) detail(`${name} bar ${bar}`, { from: { section: id, bar, beat: 2 } });
  }
  detail("over the joint", {
    from: { section: sections[0]?.id, bar: 4 },
    to: { section: sections[1]?.id, bar: 2 },
  });
  detail("within the verse", {
    from: { section: sections[1]?.id, bar: 3, beat: 2 },
    to: { section: sections[1]?.id, bar: 6 },
  });
  const changes = [
    { bar: 1, pass: null, presence: "light" },
    { bar: 3, pass: null, presence: "full" },
  ];
  const cells = sections.flatMap(({ id }) => chairs.map((chair) => ({ section: id, chair, changes })));
  run("paintTexture", { song, source: "ours", cells });
  return Y.encodeStateAsUpdate(replica.ydoc);
};
const SEED = seeded();

const opened = (writer: string, clock: { now: number }): Replica => {
  const replica = openReplica(writer, clock);
  Y.applyUpdate(replica.ydoc, SEED);
  return replica;
};

interface Edit {
  readonly name: string;
  readonly section: number;
  readonly at: number;
  readonly count: number;
}
const edit: fc.Arbitrary<Edit> = fc.record({
  name: fc.constantFrom(
    "insertBars",
    "removeBars",
    "splitSection",
    "joinSections",
    "moveSection",
    "removeSection",
    "reviseSection",
  ),
  section: fc.nat(5),
  at: fc.integer({ min: 1, max: 8 }),
  count: fc.integer({ min: 1, max: 5 }),
});
const edits = fc.array(edit, { minLength: 1, maxLength: 4 });

/** What an edit of this form is asked with; refused ones change nothing. */
const make = (replica: Replica, { name, section, at, count }: Edit) => {
  const { song, sections } = fileOf(replica);
  const target = { song: song.id, section: sections[section % Math.max(1, sections.length)]?.id ?? "none" };
  const args: Readonly<Record<string, object>> = {
    insertBars: { ...target, at, count },
    removeBars: { ...target, at, count },
    splitSection: { ...target, at, name: "Half" },
    joinSections: target,
    moveSection: { ...target, index: at % 4 },
    removeSection: target,
    reviseSection: { ...target, bars: at, repeats: count, metre: at > 4 ? "6/8" : "", key: "" },
  };
  return replica.run(name, args[name]);
};

/** A place as one number; without a bar or a beat it is what `open` says, from 0 to 999. */
const placeIn = ({ sections }: SongFile, place: Place | undefined, open: number): number =>
  sections.findIndex(({ id }) => id === place?.section) * 1e6 +
  (place?.bar ?? open) * 1e3 +
  (place?.beat ?? open);

const said = ({ sections, cards, textures }: SongFile) => ({ sections, cards, textures: [...textures] });

test("two members who edit one form apart end with one valid form, and every detail is placed or named as lost", () => {
  fc.assert(
    fc.property(edits, edits, (here, there) => {
      const clock = startClock();
      const [a, b] = [opened("a", clock), opened("b", clock)];
      const words = fileOf(a).cards.map(({ id, text }) => `${id} ${text}`);
      for (const one of here) make(a, one);
      for (const one of there) make(b, one);
      meet(a, b);
      const file = fileOf(a);
      expect(said(fileOf(b))).toEqual(said(file));
      expect(a.board().issues).toEqual([]);
      const ids = file.sections.map(({ id }) => id);
      expect(new Set(ids).size).toBe(ids.length);
      for (const { bars, repeats } of file.sections) {
        expect(Number.isInteger(bars) && bars >= 1 && bars <= BARS_MAX).toBe(true);
        expect(Number.isInteger(repeats) && repeats >= 1 && repeats <= 9).toBe(true);
      }
      expect(file.cards.map(({ id, text }) => `${id} ${text}`).sort()).toEqual(words.sort());
      const lost = new Set(lostPlaces(file).map(({ card }) => card.id));
      for (const { id, where } of file.cards) {
        if (lost.has(id)) continue;
        expect(formatWhere(where, file.sections)).not.toContain(GONE_SECTION);
        expect(placeIn(file, where.from, 0)).toBeLessThanOrEqual(
          placeIn(file, where.to ?? where.from, BARS_MAX),
        );
        for (const end of [where.from, where.to])
          if (end?.bar !== undefined)
            expect(end.bar).toBeLessThanOrEqual(
              file.sections.find((section) => section.id === end.section)?.bars ?? 0,
            );
      }
      // The merged form can be edited on.
      expect(
        file.sections.length === 0 || make(a, { name: "insertBars", section: 0, at: 1, count: 1 }).ok,
      ).toBe(true);
    }),
    laws(300),
  );
});

/** The edit as it is told beforehand; null = it is told of no detail. */
const toldOf = ({ sections }: SongFile, { name, section, at, count }: Edit): FormEdit | SectionOut | null => {
  const index = section % Math.max(1, sections.length);
  const [here, next] = [sections[index], sections[index + 1]];
  if (here === undefined) return null;
  if (name === "insertBars") return { of: "insert", section: here.id, at, count };
  if (name === "removeBars") return { of: "remove", section: here.id, at, count };
  if (name === "splitSection") return { of: "split", section: here.id, at, into: "half" };
  if (name === "removeSection") return { of: "out", section: here.id };
  return name === "joinSections" && next !== undefined
    ? { of: "join", section: here.id, bars: here.bars, next: next.id }
    : null;
};

test("what is told of an edit beforehand is what it does to the details", () => {
  fc.assert(
    fc.property(edit, (one) => {
      const replica = opened("a", startClock());
      const before = fileOf(replica);
      const told = toldOf(before, one);
      fc.pre(told !== null && make(replica, one).ok);
      if (told === null) return;
      const after = fileOf(replica);
      const lost = new Set(lostPlaces(after).map(({ card }) => card.id));
      const moved = before.cards.filter(
        ({ id, where }) =>
          !lost.has(id) &&
          JSON.stringify(after.cards.find((card) => card.id === id)?.where) !== JSON.stringify(where),
      );
      expect(touchedBy(before.cards, told)).toEqual({ moves: moved.length, loses: lost.size });
    }),
    laws(200),
  );
});

test("[CMD-1] edits of the form taken back one by one leave every section, place and entry as they were", () => {
  fc.assert(
    fc.property(edits, (list) => {
      const replica = opened("a", startClock());
      const before = said(fileOf(replica));
      const done = list.flatMap((one) => {
        const result = make(replica, one);
        return result.ok ? [result.value.written] : [];
      });
      for (const written of done.reverse()) expect(replica.run("takeBack", { written }).ok).toBe(true);
      const after = said(fileOf(replica));
      expect(after.sections).toEqual(before.sections);
      expect(after.cards.map(({ id, where }) => [id, where])).toEqual(
        before.cards.map(({ id, where }) => [id, where]),
      );
      // What was said of a half that is off the form again stays with it, hidden.
      const shown = new Set(after.sections.map(({ id }) => id));
      expect(after.textures.filter(([key]) => shown.has(key.split("/")[0] ?? ""))).toEqual(before.textures);
    }),
    laws(300),
  );
});
