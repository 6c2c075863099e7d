import { strToU8, zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { readScore } from "#shared/exchange/score/read-score.ts";
import { songFacts } from "#shared/exchange/score/song-facts.ts";
import { drain } from "#tests/support/score/write-midi.ts";
import { note, part, scoreOf } from "#tests/support/score/write-musicxml.ts";

const readBytes = (file: Uint8Array) => {
  const result = drain(readScore(file));
  if (!result.ok) throw new Error(result.error);
  return result.value;
};
const read = (text: string) => readBytes(strToU8(text));

/* W3C MusicXML 4.0, tutorial "Hello World": one whole note C4 in 4/4, with its public identifier. */
const HELLO = `<?xml version="1.0" encoding="UTF-8" standalone="no"?>
<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">
<score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Music</part-name></score-part></part-list>
<part id="P1"><measure number="1"><attributes><divisions>1</divisions><key><fifths>0</fifths></key>
<time><beats>4</beats><beat-type>4</beat-type></time><clef><sign>G</sign><line>2</line></clef></attributes>
<note><pitch><step>C</step><octave>4</octave></pitch><duration>4</duration><type>whole</type></note></measure></part></score-partwise>`;

const ONE_NOTE = [{ bar: 0, beat: 0, length: 4, pitch: 60, force: null }];

describe("the first example of the MusicXML 4.0 tutorial", () => {
  test("is one bar of 4/4 in C with one note", () => {
    const facts = read(HELLO);
    expect(facts.parts).toEqual([{ name: "Music", program: null, percussion: false, notes: ONE_NOTE }]);
    expect(songFacts(facts)).toMatchObject({ metre: "4/4", key: "C", tempo: null, length: null });
  });

  test("reads the same out of a compressed file, whose container names it, and as UTF-16", () => {
    const container = `<?xml version="1.0"?><container><rootfiles><rootfile full-path="in/song.xml"/></rootfiles></container>`;
    const files = {
      "in/other.xml": strToU8("<no-score/>"),
      "META-INF/container.xml": strToU8(container),
      "in/song.xml": strToU8(HELLO),
    };
    expect(readBytes(zipSync(files)).parts[0]?.notes).toEqual(ONE_NOTE);
    expect(readBytes(zipSync(files, { level: 0 })).parts[0]?.notes).toEqual(ONE_NOTE);
    const wide = Uint8Array.from([
      0xff,
      0xfe,
      ...[...HELLO].flatMap((c) => [c.charCodeAt(0) & 255, c.charCodeAt(0) >> 8]),
    ]);
    expect(readBytes(wide).parts[0]?.notes).toEqual(ONE_NOTE);
  });
});

/* MusicXML 4.0, percussion tutorial: snare 39, kick 37, crash 50, closed hat 43, counted from 1. */
test("the percussion tutorial's instruments are General MIDI's snare, kick, crash and hats", () => {
  const sounds = [
    ["snare", 39],
    ["kick", 37],
    ["crash", 50],
    ["hat", 43],
  ] as const;
  const list = sounds
    .map(
      ([id, key]) =>
        `<midi-instrument id="${id}"><midi-channel>10</midi-channel><midi-unpitched>${key}</midi-unpitched></midi-instrument>`,
    )
    .join("");
  const notes = sounds
    .map(
      ([id]) =>
        `<note><unpitched><display-step>C</display-step><display-octave>5</display-octave></unpitched><duration>1</duration><instrument id="${id}"/></note>`,
    )
    .join("");
  const facts = read(scoreOf([part("Drums", [notes], list)]));
  expect(facts.parts[0]?.percussion).toBe(true);
  expect(facts.parts[0]?.notes.map(({ pitch }) => pitch)).toEqual([38, 36, 49, 42]);
});

/* MusicXML 4.0, element transpose: horn in F sounds −7 semitones; the standard guitar an octave below what is written. */
test.each([
  ["horn in F", "<transpose><diatonic>-4</diatonic><chromatic>-7</chromatic></transpose>", 53, "C"],
  ["guitar", "<transpose><chromatic>0</chromatic><octave-change>-1</octave-change></transpose>", 48, "C"],
])("a written C4 of a %s sounds %s", (_, transpose, pitch) => {
  const facts = read(scoreOf([part("Part", [`<attributes>${transpose}</attributes>${note("C4", 4)}`])]));
  expect(facts.parts[0]?.notes[0]?.pitch).toBe(pitch);
});

/* A part in B♭ with two sharps sounds in C (transpose −2 semitones). */
test("the key of a transposed part is the key that sounds", () => {
  const head = `<attributes><key><fifths>2</fifths><mode>major</mode></key><transpose><chromatic>-2</chromatic></transpose></attributes>`;
  expect(songFacts(read(scoreOf([part("Trumpet", [`${head}${note("D4", 4)}`])]))).key).toBe("C");
});

/* MusicXML 4.0, element sound: tempo is quarter notes a minute, whatever the metronome mark counts. */
test("a tempo in dotted crotchets is told of the counted beat", () => {
  const head = `<attributes><time><beats>6</beats><beat-type>8</beat-type></time></attributes><direction><direction-type><metronome><beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>60</per-minute></metronome></direction-type><sound tempo="90"/></direction>`;
  expect(songFacts(read(scoreOf([part("Keys", [`${head}${note("C4", 3)}`])])))).toMatchObject({
    metre: "6/8",
    tempo: 60,
    length: 2,
  });
});

const NAMES = ["C4", "D4", "E4", "F4", "G4"];
const played = (bars: readonly string[]): string =>
  read(
    scoreOf([
      part(
        "Keys",
        bars.map(
          (extra, i) =>
            `${extra.startsWith("<before>") ? extra.slice(8) : ""}${note(NAMES[i] ?? "C4", 4)}${extra.startsWith("<before>") ? "" : extra}`,
        ),
      ),
    ]),
  )
    .parts[0]?.notes.map(({ pitch }) => "C.D.EF.G"[pitch - 60])
    .join("") ?? "";
const FORWARD = `<before><barline><repeat direction="forward"/></barline>`;
const BACK = `<barline location="right"><repeat direction="backward"/></barline>`;
const ending = (number: string) => `<barline><ending number="${number}" type="start"/></barline>`;

describe("MusicXML 4.0, elements repeat, ending and sound: the order of playing", () => {
  test.each([
    ["a repeat from the beginning", ["", BACK, ""], "CDCDE"],
    ["a repeat of the middle", ["", FORWARD, BACK, ""], "CDEDEF"],
    ["three times", ["", `<barline><repeat direction="backward" times="3"/></barline>`, ""], "CDCDCDE"],
    [
      "two endings",
      [
        "",
        `${ending("1")}<barline><ending number="1" type="stop"/><repeat direction="backward"/></barline>`,
        `${ending("2")}<barline><ending number="2" type="discontinue"/></barline>`,
        "",
      ],
      "CDCEF",
    ],
    ["two repeats in a row", ["", BACK, "", BACK, ""], "CDCDEFEFG"],
    ["da capo al fine", ["", `<sound fine="yes"/>`, `<sound dacapo="yes"/>`], "CDECD"],
    [
      "dal segno to the coda",
      [
        "",
        `<before><sound segno="s"/>`,
        `<sound tocoda="c"/>`,
        `<sound dalsegno="s"/>`,
        `<before><sound coda="c"/>`,
      ],
      "CDEFDEG",
    ],
  ])("%s", (_, bars, order) => {
    expect(played(bars)).toBe(order);
  });
});

test("a repeated stretch is a section each time, under one letter", () => {
  const bar = note("C4", 4);
  const facts = read(scoreOf([part("Keys", [bar, `${bar}${BACK}`, bar])]));
  expect(songFacts(facts)).toMatchObject({
    formSource: "repeats",
    form: [
      { name: "A", bars: 2 },
      { name: "A (2)", bars: 2 },
      { name: "B", bars: 1 },
    ],
  });
});

test("tied notes are one, a pickup is no bar of the form, and rehearsal marks are its sections", () => {
  const mark = (text: string) =>
    `<direction><direction-type><rehearsal>${text}</rehearsal></direction-type></direction>`;
  const facts = read(
    scoreOf([
      part("Voice", [
        note("G4", 1),
        `${mark("A")}${note("C4", 4, `<tie type="start"/>`)}`,
        note("C4", 4, `<tie type="stop"/>`),
        `${mark("B")}${note("E4", 4)}`,
      ]),
    ]),
  );
  expect(facts.bars.map(({ start, pickup }) => [start, pickup])).toEqual([
    [0, true],
    [1, false],
    [5, false],
    [9, false],
  ]);
  expect(facts.parts[0]?.notes.map(({ bar, length, pitch }) => [bar, length, pitch])).toEqual([
    [0, 1, 67],
    [1, 8, 60],
    [3, 4, 64],
  ]);
  expect(songFacts(facts).form.map(({ name, bars }) => [name, bars])).toEqual([
    ["A", 2],
    ["B", 1],
  ]);
});
