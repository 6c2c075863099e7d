/**
 * A song's own grids one after another, as a score that any notation can be written from.
 * Governing rule: each grid is repeated for as many bars as its place lasts, from the first beat of a bar.
 */
import type { Chair } from "../board/band.ts";
import type { SongFile } from "../board/board.ts";
import type { Card, Where } from "../board/card.ts";
import type { Grid } from "../board/grid.ts";
import type { Id } from "../board/ids.ts";
import type { Section } from "../board/song.ts";
import { formatWhere } from "../board/where.ts";
import { type Key, parseKey } from "../music/key.ts";
import { beatsPerBar, type Metre, parseMetre } from "../music/metre.ts";
import { type Sound, soundOf } from "./grid-sounds.ts";

/** Longest stretch one grid is written out for, in bars. */
export const BARS_MOST = 16;
/** What a song is counted at while its tempo is not settled: what a MIDI file means without one (MMA RP-001). */
export const USUAL_TEMPO = 120;

export type Stroke = "x" | "X" | "o";

export interface ScoreNote {
  /** Step of the block, from 0. */
  readonly start: number;
  /** Steps it is held, at least 1. */
  readonly steps: number;
  readonly stroke: Stroke;
}

/** What one sound of one part does in one block. */
export interface ScoreLine {
  readonly part: string;
  readonly sound: Sound;
  readonly notes: readonly ScoreNote[];
}

/** One grid, written out. */
export interface ScoreBlock {
  /** The place in words. */
  readonly place: string;
  /** What the detail says. */
  readonly words: string;
  readonly metre: Metre;
  /** Counted beats per minute. */
  readonly tempo: number;
  /** Null = not settled. */
  readonly key: Key | null;
  readonly bars: number;
  /** Steps in one counted beat. */
  readonly perBeat: number;
  readonly lines: readonly ScoreLine[];
}

/** The kit of a chair, or one thing of it that plays notes. */
export interface ScorePart {
  readonly id: string;
  readonly name: string;
  /** All it plays, each once. */
  readonly sounds: readonly Sound[];
}

export interface GridScore {
  readonly title: string;
  /** In the order of the chairs. */
  readonly parts: readonly ScorePart[];
  /** In playing order; none while no detail has a grid. */
  readonly blocks: readonly ScoreBlock[];
}

/** The score of a song's own grids. Rows of chairs that are not on the board are left out. */
export const gridScore = (
  { song, sections, cards }: Pick<SongFile, "song" | "sections" | "cards">,
  chairs: readonly Chair[],
): GridScore => {
  const parts = new Map<string, { name: string; sounds: Sound[] }>();
  for (const { id, name, instrument } of chairs) {
    for (const { grid } of cards) {
      for (const row of grid?.rows ?? []) {
        if (row.chair !== id) continue;
        const sound = soundOf(row.voice, instrument);
        const part = parts.get(partOf(id, sound)) ?? { name: nameOfPart(name, sound), sounds: [] };
        if (!part.sounds.includes(sound)) part.sounds.push(sound);
        parts.set(partOf(id, sound), part);
      }
    }
  }
  const blocks = cards.flatMap((card) => {
    const { grid } = card;
    return grid === undefined ? [] : [blockOf(card, grid, { song, sections }, chairs)];
  });
  return {
    title: song.title,
    parts: [...parts].map(([id, part]) => ({ id, ...part })),
    blocks: blocks.filter(({ lines }) => lines.length > 0),
  };
};

const partOf = (chair: Id, sound: Sound): string =>
  sound.kind === "struck" ? `${chair}/kit` : `${chair}/${sound.pitched.name}`;

const nameOfPart = (chair: string, sound: Sound): string =>
  sound.kind === "struck" ? chair : `${chair} (rhythm, on the key note)`;

/** Most units of a bar that a file can say (one byte in MIDI); a longer one counts as 4/4, like one nobody can read. */
const UNITS_MOST = 255;
const FOUR_FOUR: Metre = { groups: [4], unit: 4 };

type Form = Pick<SongFile, "song" | "sections">;

