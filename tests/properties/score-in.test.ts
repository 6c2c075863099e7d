import fc from "fast-check";
import { strToU8, zipSync } from "fflate";
import { parseMidi } from "midi-file";
import { describe, expect, test } from "vitest";
import { findInScore } from "#shared/exchange/score/found-song.ts";
import { importArgs, suggestDetails } from "#shared/exchange/score/import-choices.ts";
import { readScore } from "#shared/exchange/score/read-score.ts";
import { FILE_BYTES_MAX, SCORE_BARS_MAX } from "#shared/exchange/score/score-facts.ts";
import { songFacts } from "#shared/exchange/score/song-facts.ts";
import { emptyBoard } from "#tests/support/command-bench.ts";
import { inventedSong } from "#tests/support/score/invented-song.ts";
import { drain, midiOf, type TestSong } from "#tests/support/score/write-midi.ts";
import { note, part, scoreOf } from "#tests/support/score/write-musicxml.ts";

const RUNS = { numRuns: 1000 };
const read = (file: Uint8Array) => drain(readScore(file));
/** Why a file is refused. */
const refusal = (file: Uint8Array | string): string => {
  const result = read(typeof file === "string" ? strToU8(file) : file);
  return result.ok ? `read: ${result.value.bars.length} bars` : result.error;
};

const sixteenths = (max: number) => fc.integer({ min: 0, max }).map((n) => n / 4);
const anyNote = fc.record({
  at: sixteenths(200),
  length: fc.integer({ min: 1, max: 32 }).map((n) => n / 4),
  pitch: fc.integer({ min: 0, max: 127 }),
  velocity: fc.integer({ min: 1, max: 127 }),
});
const anySong: fc.Arbitrary<TestSong> = fc.record({
  format: fc.constantFrom(0 as const, 1 as const),
  division: fc.constantFrom(24, 96, 480, 960),
  tempos: fc.array(fc.record({ at: sixteenths(100), quarters: fc.integer({ min: 30, max: 300 }) }), {
    maxLength: 4,
  }),
  metres: fc
    .array(fc.record({ beats: fc.integer({ min: 1, max: 12 }), unit: fc.constantFrom(2, 4, 8) }), {
      maxLength: 2,
    })
    .map((list) => list.map((metre, i) => ({ ...metre, at: i * 48 }))),
  // A pitch of one channel twice at a time has no one reading, so every note has its own pitch here.
  tracks: fc
    .array(fc.uniqueArray(anyNote, { minLength: 1, maxLength: 12, selector: ({ pitch }) => pitch }), {
      minLength: 1,
      maxLength: 4,
    })
    .map((tracks) => tracks.map((notes, channel) => ({ channel, notes }))),
});

describe("what the midi-file package writes is read back", () => {
  test("every note where it was, with and without running status, in both formats", () => {
    fc.assert(
      fc.property(anySong, fc.boolean(), (song, running) => {
        const result = read(midiOf(song, running));
        if (!result.ok) throw new Error(result.error);
        const { bars, parts } = result.value;
        const found = parts.map(({ notes }) =>
          notes
            .map(({ bar, beat, length, pitch, force }) =>
              [
                ((bars[bar]?.start ?? 0) + beat).toFixed(3),
                length.toFixed(3),
                pitch,
                Math.round((force ?? 0) * 127),
              ].join(),
            )
            .sort(),
        );
        const meant = song.tracks.map(({ notes }) =>
          notes
            .map(({ at, length, pitch, velocity }) =>
              [at.toFixed(3), length.toFixed(3), pitch, velocity].join(),
            )
            .sort(),
        );
        expect(found.sort()).toEqual(meant.sort());
        for (const [i, bar] of bars.entries())
          expect(bar.start + bar.length).toBeCloseTo(bars[i + 1]?.start ?? bar.start + bar.length, 6);
      }),
      { numRuns: 500 },
    );
  });

  test("the midi-file package counts the same notes", () => {
    fc.assert(
      fc.property(anySong, (song) => {
        const file = midiOf(song);
        const theirs = parseMidi(file)
          .tracks.flat()
          .filter(({ type }) => type === "noteOn").length;
        const result = read(file);
        expect(result.ok && result.value.parts.reduce((sum, { notes }) => sum + notes.length, 0)).toBe(
          theirs,
        );
      }),
      { numRuns: 200 },
    );
  });
});

test("whatever is read can be brought in: grids that are grids, places that are in the form", () => {
  const CHAIRS = [
    { id: "bass", instrument: "bass" as const },
    { id: "voice", instrument: "lead voice" as const },
  ];
  fc.assert(
    fc.property(
      anySong,
      fc.array(fc.constantFrom("bass", "voice", null), { minLength: 4, maxLength: 4 }),
      (song, chosen) => {
        const result = read(midiOf(song));
        if (!result.ok) throw new Error(result.error);
        const found = findInScore(result.value);
        const assigned = chosen.slice(0, found.parts.length);
        const details = new Set(suggestDetails(found, assigned, CHAIRS).map(({ key }) => key));
        const trial = emptyBoard();
        for (const { id, instrument } of CHAIRS) trial.done("addChair", { name: id, instrument }, {}, id);
        const choices = {
          title: "Any",
          stage: "learning",
          chairs: assigned,
          song: true,
          form: true,
          textures: true,
          melody: true,
          details,
        } as const;
        trial.done("importSong", importArgs(found, choices, CHAIRS), {}, "any");
        const file = trial.board().songs.get("any");
        expect(file?.cards).toHaveLength(details.size);
        expect(file?.cards.every(({ grid }) => grid !== undefined)).toBe(true);
        expect(file?.sections.reduce((sum, { bars }) => sum + bars, 0)).toBe(result.value.bars.length);
      },
    ),
    { numRuns: 200 },
  );
});

