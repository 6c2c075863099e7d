/** A MIDI file as facts: ticks become bars, tracks and channels become parts. */
import type { MidiFile, MidiVoice } from "./read-midi.ts";
import {
  broken,
  PARTS_MAX,
  quartersIn,
  SCORE_BARS_MAX,
  type ScoreBar,
  type ScoreFacts,
  type ScoreNote,
  type ScorePart,
  tooMany,
  Unreadable,
} from "./score-facts.ts";

const PERCUSSION = 9;
/** A note this much (of a quarter) before a bar line belongs to the bar that begins there. */
const EARLY = 1 / 16;

interface MetreAt {
  readonly at: number;
  readonly metre: string;
  readonly length: number;
}

/** Metres by place in quarters; of several at one place the last counts. */
const metresOf = ({ metres, division }: MidiFile): readonly MetreAt[] => {
  const at = new Map<number, MetreAt>([[0, { at: 0, metre: "4/4", length: 4 }]]);
  for (const { at: tick, beats, unit } of [...metres].sort((a, b) => a.at - b.at))
    at.set(tick, { at: tick / division, metre: `${beats}/${unit}`, length: quartersIn(beats, unit) });
  return [...at.values()];
};

/** Bars up to `end` (quarters). A change of metre begins a bar, wherever it stands. */
const barsUntil = (end: number, metres: readonly MetreAt[]): readonly ScoreBar[] => {
  const bars: ScoreBar[] = [];
  for (const [i, { at, metre, length }] of metres.entries()) {
    const until = Math.min(end, metres[i + 1]?.at ?? end);
    for (let start = at; start < until - 1e-9; start += length) {
      if (bars.length === SCORE_BARS_MAX) throw tooMany("bars", SCORE_BARS_MAX);
      const next = metres[i + 1]?.at ?? Number.POSITIVE_INFINITY;
      bars.push({
        start,
        length: Math.min(length, next - start),
        metre,
        written: bars.length,
        pickup: false,
      });
    }
  }
  return bars;
};

/** The last bar that begins at or before a place; a little early counts as on the line. */
const barFinder = (bars: readonly ScoreBar[], early: number) => {
  return (at: number): number => {
    let low = 0;
    let high = bars.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((bars[middle]?.start ?? 0) <= at + early) low = middle;
      else high = middle - 1;
    }
    return low;
  };
};

const notesOf = (voice: MidiVoice, division: number, bars: readonly ScoreBar[]): readonly ScoreNote[] => {
  const find = barFinder(bars, EARLY);
  return voice.notes
    .map(({ at, end, pitch, velocity }) => {
      const bar = find(at / division);
      return {
        bar,
        beat: Math.max(0, at / division - (bars[bar]?.start ?? 0)),
        length: (end - at) / division,
        pitch,
        force: velocity / 127,
      };
    })
    .sort((a, b) => a.bar - b.bar || a.beat - b.beat);
};

const partsOf = (file: MidiFile, bars: readonly ScoreBar[]): readonly ScorePart[] => {
  const played = file.voices.filter(({ notes }) => notes.length > 0);
  if (played.length > PARTS_MAX) throw tooMany("parts", PARTS_MAX);
  // The one track of format 0 bears the song's name.
  return played.map((voice) => ({
    name: file.format === 0 ? "" : (file.names[voice.track] ?? ""),
    program: voice.channel === PERCUSSION ? null : voice.program,
    percussion: voice.channel === PERCUSSION,
    notes: notesOf(voice, file.division, bars),
  }));
};

/** A track of its own for each channel may carry the programs of all; the program said anywhere counts. */
const withPrograms = (file: MidiFile): MidiFile => {
  const said = new Map<number, number>();
  for (const { channel, program } of file.voices)
    if (program !== null && !said.has(channel)) said.set(channel, program);
  for (const voice of file.voices) voice.program ??= said.get(voice.channel) ?? null;
  return file;
};

const byBar = <T extends { readonly bar: number }>(found: readonly T[]): readonly T[] =>
  [...new Map(found.map((one) => [one.bar, one])).values()].sort((a, b) => a.bar - b.bar);

/** Throws `Unreadable` where nothing is played or the song has no end. */
export const midiFacts = (read: MidiFile): ScoreFacts => {
  const file = withPrograms(read);
  const { division } = file;
  let end = 0;
  for (const { notes } of file.voices) for (const note of notes) end = Math.max(end, note.end, note.at + 1);
  if (end === 0)
    throw new Unreadable("The file has no notes in it. Choose one in which something is played.");
  const bars = barsUntil(end / division, metresOf(file));
  if (bars.length === 0) throw broken("no bar has any length");
  const nearest = barFinder(bars, (bars[0]?.length ?? 4) / 2);
  const order = <T extends { readonly at: number }>(list: readonly T[]) =>
    [...list].filter(({ at }) => at / division < end / division).sort((a, b) => a.at - b.at);
  return {
    format: "MIDI",
    // The first track is named after the song, unless it is itself a part of several.
    title:
      file.format === 1 && file.voices.some(({ track, notes }) => track === 0 && notes.length > 0)
        ? ""
        : (file.names[0] ?? ""),
    bars,
    tempos: [
      ...new Map(
        [{ at: 0, micros: 500_000 }, ...order(file.tempos)].map(({ at, micros }) => [
          at,
          { at: at / division, quarters: 60_000_000 / micros },
        ]),
      ).values(),
    ],
    keys: byBar(
      order(file.keys).map(({ at, signature, minor }) => ({
        bar: nearest(at / division),
        signature,
        mode: minor ? ("minor" as const) : ("major" as const),
      })),
    ),
    marks: byBar(
      order(file.markers)
        .filter(({ name }) => name !== "")
        .map(({ at, name }) => ({ bar: nearest(at / division), name })),
    ),
    joints: [],
    parts: partsOf(file, bars),
  };
};
