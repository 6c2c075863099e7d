import {
  FEELS,
  type Feel,
  type Scope,
  SEVERITIES,
  type Seat,
  type Severity,
  type Slip,
  type Take,
} from "../../board/take.ts";
import { compareCodeUnits } from "../order-key.ts";
import { NONE } from "../root-maps.ts";
import { SLIP_MARK, TAKE_MARK, type TakeMark } from "../schema-log.ts";
import { decodeValue, type IssueLog } from "./decode.ts";

type Raw = ReadonlyMap<string, unknown>;
type Entry = TakeMark & { readonly writer: string };

/** Played length (s) assumed for a song that has none yet. */
const LENGTH_UNKNOWN = 240;
/** How long (s) after the end of a song a second phone may still be logging the same take. */
const LOGGING_SLACK = 120;

/** Span (ms) within which equal numbers from two devices are one take. */
export const sameTakeSpan = (length: number | null): number =>
  ((length ?? LENGTH_UNKNOWN) + LOGGING_SLACK) * 1000;

/**
 * Reads one slot of the log (occasion/song/no) and merges its writers into takes. Writers that disagree about
 * what kind of work it was, or logged too far apart, speak of different takes.
 * @param slot `occasion/song/no`
 * @param span from `sameTakeSpan`
 */
export const readSlot = (
  slot: string,
  takes: Raw,
  slips: Raw,
  span: number,
  issues: IssueLog,
): readonly Take[] => {
  const entries: Entry[] = [];
  for (const [writer, raw] of takes) {
    const mark = decodeValue(TAKE_MARK, raw, "takes", `${slot}/${writer}`, issues);
    if (mark !== null && !mark.withdrawn) entries.push({ ...mark, writer });
  }
  entries.sort((a, b) => a.at - b.at || compareCodeUnits(a.writer, b.writer));
  const clusters = clusterEntries(entries, span);
  const slipsOf = assignSlips(slot, slips, clusters, takes.size > 0, issues);
  return clusters.map((cluster, i) => mergeCluster(slot, i, cluster, slipsOf[i] ?? []));
};

const clusterEntries = (entries: readonly Entry[], span: number): readonly (readonly Entry[])[] => {
  const clusters: Entry[][] = [];
  for (const entry of entries) {
    const home = clusters.find(
      ([first]) =>
        first !== undefined &&
        first.kind === entry.kind &&
        first.scope.of === entry.scope.of &&
        entry.at - first.at <= span,
    );
    if (home) home.push(entry);
    else clusters.push([entry]);
  }
  return clusters;
};

const assignSlips = (
  slot: string,
  raw: Raw,
  clusters: readonly (readonly Entry[])[],
  logged: boolean,
  issues: IssueLog,
): readonly (readonly Slip[])[] => {
  const bins: Slip[][] = clusters.map(() => []);
  for (const [key, value] of raw) {
    const mark = decodeValue(SLIP_MARK, value, "slips", `${slot}/${key}`, issues);
    const [chair = NONE, card = NONE, writer = ""] = key.split("/");
    if (mark === null || mark.severity === 0) continue;
    if (!logged) {
      issues.report("slips", `${slot}/${key}`, "This slip belongs to a take that has not arrived yet.");
      continue;
    }
    const own = clusters.findIndex((cluster) => cluster.some((entry) => entry.writer === writer));
    const bin = bins[own >= 0 ? own : nearest(clusters, mark.at)];
    const severity = SEVERITIES.find((s) => s === mark.severity);
    if (severity === undefined) continue;
    bin?.push({
      chair: chair === NONE ? null : chair,
      card: card === NONE ? null : card,
      severity,
      at: mark.at,
      writer,
    });
  }
  return bins.map(mergeSlips);
};

const nearest = (clusters: readonly (readonly Entry[])[], at: number): number => {
  let best = 0;
  let distance = Number.POSITIVE_INFINITY;
  clusters.forEach(([first], i) => {
    const d = Math.abs((first?.at ?? 0) - at);
    if (d < distance) {
      best = i;
      distance = d;
    }
  });
  return best;
};

/** One slip per chair and card: the worst severity, the earliest report. */
const mergeSlips = (slips: readonly Slip[]): readonly Slip[] => {
  const merged = new Map<string, Slip>();
  const sorted = [...slips].sort((a, b) => a.at - b.at || compareCodeUnits(a.writer, b.writer));
  for (const slip of sorted) {
    const key = `${slip.chair ?? NONE}/${slip.card ?? NONE}`;
    const known = merged.get(key);
    const severity: Severity = known && known.severity > slip.severity ? known.severity : slip.severity;
    merged.set(key, { ...(known ?? slip), severity });
  }
  return [...merged.entries()].sort(([a], [b]) => compareCodeUnits(a, b)).map(([, slip]) => slip);
};

const worst = (feels: readonly Feel[]): Feel =>
  FEELS[Math.max(...feels.map((f) => FEELS.indexOf(f)))] ?? "clean";

const unionScope = (scopes: readonly Scope[]): Scope => {
  const [first = { of: "whole" } as const] = scopes;
  const union = (lists: readonly (readonly string[])[]): readonly string[] =>
    [...new Set(lists.flat())].sort(compareCodeUnits);
  if (first.of === "sections") {
    return { of: "sections", sections: union(scopes.map((s) => (s.of === "sections" ? s.sections : []))) };
  }
  if (first.of === "cards")
    return { of: "cards", cards: union(scopes.map((s) => (s.of === "cards" ? s.cards : []))) };
  return first;
};

const unionSeats = (seats: readonly Seat[]): readonly Seat[] => {
  const byKey = new Map(seats.map((seat) => [`${seat.chair}/${seat.member}`, seat]));
  return [...byKey.entries()].sort(([a], [b]) => compareCodeUnits(a, b)).map(([, seat]) => seat);
};

const firstOf = <T>(values: readonly (T | null)[]): T | null =>
  values.find((value) => value !== null) ?? null;

const mergeCluster = (
  slot: string,
  index: number,
  entries: readonly Entry[],
  slips: readonly Slip[],
): Take => {
  const [occasion = "", song = "", no = "1"] = slot.split("/");
  return {
    id: index === 0 ? slot : `${slot}~${index + 1}`,
    song,
    occasion,
    no: Number.parseInt(no, 10) || 1,
    kind: entries[0]?.kind ?? "run",
    at: entries[0]?.at ?? 0,
    seats: unionSeats(entries.flatMap((e) => e.seats)),
    scope: unionScope(entries.map((e) => e.scope)),
    feel: worst(entries.map((e) => e.feel)),
    tempoStart: firstOf(entries.map((e) => e.tempoStart)),
    tempoEnd: firstOf(entries.map((e) => e.tempoEnd)),
    key: firstOf(entries.map((e) => e.key)),
    slips,
    writers: entries.map((e) => e.writer).sort(compareCodeUnits),
    by: [...new Set(entries.flatMap((e) => (e.by === "" ? [] : [e.by])))].sort(compareCodeUnits),
  };
};
