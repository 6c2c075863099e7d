import fc from "fast-check";
import { expect, test } from "vitest";
import type { Section, Song } from "#shared/board/song.ts";
import { writeRepertoire } from "#shared/exchange/repertoire-csv.ts";
import { readSongList } from "#shared/exchange/song-list.ts";
import { formatKey, keyWithSignature } from "#shared/music/key.ts";
import { emptyBoard, smallBand } from "#tests/support/command-bench.ts";
import { laws } from "#tests/support/fuzz.ts";

const title = fc
  .oneof(
    fc.string({ unit: "grapheme", minLength: 1, maxLength: 30 }),
    fc
      .array(fc.constantFrom("=", "+", "-", "@", "'", '"', ",", ";", " ", "1. ", "• ", "Tram", "é"), {
        minLength: 1,
        maxLength: 5,
      })
      .map((c) => c.join("")),
  )
  .map((text) =>
    text
      .replace(/\p{Cc}/gu, "")
      .replace(/\s+/g, " ")
      .trim(),
  )
  .filter((text) => text !== "" && !text.includes("\ufffd"));

const song: fc.Arbitrary<Song> = fc.record({
  id: fc.uuid(),
  title,
  stage: fc.constantFrom("learning" as const, "in the book" as const),
  style: title,
  version: fc.constantFrom("", "studio"),
  recordKey: fc.constantFrom("", "F#m"),
  key: fc.integer({ min: -7, max: 7 }).map((n) => formatKey(keyWithSignature(n, "minor"))),
  liftKey: fc.constantFrom("", "Bb"),
  tempo: fc.option(fc.integer({ min: 20, max: 400 })),
  metre: fc.constantFrom("4/4", "6/8", "3+2+2/8"),
  length: fc.option(fc.integer({ min: 1, max: 3600 })),
  countIn: title,
  firstChord: fc.constantFrom(null, { chord: "D5", key: "" }, { chord: "F#m7/E", key: "" }),
  ending: title,
  tuning: fc.constant("standard"),
  capo: fc.integer({ min: 0, max: 12 }),
  melody: fc.constant(null),
  shapeMatters: fc.constant("" as const),
  openLow: fc.constant(false),
  tolerance: fc.constant(null),
  energy: fc.option(fc.integer({ min: 1, max: 5 })),
  floor: fc.constant("" as const),
  strong: fc.constant("" as const),
  hardToSing: fc.constant(false),
  rig: fc.constant(""),
  notes: fc
    .array(fc.constantFrom("\n", "\r\n", "=", "\t", '"', ",", "Tram", "é", " "), { maxLength: 8 })
    .map((c) => c.join("")),
  playedBefore: fc.boolean(),
  order: fc.constant("a0"),
  addedAt: fc.constant(0),
  since: fc.constant({ key: 0, tempo: 0, form: 0, ending: 0 }),
});

const sections = fc.array(
  fc.record({
    name: fc.oneof(title, fc.constantFrom("V 2", "Ch: ", "A, B; C", "=", "8 bars")),
    bars: fc.integer({ min: 1, max: 999 }),
    repeats: fc.integer({ min: 1, max: 2 }),
  }),
  { maxLength: 5 },
);

