/**
 * A song's grids as a Standard MIDI File. Sources: MMA/AMEI RP-001, Standard MIDI Files 1.0 (quantities, meta events);
 * MMA RP-003, General MIDI Level 1 (percussion keys); midi-file 1.2.4 and @tonejs/midi 2.0.28 as outside readers.
 */
import { Midi } from "@tonejs/midi";
import fc from "fast-check";
import { type MidiEvent, parseMidi } from "midi-file";
import { describe, expect, test } from "vitest";
import { writeMidi } from "#shared/exchange/grids-midi.ts";
import { quantity } from "#shared/exchange/midi-bytes.ts";
import { beatsPerBar, isCompound } from "#shared/music/metre.ts";
import { laws } from "#tests/support/fuzz.ts";
import { gridScores, scoreOf } from "#tests/support/grid-scores.ts";

const hex = (bytes: readonly number[]): string =>
  bytes.map((byte) => byte.toString(16).padStart(2, "0").toUpperCase()).join(" ");

// RP-001, "Conventions": the table of variable-length quantities (from memory; each row in several public readers).
test.each([
  [0x00000000, "00"],
  [0x00000040, "40"],
  [0x0000007f, "7F"],
  [0x00000080, "81 00"],
  [0x00002000, "C0 00"],
  [0x00003fff, "FF 7F"],
  [0x00004000, "81 80 00"],
  [0x00100000, "C0 80 00"],
  [0x001fffff, "FF FF 7F"],
  [0x00200000, "81 80 80 00"],
  [0x08000000, "C0 80 80 00"],
  [0x0fffffff, "FF FF FF 7F"],
])("%i is a quantity of RP-001's table", (value, bytes) => {
  expect(hex(quantity(value))).toBe(bytes);
});

/** Events of a track with the tick of each. */
const timed = (track: readonly MidiEvent[]): readonly (MidiEvent & { readonly tick: number })[] => {
  let tick = 0;
  return track.map((event) => {
    tick += event.deltaTime;
    return { ...event, tick };
  });
};
const read = (bytes: Uint8Array) => {
  const { header, tracks } = parseMidi(bytes);
  return { header, tracks: tracks.map(timed) };
};
const utf8 = (text: string): string =>
  new TextDecoder().decode(Uint8Array.from(text, (c) => c.charCodeAt(0)));

describe("read by midi-file", () => {
  const score = scoreOf([
    ["Dr", "kick", "X.....x.....x..."],
    ["Dr", "snare", "....x..o....x..."],
    ["Bs", undefined, "x-----x-------.."],
  ]);
  const { header, tracks } = read(writeMidi(score));
  const [conductor = [], ...parts] = tracks;
  const notesOn = (track: (typeof tracks)[number] | undefined) =>
    (track ?? []).flatMap((event) =>
      event.type === "noteOn" ? [[event.tick, event.channel, event.noteNumber, event.velocity]] : [],
    );

  test("format 1, one conductor and one track a part, all of one length", () => {
    expect(header).toMatchObject({ format: 1, numTracks: 3, ticksPerBeat: 960 });
    expect(tracks.map((track) => track.at(-1))).toMatchObject(
      tracks.map(() => ({ type: "endOfTrack", tick: 4 * 960 })),
    );
  });

  test("metre, tempo, key and place stand on the first tick", () => {
    expect(conductor.map(({ type }) => type)).toEqual([
      "trackName",
      "timeSignature",
      "setTempo",
      "keySignature",
      "marker",
      "text",
      "endOfTrack",
    ]);
    // 24 MIDI clocks a crotchet; 60,000,000 / 112 rounded to a microsecond; E minor has one sharp.
    expect(conductor[1]).toMatchObject({ numerator: 4, denominator: 4, metronome: 24, thirtyseconds: 8 });
    expect(conductor[2]).toMatchObject({ microsecondsPerBeat: 535_714 });
    expect(conductor[3]).toMatchObject({ key: 1, scale: 1 });
    expect(conductor[4]).toMatchObject({ text: "Verse b1" });
    expect(conductor[5]).toMatchObject({ text: "Choke on 4-and" });
  });

  test("the kit is on channel 10 with the keys of General MIDI, and a ghost is softer than a hit, a hit than an accent", () => {
    expect(notesOn(parts[1])).toEqual([
      [0, 9, 36, 112],
      [960, 9, 38, 80],
      [1440, 9, 36, 80],
      [1680, 9, 38, 40],
      [2880, 9, 36, 80],
      [2880, 9, 38, 80],
    ]);
  });

  test("a bass without pitches plays the key note, and what is held lasts", () => {
    expect(notesOn(parts[0])).toEqual([
      [0, 0, 28, 80],
      [1440, 0, 28, 80],
    ]);
    const offs = (parts[0] ?? []).flatMap((event) => (event.type === "noteOff" ? [event.tick] : []));
    expect(offs).toEqual([1440, 3360]);
    expect(parts[0]?.[0]).toMatchObject({ type: "trackName", text: "Chair Bs (rhythm, on the key note)" });
  });

  // FF 58 04 06 03 24 08 is 6/8 counted in dotted crotchets: 36 clocks. At 80 of them a minute a crotchet lasts half a second.
  test("6/8 is counted in dotted crotchets", () => {
    const { tracks: all } = read(
      writeMidi(scoreOf([["Dr", "kick", "x....."]], { perBeat: 3, metre: "6/8", tempo: 80 })),
    );
    expect(all[0]?.[1]).toMatchObject({ numerator: 6, denominator: 8, metronome: 36 });
    expect(all[0]?.[2]).toMatchObject({ microsecondsPerBeat: 500_000 });
    expect(all[0]?.at(-1)?.tick).toBe(3 * 960);
  });

  test("a section's own metre and tempo count in it, its key from there on", () => {
    const rows = [["Bs", undefined, "x....."]] as const;
    const verse = { metre: "6/8", tempo: 80, key: "A" };
    const there = read(writeMidi(scoreOf(rows, { perBeat: 3, verse }))).tracks;
    expect(there[0]?.slice(1, 4)).toMatchObject([
      { numerator: 6, denominator: 8 },
      { microsecondsPerBeat: 500_000 },
      { key: 3, scale: 0 },
    ]);
    const later = { perBeat: 3, verse, where: { from: { section: "outro", bar: 1 } } };
    expect(read(writeMidi(scoreOf(rows, later))).tracks[0]?.slice(1, 4)).toMatchObject([
      { numerator: 4, denominator: 4 },
      { microsecondsPerBeat: 535_714 },
      { key: 3, scale: 0 },
    ]);
  });

  test("titles and places in any script come back from UTF-8", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme", maxLength: 40 }), (title) => {
        const { tracks: all } = read(writeMidi({ ...score, title }));
        const [name] = all[0] ?? [];
        expect(name?.type === "trackName" ? utf8(name.text) : null).toBe(title);
      }),
      laws(200),
    );
  });
});