/** The last key that was given up to a section; empty = none. */
const keyAt = (sections: readonly Section[], place: number): string =>
  sections.slice(0, place + 1).findLast(({ key }) => key !== "")?.key ?? "";

const blockOf = (card: Card, grid: Grid, form: Form, chairs: readonly Chair[]): ScoreBlock => {
  const { song, sections } = form;
  const place = sections.findIndex(({ id }) => id === card.where.from?.section);
  const section = sections[place];
  const metre = parseMetre(section?.metre || song.metre);
  const units = metre.ok ? metre.value.groups.reduce((sum, count) => sum + count, 0) : 0;
  const key = parseKey(keyAt(sections, place) || song.key);
  const counted = metre.ok && units <= UNITS_MOST ? metre.value : FOUR_FOUR;
  const stepsPerBar = beatsPerBar(counted) * grid.perBeat;
  const least = Math.ceil(grid.steps / stepsPerBar);
  const bars = Math.max(least, Math.min(BARS_MOST, barsOfPlace(card.where, sections) ?? least));
  return {
    place: formatWhere(card.where, sections),
    words: card.text,
    metre: counted,
    tempo: section?.tempo ?? song.tempo ?? USUAL_TEMPO,
    key: key.ok ? key.value : null,
    bars,
    perBeat: grid.perBeat,
    lines: linesOf(grid, chairs, bars * stepsPerBar),
  };
};

/** Rows that sound the same are one line. */
const linesOf = (grid: Grid, chairs: readonly Chair[], steps: number): readonly ScoreLine[] => {
  const lines: ScoreLine[] = [];
  for (const row of grid.rows) {
    const chair = chairs.find(({ id }) => id === row.chair);
    if (chair === undefined) continue;
    const sound = soundOf(row.voice, chair.instrument);
    const line = { part: partOf(chair.id, sound), sound, notes: notesOf(row.hits, steps) };
    const same = lines.findIndex((known) => known.part === line.part && known.sound === sound);
    const known = lines[same];
    if (known === undefined) lines.push(line);
    else lines[same] = { ...known, notes: merged(known.notes, line.notes) };
  }
  return lines;
};

/** Notes of both; of two at once the first one's, and none lasts into the next. */
const merged = (some: readonly ScoreNote[], more: readonly ScoreNote[]): readonly ScoreNote[] => {
  const starts = new Set(some.map(({ start }) => start));
  const all = [...some, ...more.filter(({ start }) => !starts.has(start))].sort((a, b) => a.start - b.start);
  return all.map((note, index) => {
    const next = all[index + 1]?.start ?? Number.POSITIVE_INFINITY;
    return { ...note, steps: Math.min(note.steps, next - note.start) };
  });
};

/** Bars a place lasts in the form, each section once; null where the form does not say. */
const barsOfPlace = ({ from, to, clock }: Where, sections: readonly Section[]): number | null => {
  const barsOf = (some: readonly Section[]): number => some.reduce((sum, { bars }) => sum + bars, 0);
  if (from === undefined) return clock === undefined && sections.length > 0 ? barsOf(sections) : null;
  const end = to ?? from;
  const first = sections.findIndex(({ id }) => id === from.section);
  const last = sections.findIndex(({ id }) => id === end.section);
  const closing = sections[last];
  if (first < 0 || closing === undefined || last < first) return null;
  return Math.max(1, barsOf(sections.slice(first, last)) + (end.bar ?? closing.bars) - (from.bar ?? 1) + 1);
};

const isStroke = (sign: string | undefined): sign is Stroke => sign === "x" || sign === "X" || sign === "o";

/** A row repeated over so many steps. What is held goes on over the end of the row into its beginning. */
const notesOf = (hits: string, steps: number): readonly ScoreNote[] => {
  const notes: { start: number; steps: number; stroke: Stroke }[] = [];
  let held = false;
  for (let step = 0; step < steps; step += 1) {
    const sign = hits[step % hits.length];
    const last = notes.at(-1);
    if (isStroke(sign)) notes.push({ start: step, steps: 1, stroke: sign });
    else if (sign === "-" && held && last !== undefined) last.steps += 1;
    held = isStroke(sign) || (sign === "-" && held);
  }
  return notes;
};