/** A section's name without what ends a name in a typed form. */
const plainName = (name: string): string =>
  name
    .replace(/[,;\s]+/g, " ")
    .trim()
    .replace(/[\s·:×=(]+$/, "") || "Section";
const lines = (text: string): string =>
  text
    .replace(/\r\n?/g, "\n")
    .replace(/(?![\n\t])[\p{Cc}\ufffd]/gu, "")
    .trim();

test("[FILE-1] an exported repertoire is read back whole, and put into a new band it says the same", () => {
  const line = fc.record({
    file: fc.record({
      song,
      sections: sections.map((all) => all as unknown as readonly Section[]),
    }),
    ready: fc.option(fc.integer({ min: 0, max: 100 })),
  });
  fc.assert(
    fc.property(fc.array(line, { minLength: 1, maxLength: 6 }), (all) => {
      const text = writeRepertoire(all, "2026-04-18");
      const { songs: read, problems } = readSongList(text);
      expect(read.map(({ line: _, duplicate: __, ...rest }) => rest)).toEqual(
        all.map(({ file: { song: s, sections: form } }) => ({
          title: s.title,
          key: s.key,
          tempo: s.tempo,
          length: s.length,
          further: {
            stage: s.stage,
            metre: s.metre,
            recordKey: s.recordKey === "" ? undefined : s.recordKey,
            liftKey: s.liftKey === "" ? undefined : s.liftKey,
            energy: s.energy ?? undefined,
            style: s.style,
            version: s.version === "" ? undefined : s.version,
            tuning: s.tuning,
            capo: s.capo === 0 ? undefined : s.capo,
            countIn: s.countIn,
            firstChord: s.firstChord?.chord,
            ending: s.ending,
            form:
              form.length === 0
                ? undefined
                : form.flatMap(({ name, bars, repeats }) =>
                    Array.from({ length: repeats }, () => ({ name: plainName(name), bars })),
                  ),
            notes: lines(s.notes) === "" ? undefined : lines(s.notes),
          },
        })),
      );
      expect(problems.filter(({ kind }) => kind !== "duplicate")).toEqual([]);
    }),
    laws(),
  );
});

test("[CMD-3] songs of a list come to the board with all the list says of them, form and stage included", () => {
  const before = smallBand().board();
  const exported = writeRepertoire(
    [...before.songs.values()].map((file) => ({ file, ready: 50 })),
    "2026-04-18",
  );
  const trial = emptyBoard();
  const { songs } = readSongList(exported);
  trial.done("addSongs", {
    stage: "candidate",
    songs: songs.map(({ title: t, key, tempo, length, further }) => ({
      title: t,
      key,
      tempo,
      length,
      ...further,
    })),
  });
  const again = writeRepertoire(
    [...trial.board().songs.values()].map((file) => ({ file, ready: 50 })),
    "2026-04-18",
  );
  expect(again).toBe(exported);
});

test("any text is read line by line: every song and every problem has a line of the text", () => {
  const scrap = fc.constantFrom(
    "Title",
    "Key",
    ",",
    ";",
    "\t",
    "\n",
    "\r\n",
    '"',
    "112",
    "Em",
    "4:00",
    "1. ",
    "• ",
    "\0",
    "\ufeff",
    "Tram",
  );
  const text = fc.oneof(
    fc.array(scrap, { maxLength: 40 }).map((parts) => parts.join("")),
    fc.string({ unit: "binary", maxLength: 200 }),
  );
  fc.assert(
    fc.property(text, (said) => {
      const { songs, problems } = readSongList(said);
      const lines = said.split(/\r\n|\r|\n/).length;
      expect(songs.length + problems.length).toBeGreaterThan(0);
      for (const { line } of [...songs, ...problems]) {
        expect(line).toBeGreaterThanOrEqual(1);
        expect(line).toBeLessThanOrEqual(lines);
      }
      for (const { title: t } of songs) expect(t.trim().length).toBeGreaterThan(0);
    }),
    laws(),
  );
});

test("adding a broken line never changes what is read from the lines before it", () => {
  const good = fc.array(
    title.filter((t) => !/["\d]/.test(t)),
    { minLength: 1, maxLength: 6 },
  );
  fc.assert(
    fc.property(
      good,
      fc.constantFrom('"open,D', '"a"b,D', ",D", "Tram,H,", `${"x".repeat(300)},D`),
      (names, broken) => {
        const table = (lines: readonly string[]) => ["Title,Key", ...lines].join("\n");
        const rows = names.map((name) => `"${name}",Em`);
        const before = readSongList(table(rows)).songs;
        expect(readSongList(table([...rows, broken])).songs.slice(0, before.length)).toEqual(before);
      },
    ),
    laws(),
  );
});
