/** A written score as facts: repeats are played out, tied notes joined, places counted in quarter notes. */
import type { Measure, PartMeasure, WrittenPart, WrittenScore } from "./measure.ts";
import { playingOrder } from "./playing-order.ts";
import {
  NOTES_MAX,
  quartersIn,
  type ScoreBar,
  type ScoreFacts,
  type ScoreNote,
  type ScorePart,
  tooMany,
  Unreadable,
} from "./score-facts.ts";

const FOUR_FOUR = { beats: 4, unit: 4, said: "4/4" };
/** Two places this near (quarter notes) are one. */
const SAME = 1e-4;

/** Metre of every written measure. */
const metresOf = (measures: readonly Measure[]): readonly NonNullable<Measure["metre"]>[] => {
  let metre: NonNullable<Measure["metre"]> = FOUR_FOUR;
  return measures.map((measure) => {
    metre = measure.metre ?? metre;
    return metre;
  });
};

const barsOf = (measures: readonly Measure[], order: readonly number[]): readonly ScoreBar[] => {
  const metres = metresOf(measures);
  let start = 0;
  return order.map((index, place) => {
    const { beats, unit, said } = metres[index] ?? FOUR_FOUR;
    const written = measures[index]?.length ?? 0;
    const full = quartersIn(beats, unit);
    const length = written > 0 ? written : full;
    const bar = { start, length, metre: said, written: index, pickup: place === 0 && length < full - SAME };
    start += length;
    return bar;
  });
};

/** Notes of one part in playing order; what is tied lengthens the note before it. */
const notesOf = (written: readonly PartMeasure[], order: readonly number[], bars: readonly ScoreBar[]) => {
  const notes: { bar: number; beat: number; length: number; pitch: number; force: null }[] = [];
  const last = new Map<number, (typeof notes)[number]>();
  const endOf = (note: ScoreNote) => (bars[note.bar]?.start ?? 0) + note.beat + note.length;
  for (const [bar, index] of order.entries()) {
    const inOrder = [...(written[index]?.notes ?? [])].sort((a, b) => a.at - b.at);
    for (const { at, length, pitch, tied } of inOrder) {
      const before = last.get(pitch);
      if (tied && before && Math.abs(endOf(before) - (bars[bar]?.start ?? 0) - at) < SAME) {
        before.length += length;
        continue;
      }
      if (notes.length === NOTES_MAX) throw tooMany("notes once its repeats are played", NOTES_MAX);
      const note = { bar, beat: at, length, pitch, force: null };
      notes.push(note);
      last.set(pitch, note);
    }
  }
  return notes;
};

const partOf = (part: WrittenPart, order: readonly number[], bars: readonly ScoreBar[]): ScorePart => ({
  name: part.name,
  program: part.program,
  percussion: part.percussion,
  notes: notesOf(part.measures, order, bars),
});

/** Bars at which a repeated stretch begins or what follows it: whatever is played twice, from where it begins. */
const jointsOf = (measures: readonly Measure[], order: readonly number[]): readonly number[] =>
  order.flatMap((index, bar) => {
    const before = order[bar - 1];
    if (bar === 0 || before === undefined) return [];
    const jumps = index !== before + 1 && (measures[index]?.endings.length ?? 0) === 0;
    const written = measures[index]?.repeatFrom === true || (measures[before]?.repeatTimes ?? 0) > 0;
    return jumps || (written && (measures[index]?.endings.length ?? 0) === 0) ? [bar] : [];
  });

/** True where another measure is played than the one that is written next. */
const isJump = (order: readonly number[], bar: number): boolean =>
  bar > 0 && order[bar] !== (order[bar - 1] ?? 0) + 1;

/*
 * Whoever goes back to an earlier measure goes back to the key and tempo that are written there; common practice, no
 * published source.
 */
const keyAt = (measures: readonly Measure[], index: number): Measure["key"] =>
  measures.slice(0, index + 1).findLast(({ key }) => key !== null)?.key ?? null;

const tempoAt = (measures: readonly Measure[], index: number): Measure["tempos"] => {
  const before = measures
    .slice(0, index)
    .findLast(({ tempos }) => tempos.length > 0)
    ?.tempos.at(-1);
  // What is said first holds from the beginning.
  const holds = before ?? measures.find(({ tempos }) => tempos.length > 0)?.tempos[0];
  return holds === undefined ? [] : [{ at: 0, quarters: holds.quarters }];
};

/** Tempos in playing order; of several at one place the last counts. */
const temposOf = (
  measures: readonly Measure[],
  order: readonly number[],
  bars: readonly ScoreBar[],
): ScoreFacts["tempos"] => {
  const found = order.flatMap((index, bar) =>
    [...(isJump(order, bar) ? tempoAt(measures, index) : []), ...(measures[index]?.tempos ?? [])].map(
      ({ at, quarters }) => {
        const place = (bars[bar]?.start ?? 0) + at;
        return [place, { at: place, quarters }] as const;
      },
    ),
  );
  return (
    [...new Map(found).values()]
      .sort((a, b) => a.at - b.at)
      // What is said of the first note holds from the beginning.
      .map((tempo, i) => (i === 0 ? { ...tempo, at: 0 } : tempo))
  );
};

/** Throws `Unreadable` where nothing is played or the repeats come to too much. */
export const musicXmlFacts = (score: WrittenScore): ScoreFacts => {
  const { measures } = score;
  const order = playingOrder(measures);
  const bars = barsOf(measures, order);
  const parts = score.parts.map((part) => partOf(part, order, bars)).filter(({ notes }) => notes.length > 0);
  if (parts.length === 0)
    throw new Unreadable("The score has no notes in it. Choose one in which something is played.");
  const all = parts.reduce((sum, { notes }) => sum + notes.length, 0);
  if (all > NOTES_MAX) throw tooMany("notes", NOTES_MAX);
  return {
    format: "MusicXML",
    title: score.title,
    bars,
    tempos: temposOf(measures, order, bars),
    keys: order.flatMap((index, bar) => {
      const key = isJump(order, bar) ? keyAt(measures, index) : measures[index]?.key;
      return key ? [{ bar, ...key }] : [];
    }),
    marks: order.flatMap((index, bar) => {
      const name = measures[index]?.mark ?? "";
      return name === "" ? [] : [{ bar, name }];
    }),
    joints: jointsOf(measures, order),
    parts,
  };
};
