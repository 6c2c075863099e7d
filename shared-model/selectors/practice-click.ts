/** The click for one detail: tempo and metre of its song, the stretch it stands in, and what a player changed of it. */
import type { SongFile } from "../board/board.ts";
import type { Card, Where } from "../board/card.ts";
import type { Id } from "../board/ids.ts";
import type { Section } from "../board/song.ts";
import { formatWhere } from "../board/where.ts";
import type { ClickPlan } from "../music/click.ts";
import { isCompound, type Metre, parseMetre } from "../music/metre.ts";
import { TEMPO_MAX, TEMPO_MIN } from "../music/tempo.ts";

/** What is clicked where a song says nothing. */
const PLAIN_METRE: Metre = { groups: [4], unit: 4 };
const PLAIN_TEMPO = 100;

/** A stretch of the form that can come round and round. */
export interface Stretch {
  readonly name: string;
  readonly bars: number;
}

/** What a song gives to the click of one of its details. */
export interface ClickGround {
  /** Counted beats per minute; what the song says, or a guess. */
  readonly tempo: number;
  readonly metre: Metre;
  /** Null where the detail is about the whole song, or its section is gone. */
  readonly stretch: Stretch | null;
  /** The player's own row of the detail's grid; null = there is none. */
  readonly grid: { readonly perBeat: number; readonly hits: string } | null;
  /** What is not settled and was guessed, in a sentence; null = nothing. */
  readonly guessed: string | null;
}

/** Bars from one place of the form to another, both included; null for the whole song or a section that is gone. */
const stretchOf = (where: Where, sections: readonly Section[]): Stretch | null => {
  const { from, to = from } = where;
  if (from === undefined || to === undefined) return null;
  const first = sections.findIndex(({ id }) => id === from.section);
  const last = sections.findIndex(({ id }) => id === to.section);
  if (first < 0 || last < first) return null;
  const whole = sections.slice(first, last + 1).reduce((sum, { bars }) => sum + bars, 0);
  const cut = (from.bar ?? 1) - 1;
  const end = to.bar === undefined ? 0 : (sections[last]?.bars ?? 0) - to.bar;
  // One bar is too short to come in on: its whole section comes round instead.
  const single = first === last && from.bar !== undefined && (to.bar ?? from.bar) === from.bar;
  const bars = single ? whole : whole - cut - Math.max(0, end);
  if (bars < 1) return null;
  const named = single ? { from: { section: from.section } } : where;
  return { name: formatWhere(withoutTime(named), sections), bars };
};

const withoutTime = ({ from, to }: Where): Where => ({
  ...(from === undefined ? {} : { from }),
  ...(to === undefined ? {} : { to }),
});

/** Reads what a detail's click stands on, for the player of one chair. */
export const clickGround = (
  { song, sections }: SongFile,
  { where, grid }: Pick<Card, "where" | "grid">,
  chair: Id,
): ClickGround => {
  const metre = parseMetre(song.metre);
  const own = grid?.rows.filter((one) => one.chair === chair) ?? [];
  // Of a kit the kick leads, unless something is written for the chair as a whole.
  const row =
    own.find(({ voice }) => voice === undefined) ?? own.find(({ voice }) => voice === "kick") ?? own[0];
  const missing = [
    ...(song.tempo === null ? [`tempo (${PLAIN_TEMPO} here)`] : []),
    ...(metre.ok ? [] : ["metre (4/4 here)"]),
  ];
  return {
    tempo: song.tempo ?? PLAIN_TEMPO,
    metre: metre.ok ? metre.value : PLAIN_METRE,
    stretch: stretchOf(where, sections),
    grid: row === undefined || grid === undefined ? null : { perBeat: grid.perBeat, hits: row.hits },
    guessed: missing.length === 0 ? null : `Not settled for this song: ${missing.join(" and ")}.`,
  };
};

/** What a player chose for a click. */
export interface ClickChoices {
  readonly bpm: number;
  /** The stretch comes round and round. */
  readonly loop: boolean;
  /** One bar in four is silent. */
  readonly mute: boolean;
  /** Percent the tempo rises by every fourth time round, up to the song's; 0 = it stays. */
  readonly rise: number;
  readonly countIn: number;
  readonly perBeat: number;
  /** A grid of the detail, one character per step; null = plain steps. */
  readonly pattern: string | null;
}

/** One bar in so many is silent, to test the time; the tempo rises when the loop came round so many times. */
const MUTE_EVERY = 4;
export const RISE_EVERY = 4;
/** Without a stretch, so many bars count as once round. */
const FREE_LOOP = 4;

export const firstChoices = ({ tempo, stretch }: ClickGround): ClickChoices => ({
  bpm: tempo,
  loop: stretch !== null,
  mute: false,
  rise: 0,
  countIn: 1,
  perBeat: 1,
  pattern: null,
});

/** Steps a beat can be heard in: dotted beats fall into threes. */
export const perBeatChoices = (metre: Metre): readonly number[] =>
  isCompound(metre) ? [1, 3, 6] : [1, 2, 3, 4];

/** A tempo within what can be counted. */
export const heldTempo = (bpm: number): number => Math.min(TEMPO_MAX, Math.max(TEMPO_MIN, bpm));

/** The plan of a click. Without a stretch, a rise counts every four bars as once round. */
export const clickPlanOf = (ground: ClickGround, choices: ClickChoices): ClickPlan => {
  const { bpm, loop, mute, rise, perBeat, pattern } = choices;
  const bars = loop && ground.stretch !== null ? ground.stretch.bars : rise > 0 ? FREE_LOOP : null;
  return {
    bpm,
    metre: ground.metre,
    perBeat,
    pattern,
    bars,
    silentEvery: mute ? MUTE_EVERY : null,
    rise: rise > 0 ? { percent: rise, every: RISE_EVERY, to: ground.tempo } : null,
  };
};

/** Share of the full volume that a click starts with at most, whatever was set the last time. */
const START_MOST = 0.5;

/** The volume to start with, 0 to 1, from what was remembered; nonsense counts as nothing. */
export const startVolume = (remembered: string | null): number => {
  const kept = Number(remembered);
  return kept > 0 ? Math.min(kept, START_MOST) : START_MOST;
};
