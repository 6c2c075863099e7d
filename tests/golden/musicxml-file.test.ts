/**
 * A song's grids as MusicXML. Sources: W3C Music Notation Community Group, MusicXML 4.0 Final Report (June 2021): the
 * reference's content models (musicxml-rules.ts) and the percussion tutorial; saxes 6 as the reader of XML.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { GridScore } from "#shared/exchange/grid-score.ts";
import { writeMusicXml } from "#shared/exchange/grids-musicxml.ts";
import { xmlText } from "#shared/exchange/xml-text.ts";
import { laws } from "#tests/support/fuzz.ts";
import { gridScores, scoreOf } from "#tests/support/grid-scores.ts";
import { all, child, faultsIn, number, readXml, type XmlElement } from "#tests/support/musicxml-rules.ts";

const written = (score: GridScore): XmlElement => readXml(writeMusicXml(score, "2026-03-05"));
const measuresOf = (score: GridScore): readonly XmlElement[] =>
  all(written(score), "part").flatMap((part) => all(part, "measure"));
const short = (note: XmlElement): string =>
  [
    child(note, "chord") ? "+" : "",
    child(note, "rest") ? "rest" : (child(note, "instrument")?.attributes.id ?? ""),
    ` ${child(note, "type")?.text ?? "bar"}`,
    child(note, "dot") ? "." : "",
    all(note, "tie")
      .map(({ attributes }) => ` tie-${attributes.type}`)
      .join(""),
    child(note, "time-modification")
      ? ` ${number(child(note, "time-modification") as XmlElement, "actual-notes")}`
      : "",
  ].join("");
const notesOf = (score: GridScore): readonly string[] =>
  measuresOf(score).flatMap((measure) => all(measure, "note").map(short));

describe("a bar of the kit", () => {
  const score = scoreOf([
    ["Dr", "hats", "x.x.x.x.x.x.x.x."],
    ["Dr", "snare", "....X..o....x..."],
    ["Dr", "kick", "x.....x.x......."],
  ]);
  const root = written(score);
  const [measure] = measuresOf(score);

  test("each hit lasts to the next one of its beat, and what is struck at once is a chord", () => {
    expect(notesOf(score)).toEqual([
      "P1-I1 eighth", "+P1-I3 eighth", "P1-I1 eighth",
      "P1-I1 eighth", "+P1-I2 eighth", "P1-I1 16th", "+P1-I3 16th", "P1-I2 16th",
      "P1-I1 eighth", "+P1-I3 eighth", "P1-I1 eighth",
      "P1-I1 eighth", "+P1-I2 eighth", "P1-I1 eighth",
    ]); // biome-ignore format: a beat a line
  });

  // Tutorial "Percussion": snare 39, kick 37, closed hi-hat 43 on channel 10, counted from 1; G5 in a percussion clef.
  test("instruments are numbered as the percussion tutorial numbers them", () => {
    const part = child(child(root, "part-list") as XmlElement, "score-part") as XmlElement;
    expect(all(part, "midi-instrument").map((midi) => number(midi, "midi-unpitched"))).toEqual([43, 39, 37]);
    expect(all(part, "midi-instrument").map((midi) => number(midi, "midi-channel"))).toEqual([10, 10, 10]);
    const hats = child(all(measure as XmlElement, "note")[0] as XmlElement, "unpitched") as XmlElement;
    expect([child(hats, "display-step")?.text, child(hats, "display-octave")?.text]).toEqual(["G", "5"]);
  });

  test("an accent is marked, a ghost stands in parentheses", () => {
    const notes = all(measure as XmlElement, "note");
    const accents = notes.filter((note) => child(child(note, "notations") ?? note, "articulations"));
    const ghosts = notes.filter((note) => child(note, "notehead")?.attributes.parentheses === "yes");
    expect(accents.map(short)).toEqual(["+P1-I2 eighth"]);
    expect(ghosts.map(short)).toEqual(["P1-I2 16th"]);
  });

  test("the place is a rehearsal mark, the detail's words stand beside it, the tempo is in crotchets", () => {
    const directions = all(measure as XmlElement, "direction");
    const types = directions.flatMap((direction) => all(direction, "direction-type"));
    expect(types.map((type) => type.children[0]?.text)).toEqual(["Verse b1", "Choke on 4-and", ""]);
    expect(child(directions[2] as XmlElement, "sound")?.attributes.tempo).toBe("112");
    const six = scoreOf([["Dr", "kick", "x....."]], { perBeat: 3, metre: "6/8", tempo: 80 });
    const sound = all(measuresOf(six)[0] as XmlElement, "direction").flatMap((one) => all(one, "sound"));
    expect(sound[0]?.attributes.tempo).toBe("120");
  });
});

test("what is held over a beat and a bar is tied, and a bass sounds an octave below what is written", () => {
  const score = scoreOf([["Bs", undefined, "x---------..x---"]], {
    key: "Eb",
    where: { from: { section: "verse", bar: 1 }, to: { section: "verse", bar: 2 } },
  });
  expect(notesOf(score)).toEqual([
    "P1-I1 half tie-start", "P1-I1 eighth tie-stop", "rest eighth", "P1-I1 quarter",
    "P1-I1 half tie-start", "P1-I1 eighth tie-stop", "rest eighth", "P1-I1 quarter",
  ]); // biome-ignore format: a bar a line
  const [measure] = measuresOf(score);
  const attributes = child(measure as XmlElement, "attributes") as XmlElement;
  // E flat major: three flats; the note is E flat, not D sharp.
  expect(number(child(attributes, "key") as XmlElement, "fifths")).toBe(-3);
  expect(number(child(attributes, "clef") as XmlElement, "clef-octave-change")).toBe(-1);
  const pitch = child(all(measure as XmlElement, "note")[0] as XmlElement, "pitch") as XmlElement;
  expect(pitch.children.map(({ text }) => text)).toEqual(["E", "-1", "2"]);
});

test("triplets of a crotchet are three quavers in the time of two; a bar without hits is one rest", () => {
  expect(notesOf(scoreOf([["Dr", "snare", "x.xx........"]], { perBeat: 3 }))).toEqual([
    "P1-I1 quarter 3", "P1-I1 eighth 3", "P1-I1 quarter", "rest half",
  ]); // biome-ignore format: one bar
  expect(notesOf(scoreOf([["Vx", undefined, "................"]]))).toEqual(["rest bar"]);
});

/** Crotchets a note lasts by its type, dot and tuplet. */
const nominal = (note: XmlElement): number => {
  const parts: Readonly<Record<string, number>> = {
    whole: 1,
    half: 2,
    quarter: 4,
    eighth: 8,
    "16th": 16,
    "32nd": 32,
  };
  const type = child(note, "type")?.text ?? "";
  const part = parts[type] ?? Number.parseInt(type, 10);
  const tuplet = child(note, "time-modification");
  const squeezed = tuplet === undefined ? 1 : number(tuplet, "normal-notes") / number(tuplet, "actual-notes");
  return (4 / part) * (child(note, "dot") ? 1.5 : 1) * squeezed;
};

