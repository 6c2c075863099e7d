/** One day's practice of one player, as their device keeps it, and what came of it, as the log tells. */
import * as v from "valibot";
import type { SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import type { Level } from "../board/status.ts";
import type { Standing } from "./part-view.ts";
import { detailsIn, soloOccasion } from "./practice-list.ts";

const item = v.object({ song: v.string(), card: v.string() });
export type PracticeItem = Readonly<v.InferOutput<typeof item>>;

const SITTING = v.object({
  day: v.string(),
  member: v.string(),
  minutes: v.pipe(v.number(), v.minValue(1), v.maxValue(600)),
  /** In the order they were chosen in; it holds still for the day. */
  items: v.array(item),
  /** Practised since the last break, ms. */
  played: v.pipe(v.number(), v.minValue(0)),
  /** When that was last added to, ms. */
  seen: v.number(),
});
export type Sitting = Readonly<v.InferOutput<typeof SITTING>>;

export const keepSitting = (sitting: Sitting): string => JSON.stringify(sitting);

/** A sitting as it was kept; one of another day or person, and nonsense, gives a new one of as many minutes. */
export const keptSitting = (text: string, day: string, member: Id): Sitting => {
  const fresh: Sitting = { day, member, minutes: USUAL_MINUTES, items: [], played: 0, seen: 0 };
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return fresh;
  }
  const kept = v.safeParse(SITTING, value);
  if (!kept.success || kept.output.member !== member) return fresh;
  return kept.output.day === day ? kept.output : { ...fresh, minutes: kept.output.minutes };
};

export const USUAL_MINUTES = 20;

/** Who was away for so long (ms) has had a break. */
const BREAK = 5 * 60_000;

/** A sitting after so many more ms of practice; the count begins anew after a break. */
export const practisedOn = (
  { played, seen }: Pick<Sitting, "played" | "seen">,
  passed: number,
  now: number,
): Pick<Sitting, "played" | "seen"> => ({
  played: (now - seen > BREAK ? 0 : played) + passed,
  seen: now,
});

/** The details for so many minutes: those done today stay, the best of the rest fill up. `ranked` is best first. */
export const fillSitting = (
  ranked: readonly PracticeItem[],
  minutes: number,
  done: readonly PracticeItem[],
): PracticeItem[] => {
  const cards = new Set(done.map(({ card }) => card));
  const rest = ranked.filter(({ card }) => !cards.has(card));
  return [...done, ...rest.slice(0, Math.max(0, detailsIn(minutes) - done.length))].map(({ song, card }) => ({
    song,
    card,
  }));
};

export type Outcome = "practised" | "still shaky";

/** What the player said of a detail on a day: the latest of their solo takes on it; null = nothing yet. */
export const outcomeOf = (file: SongFile | undefined, card: Id, member: Id, day: string): Outcome | null => {
  const takes = (file?.takes ?? []).filter(
    ({ occasion, scope }) =>
      occasion === soloOccasion(member, day) && scope.of === "cards" && scope.cards.includes(card),
  );
  if (takes.length === 0) return null;
  const last = takes.reduce((a, b) => (b.at > a.at || (b.at === a.at && b.no > a.no) ? b : a));
  return last.feel === "clean" ? "practised" : "still shaky";
};

/**
 * The status to mark with an outcome; null = leave it. Practice alone brings a detail to practised and never above;
 * what was locked in, and slipped or changed since, is for its player to say.
 */
export const markAfter = (
  outcome: Outcome,
  standing: Pick<Standing, "level" | "marked"> | undefined,
): Level | null => {
  const reached = outcome === "practised" ? 2 : 1;
  return standing === undefined || standing.marked === 3 || standing.level >= reached ? null : reached;
};

const NUMBERS = ["none", "one", "two", "three", "four", "five", "six"] as const;
const inWords = (n: number): string => NUMBERS[n] ?? String(n);

/** `Practised: two, still shaky: one.`; null while nothing is done. */
export const outcomeWords = (outcomes: readonly (Outcome | null)[]): string | null => {
  const count = (which: Outcome | null): number => outcomes.filter((one) => one === which).length;
  const parts = (["practised", "still shaky"] as const).flatMap((which) =>
    count(which) === 0 ? [] : [`${which}: ${inWords(count(which))}`],
  );
  if (parts.length === 0) return null;
  const said = parts.join(", ");
  return `${said.charAt(0).toUpperCase()}${said.slice(1)}.`;
};
