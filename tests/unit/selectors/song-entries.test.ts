import { describe, expect, test } from "vitest";
import type { Song } from "#shared/board/song.ts";
import { DEMO_SONGS } from "#shared/demo/songs/all-songs.ts";
import {
  checkLength,
  SONG_ENTRY,
  SONG_ENTRY_NAMES,
  type SongEntryName,
  shiftWords,
} from "#shared/selectors/song-entries.ts";
import { smallBand } from "#tests/support/command-bench.ts";
import { PLAIN_SECTION } from "#tests/support/plain-section.ts";
import { aSong } from "#tests/support/ready-song.ts";

const song = (change: Partial<Song> = {}): Song => ({ ...aSong().song, ...change });

describe("what is written about a song", () => {
  test.each([
    ["key", "b flat minor", { key: "Bbm" }],
    ["key", "", { key: "" }],
    ["liftKey", "e", { liftKey: "E" }],
    ["tempo", "112,5 bpm", { tempo: 112.5 }],
    ["tempo", " ", { tempo: null }],
    ["metre", "6 / 8", { metre: "6/8" }],
    ["length", "3:45", { length: 225 }],
    ["length", "", { length: null }],
    ["capo", "5", { capo: 5 }],
    ["capo", "", { capo: 0 }],
    ["firstChord", " F#m7/E ", { firstChord: "F#m7/E" }],
    ["firstChord", "", { firstChord: "" }],
    ["firstChord", "em7", { firstChord: "Em7" }],
    ["countIn", " drums, one bar ", { countIn: "drums, one bar" }],
  ] as const)("%s typed as %j is %j", (name, typed, fields) => {
    expect(SONG_ENTRY[name].read(typed)).toEqual({ ok: true, value: fields });
  });

  test.each([
    ["tempo", "0", "cannot be counted"],
    ["tempo", "-4", "cannot be counted"],
    ["tempo", "fast", "is not a tempo"],
    ["key", "H", "in English names that note is B"],
    ["metre", "", "is not a metre"],
    ["length", "3.45", "Did you mean 3:45?"],
    ["capo", "13", "fret from 1 to 12"],
    ["capo", "-1", "fret from 1 to 12"],
    ["firstChord", "Em then A", "is not one chord"],
    ["firstChord", "Bass alone", "is not one chord"],
    ["version", "x".repeat(201), "at most 200 characters"],
    ["notes", "x".repeat(4001), "at most 4000 characters"],
  ] as const)("%s typed as %j is refused in words", (name, typed, words) => {
    const read = SONG_ENTRY[name].read(typed);
    expect(read.ok ? "" : read.error).toContain(words);
  });

  test.each(SONG_ENTRY_NAMES)("%s: what stands in the field reads back unchanged", (name: SongEntryName) => {
    const full = song({
      version: "album version",
      recordKey: "F#m",
      key: "Em",
      firstChord: { chord: "Em7", key: "Em" },
      liftKey: "Bb",
      tempo: 92.5,
      metre: "3+2+2/8",
      length: 3599,
      tuning: "D-standard",
      capo: 12,
      notes: "two\nlines",
    });
    for (const each of [song(), full]) {
      expect(SONG_ENTRY[name].read(SONG_ENTRY[name].show(each))).toEqual({
        ok: true,
        value: { [name]: name === "firstChord" ? (each.firstChord?.chord ?? "") : each[name] },
      });
    }
  });
});

describe("from the record's key to ours", () => {
  test.each([
    ["E", "D", "2 semitones down"],
    ["Bb", "C", "2 semitones up"],
    ["F#m", "Em", "2 semitones down"],
    ["A", "A", ""],
    ["", "D", ""],
  ])("%s to %s is %j", (recordKey, key, words) => {
    expect(shiftWords({ recordKey, key })).toBe(words);
  });

  // Interval names and sizes from common practice: a perfect fourth is five semitones.
  test("a fourth up is five semitones", () => {
    expect(shiftWords({ recordKey: "G", key: "C" })).toBe("5 semitones up");
  });
});

describe("bars and tempo against the written length", () => {
  const sections = [
    { id: "all", song: "song", name: "All", bars: 112, ...PLAIN_SECTION, order: "a", since: 0 },
  ];

  test("agree for 112 bars of 4/4 at 112 in four minutes", () => {
    expect(checkLength({ song: song({ tempo: 112, length: 240 }), sections })).toEqual({
      bars: 112,
      seconds: 240,
      agrees: true,
      sentence: "112 bars at 112 make 4:00.",
    });
  });

  test("say what is written where they do not agree", () => {
    const check = checkLength({ song: song({ tempo: 112, length: 200 }), sections });
    expect(check?.sentence).toBe("112 bars at 112 make 4:00; written is 3:20.");
    expect(check?.agrees).toBe(false);
  });

  test("are not compared without a form or a tempo", () => {
    expect(checkLength({ song: song(), sections: [] })).toBeNull();
    expect(checkLength({ song: song({ tempo: null }), sections })).toBeNull();
  });

  test("agree in every song of the demo band", () => {
    const disagree = DEMO_SONGS.flatMap((demo) => {
      const form = Object.entries(demo.form).map(([name, bars]) => ({
        id: name,
        song: "s",
        name,
        bars,
        ...PLAIN_SECTION,
        order: name,
        since: 0,
      }));
      const { tempo, length, metre } = demo;
      const check = checkLength({ song: song({ tempo, length, metre }), sections: form });
      return check === null || check.agrees ? [] : [`${demo.title}: ${check.sentence}`];
    });
    expect(disagree).toEqual([]);
  });
});

test("the first chord follows the key, by whichever way the key is changed, and takes one chord only", () => {
  const trial = smallBand();
  const shown = () => {
    const file = trial.board().songs.get("diesel");
    return file === undefined ? undefined : SONG_ENTRY.firstChord.show(file.song);
  };
  trial.done("reviseSong", { song: "diesel", fields: { firstChord: "Em7/B" } });
  expect(shown()).toBe("Em7/B");
  trial.done("reviseSong", { song: "diesel", fields: { key: "Dm" }, learnAgain: true });
  expect(shown()).toBe("Dm7/A");
  // Said anew, it is in the key of now; said with a key, in that one.
  trial.done("reviseSong", { song: "diesel", fields: { firstChord: "Gm" } });
  expect(shown()).toBe("Gm");
  trial.done("reviseSong", { song: "diesel", fields: { firstChord: "Em", key: "Em" } });
  expect(shown()).toBe("Em");
  // Written while no key was settled, it is in the first key that is, whoever settles it.
  trial.done("reviseSong", { song: "umbrella", fields: { firstChord: "D5" } });
  const umbrella = () => trial.board().songs.get("umbrella")?.song;
  expect(umbrella()?.firstChord).toEqual({ chord: "D5", key: "" });
  trial.done("rule", { song: "umbrella", about: "key", source: "ours", text: "D" });
  expect(umbrella()?.firstChord).toEqual({ chord: "D5", key: "D" });
  trial.done("rule", { song: "umbrella", about: "key", source: "ours", text: "E" });
  const now = umbrella();
  expect(now === undefined ? undefined : SONG_ENTRY.firstChord.show(now)).toBe("E5");
  // The same notes under another name of the key: the chord stays.
  trial.done("reviseSong", { song: "diesel", fields: { key: "G" } });
  expect(shown()).toBe("Em");
  trial.done("reviseSong", { song: "diesel", fields: { key: "Em" } });
  const refused = trial.run("reviseSong", { song: "diesel", fields: { firstChord: "Em, then A" } });
  expect(refused.ok).toBe(false);
  expect(shown()).toBe("Em");
});
