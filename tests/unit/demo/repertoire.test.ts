import { expect, test } from "vitest";
import { parseWhere } from "#shared/board/parse-where.ts";
import type { Section } from "#shared/board/song.ts";
import { SONG_CODES } from "#shared/demo/demo-data.ts";
import { DEMO_DETAILS } from "#shared/demo/details/all-details.ts";
import { LEAD_VOICE } from "#shared/demo/people.ts";
import { DEMO_RULINGS } from "#shared/demo/rulings.ts";
import { DEMO_SONGS } from "#shared/demo/songs/all-songs.ts";
import { GIVEN_SONGS } from "#shared/demo/songs/given.ts";
import { PLAIN_SECTION } from "#tests/support/plain-section.ts";

const songOf = (code: string) => {
  const song = DEMO_SONGS.find((s) => s.code === code);
  if (song === undefined) throw new Error(`no song ${code}`);
  return song;
};

const sectionsOf = (code: string): readonly Section[] =>
  Object.entries(songOf(code).form).map(([name, bars], i) => ({
    id: name,
    song: code,
    name,
    bars,
    ...PLAIN_SECTION,
    order: String(i).padStart(3, "0"),
    since: 0,
  }));

// Scientific pitch notation against note numbers: A4 = 440 Hz is note 69 (MIDI Tuning Standard), so C4 is 60.
const SEMITONE: Record<string, number> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
const pitchClass = (name: string): number => {
  const [, letter = "", accidental = ""] = /^([A-G])([#b]?)/.exec(name) ?? [];
  const shift = accidental === "#" ? 1 : accidental === "b" ? -1 : 0;
  return ((SEMITONE[letter] ?? Number.NaN) + shift + 12) % 12;
};
const midi = (note: string): number => {
  const octave = Number(note.slice(-1));
  const letter = SEMITONE[note[0] ?? ""] ?? Number.NaN;
  return 12 * (octave + 1) + letter + (note.includes("#") ? 1 : note.includes("b") ? -1 : 0);
};

test("the note arithmetic of this file agrees with the note numbers of the MIDI Tuning Standard", () => {
  expect(["C4", "A4", "G3", "C#5", "Bb3"].map(midi)).toEqual([60, 69, 55, 73, 58]);
});

test("the repertoire has 26 to 30 songs, each with its own code and title", () => {
  expect(DEMO_SONGS.map((s) => s.code)).toEqual([...SONG_CODES]);
  expect(DEMO_SONGS.length).toBeGreaterThanOrEqual(26);
  expect(DEMO_SONGS.length).toBeLessThanOrEqual(30);
  expect(new Set(DEMO_SONGS.map((s) => s.title.toLowerCase())).size).toBe(DEMO_SONGS.length);
});

test.each(DEMO_SONGS.filter((s) => Object.keys(s.form).length > 0))(
  "$title: bars × beats ÷ tempo agree with its length within two seconds",
  ({ form, beats, tempo, length }) => {
    const bars = Object.values(form).reduce((sum, n) => sum + n, 0);
    expect(Math.abs((bars * beats * 60) / tempo - length)).toBeLessThanOrEqual(2);
  },
);

test("the counted beat fits the metre: compound metres count dotted beats", () => {
  for (const { metre, beats, code } of DEMO_SONGS) {
    const [count = 0, unit = 0] = metre.split("/").map(Number);
    expect(beats, code).toBe(unit === 8 ? count / 3 : count);
  }
});

test("keys, tempos, metres, tunings and capos vary", () => {
  const kinds = (of: (s: (typeof DEMO_SONGS)[number]) => unknown) => new Set(DEMO_SONGS.map(of)).size;
  expect(kinds((s) => s.metre)).toBeGreaterThanOrEqual(4);
  expect(kinds((s) => s.tuning ?? "")).toBeGreaterThanOrEqual(4);
  expect(kinds((s) => s.key)).toBeGreaterThanOrEqual(10);
  expect(kinds((s) => s.capo ?? 0)).toBeGreaterThanOrEqual(4);
  expect(kinds((s) => s.tempo)).toBeGreaterThanOrEqual(20);
});

test("the shift leads from the record's key to ours", () => {
  for (const { recordKey, key, shift, code } of DEMO_SONGS) {
    if (key === "" || shift === undefined) continue;
    expect(pitchClass(key), code).toBe((pitchClass(recordKey) + shift + 12) % 12);
    expect(key.endsWith("m"), code).toBe(recordKey.endsWith("m"));
  }
});

test("the six given songs lie in the notes the singer was given for them", () => {
  const melodies = Object.fromEntries(
    GIVEN_SONGS.map(({ code, melody = ["", ""], shift = 0 }) => [code, melody.map((n) => midi(n) + shift)]),
  );
  const given = {
    MD: ["A3", "B4"],
    TC: ["A3", "A4"],
    LT: ["G3", "A4"],
    UT: ["G3", "A4"],
    WA: ["G3", "B4"],
    LO: ["G3", "B4"],
  };
  expect(melodies).toEqual(Object.fromEntries(Object.entries(given).map(([k, v]) => [k, v.map(midi)])));
});

test("every melody in a settled key stays in the singer's comfortable range", () => {
  const [low, high] = LEAD_VOICE.comfortable.map(midi);
  const sung = DEMO_SONGS.filter((s) => s.melody !== undefined && s.key !== "");
  expect(sung.length).toBeGreaterThanOrEqual(20);
  for (const { melody = ["", ""], shift = 0, code } of sung) {
    expect(midi(melody[0]) + shift, code).toBeGreaterThanOrEqual(low ?? Number.NaN);
    expect(midi(melody[1]) + shift, code).toBeLessThanOrEqual(high ?? Number.NaN);
  }
});

test("every card's place is found in its song's form", () => {
  for (const { song, cards } of DEMO_DETAILS) {
    for (const { code, where } of cards) {
      const place = parseWhere(where, sectionsOf(song));
      expect(place.ok ? "" : place.error, code).toBe("");
      if (where !== "whole") expect(place.ok && place.value.from !== undefined, code).toBe(true);
    }
  }
});

test("cards are numbered in their song and belong to it", () => {
  expect(DEMO_DETAILS.map((d) => d.song).sort()).toEqual([...SONG_CODES].sort());
  for (const { song, cards } of DEMO_DETAILS) {
    expect(cards.map((c) => c.code)).toEqual(cards.map((_, i) => `${song}${i + 1}`));
  }
});

test("most songs in the book carry four to nine cards, candidates fewer", () => {
  const count = (code: string) => DEMO_DETAILS.find((d) => d.song === code)?.cards.length ?? 0;
  for (const { code, stage } of DEMO_SONGS) {
    if (stage === "in the book") expect(count(code), code).toBeGreaterThanOrEqual(4);
    if (stage === "in the book") expect(count(code), code).toBeLessThanOrEqual(9);
    if (stage === "candidate") expect(count(code), code).toBeLessThan(4);
  }
});

test("cards are of many kinds: shared, tacet, spotted, covers, from all three sources", () => {
  const cards = DEMO_DETAILS.flatMap((d) => d.cards);
  const chairs = (levels: object) => Object.keys(levels).length;
  expect(new Set(cards.map((c) => c.kind)).size).toBeGreaterThanOrEqual(20);
  expect(new Set(cards.map((c) => c.source)).size).toBe(3);
  expect(cards.filter((c) => chairs(c.levels) > 1).length).toBeGreaterThanOrEqual(40);
  expect(cards.filter((c) => chairs(c.levels) === 0).length).toBeGreaterThanOrEqual(5);
  expect(cards.filter((c) => c.without !== undefined).length).toBeGreaterThanOrEqual(5);
  expect(cards.filter((c) => /\b(tacet|no|never|nobody)\b/i.test(c.text)).length).toBeGreaterThanOrEqual(12);
  expect(cards.filter((c) => c.right === "").every((c) => chairs(c.levels) === 0)).toBe(true);
});

test("what a ruling settles is what the song says, and comes after what it settles was written", () => {
  for (const ruling of DEMO_RULINGS) {
    const song = songOf(ruling.song);
    const said = {
      key: song.key,
      version: song.version,
      "count-in": song.countIn,
      ending: song.ending,
      tuning: song.tuning ?? "",
    };
    if (ruling.about in said) expect(ruling.text).toBe(said[ruling.about as keyof typeof said]);
    expect(ruling.day).toBeGreaterThan(song.added);
    const details = DEMO_DETAILS.find((d) => d.song === ruling.song);
    if (ruling.card === undefined) continue;
    expect(details?.cards.map((c) => c.code)).toContain(ruling.card);
    expect(ruling.day).toBeGreaterThanOrEqual(details?.written ?? 0);
  }
});