const tied = (note: XmlElement | undefined, type: string): boolean =>
  note !== undefined && all(note, "tie").some(({ attributes }) => attributes.type === type);

describe("any song with grids", () => {
  test("[FILE-1] is built as the reference says, fills every measure with values that exist, has a note for every hit, and closes its ties and tuplets", () => {
    fc.assert(
      fc.property(
        gridScores.filter(({ parts }) => parts.length > 0),
        (score) => {
          const root = written(score);
          expect(faultsIn(root)).toEqual([]);
          const bars = score.blocks.reduce((sum, block) => sum + block.bars, 0);
          for (const [index, part] of all(root, "part").entries()) {
            const measures = all(part, "measure");
            expect(measures.length).toBe(bars);
            let divisions = 0;
            let crotchets = 0;
            const wrong = measures.filter((measure) => {
              const attributes = child(measure, "attributes");
              if (attributes !== undefined) {
                divisions = number(attributes, "divisions");
                const time = child(attributes, "time") as XmlElement;
                const beats = (child(time, "beats")?.text ?? "").split("+").map(Number);
                crotchets = (beats.reduce((sum, n) => sum + n, 0) * 4) / number(time, "beat-type");
              }
              const notes = all(measure, "note");
              const filled = notes.reduce(
                (sum, n) => sum + (child(n, "chord") ? 0 : number(n, "duration")),
                0,
              );
              const off = notes.filter(
                (note) =>
                  child(note, "type") !== undefined &&
                  Math.abs(nominal(note) - number(note, "duration") / divisions) > 1e-9,
              );
              return filled !== crotchets * divisions || off.length > 0;
            });
            expect(wrong.map(({ attributes }) => attributes.number)).toEqual([]);
            const notes = measures.flatMap((measure) => all(measure, "note"));
            const sounding = notes.filter((note) => child(note, "rest") === undefined);
            const hits = score.blocks.flatMap(({ lines }) =>
              lines.flatMap((line) => (line.part === score.parts[index]?.id ? line.notes : [])),
            );
            expect(sounding.filter((note) => !tied(note, "stop")).length).toBe(hits.length);
            expect(notes.every((note, n) => tied(note, "start") === tied(notes[n + 1], "stop"))).toBe(true);
            const tuplets = notes.flatMap((note) =>
              all(note, "notations").flatMap((one) =>
                all(one, "tuplet").map(({ attributes }) => attributes.type),
              ),
            );
            expect(tuplets.every((type, n) => type === (n % 2 === 0 ? "start" : "stop"))).toBe(true);
            expect(tuplets.length % 2).toBe(0);
          }
        },
      ),
      laws(50),
    );
  });
});

// W3C XML 1.0, §2.2 and §2.4.
test("any text is the content of an element, but for characters no XML can hold", () => {
  fc.assert(
    fc.property(fc.string({ unit: "binary", maxLength: 60 }), (text) => {
      const back = readXml(`<words>${xmlText(text)}</words>`).text;
      expect(back).toBe(text.replace(/(?![\t\n\r])[\p{Cc}\p{Cs}\ufffe\uffff]/gu, ""));
    }),
    laws(),
  );
});
