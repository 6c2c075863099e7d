/**
 * Decodes a document into a Board and keeps it current. Total: any document yields a valid board plus issues.
 * Incremental: a touched key rebuilds the records it belongs to and nothing else; a test holds the result equal
 * to a reading from scratch.
 */

import { awayOn } from "../../board/away-on.ts";
import type { Chair, Gig, Person } from "../../board/band.ts";
import type { Board, SongFile } from "../../board/board.ts";
import type { Id } from "../../board/ids.ts";
import type { Away, Rehearsal } from "../../board/rehearsal.ts";
import { isDay } from "../../lib/calendar.ts";
import type { BoardDocument, Touched } from "../board-document.ts";
import { byOrder, compareCodeUnits } from "../order-key.ts";
import { ROOT_MAP_NAMES, type RootMap } from "../root-maps.ts";
import { createIssueLog } from "./decode.ts";
import { createKeyIndex } from "./key-index.ts";
import { readBand, readChair, readGig, readPerson } from "./read-band.ts";
import { readAway, readRehearsal } from "./read-rehearsal.ts";
import { createSongReader } from "./song-reader.ts";

/** How many leading key segments name the record that a key belongs to. */
const LEAD: { readonly [M in RootMap]: number } = {
  band: 0, songs: 1, chairs: 1, people: 1, gigs: 1, sections: 1, castings: 1, setSongs: 1, lineUps: 1, waivers: 1,
  textures: 1, hints: 1, rehearsals: 1, attendance: 1, standIns: 1, pins: 1, aways: 1,
  cards: 1, texts: 1, statuses: 1, takes: 3, slips: 3, rulings: 1, questions: 1, answers: 1, settings: 0, migrations: 0,
}; // biome-ignore format: one glance

export interface BoardReader {
  /** The board as of the last refresh. */
  readonly board: () => Board;
  /** Takes in what a transaction touched and returns the new board (the same reference if nothing changed). */
  readonly refresh: (touched: Touched) => Board;
}

/** Reads the whole document once and then follows it by touched keys. */
export const createBoardReader = (document: BoardDocument): BoardReader => {
  let reader = readAndFollow(document);
  return {
    board: () => reader.board(),
    refresh: (touched) => {
      // No command deletes a key. Where one is gone all the same, other records may have hung on it: read anew.
      if (isSomethingGone(document, touched)) reader = readAndFollow(document);
      return reader.refresh(touched);
    },
  };
};

const isSomethingGone = (document: BoardDocument, touched: Touched): boolean => {
  for (const [map, keys] of touched)
    for (const key of keys) if (document.get(map, key) === undefined) return true;
  return false;
};

/** The same gig as before, while neither it nor who is away has changed: screens tell by that what to draw anew. */
const createWithAway = (): ((gig: Gig, away: readonly Id[]) => Gig) => {
  const known = new WeakMap<Gig, Gig>();
  return (gig, away) => {
    if (away.length === 0) return gig;
    const sorted = [...away].sort(compareCodeUnits);
    const before = known.get(gig);
    if (before !== undefined && before.away.join("/") === sorted.join("/")) return before;
    const now = { ...gig, away: sorted };
    known.set(gig, now);
    return now;
  };
};

