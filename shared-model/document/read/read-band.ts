import * as v from "valibot";
import type { Band, Chair, Gig, GigSong, KeyAsked, Person, ToldOfNight, Waiver } from "../../board/band.ts";
import { GATES } from "../../board/gate.ts";
import type { Settings } from "../../board/settings.ts";
import { isTimeZone } from "../../lib/calendar.ts";
import { CONSTANT_STARTS, constantsOfRecord, isConstant, settingsFrom } from "../constant-keys.ts";
import { byOrder, compareCodeUnits } from "../order-key.ts";
import { BAND, CHAIR, GIG, PERSON, SET_SONG, seat } from "../schema.ts";
import { WAIVER } from "../schema-log.ts";
import { decodeFields, decodeValue, type IssueLog } from "./decode.ts";

type Raw = ReadonlyMap<string, unknown>;

/** The band's constants: each from its own key, else from the record of the first schema, else where it starts. */
const readSettings = (record: unknown, own: Raw, issues: IssueLog): Settings => {
  const { constants, refused } = constantsOfRecord(record);
  if (refused.length > 0) {
    const names = [...refused].sort(compareCodeUnits).join(", ");
    issues.report("band", "settings", `These settings cannot be read and keep their default: ${names}.`);
  }
  const laid = new Map(constants);
  for (const [key, value] of own) {
    if (value === null && CONSTANT_STARTS.has(key)) laid.delete(key);
    else if (isConstant(key, value)) laid.set(key, value);
    else {
      issues.report("settings", key, "This number behind the scores cannot be read and is left out.");
      continue;
    }
    issues.clear("settings", key);
  }
  return settingsFrom(laid);
};

/**
 * Decodes the band.
 * @param own the keys of the root map `settings`
 */
export const readBand = (raw: Raw, own: Raw, issues: IssueLog): Band => {
  const { settings, timeZone, ...fields } = decodeFields(BAND, raw, "band", (field) => field, issues);
  const known = isTimeZone(timeZone);
  if (!known)
    issues.report("band", "timeZone", `The time zone ${timeZone} is unknown; days end at midnight UTC.`);
  return { ...fields, timeZone: known ? timeZone : "UTC", settings: readSettings(settings, own, issues) };
};

export const readChair = (id: string, raw: Raw, issues: IssueLog): Chair | null => {
  const { deleted, ...fields } = decodeFields(CHAIR, raw, "chairs", (f) => `${id}/${f}`, issues);
  if (deleted) return null;
  return { id, ...fields, short: fields.short || fields.name.slice(0, 4), holder: fields.holder || null };
};

export const readPerson = (id: string, raw: Raw, issues: IssueLog): Person | null => {
  const { deleted, ...fields } = decodeFields(PERSON, raw, "people", (f) => `${id}/${f}`, issues);
  return deleted ? null : { id, ...fields };
};

type CalledSongs = Pick<Gig, "songs" | "banned" | "requests" | "keysAsked" | "told">;

const byId = <T>(of: ReadonlyMap<string, T>): ReadonlyMap<string, T> =>
  new Map([...of].sort(([a], [b]) => compareCodeUnits(a, b)));

const readGigSongs = (gig: string, raw: Raw, issues: IssueLog): CalledSongs => {
  const bySong = new Map<string, Map<string, unknown>>();
  for (const [key, value] of raw) {
    const [song = "", field = ""] = key.split("/");
    const record = bySong.get(song) ?? new Map<string, unknown>();
    bySong.set(song, record.set(field, value));
  }
  const songs: (GigSong & { readonly id: string })[] = [];
  const banned: string[] = [];
  const requests = new Map<string, string>();
  const keysAsked = new Map<string, KeyAsked>();
  const told = new Map<string, ToldOfNight>();
  for (const [song, record] of bySong) {
    const { called, askedBy, keyAsked, leftOut, floorDid, ...fields } = decodeFields(
      SET_SONG,
      record,
      "setSongs",
      (f) => `${gig}/${song}/${f}`,
      issues,
    );
    if (called && keyAsked !== null) keysAsked.set(song, keyAsked);
    if (askedBy !== "") requests.set(song, askedBy);
    if (leftOut || floorDid !== "") told.set(song, { leftOut, floorDid });
    if (called) songs.push({ id: song, song, ...fields });
    else if (fields.pin === "not tonight") banned.push(song);
  }
  return {
    songs: songs.sort(byOrder).map(({ id: _, ...entry }) => entry),
    banned: banned.sort(compareCodeUnits),
    requests: byId(requests),
    keysAsked: byId(keysAsked),
    told: byId(told),
  };
};

const readWaivers = (gig: string, raw: Raw, issues: IssueLog): readonly Waiver[] => {
  const waivers: Waiver[] = [];
  for (const [key, value] of [...raw].sort(([a], [b]) => compareCodeUnits(a, b))) {
    const [song = "", gateName = ""] = key.split("/");
    const mark = decodeValue(WAIVER, value, "waivers", `${gig}/${key}`, issues);
    const gate = GATES.find((g) => g === gateName);
    if (mark !== null && gate !== undefined && !mark.withdrawn) {
      waivers.push({ song, gate, by: mark.by, at: mark.at, note: mark.note });
    }
  }
  return waivers;
};

/** Decodes a gig with its songs, line-up and waivers, or null when it was called off. Who is away stands elsewhere. */
export const readGig = (
  id: string,
  raw: { readonly fields: Raw; readonly songs: Raw; readonly lineUp: Raw; readonly waivers: Raw },
  issues: IssueLog,
): Gig | null => {
  const { deleted, ...fields } = decodeFields(GIG, raw.fields, "gigs", (f) => `${id}/${f}`, issues);
  const lineUp = new Map<string, string | null>();
  for (const [chair, value] of [...raw.lineUp].sort(([a], [b]) => compareCodeUnits(a, b))) {
    const member = decodeValue(v.nullable(seat), value, "lineUps", `${id}/${chair}`, issues);
    // null puts the usual player back; an empty seat is a decision.
    if (member !== null) lineUp.set(chair, member || null);
  }
  const called = readGigSongs(id, raw.songs, issues);
  const waivers = readWaivers(id, raw.waivers, issues);
  // Only now, because whether a record is broken must not depend on what became of its gig.
  return deleted ? null : { id, ...fields, ...called, lineUp, away: [], waivers };
};
