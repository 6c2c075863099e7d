/** One take of the rehearsal log as a person would tell it. */
import type { Chair, Gig } from "../board/band.ts";
import type { SongFile } from "../board/board.ts";
import { castingOf } from "../board/line-up.ts";
import type { Severity, Slip, Take } from "../board/take.ts";
import { type Day, dayOf, isDay } from "../lib/calendar.ts";
import { driftPercent } from "../music/tempo.ts";
import { capital, cardName, listed, type Names } from "../readiness/names.ts";

/** What the log says about one slip. */
export interface SlipReading {
  /** Whose or which: `Ending: 'Choke on 4-and' (Keys)`, `Bass`, or `nobody's in particular`. */
  readonly about: string;
  readonly severity: Severity;
}

export interface TakeReading {
  /** Day it was played, in the band's time zone. */
  readonly day: Day;
  /** `run`, `gig at The Counting House`, `solo, Anneli Kuusvirre`… */
  readonly kind: string;
  /** What it covered where that was not the whole song: `Ch1 and Ch2`, `3 details`; else empty. */
  readonly scope: string;
  readonly feel: Take["feel"];
  /** `112 → 115, 2.7 % faster`; `112 at the start`; empty where nobody measured. */
  readonly tempo: string;
  /** Key it was played in where that differs; else empty. */
  readonly key: string;
  /** Worst first; several devices that flagged the same slip count once. */
  readonly slips: readonly SlipReading[];
  /** Players who sit on a playing chair of the song and were not in this take. Empty for solo work. */
  readonly away: readonly string[];
  /** What the song did to the dance floor at that gig: `floor emptied`; else empty. */
  readonly floor: string;
}

/** What a take is read against. */
export interface TakeContext {
  readonly file: SongFile;
  readonly chairs: readonly Chair[];
  readonly gigs: readonly Gig[];
  readonly names: Names;
  readonly timeZone: string;
}

/** The day of a take: written in its occasion, else the gig's, else the day it was logged. */
export const takeDay = (
  take: Pick<Take, "occasion" | "at">,
  { gigs, timeZone }: Pick<TakeContext, "gigs" | "timeZone">,
): Day => {
  const written = take.occasion.slice(-10);
  if (!take.occasion.startsWith("g:") && isDay(written)) return written;
  const gig = gigs.find(({ id }) => take.occasion === `g:${id}`);
  return gig?.date ?? dayOf(take.at, timeZone);
};

/** Reads one take. */
export const readTake = (take: Take, context: TakeContext): TakeReading => ({
  day: takeDay(take, context),
  kind: kindWords(take, context),
  scope: scopeWords(take, context.file),
  feel: take.feel,
  tempo: tempoWords(take.tempoStart, take.tempoEnd),
  key: take.key === null ? "" : `in ${take.key}`,
  slips: slipsOf(take.slips, context),
  away: take.kind === "solo" ? [] : awayFrom(take, context),
  floor: floorWords(take, context.gigs),
});

const kindWords = (take: Take, { gigs, names }: TakeContext): string => {
  if (take.kind === "solo") {
    const who = take.seats[0]?.member;
    return who === undefined ? "solo" : `solo, ${names.member(who)}`;
  }
  const gig = gigs.find(({ id }) => take.occasion === `g:${id}`);
  const name = gig === undefined ? "" : gig.name || gig.place;
  return take.kind === "gig" && name !== "" ? `gig, ${name}` : take.kind;
};

const scopeWords = ({ scope }: Take, { sections, cards }: SongFile): string => {
  if (scope.of === "whole") return "";
  if (scope.of === "sections") {
    const played = sections.filter(({ id }) => scope.sections.includes(id)).map(({ name }) => name);
    return played.length > 0 ? `${listed(played)} only` : "a section that is gone";
  }
  const count = cards.filter(({ id }) => scope.cards.includes(id)).length;
  return count === 1 ? "1 detail only" : `${count} details only`;
};

/** Drift to a tenth of a percent, as the members of a band compare it. */
const tempoWords = (start: number | null, end: number | null): string => {
  if (start === null) return end === null ? "" : `${end} at the end`;
  if (end === null) return `${start} at the start`;
  const drift = Math.round(driftPercent(start, end) * 10) / 10;
  if (drift === 0) return `${start} → ${end}, steady`;
  return `${start} → ${end}, ${Math.abs(drift)} % ${drift > 0 ? "faster" : "slower"}`;
};

const slipsOf = (slips: readonly Slip[], { file, names }: TakeContext): readonly SlipReading[] => {
  const worst = new Map<string, Slip>();
  for (const slip of slips) {
    const key = `${slip.card ?? ""} ${slip.chair ?? ""}`;
    const known = worst.get(key);
    if (known === undefined || slip.severity > known.severity) worst.set(key, slip);
  }
  return [...worst.values()]
    .sort((a, b) => b.severity - a.severity)
    .map((slip) => ({ about: slipWords(slip, file, names), severity: slip.severity }));
};

const slipWords = ({ card: id, chair }: Slip, file: SongFile, names: Names): string => {
  const who = chair === null ? "" : names.chair(chair);
  if (id === null) return who === "" ? "nobody's in particular" : who;
  const card = file.cards.find((candidate) => candidate.id === id);
  const what = card === undefined ? "a detail that is gone" : cardName(file, card);
  return who === "" ? what : `${what} (${who})`;
};

const floorWords = ({ song, occasion }: Take, gigs: readonly Gig[]): string => {
  const did = gigs.find(({ id }) => occasion === `g:${id}`)?.told.get(song)?.floorDid ?? "";
  return did === "" ? "" : `floor ${did}`;
};

/** By chair, because a chair that somebody else sat on was not empty. */
const awayFrom = (take: Take, { file, chairs, names }: TakeContext): readonly string[] => {
  const seated = new Set(take.seats.map(({ chair }) => chair));
  const present = new Set(take.seats.map(({ member }) => member));
  const away = chairs.flatMap(({ id, holder }) => {
    const casting = castingOf(file, id);
    const player = casting.holder ?? holder;
    const missed = casting.plays && !seated.has(id) && player !== null && !present.has(player);
    return missed ? [names.member(player)] : [];
  });
  return [...new Set(away)];
};

/** The take in one sentence, for lists read aloud and for paper. */
export const takeSentence = (reading: TakeReading): string => {
  const parts = [
    `${capital(reading.kind)}: ${reading.feel}`,
    reading.scope,
    reading.key,
    reading.tempo,
    reading.away.length > 0 ? `without ${listed(reading.away)}` : "",
    reading.floor,
  ];
  return `${parts.filter((part) => part !== "").join(", ")}.`;
};