const readAndFollow = (document: BoardDocument): BoardReader => {
  const issues = createIssueLog();
  const index = Object.fromEntries(
    ROOT_MAP_NAMES.map((map) => [map, createKeyIndex(document, map, LEAD[map], issues)]),
  ) as { readonly [M in RootMap]: ReturnType<typeof createKeyIndex> };
  const removed = new Set<string>();
  const chairs = new Map<string, Chair>();
  const people = new Map<string, Person>();
  const gigs = new Map<string, Gig>();
  const rehearsals = new Map<string, Rehearsal>();
  const aways = new Map<string, Away>();
  const withAway = createWithAway();
  const songReader = createSongReader(index, (chair) => chairs.has(chair), removed, issues);

  const keepOrRemove = <T>(into: Map<string, T>, map: RootMap, id: string, record: T | null): void => {
    if (record === null) {
      into.delete(id);
      removed.add(`${map}/${id}`);
    } else {
      into.set(id, record);
      removed.delete(`${map}/${id}`);
    }
  };

  const readGigById = (id: string): void => {
    const fields = index.gigs.group(id);
    // A line-up may arrive before its gig; without the gig's own fields there is nothing to show yet.
    if (fields.size === 0) return;
    const raw = {
      fields,
      songs: index.setSongs.group(id),
      lineUp: index.lineUps.group(id),
      waivers: index.waivers.group(id),
    };
    keepOrRemove(gigs, "gigs", id, readGig(id, raw, issues));
  };

  const readRehearsalOf = (day: string): void => {
    const raw = {
      fields: index.rehearsals.group(day),
      attendance: index.attendance.group(day),
      standIns: index.standIns.group(day),
      pins: index.pins.group(day),
    };
    if (!isDay(day)) {
      issues.report("rehearsals", day, "This evening has no day of the calendar and is left out.");
      return;
    }
    const rehearsal = readRehearsal(day, raw, issues);
    if (rehearsal === null && raw.fields.size === 0) rehearsals.delete(day);
    else keepOrRemove(rehearsals, "rehearsals", day, rehearsal);
  };

  const sortedRehearsals = (): readonly Rehearsal[] =>
    [...rehearsals.values()].sort((a, b) => compareCodeUnits(a.day, b.day));

  const sortedAways = (): readonly Away[] =>
    [...aways.values()].sort((a, b) => compareCodeUnits(a.from, b.from) || compareCodeUnits(a.id, b.id));

  const sortedGigs = (): readonly Gig[] =>
    [...gigs.values()]
      .map((gig) => withAway(gig, awayOn({ aways: [...aways.values()], people }, gig.date)))
      .sort((a, b) => compareCodeUnits(a.date, b.date) || compareCodeUnits(a.id, b.id));

  /** `groups`: what to read again, by map. Chairs first, because cards depend on which chairs exist. */
  const update = (groups: ReadonlyMap<RootMap, ReadonlySet<string>>, previous: Board | null): Board => {
    const of = (map: RootMap): ReadonlySet<string> => groups.get(map) ?? new Set();
    const columns = new Set<string>();
    for (const id of of("chairs")) {
      const chair = readChair(id, index.chairs.group(id), issues);
      if ((chair !== null) !== chairs.has(id)) columns.add(id);
      keepOrRemove(chairs, "chairs", id, chair);
    }
    for (const id of of("people"))
      keepOrRemove(people, "people", id, readPerson(id, index.people.group(id), issues));
    const gigIds = new Set([...of("gigs"), ...of("setSongs"), ...of("lineUps"), ...of("waivers")]);
    for (const id of gigIds) readGigById(id);
    const days = new Set([...of("rehearsals"), ...of("attendance"), ...of("standIns"), ...of("pins")]);
    for (const day of days) readRehearsalOf(day);
    for (const id of of("aways")) {
      const away = readAway(id, index.aways.group(id).get(""), issues);
      if (away === null) aways.delete(id);
      else aways.set(id, away);
    }
    const songs: ReadonlyMap<string, SongFile> = songReader.refresh(groups, columns, previous?.songs);
    const sorted = <T extends { order: string; id: string }>(from: Map<string, T>) =>
      [...from.values()].sort(byOrder);
    const stale = (...maps: readonly RootMap[]): boolean =>
      previous === null || maps.some((map) => groups.has(map));
    const band = stale("band", "settings")
      ? readBand(index.band.group(""), index.settings.group(""), issues)
      : (previous as Board).band;
    const sameRemoved =
      previous !== null &&
      previous.removed.size === removed.size &&
      [...removed].every((key) => previous.removed.has(key));
    return {
      band,
      chairs: stale("chairs") ? sorted(chairs) : (previous as Board).chairs,
      people: stale("people")
        ? new Map(sorted(people).map((person) => [person.id, person]))
        : (previous as Board).people,
      gigs: stale("gigs", "setSongs", "lineUps", "waivers", "aways", "people")
        ? sortedGigs()
        : (previous as Board).gigs,
      rehearsals: stale("rehearsals", "attendance", "standIns", "pins")
        ? sortedRehearsals()
        : (previous as Board).rehearsals,
      aways: stale("aways") ? sortedAways() : (previous as Board).aways,
      songs,
      removed: sameRemoved ? previous.removed : new Set([...removed].sort(compareCodeUnits)),
      issues: issues.list(),
      migrations: stale("migrations")
        ? new Set(index.migrations.group("").keys())
        : (previous as Board).migrations,
    };
  };

  for (const map of ROOT_MAP_NAMES) index[map].takeAll();
  let board = update(new Map(ROOT_MAP_NAMES.map((map) => [map, new Set(index[map].groups())])), null);

  return {
    board: () => board,
    refresh: (touched) => {
      const groups = new Map<RootMap, Set<string>>();
      for (const [map, keys] of touched) {
        const found = new Set<string>();
        for (const key of keys) {
          if (document.get(map, key) === undefined) continue;
          const group = index[map].take(key);
          if (group !== null) found.add(group);
        }
        if (found.size > 0) groups.set(map, found);
      }
      const issueCount = issues.list();
      if (groups.size > 0) board = update(groups, board);
      else if (issueCount !== board.issues) board = { ...board, issues: issueCount };
      return board;
    },
  };
};

/** Reads a document from scratch. */
export const readBoard = (document: BoardDocument): Board => createBoardReader(document).board();
