/** One part of a MusicXML score, measure by measure: a cursor in divisions that notes, backups and forwards move. */
import type { Measure, WrittenNote, WrittenPart } from "./measure.ts";
import { unpitchedByPlace } from "./percussion.ts";
import { TIMES_MAX } from "./playing-order.ts";
import { broken, cleanName, NOTES_MAX, SCORE_BARS_MAX, tooMany } from "./score-facts.ts";

type Attributes = Readonly<Record<string, string>>;

export interface PartReader {
  readonly begin: (measure: Measure, index: number) => void;
  readonly open: (name: string, attributes: Attributes) => void;
  readonly close: (name: string, parent: string, text: string) => void;
  readonly end: () => void;
}

/** Longest note or measure, in quarter notes. */
const QUARTERS_MAX = 1024;
const STEPS: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
const UNITS = [1, 2, 4, 8, 16, 32];
/** Note values in quarter notes, for a metronome mark; dots lengthen them. */
const VALUES: Readonly<Record<string, number>> = { whole: 4, half: 2, quarter: 1, eighth: 0.5, "16th": 0.25 };
const JUMPS = ["dacapo", "dalsegno", "segno", "coda", "tocoda", "fine"];

interface NoteDraft {
  step: string;
  octave: number;
  alter: number;
  duration: number;
  rest: boolean;
  chord: boolean;
  /** A grace or cue note: an ornament, or somebody else's. */
  aside: boolean;
  unpitched: boolean;
  tied: boolean;
  instrument: string | null;
}

const freshNote = (): NoteDraft => ({
  step: "", octave: 4, alter: 0, duration: 0, rest: false, chord: false, aside: false, unpitched: false, tied: false,
  instrument: null,
}); // biome-ignore format: one glance

const endingNumbers = (text: string): readonly number[] =>
  text
    .split(/[\s,]+/)
    .map(Number)
    .filter((n) => Number.isInteger(n) && n >= 1 && n <= TIMES_MAX);

/** The signature that sounds where this one is written for a part that sounds `semitones` away; at most six signs then. */
const soundingSignature = (signature: number, semitones: number): number => {
  const steps = ((semitones % 12) + 12) % 12;
  if (steps === 0) return signature;
  const moved = (((signature + 7 * steps) % 12) + 12) % 12;
  return moved > 6 ? moved - 12 : moved;
};

