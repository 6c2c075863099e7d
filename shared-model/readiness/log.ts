/**
 * One song's takes, read once for every unit: in order of (at, id), each id once, up to the cut,
 * with the slips sorted into what they were about.
 */
import { type Id, isPartCardId, partCardId } from "../board/ids.ts";
import type { Settings } from "../board/settings.ts";
import type { Slip, Take, TakeKind } from "../board/take.ts";
import type { Lamp } from "./lit.ts";

/** What one take says about one unit. */
export interface UnitEvent extends Lamp {
  readonly take: Take;
  readonly outcome: "clean" | "slip";
  /** Kind it counts as: a shared detail played without its partners counts as solo. */
  readonly kind: TakeKind;
  /** Quality of a clean take: 1 clean, .5 wobble, for the band times (share present)². 0 for a slip. */
  readonly quality: number;
  /** Worst severity of a slip; 0 for a clean take. */
  readonly severity: number;
}

export interface LoggedTake {
  readonly take: Take;
  /** Position in the log. */
  readonly place: number;
  /** The event a clean unit of this take shares; null when it was stopped. */
  readonly clean: UnitEvent | null;
  /** The same, counted as solo work. */
  readonly cleanAlone: UnitEvent | null;
  /** Slips on written details. */
  readonly cardSlips: readonly Slip[];
  /** Slips on a chair without a detail: they are about the part itself. */
  readonly partSlips: readonly Slip[];
  /** Worst slip that nobody could place; 0 = none. */
  readonly unattributed: number;
}

export type SongLog = readonly LoggedTake[];

const NONE: readonly Slip[] = [];

/** Reads the takes up to and including `cut` (ms). `q` of a wobble is half that of a clean take. */
export const readLog = (song: Id, takes: readonly Take[], cut: number, settings: Settings): SongLog =>
  inOrder(takes)
    .filter((take) => take.at <= cut)
    .map((take, place) => loggedTake(song, take, place, settings));

/** By (at, id), each id once; the list itself when it is in order already. */
const inOrder = (takes: readonly Take[]): readonly Take[] => {
  const sorted = takes.every((take, i) => {
    const before = takes[i - 1];
    return before === undefined || isBefore(before, take);
  });
  if (sorted) return takes;
  const seen = new Set<string>();
  return [...takes]
    .sort((a, b) => (isBefore(a, b) ? -1 : isBefore(b, a) ? 1 : 0))
    .filter((take) => !seen.has(take.id) && seen.add(take.id));
};

const isBefore = (a: Take, b: Take): boolean => a.at < b.at || (a.at === b.at && a.id < b.id);

const loggedTake = (song: Id, take: Take, place: number, settings: Settings): LoggedTake => {
  const quality = qualityOf(take);
  const stopped = quality === 0;
  const clean = stopped ? null : cleanEvent(take, take.kind, quality, settings);
  const cleanAlone = take.kind === "solo" || stopped ? clean : cleanEvent(take, "solo", quality, settings);
  if (take.slips.length === 0) {
    return { take, place, clean, cleanAlone, cardSlips: NONE, partSlips: NONE, unattributed: 0 };
  }
  const slips = take.slips.map((slip) => aboutThePart(song, slip));
  const unplaced = slips.filter((slip) => slip.card === null && slip.chair === null);
  return {
    take,
    place,
    clean,
    cleanAlone,
    cardSlips: slips.filter((slip) => slip.card !== null),
    partSlips: slips.filter((slip) => slip.card === null && slip.chair !== null),
    unattributed: worst(unplaced, () => true),
  };
};

/** A slip on the implicit card of a part is a slip on its chair. */
const aboutThePart = (song: Id, slip: Slip): Slip => {
  if (slip.card === null || !isPartCardId(slip.card)) return slip;
  const prefix = partCardId(song, "");
  const chair = slip.card.startsWith(prefix) ? slip.card.slice(prefix.length) : slip.chair;
  return { ...slip, card: null, chair };
};

/** 1 clean, .5 wobble, 0 stopped. */
export const qualityOf = (take: Take): number =>
  take.feel === "clean" ? 1 : take.feel === "wobble" ? 0.5 : 0;

export const cleanEvent = (take: Take, kind: TakeKind, quality: number, settings: Settings): UnitEvent => ({
  at: take.at,
  bright: settings.kindWeight[kind] * quality,
  take,
  outcome: "clean",
  kind,
  quality,
  severity: 0,
});

export const slipEvent = (take: Take, kind: TakeKind, severity: number): UnitEvent => ({
  at: take.at,
  bright: 0,
  take,
  outcome: "slip",
  kind,
  quality: 0,
  severity,
});

/** Worst severity among the slips that match; 0 = none. */
export const worst = (slips: readonly Slip[], matches: (slip: Slip) => boolean): number => {
  let severity = 0;
  for (const slip of slips) if (slip.severity > severity && matches(slip)) severity = slip.severity;
  return severity;
};

/** Worst slip on a card in a take, on one chair or on a chair nobody named. */
export const cardSlip = (logged: LoggedTake, card: Id, chair: Id | null): number =>
  logged.cardSlips.length === 0
    ? 0
    : worst(logged.cardSlips, (slip) => slip.card === card && (slip.chair === null || slip.chair === chair));

/** Worst slip on a chair without a detail. */
export const partSlip = (logged: LoggedTake, chair: Id): number =>
  logged.partSlips.length === 0 ? 0 : worst(logged.partSlips, (slip) => slip.chair === chair);

/** By card id or part card id: the takes that name it, in a slip or in their scope. In order of time. */
export type Mentions = ReadonlyMap<Id, SongLog>;

export const readMentions = (song: Id, log: SongLog): Mentions => {
  const mentions = new Map<Id, LoggedTake[]>();
  const mention = (id: Id, logged: LoggedTake): void => {
    const takes = mentions.get(id);
    if (takes === undefined) mentions.set(id, [logged]);
    else if (takes.at(-1) !== logged) takes.push(logged);
  };
  for (const logged of log) {
    const { scope } = logged.take;
    for (const { card } of logged.cardSlips) if (card !== null) mention(card, logged);
    for (const { chair } of logged.partSlips) if (chair !== null) mention(partCardId(song, chair), logged);
    if (scope.of === "cards") for (const card of scope.cards) mention(card, logged);
  }
  return mentions;
};

/** True when any seat of the take says that the member held the chair. */
export const satOn = (take: Take, chair: Id, member: Id): boolean => {
  for (const seat of take.seats) if (seat.chair === chair && seat.member === member) return true;
  return false;
};
