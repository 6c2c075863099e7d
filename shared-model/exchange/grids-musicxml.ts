/**
 * A song's grids as MusicXML, score-partwise. Source: W3C Music Notation Community Group, MusicXML 4.0 Final Report
 * (June 2021); the order of elements is that of its schema.
 */
import type { Day } from "../lib/calendar.ts";
import { signatureOf } from "../music/key.ts";
import { beatsPerBar, isCompound } from "../music/metre.ts";
import type { GridScore, ScoreBlock, ScoreLine, ScorePart, Stroke } from "./grid-score.ts";
import type { Sound } from "./grid-sounds.ts";
import { keyNote } from "./grids-midi.ts";
import { type Span, type Value, valuesOf } from "./note-values.ts";
import { element, leaf } from "./xml-text.ts";

const HEAD = `<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">
`;

/** Channel 10, counted from 1 as MusicXML does. */
const DRUM_CHANNEL = 10;

/** The file as text. The place of each grid is a rehearsal mark; what its detail says stands above the first staff. */
export const writeMusicXml = (score: GridScore, writtenOn: Day): string => {
  const parts = score.parts.map((part, index) => ({ part, id: `P${index + 1}` }));
  return `${HEAD}${element(
    "score-partwise",
    { version: "4.0" },
    "\n",
    element("work", {}, leaf("work-title", score.title)),
    "\n",
    element(
      "identification",
      {},
      element("encoding", {}, leaf("software", "Tightrow"), leaf("encoding-date", writtenOn)),
    ),
    "\n",
    element("part-list", {}, ...parts.map(({ part, id }) => scorePart(part, id))),
    "\n",
    ...parts.map(({ part, id }, index) =>
      element("part", { id }, "\n", ...measures(part, id, score.blocks, index === 0)),
    ),
  )}\n`;
};

const instrumentId = (part: string, index: number): string => `${part}-I${index + 1}`;

/** MIDI numbers here count from 1: midi-unpitched and midi-program are one more than in a MIDI file. */
const scorePart = ({ name, sounds }: ScorePart, id: string): string =>
  element(
    "score-part",
    { id },
    leaf("part-name", name),
    ...sounds.map((sound, index) =>
      element("score-instrument", { id: instrumentId(id, index) }, leaf("instrument-name", nameOf(sound))),
    ),
    ...sounds.map((sound, index) =>
      element(
        "midi-instrument",
        { id: instrumentId(id, index) },
        ...(sound.kind === "struck"
          ? [leaf("midi-channel", DRUM_CHANNEL), leaf("midi-unpitched", sound.struck.key + 1)]
          : [leaf("midi-program", sound.pitched.program + 1)]),
      ),
    ),
  );

const nameOf = (sound: Sound): string => (sound.kind === "struck" ? sound.struck.name : sound.pitched.name);

/** What one staff plays of one block. */
interface Staff {
  readonly block: ScoreBlock;
  readonly lines: readonly ScoreLine[];
  /** Id of the instrument of a sound. */
  readonly instrument: (sound: Sound) => string;
  /** Divisions of a crotchet in this block. */
  readonly divisions: number;
  /** Divisions of one step. */
  readonly step: number;
}

const measures = (
  part: ScorePart,
  id: string,
  blocks: readonly ScoreBlock[],
  first: boolean,
): readonly string[] => {
  let number = 0;
  return blocks.flatMap((block, index) => {
    const staff: Staff = {
      block,
      lines: block.lines.filter((line) => line.part === part.id),
      instrument: (sound) => instrumentId(id, part.sounds.indexOf(sound)),
      ...divisionsOf(block),
    };
    const last = index === blocks.length - 1;
    return Array.from({ length: block.bars }, (_, bar) => {
      number += 1;
      const closing = bar === block.bars - 1 ? [barline(last)] : [];
      const opening = bar > 0 ? [] : [attributes(part, staff, index === 0), ...(first ? marks(block) : [])];
      const inside = [...opening, ...notes(staff, bar), ...closing];
      return `${element("measure", { number }, ...inside)}\n`;
    });
  });
};

