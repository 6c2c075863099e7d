import fc from "fast-check";
import { expect, test } from "vitest";
import type { Song } from "#shared/board/song.ts";
import { writeRepertoire } from "#shared/exchange/repertoire-csv.ts";
import { readSongList } from "#shared/exchange/song-list.ts";
import { formatKey, keyWithSignature } from "#shared/music/key.ts";
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
  version: fc.constant(""),
  recordKey: fc.constant(""),
  key: fc.integer({ min: -7, max: 7 }).map((n) => formatKey(keyWithSignature(n, "minor"))),
  liftKey: fc.constant(""),
  tempo: fc.option(fc.integer({ min: 20, max: 400 })),
  metre: fc.constant("4/4"),
  length: fc.option(fc.integer({ min: 1, max: 3600 })),
  countIn: title,
  ending: title,
  tuning: fc.constant("standard"),
  capo: fc.integer({ min: 0, max: 12 }),
  melody: fc.constant(null),
  shapeMatters: fc.constant("" as const),
  openLow: fc.constant(false),
  tolerance: fc.constant(null),
  energy: fc.constant(null),
  floor: fc.constant("" as const),
  strong: fc.constant("" as const),
  hardToSing: fc.constant(false),
  rig: fc.constant(""),
  notes: fc.string(),
  playedBefore: fc.boolean(),
  order: fc.constant("a0"),
  addedAt: fc.constant(0),
  since: fc.constant({ key: 0, tempo: 0, form: 0, ending: 0 }),
});

test("an exported repertoire is read back with its titles, keys, tempos and lengths", () => {
  fc.assert(
    fc.property(fc.array(song, { minLength: 1, maxLength: 8 }), (songs) => {
      const { songs: read, problems } = readSongList(writeRepertoire(songs));
      expect(read.map(({ title: t, key, tempo, length }) => ({ t, key, tempo, length }))).toEqual(
        songs.map(({ title: t, key, tempo, length }) => ({ t, key, tempo, length })),
      );
      expect(problems.filter(({ kind }) => kind !== "ignored" && kind !== "duplicate")).toEqual([]);
    }),
    laws(),
  );
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
