/** Where things are opened. Paths are relative to the board's own base, `#/b/:board`. */
import { isPartCardId } from "#shared/board/ids.ts";
import type { Named } from "#shared/readiness/gate-answer.ts";

const at = (...segments: readonly string[]): string => `/${segments.map(encodeURIComponent).join("/")}`;

export const boardLink = (): string => "/board";
export const partsLink = (): string => "/parts";
/** What to practise at home, or one detail of it. */
export const practiceLink = (song?: string, card?: string): string =>
  song === undefined || card === undefined ? "/parts/practice" : at("parts", "practice", song, card);
export const roomLink = (song?: string): string => (song === undefined ? "/room" : at("room", song));
/** How loud, how long: what an evening does to ears. */
export const soundLink = (): string => "/room/sound";
/** What an evening is to be spent on; the next one unless a day is named. */
export const planLink = (day?: string): string =>
  day === undefined ? "/room/plan" : at("room", "plan", day);
/** What this evening changed. */
export const tonightLink = (): string => "/room/evening/tonight";
/** The repertoire: where songs are added. */
export const songsLink = (): string => "/songs";
/** A song out of a file. */
export const importLink = (): string => "/songs/import";
export const songLink = (song: string): string => at("songs", song);
/** Details dropped while its record runs. */
export const listenLink = (song: string): string => at("songs", song, "listen");
/** The log of a song, opened at one take. */
export const takeLink = (song: string, take: string): string => at("songs", song, "take", take);
/** One part, opened at one detail if named. */
export const partLink = (song: string, chair: string, card?: string): string =>
  card === undefined || isPartCardId(card)
    ? at("songs", song, "part", chair)
    : at("songs", song, "part", chair, card);
/** Why a song's score is what it is. */
export const scoreLink = (song: string): string => at("songs", song, "score");
export const gigsLink = (): string => "/gigs";
export const gigLink = (gig: string): string => at("gigs", gig);
/** How it went, song by song. */
export const debriefLink = (gig: string): string => at("gigs", gig, "debrief");
/** What is played in which order, and why. */
export const orderLink = (gig: string): string => at("gigs", gig, "order");

/** One gig on stage, and what to look after before it. */
export const standLink = (gig: string): string => at("gigs", gig, "stand");
export const loadInLink = (gig: string): string => at("gigs", gig, "load-in");

/** What changed for somebody who was away. */
export const whileOutLink = (): string => "/while-out";

/** What somebody wants to know, over all songs. */
export const questionsLink = (): string => "/questions";

/** Members, deps and the chairs they hold. */
export const peopleLink = (): string => "/people";

/** What was changed on the board and by whom, of one song if named. */
export const historyLink = (song?: string): string => (song === undefined ? "/history" : at("history", song));

/** The board right after one stored change of a season. */
export const momentLink = (document: string, seq: number): string =>
  at("history", "at", document, String(seq));

/** Opens what a "no" names: the run, else the detail or the player's part, else the song. */
export const namedLink = ({ song, card, chair, take }: Named): string => {
  if (take !== undefined) return takeLink(song, take);
  return chair === undefined ? songLink(song) : partLink(song, chair, card);
};