/** Reads into `part`. `soundOf` says the percussion key of one of its instruments; null = of the first, or not known. */
export const createPartReader = (
  part: WrittenPart,
  soundOf: (instrument: string | null) => number | null,
): PartReader => {
  let divisions = 1;
  let transpose = 0;
  let measure: Measure | null = null;
  let index = 0;
  let notes: WrittenNote[] = [];
  let count = 0;
  let cursor = 0;
  let chordAt = 0;
  let note: NoteDraft | null = null;
  let beats = "";
  let beatType = "";
  let fifths = "";
  let mode = "";
  let chromatic = 0;
  let octaves = 0;
  let beatUnit = 0;
  let written: Measure["key"] = null;
  /** Numbers of the ending that is open. */
  let ending: readonly number[] = [];
  let closing = false;

  const place = () => `bar ${index + 1} of ${part.name || "a part"}`;
  const numberOf = (text: string, what: string): number => {
    const n = Number(text.trim() || Number.NaN);
    if (!Number.isFinite(n)) throw broken(`${what} in ${place()} is no number`);
    return n;
  };
  const quarters = (text: string): number => {
    const length = numberOf(text, "a length") / divisions;
    if (length < 0 || length > QUARTERS_MAX) throw broken(`a length in ${place()} cannot be`);
    return length;
  };
  const move = (by: number) => {
    cursor = Math.max(0, cursor + by);
    if (cursor > QUARTERS_MAX) throw broken(`${place()} has no end`);
    if (measure) measure.length = Math.max(measure.length, cursor);
  };

  const finishNote = (done: NoteDraft) => {
    if (done.aside) return;
    const at = done.chord ? chordAt : cursor;
    if (!done.chord) {
      chordAt = cursor;
      move(done.duration);
    }
    if (done.rest || done.duration === 0) return;
    if (done.unpitched) part.percussion = true;
    const pitch =
      done.unpitched || (part.percussion && part.program === null)
        ? (soundOf(done.instrument) ?? unpitchedByPlace(done.step, done.octave))
        : Math.round(12 * (done.octave + 1) + (STEPS[done.step] ?? 0) + done.alter) + transpose;
    if (pitch < 0 || pitch > 127) throw broken(`a note in ${place()} lies outside what can be heard`);
    count += 1;
    if (count > NOTES_MAX) throw tooMany("notes in one part", NOTES_MAX);
    notes.push({ at, length: done.duration, pitch, tied: done.tied });
  };

  const repeat = (attributes: Attributes) => {
    if (!measure) return;
    if (attributes.direction === "forward") measure.repeatFrom = true;
    if (attributes.direction === "backward") {
      const times = Number(attributes.times ?? 2);
      measure.repeatTimes = Number.isInteger(times) ? Math.min(TIMES_MAX, Math.max(2, times)) : 2;
    }
  };

  const sound = (attributes: Attributes) => {
    if (!measure) return;
    const tempo = Number(attributes.tempo);
    // Quarter notes a minute, whatever the metronome mark beside it counts.
    if (tempo >= 1 && tempo <= 1000 && measure.tempos.length < 64)
      measure.tempos.push({ at: cursor, quarters: tempo });
    for (const jump of JUMPS)
      if (attributes[jump] !== undefined && attributes[jump] !== "no") measure.jumps.add(jump);
  };

  return {
    begin: (next, at) => {
      if (at >= SCORE_BARS_MAX) throw tooMany("bars", SCORE_BARS_MAX);
      measure = next;
      index = at;
      notes = [];
      cursor = 0;
      chordAt = 0;
      if (ending.length > 0) next.endings = ending;
    },
    open: (name, attributes) => {
      if (name === "note") note = freshNote();
      if (name === "grace" || name === "cue") if (note) note.aside = true;
      if (name === "rest" && note) note.rest = true;
      if (name === "chord" && note) note.chord = true;
      if (name === "unpitched" && note) note.unpitched = true;
      if (name === "tie" && attributes.type === "stop" && note) note.tied = true;
      if (name === "instrument" && note) note.instrument = attributes.id ?? null;
      if (name === "time") [beats, beatType] = ["", ""];
      if (name === "key") [fifths, mode] = ["", ""];
      if (name === "transpose") [chromatic, octaves] = [0, 0];
      if (name === "metronome") beatUnit = 0;
      if (name === "sound") sound(attributes);
      if (name === "repeat") repeat(attributes);
      if (name === "ending" && measure) {
        if (attributes.type === "start") {
          ending = endingNumbers(attributes.number ?? "");
          measure.endings = ending;
        } else closing = true;
      }
    },
    close: (name, parent, text) => {
      if (note && (parent === "note" || parent === "pitch" || parent === "unpitched")) {
        if (name === "duration") note.duration = quarters(text);
        if (name === "step" || name === "display-step") note.step = text.trim();
        if (name === "octave" || name === "display-octave") note.octave = numberOf(text, "an octave");
        if (name === "alter") note.alter = numberOf(text, "an accidental");
      } else if (name === "duration" && parent === "backup") move(-quarters(text));
      else if (name === "duration" && parent === "forward") move(quarters(text));
      else if (name === "divisions") {
        divisions = numberOf(text, "the division of a quarter note");
        if (divisions <= 0) throw broken(`a quarter note has no length in ${place()}`);
      } else if (name === "beats") beats += beats === "" ? text.trim() : `+${text.trim()}`;
      else if (name === "beat-type") beatType = text.trim();
      else if (name === "fifths") fifths = text;
      else if (name === "mode") mode = text.trim();
      else if (name === "chromatic") chromatic = numberOf(text, "a transposition");
      else if (name === "octave-change") octaves = numberOf(text, "a transposition");
      else if (name === "beat-unit") beatUnit ||= VALUES[text.trim()] ?? 0;
      else if (name === "beat-unit-dot") beatUnit *= 1.5;
      else if (name === "per-minute" && measure && beatUnit > 0) {
        const counted = Number(/\d+(\.\d+)?/.exec(text)?.[0]) * beatUnit;
        // What is meant to be played stands in a sound element, which comes after; both at one place are one.
        if (counted >= 1 && counted <= 1000 && measure.tempos.length < 64)
          measure.tempos.push({ at: cursor, quarters: counted });
      } else if (name === "rehearsal" && measure && measure.mark === "") measure.mark = cleanName(text);

      if (name === "note" && note) {
        finishNote(note);
        note = null;
      } else if (name === "time" && measure) {
        const each = beats.split("+").map(Number);
        const sum = each.reduce((all, n) => all + n, 0);
        if (each.every((n) => Number.isInteger(n) && n >= 1) && sum < 100 && UNITS.includes(Number(beatType)))
          measure.metre ??= {
            beats: sum,
            unit: Number(beatType),
            said: `${each.join("+")}/${Number(beatType)}`,
          };
      } else if (name === "key" && measure) {
        const signature = Number(fifths.trim() || Number.NaN);
        if (Number.isInteger(signature) && Math.abs(signature) <= 7)
          written = { signature, mode: mode === "minor" ? "minor" : "major" };
      } else if (name === "transpose") {
        const by = Math.round(chromatic) + 12 * Math.round(octaves);
        if (Math.abs(by) > 60) throw broken(`a transposition in ${place()} cannot be`);
        transpose = by;
      } else if (name === "attributes" && measure && written) {
        // The transposition is said after the key, in the same element.
        measure.key ??= { ...written, signature: soundingSignature(written.signature, transpose) };
        written = null;
      }
    },
    end: () => {
      part.measures.push({ notes });
      if (closing) {
        ending = [];
        closing = false;
      }
      measure = null;
    },
  };
};