/** The fewest divisions of a crotchet in which a step is a whole number of them. */
const divisionsOf = ({
  metre,
  perBeat,
}: ScoreBlock): { readonly divisions: number; readonly step: number } => {
  const crotchets = 4 * (isCompound(metre) ? 3 : 1);
  const parts = metre.unit * perBeat;
  const common = greatestCommon(crotchets, parts);
  return { divisions: parts / common, step: crotchets / common };
};

const greatestCommon = (a: number, b: number): number => (b === 0 ? a : greatestCommon(b, a % b));

const attributes = ({ sounds: [sound] }: ScorePart, { block, divisions }: Staff, first: boolean): string => {
  const pitched = sound?.kind === "pitched" ? sound.pitched : null;
  return element(
    "attributes",
    {},
    leaf("divisions", divisions),
    pitched === null || block.key === null
      ? ""
      : element("key", {}, leaf("fifths", signatureOf(block.key)), leaf("mode", block.key.mode)),
    element("time", {}, leaf("beats", block.metre.groups.join("+")), leaf("beat-type", block.metre.unit)),
    first ? clef(pitched) : "",
  );
};

const clef = (pitched: { readonly clef: "G" | "F"; readonly octaveDown: boolean } | null): string => {
  if (pitched === null) return element("clef", {}, leaf("sign", "percussion"));
  const down = pitched.octaveDown ? leaf("clef-octave-change", -1) : "";
  return element("clef", {}, leaf("sign", pitched.clef), leaf("line", pitched.clef === "G" ? 2 : 4), down);
};

/** Place, words and tempo. `sound tempo` is in crotchets a minute, whatever is counted. */
const marks = ({ place, words, metre, tempo }: ScoreBlock): readonly string[] => {
  const crotchets = (4 / metre.unit) * (isCompound(metre) ? 3 : 1);
  const beat = isCompound(metre) ? metre.unit / 2 : metre.unit;
  const above = (...content: readonly string[]): string =>
    element("direction", { placement: "above" }, ...content);
  return [
    above(element("direction-type", {}, leaf("rehearsal", place))),
    ...(words === "" ? [] : [above(element("direction-type", {}, leaf("words", words)))]),
    above(
      element(
        "direction-type",
        {},
        element(
          "metronome",
          {},
          leaf("beat-unit", TYPES[beat] ?? "quarter"),
          isCompound(metre) ? element("beat-unit-dot", {}) : "",
          leaf("per-minute", tempo),
        ),
      ),
      element("sound", { tempo: Number((tempo * crotchets).toFixed(4)) }),
    ),
  ];
};

/** Names of note values by their part of a semibreve. */
const TYPES: { readonly [written: number]: string } = {
  1: "whole",
  2: "half",
  4: "quarter",
  8: "eighth",
  16: "16th",
  32: "32nd",
  64: "64th",
  128: "128th",
  256: "256th",
  512: "512th",
  1024: "1024th",
};

/** One head of a note. */
interface Head {
  readonly sound: Sound;
  readonly stroke: Stroke;
  /** True where it sounds on from the bar before, and into the next one. */
  readonly from: boolean;
  readonly on: boolean;
}

const notes = (staff: Staff, bar: number): readonly string[] => {
  const { metre, perBeat } = staff.block;
  const length = beatsPerBar(metre) * perBeat;
  const spans = spansOf(staff, bar * length, length);
  if (spans.every(({ what }) => what === null)) {
    return [
      element("note", {}, element("rest", { measure: "yes" }), leaf("duration", length * staff.step), VOICE),
    ];
  }
  return valuesOf(metre, perBeat, spans).flatMap((value) => noteElements(staff, value));
};

const VOICE = leaf("voice", 1);

