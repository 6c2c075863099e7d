/**
 * A section's own metre, tempo and key. Files are written by midi-file 1.2.4 and read a second time by @tonejs/midi 2.0.28;
 * MusicXML is put together by hand after the W3C's MusicXML 4.0 reference (elements time, key, sound).
 */
import { Midi } from "@tonejs/midi";
import { strToU8 } from "fflate";
import { describe, expect, test } from "vitest";
import { findInScore } from "#shared/exchange/score/found-song.ts";
import { formWords, unkeptWords } from "#shared/exchange/score/found-words.ts";
import { importArgs } from "#shared/exchange/score/import-choices.ts";
import { readScore } from "#shared/exchange/score/read-score.ts";
import { type SongFacts, songFacts } from "#shared/exchange/score/song-facts.ts";
import { checkLength } from "#shared/selectors/song-entries.ts";
import { emptyBoard } from "#tests/support/command-bench.ts";
import { drain, midiOf, type TestSong } from "#tests/support/score/write-midi.ts";
import { note, part, scoreOf } from "#tests/support/score/write-musicxml.ts";

const found = (file: Uint8Array): SongFacts => {
  const result = drain(readScore(file));
  if (!result.ok) throw new Error(result.error);
  return songFacts(result.value);
};
const own = ({ form }: SongFacts) =>
  form.map(({ name, bars, metre, tempo, key }) => [name, bars, metre, tempo, key]);

/** Quarter notes: Verse 0 to 32, Bridge to 56 in 6/8, Chorus to 88 in another key, Outro to 104. */
const SONG: TestSong = {
  tempos: [
    { at: 0, quarters: 120 },
    { at: 32, quarters: 150 },
    { at: 56, quarters: 120 },
    { at: 88, quarters: 60 },
  ],
  metres: [
    { at: 0, beats: 4, unit: 4 },
    { at: 32, beats: 6, unit: 8 },
    { at: 56, beats: 4, unit: 4 },
  ],
  keys: [
    { at: 0, signature: 2 },
    { at: 56, signature: 4 },
  ],
  marks: [
    { at: 0, name: "Verse" },
    { at: 32, name: "Bridge" },
    { at: 56, name: "Chorus" },
    { at: 88, name: "Outro" },
  ],
  tracks: [
    {
      channel: 0,
      notes: Array.from({ length: 104 }, (_, at) => ({ at, length: 1, pitch: at < 56 ? 62 : 64 })),
    },
  ],
};