describe("[IN-1] a broken file gets a sentence", () => {
  const midi = midiOf(inventedSong());
  const xml = strToU8(scoreOf([part("Keys", [note("C4", 4), note("D4", 4), note("E4", 4)])]));
  const mxl = zipSync({ "song.xml": xml });

  /** A sentence, or a song with finite numbers and bounded bars. */
  const isBearable = (file: Uint8Array) => {
    const result = read(file);
    if (!result.ok) {
      expect(result.error).toMatch(/^[A-Z].*\.$/s);
      expect(result.error.length).toBeLessThan(260);
      return;
    }
    const song = songFacts(result.value);
    expect(result.value.bars.length).toBeLessThanOrEqual(SCORE_BARS_MAX);
    expect(song.form.every(({ bars, name }) => bars >= 1 && name !== "")).toBe(true);
    expect(
      result.value.parts.every(({ notes }) =>
        notes.every(({ bar, beat }) => bar >= 0 && Number.isFinite(beat)),
      ),
    ).toBe(true);
  };

  test.each([
    ["MIDI", midi],
    ["MusicXML", xml],
    ["compressed MusicXML", mxl],
  ])("%s: cut off, with bytes flipped, with noise in it", (_, file) => {
    fc.assert(
      fc.property(
        fc.nat(file.length),
        fc.array(fc.tuple(fc.nat(file.length - 1), fc.nat(255)), { maxLength: 6 }),
        (length, flips) => {
          const damaged = file.slice(0, flips.length % 2 === 0 ? length : file.length);
          for (const [at, byte] of flips) if (at < damaged.length) damaged[at] = byte;
          isBearable(damaged);
        },
      ),
      RUNS,
    );
  });

  test("noise alone", () => {
    fc.assert(fc.property(fc.uint8Array({ maxLength: 400 }), isBearable), RUNS);
  });

  test.each([
    ["nothing", "", "The file is empty. Export it again where it was made."],
    [
      "another file",
      "%PDF-1.7",
      "This is neither MIDI nor MusicXML. Choose a file that ends in .mid, .musicxml, .xml or .mxl.",
    ],
    [
      "a web page",
      "<html></html>",
      "This is no score. Choose a MIDI file or MusicXML (.mid, .musicxml, .xml, .mxl).",
    ],
    [
      "no bars",
      "<score-partwise></score-partwise>",
      "There are no bars in this score. Choose one in which something is written.",
    ],
    [
      "a score by bars",
      "<score-timewise/>",
      "The score is written bar by bar for all parts. Save it as score-partwise MusicXML.",
    ],
    [
      "no division",
      scoreOf([part("Keys", [`<attributes><divisions>0</divisions></attributes>${note("C4", 4)}`])]),
      "The file is damaged: a quarter note has no length in bar 1 of Keys. Export it again where it was made.",
    ],
    [
      "a length below nothing",
      scoreOf([part("Keys", [note("C4", -4)])]),
      "The file is damaged: a length in bar 1 of Keys cannot be. Export it again where it was made.",
    ],
    [
      "entities in entities",
      `<!DOCTYPE a [<!ENTITY a "xxxxxxxxxx"><!ENTITY b "&a;&a;&a;&a;">]><score-partwise><work><work-title>&b;</work-title></work></score-partwise>`,
      "The file is damaged: it is no well-formed XML near line 1. Export it again where it was made.",
    ],
    [
      "elements without an end",
      `<score-partwise>${"<a>".repeat(100_000)}`,
      "The file is damaged: its elements lie too deep in each other. Export it again where it was made.",
    ],
    [
      "repeats of repeats",
      scoreOf([
        part(
          "Keys",
          Array.from(
            { length: 40 },
            () => `${note("C4", 4)}<barline><repeat direction="backward" times="99"/></barline>`,
          ),
        ),
      ]),
      "The file has more than 999 bars once its repeats are played. Export only this song, or fewer of its parts.",
    ],
    [
      "a zip file of something else",
      zipSync({ "a.txt": strToU8("hello") }),
      "There is no score in this compressed file. Choose a .mxl file, or save the song as uncompressed MusicXML.",
    ],
    [
      "too large a file",
      new Uint8Array(FILE_BYTES_MAX + 1),
      "The file is larger than 8 MB. A song comes to far less: export only this song, without pictures.",
    ],
    [
      "a song without an end",
      midiOf({ tracks: [{ channel: 0, notes: [{ at: 0, length: 100_000, pitch: 60 }] }] }),
      "The file has more than 999 bars. Export only this song, or fewer of its parts.",
    ],
    [
      "no notes",
      midiOf({ tracks: [{ channel: 0, notes: [] }] }),
      "The file has no notes in it. Choose one in which something is played.",
    ],
  ])("%s", (_, file, sentence) => {
    expect(refusal(file)).toBe(sentence);
  });

  test("what unpacks to far more than it says is given up at the limit", () => {
    const bomb = zipSync({ "song.xml": new Uint8Array(33 * 1024 * 1024).fill(0x20) }, { level: 1 });
    expect(bomb.length).toBeLessThan(1024 * 1024);
    expect(refusal(bomb)).toBe(
      "Unpacked, the file is larger than 32 MB. Export only this song, or save it uncompressed.",
    );
  });

  test("a header that counts in film frames, and one of patterns side by side", () => {
    const frames = midi.slice();
    frames[12] = 0xe7;
    expect(refusal(frames)).toMatch(/^The file counts in frames of film/);
    const patterns = midi.slice();
    patterns[9] = 2;
    expect(refusal(patterns)).toMatch(/^The file holds patterns that stand side by side/);
  });
});