/** What sounds in a bar, one after another, silence between: a drum's note lasts until the next one or the next beat. */
const spansOf = (
  { lines, block: { perBeat } }: Staff,
  first: number,
  length: number,
): readonly Span<readonly Head[]>[] => {
  const sounding = new Map<number, { heads: Head[]; end: number }>();
  for (const { sound, notes: played } of lines) {
    for (const { start, steps, stroke } of played) {
      const from = start < first;
      if (start + steps <= first || start >= first + length) continue;
      const at = from ? 0 : start - first;
      const till = sound.kind === "struck" ? (Math.floor(at / perBeat) + 1) * perBeat : start + steps - first;
      if (from && sound.kind === "struck") continue;
      const here = sounding.get(at) ?? { heads: [], end: 0 };
      here.heads.push({ sound, stroke, from, on: till > length });
      here.end = Math.max(here.end, Math.min(till, length));
      sounding.set(at, here);
    }
  }
  const spans: Span<readonly Head[]>[] = [];
  let at = 0;
  const starts = [...sounding.keys()].sort((a, b) => a - b);
  for (const [index, start] of starts.entries()) {
    const here = sounding.get(start);
    if (here === undefined) continue;
    if (start > at) spans.push({ start: at, steps: start - at, what: null });
    const end = Math.min(here.end, starts[index + 1] ?? length);
    spans.push({ start, steps: end - start, what: here.heads });
    at = end;
  }
  if (at < length) spans.push({ start: at, steps: length - at, what: null });
  return spans;
};

const noteElements = (staff: Staff, value: Value<readonly Head[]>): readonly string[] => {
  const [head] = value.what ?? [];
  // A drum is struck once: what is left of a note that needs two values is silence.
  if (value.what === null || (head?.sound.kind === "struck" && value.continues))
    return [noteElement(staff, value, null, false)];
  return value.what.map((one, index) => noteElement(staff, value, one, index > 0));
};

const noteElement = (
  { block, instrument, step }: Staff,
  value: Value<readonly Head[]>,
  head: Head | null,
  chord: boolean,
): string => {
  const tied = head?.sound.kind === "pitched";
  const stop = tied && (value.continues || head.from);
  const start = tied && (value.goesOn || head.on);
  const ties = [...(stop ? ["stop"] : []), ...(start ? ["start"] : [])];
  const struck = head?.sound.kind === "struck" ? head.sound.struck : null;
  return element(
    "note",
    {},
    chord ? element("chord", {}) : "",
    head === null ? element("rest", {}) : pitchElement(head.sound, block),
    leaf("duration", value.steps * step),
    ...ties.map((type) => element("tie", { type })),
    head === null ? "" : element("instrument", { id: instrument(head.sound) }),
    VOICE,
    leaf("type", TYPES[value.written] ?? ""),
    value.dotted ? element("dot", {}) : "",
    timeModification(value),
    notehead(struck?.head ?? "", head?.stroke === "o"),
    notations(value, ties, head?.stroke === "X" && !stop, chord),
  );
};

const pitchElement = (sound: Sound, { key }: ScoreBlock): string => {
  if (sound.kind === "struck") {
    const { step, octave } = sound.struck;
    return element("unpitched", {}, leaf("display-step", step), leaf("display-octave", octave));
  }
  const alter = key?.accidental ?? 0;
  const octave = Math.floor((keyNote(sound.pitched, key) - alter) / 12) - 1;
  return element(
    "pitch",
    {},
    leaf("step", key?.letter ?? "C"),
    alter === 0 ? "" : leaf("alter", alter),
    leaf("octave", octave),
  );
};

/** The kind of note a tuplet counts in is said where a note of it is another. */
const timeModification = ({ tuplet, written, dotted }: Value<unknown>): string =>
  tuplet === null
    ? ""
    : element(
        "time-modification",
        {},
        leaf("actual-notes", tuplet.actual),
        leaf("normal-notes", tuplet.normal),
        written === tuplet.written && !dotted ? "" : leaf("normal-type", TYPES[tuplet.written] ?? ""),
      );

const notehead = (shape: string, ghost: boolean): string =>
  shape === "" && !ghost
    ? ""
    : element("notehead", { parentheses: ghost ? "yes" : undefined }, shape === "" ? "normal" : shape);

const notations = (
  { opensTuplet, closesTuplet }: Value<unknown>,
  ties: readonly string[],
  accent: boolean,
  chord: boolean,
): string => {
  const tuplets = chord ? [] : [...(opensTuplet ? ["start"] : []), ...(closesTuplet ? ["stop"] : [])];
  const all = [
    ...ties.map((type) => element("tied", { type })),
    ...tuplets.map((type) => element("tuplet", { type })),
    accent ? element("articulations", {}, element("accent", {})) : "",
  ].join("");
  return all === "" ? "" : element("notations", {}, all);
};

const barline = (last: boolean): string =>
  element("barline", { location: "right" }, leaf("bar-style", last ? "light-heavy" : "light-light"));