describe("MIDI (RP-001: a tempo is microseconds to a quarter note, a metre and a key hold until the next)", () => {
  const file = midiOf(SONG);
  const song = found(file);

  test("each section has its own where it differs from the song's, and a key where it changes", () => {
    expect([song.metre, song.tempo, song.key]).toEqual(["4/4", 120, "D"]);
    // 150 crotchets are 100 dotted ones (plain arithmetic); 24 quarter notes are 8 bars of 6/8.
    expect(own(song)).toEqual([
      ["Verse", 8, "4/4", null, ""],
      ["Bridge", 8, "6/8", 100, ""],
      ["Chorus", 8, "4/4", null, "E"],
      ["Outro", 4, "4/4", 60, ""],
    ]);
    expect(formWords(song, true)).toBe(
      "Verse 8 · Bridge 8 (6/8, 100 beats a minute) · Chorus 8 (to E) · Outro 4 (60 beats a minute): from the marks in the file",
    );
    expect(formWords(song, false)).toBe(
      "Verse 8 · Bridge 8 · Chorus 8 · Outro 4: from the marks in the file",
    );
    expect(unkeptWords(song)).toEqual([]);
  });

  test("@tonejs/midi reads the same metre, tempo and key where each section begins", () => {
    const { header } = new Midi(file);
    const at = <T extends { readonly ticks: number }>(list: readonly T[], quarters: number): T | undefined =>
      list.findLast(({ ticks }) => ticks <= quarters * header.ppq);
    let key = song.key;
    for (const [i, { metre, tempo, key: to }] of song.form.entries()) {
      const begins = SONG.marks?.[i]?.at ?? Number.NaN;
      const [beats, unit] = at(header.timeSignatures, begins)?.timeSignature ?? [];
      expect(`${beats}/${unit}`).toBe(metre);
      // In 6/8 a counted beat is a dotted crotchet: one and a half quarter notes.
      const quarters = (tempo ?? song.tempo ?? 0) * (metre === "6/8" ? 1.5 : 1);
      expect(at(header.tempos, begins)?.bpm).toBeCloseTo(quarters, 3);
      key = to || key;
      expect(at(header.keySignatures, begins)?.key).toBe(key);
    }
    expect(header.meta.filter(({ type }) => type === "marker").map(({ text }) => text)).toEqual(
      song.form.map(({ name }) => name),
    );
  });

  // Plain arithmetic: 32/120 + 24/150 + 32/120 + 16/60 of a minute are 57.6 s.
  test("brought in, the sections last as long as the file", () => {
    const read = drain(readScore(file));
    if (!read.ok) throw new Error(read.error);
    const taken = { song: true, form: true, textures: false, melody: false, details: new Set<string>() };
    const choices = { title: "Paper Lantern", stage: "learning", chairs: [null], ...taken } as const;
    const trial = emptyBoard();
    trial.done("importSong", importArgs(findInScore(read.value), choices, []), {}, "lantern");
    const brought = trial.board().songs.get("lantern");
    if (brought === undefined) throw new Error("The song is gone");
    expect(checkLength(brought)?.seconds).toBeCloseTo(57.6, 0);
    expect(brought.song.length).toBe(58);
  });

  test("a first section in another key than most of the song says so, and the way back too", () => {
    const keys = [
      { at: 0, signature: 0 },
      { at: 32, signature: 2 },
      { at: 88, signature: 0 },
    ];
    const song = found(midiOf({ ...SONG, keys }));
    expect(formWords(song, true)).toMatch(/^Verse 8 \(in C\) · Bridge 8 \(6\/8, 100 beats a minute, to D\)/);
    expect(own(song).map(([name, , , , key]) => [name, key])).toEqual([
      ["Verse", "C"],
      ["Bridge", "D"],
      ["Chorus", ""],
      ["Outro", "C"],
    ]);
  });

  test("of what changes in the middle of a section the longer holds, and the rest is told", () => {
    const song = found(
      midiOf({
        ...SONG,
        tempos: [
          { at: 0, quarters: 120 },
          { at: 24, quarters: 90 },
          { at: 32, quarters: 120 },
        ],
        metres: [
          { at: 0, beats: 4, unit: 4 },
          { at: 28, beats: 2, unit: 4 },
          { at: 32, beats: 4, unit: 4 },
        ],
        keys: [
          { at: 0, signature: 2 },
          { at: 68, signature: 4 },
        ],
      }),
    );
    expect(own(song)).toEqual([
      ["Verse", 9, "4/4", null, ""],
      ["Bridge", 6, "4/4", null, ""],
      ["Chorus", 8, "4/4", null, "E"],
      ["Outro", 4, "4/4", null, ""],
    ]);
    expect(unkeptWords(song)).toEqual([
      "Verse: some of it is in 2/4, its tempo moves from 90 to 120.",
      "Chorus: its key changes half-way.",
    ]);
  });

  test("a tempo that wanders by less than 3 % is the song's; one that is held is not, however near", () => {
    const wandering = Array.from({ length: 104 }, (_, at) => ({ at, quarters: 118 + ((at * 3) % 5) }));
    expect(found(midiOf({ ...SONG, metres: [], tempos: wandering })).form.map(({ tempo }) => tempo)).toEqual([
      null,
      null,
      null,
      null,
    ]);
    const clicked = [
      { at: 0, quarters: 120 },
      { at: 56, quarters: 122 },
    ];
    expect(
      found(midiOf({ ...SONG, metres: [], tempos: clicked.concat({ at: 88, quarters: 120 }) })).form.map(
        ({ tempo }) => tempo,
      ),
    ).toEqual([null, null, 122, null]);
  });

  test("a change a sixty-fourth late at a section's beginning is no change within it", () => {
    const late = (SONG.tempos ?? []).map(({ at, quarters }) => ({
      at: at === 0 ? 0 : at + 1 / 32,
      quarters,
    }));
    const song = found(midiOf({ ...SONG, tempos: late }));
    expect(song.form.map(({ tempo }) => tempo)).toEqual([null, 100, null, 60]);
    expect(unkeptWords(song)).toEqual([]);
  });
});

describe("MusicXML 4.0 (elements time, key, sound)", () => {
  const mark = (name: string) =>
    `<direction><direction-type><rehearsal>${name}</rehearsal></direction-type></direction>`;
  const time = (beats: number, unit: number) =>
    `<time><beats>${beats}</beats><beat-type>${unit}</beat-type></time>`;
  const head = (inner: string, tempo: number, name: string) =>
    `<attributes>${inner}</attributes><direction><sound tempo="${tempo}"/></direction>${mark(name)}`;

  test("each section has its own where it differs", () => {
    const verse = head(`<key><fifths>-1</fifths></key>${time(4, 4)}`, 96, "Verse");
    const bridge = head(`<key><fifths>-3</fifths></key>${time(3, 4)}`, 144, "Bridge");
    const bars = [
      `${verse}${note("C4", 4)}`,
      ...Array.from({ length: 5 }, () => note("C4", 4)),
      `${bridge}${note("C4", 3)}`,
      note("C4", 3),
    ];
    const song = found(strToU8(scoreOf([part("Keys", bars)])));
    expect([song.metre, song.tempo, song.key]).toEqual(["4/4", 96, "F"]);
    expect(own(song)).toEqual([
      ["Verse", 6, "4/4", null, ""],
      ["Bridge", 2, "3/4", 144, "Eb"],
    ]);
  });

  /* Whoever plays da capo plays in the key and at the tempo of the beginning; common practice, no published source. */
  test("what is played again has the key, metre and tempo that are written there", () => {
    const a = head(`<key><fifths>0</fifths></key>${time(4, 4)}`, 100, "A");
    const b = head(`<key><fifths>1</fifths></key>${time(3, 4)}`, 120, "B");
    const bars = [
      `${a}${note("C4", 4)}`,
      note("C4", 4),
      `${note("C4", 4)}<sound fine="yes"/>`,
      `${b}${note("C4", 3)}`,
      `${note("C4", 3)}<sound dacapo="yes"/>`,
    ];
    expect(own(found(strToU8(scoreOf([part("Keys", bars)]))))).toEqual([
      ["A", 3, "4/4", null, ""],
      ["B", 2, "3/4", 120, "G"],
      ["A (2)", 3, "4/4", null, "C"],
    ]);
  });
});
