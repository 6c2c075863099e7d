/** A room plan in words, and what tells two plans apart. */
import type { SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import type { PlannedBlock } from "../board/rehearsal.ts";
import type { PlanLine } from "../plan/evening-plan.ts";
import { cardName, listed, type Names } from "../readiness/names.ts";
import { signedPoints } from "./points.ts";

/** Whole minutes: `5 min`, never 0. */
export const minutesWord = (minutes: number): string => `${Math.max(1, Math.round(minutes))} min`;

/** What a song gets: `run`, `run twice`, `drill Stop: 'all out' and Ending: 'one hit', then run`. */
export const blockWords = (
  file: SongFile,
  block: Pick<PlannedBlock, "runs" | "cards" | "section">,
): string => {
  const runs = block.runs === 2 ? "run twice" : "run";
  const cards = block.cards.flatMap((id) => {
    const card = file.cards.find((one) => one.id === id);
    return card === undefined ? [] : [cardName(file, card)];
  });
  const section = file.sections.find(({ id }) => id === block.section);
  if (cards.length === 0 && section === undefined) return runs;
  const details = listed(cards);
  const drilled =
    section === undefined ? details
    : cards.length === 0 ? section.name
    : `${section.name} (${details})`; // biome-ignore format: one decision
  return block.runs === 0 ? `drill ${drilled}` : `drill ${drilled}, then ${runs}`;
};

/** Smallest gain (share) worth a word: less never shows as a point. */
const WORTH = 0.005;

/**
 * Who and what gains most: `Ending: 'one hit' (Lucía Borrasco and Priya Sundarvane) +7, the band together +3`; empty = nothing
 * by a point.
 */
export const becauseWords = (
  file: SongFile,
  { because }: Pick<PlanLine, "because">,
  names: Names,
): string => {
  const told = new Map<string, { readonly members: readonly string[]; readonly gain: number }>();
  for (const { of, card, member, gain } of because) {
    if (gain < WORTH) continue;
    const who = member === null ? [] : [names.member(member)];
    const what =
      of === "band" ? "the band together" : card === null ? `the part of ${who}` : cardName(file, card);
    const same = told.get(what);
    // A shared detail is told once, with everybody it is for.
    told.set(what, {
      members: [...(same?.members ?? []), ...(card === null ? [] : who)],
      gain: (same?.gain ?? 0) + gain,
    });
  }
  return [...told]
    .map(([what, { members, gain }]) =>
      members.length === 0
        ? `${what} ${signedPoints(gain)}`
        : `${what} (${listed(members)}) ${signedPoints(gain)}`,
    )
    .join(", ");
};

/** What became of a plan, by song. */
export interface PlanChanges {
  readonly added: readonly Id[];
  readonly dropped: readonly Id[];
  /** Songs that get something else than before. */
  readonly changed: readonly Id[];
  /** As few songs as explain the new order. */
  readonly moved: readonly Id[];
}

const sameWork = (a: PlannedBlock, b: PlannedBlock): boolean =>
  a.runs === b.runs &&
  a.section === b.section &&
  a.cards.length === b.cards.length &&
  a.cards.every((card) => b.cards.includes(card));

/** Songs that left their place: all but a longest run of songs that kept their order. */
const movedOf = (before: readonly Id[], after: readonly Id[]): readonly Id[] => {
  const places = after.map((song) => before.indexOf(song));
  let longest: readonly number[] = [];
  const ending: (readonly number[])[] = [];
  for (const [i, place] of places.entries()) {
    let best: readonly number[] = [];
    for (let j = 0; j < i; j += 1) {
      const run = ending[j] ?? [];
      if ((places[j] ?? 0) < place && run.length > best.length) best = run;
    }
    ending[i] = [...best, i];
    if (best.length + 1 > longest.length) longest = [...best, i];
  }
  return after.filter((_, i) => !longest.includes(i));
};

/** How a plan differs from the one before it. A song that stands in one of them twice counts by its first turn. */
export const planChanges = (before: readonly PlannedBlock[], after: readonly PlannedBlock[]): PlanChanges => {
  const was = new Map([...before].reverse().map((block) => [block.song, block]));
  const is = new Map([...after].reverse().map((block) => [block.song, block]));
  const order = (blocks: readonly PlannedBlock[]): readonly Id[] => [
    ...new Set(blocks.flatMap(({ song }) => (was.has(song) && is.has(song) ? [song] : []))),
  ];
  return {
    added: [...is.keys()].filter((song) => !was.has(song)),
    dropped: [...was.keys()].filter((song) => !is.has(song)),
    changed: order(after).filter((song) => {
      const [a, b] = [was.get(song), is.get(song)];
      return a !== undefined && b !== undefined && !sameWork(a, b);
    }),
    moved: movedOf(order(before), order(after)),
  };
};

/** One sentence for each kind of change: `Added: X.`, `Dropped: Y and Z.`; none = the same plan. `title` names a song. */
export const changesWords = (
  { added, dropped, changed, moved }: PlanChanges,
  title: (song: Id) => string,
): readonly string[] =>
  (
    [
      ["Added", added],
      ["Dropped", dropped],
      ["Other work", changed],
      ["Moved", moved],
    ] as const
  ).flatMap(([word, songs]) => (songs.length === 0 ? [] : [`${word}: ${listed(songs.map(title))}.`]));