describe("any song with grids", () => {
  test("[FILE-1] is read back by midi-file hit by hit, and every note that begins ends before the next of its kind", () => {
    fc.assert(
      fc.property(gridScores, (score) => {
        const { header, tracks } = read(writeMidi(score));
        expect(header.numTracks).toBe(1 + score.parts.length);
        const length = score.blocks.reduce(
          (sum, { metre, bars }) =>
            sum + (bars * beatsPerBar(metre) * (isCompound(metre) ? 3 : 1) * 4 * 960) / metre.unit,
          0,
        );
        expect(tracks.map((track) => track.at(-1)?.tick)).toEqual(tracks.map(() => length));
        for (const [index, part] of score.parts.entries()) {
          const hits = score.blocks.flatMap(({ lines }) =>
            lines.flatMap((line) => (line.part === part.id ? line.notes : [])),
          );
          const sounding = new Set<number>();
          let begun = 0;
          let muddled = 0;
          for (const event of tracks[index + 1] ?? []) {
            if (event.type === "noteOn") {
              if (sounding.has(event.noteNumber)) muddled += 1;
              sounding.add(event.noteNumber);
              begun += 1;
            }
            if (event.type === "noteOff" && !sounding.delete(event.noteNumber)) muddled += 1;
          }
          expect([begun, muddled, sounding.size]).toEqual([hits.length, 0, 0]);
        }
      }),
      laws(150),
    );
  });

  test("is heard by @tonejs/midi at the seconds that tempo and steps give", () => {
    fc.assert(
      fc.property(gridScores, (score) => {
        const [block] = score.blocks;
        if (block === undefined) return;
        const midi = new Midi(writeMidi({ ...score, blocks: [block] }));
        const heard = midi.tracks.flatMap(({ notes }) => notes.map(({ time }) => time)).sort((a, b) => a - b);
        const meant = block.lines
          .flatMap(({ notes }) => notes.map(({ start }) => ((start / block.perBeat) * 60) / block.tempo))
          .sort((a, b) => a - b);
        expect(heard.length).toBe(meant.length);
        const longest = Math.max(0, ...meant);
        // A tick is rounded by half, a crotchet to a microsecond, and a very slow one has no room in three bytes.
        const slow = (block.tempo * (isCompound(block.metre) ? 3 : 1) * 4) / block.metre.unit < 3.6;
        if (slow) return;
        const off = heard.map((time, index) => Math.abs(time - (meant[index] ?? 0)));
        expect(Math.max(0, ...off)).toBeLessThan(0.01 + longest * 1e-4);
      }),
      laws(150),
    );
  });
});
