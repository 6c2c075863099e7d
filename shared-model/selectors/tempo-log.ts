/** The tempos a song was played at over time, against the one it is meant to have. */
import type { SongFile } from "../board/board.ts";
import type { Take } from "../board/take.ts";
import type { Day } from "../lib/calendar.ts";
import { distancePercent, driftPercent } from "../music/tempo.ts";
import { listed } from "../readiness/names.ts";
import { feltWords } from "./take-tempo.ts";

/** A take of the band with a tempo. Tempos in beats per minute. */
export interface TempoPoint {
  readonly take: string;
  readonly day: Day;
  readonly feel: Take["feel"];
  readonly start: number | null;
  readonly end: number | null;
  /** Slips flagged in it. */
  readonly slips: number;
}

/** Percent from the target that hardly anybody notices, and that players feel. Common practice, no published source. */
export const BANDS = [2, 4] as const;

/** The takes with a tempo, oldest first; what somebody played alone says nothing about the band. */
export const tempoPoints = (
  { takes }: Pick<SongFile, "takes">,
  dayOfTake: (take: Take) => Day,
): readonly TempoPoint[] =>
  takes
    .filter(({ kind, tempoStart, tempoEnd }) => kind !== "solo" && (tempoStart !== null || tempoEnd !== null))
    .map((take) => ({
      take: take.id,
      day: dayOfTake(take),
      feel: take.feel,
      start: take.tempoStart,
      end: take.tempoEnd,
      slips: take.slips.length,
    }));

/** Lowest and highest tempo a drawing must hold: everything measured and the outer band about the target. */
export const tempoSpan = (
  points: readonly TempoPoint[],
  target: number | null,
): { readonly low: number; readonly high: number } => {
  const all = points.flatMap(({ start, end }) => [start, end]).filter((tempo) => tempo !== null);
  const widest = BANDS[1] / 100;
  if (target !== null) all.push(target * (1 - widest), target * (1 + widest));
  if (all.length === 0) return { low: 0, high: 1 };
  const [low, high] = [Math.floor(Math.min(...all)) - 1, Math.ceil(Math.max(...all)) + 1];
  return { low, high };
};

const percent = (n: number): string => `${Math.abs(Math.round(n * 10) / 10)} %`;

/** Takes that a trend is told from. */
const RECENT = 3;

/** What the log says, at most three sentences; the first one is the last take. */
export const tempoStory = (
  points: readonly TempoPoint[],
  target: number | null,
  tolerance: number | null = null,
): readonly string[] => {
  const last = points.at(-1);
  if (last === undefined)
    return [
      target === null
        ? "No tempo is settled and none was measured."
        : `${target} is the target; no take was measured yet.`,
    ];
  const said: string[] = [];
  const at = last.end ?? last.start ?? 0;
  const where = last.end === null ? "began" : "ended";
  if (target === null) said.push(`The last take ${where} at ${at}. No target is settled.`);
  else {
    const off = distancePercent(at, target);
    const side = off > 0 ? "over" : "under";
    said.push(
      Math.round(off * 10) === 0
        ? `The last take ${where} right on ${target}.`
        : `The last take ${where} at ${at}, ${percent(off)} ${side} ${target}: ${feltWords(off)}.`,
    );
  }
  if (target !== null && tolerance !== null) {
    const kept = Math.abs(distancePercent(at, target)) <= tolerance;
    said.push(
      kept ? `Within the ${tolerance} % that are agreed.` : `Outside the ${tolerance} % that are agreed.`,
    );
  }
  const drifts = points.slice(-RECENT).flatMap(({ start, end }) => {
    return start === null || end === null ? [] : [driftPercent(start, end)];
  });
  if (drifts.length === RECENT && (drifts.every((d) => d > 0) || drifts.every((d) => d < 0))) {
    const faster = (drifts[0] ?? 0) > 0;
    said.push(
      `Each of the last ${RECENT} takes got ${faster ? "faster" : "slower"}: by ${listed(drifts.map(percent))}.`,
    );
  }
  return said;
};

/** What playing it livelier than the target would be, in beats per minute. */
export const livelier = (target: number): readonly { readonly percent: number; readonly bpm: number }[] =>
  [...BANDS, 8].map((more) => ({ percent: more, bpm: Math.round((target * (100 + more)) / 10) / 10 }));

/** What is published about noticing tempo, with where it stands. */
export const TEMPO_FINDINGS = [
  {
    text: "In tests with even clicks, listeners noticed a change of 6 % after one interval, 3 % after six, and at best 1.5 %.",
    source: "Drake and Botte, Perception & Psychophysics 54, 1993",
  },
  {
    text: "Of people who sang a hit from memory, 72 % were within 8 % of the record's tempo.",
    source: "Levitin and Cook, Perception & Psychophysics 58, 1996",
  },
] as const;
