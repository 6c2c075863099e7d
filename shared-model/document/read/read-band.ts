import * as v from "valibot";
import type { Band, Chair, Gig, GigSong, Person, Waiver } from "../../board/band.ts";
import { GATES } from "../../board/gate.ts";
import { DEFAULT_SETTINGS, type Settings } from "../../board/settings.ts";
import { isTimeZone } from "../../lib/calendar.ts";
import { byOrder, compareCodeUnits } from "../order-key.ts";
import { BAND, CHAIR, GIG, PERSON, SET_SONG, seat, WAIVER } from "../schema.ts";
import { decodeFields, decodeValue, type IssueLog } from "./decode.ts";

type Raw = ReadonlyMap<string, unknown>;

/** Same shape and finite, non-negative numbers throughout: then a stored constant may replace the default. */
const fits = (value: unknown, model: unknown): boolean => {
  if (typeof model === "number") return typeof value === "number" && Number.isFinite(value) && value >= 0;
  if (typeof value !== "object" || value === null || typeof model !== "object" || model === null)
    return false;
  const keys = Object.keys(model);
  if (Array.isArray(model) !== Array.isArray(value) || Object.keys(value).length !== keys.length)
    return false;
  return keys.every((key) => fits(Reflect.get(value, key), Reflect.get(model, key)));
};

/** Constants that divide: zero would turn every score into nothing. */
const POSITIVE: ReadonlySet<string> = new Set(["k", "g", "H0", "d", "Hc"]);

/** Lays the band's own constants over the defaults; one of another shape is reported and ignored. */
const readSettings = (raw: Readonly<Record<string, unknown>>, issues: IssueLog): Settings => {
  const accepted: Record<string, unknown> = {};
  const refused: string[] = [];
  for (const [name, value] of Object.entries(raw)) {
    const known = Object.hasOwn(DEFAULT_SETTINGS, name);
    if (known && fits(value, Reflect.get(DEFAULT_SETTINGS, name)) && !(POSITIVE.has(name) && value === 0))
      accepted[name] = value;
    else refused.push(name);
  }
  if (refused.length > 0) {
    issues.report(
      "band",
      "settings",
      `These settings cannot be read and keep their default: ${refused.sort(compareCodeUnits).join(", ")}.`,
    );
  }
  return { ...DEFAULT_SETTINGS, ...accepted };
};

export const readBand = (raw: Raw, issues: IssueLog): Band => {
  const { settings, timeZone, ...fields } = decodeFields(BAND, raw, "band", (field) => field, issues);
  const known = isTimeZone(timeZone);
  if (!known)
    issues.report("band", "timeZone", `The time zone ${timeZone} is unknown; days end at midnight UTC.`);
  return { ...fields, timeZone: known ? timeZone : "UTC", settings: readSettings(settings, issues) };
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

const readGigSongs = (gig: string, raw: Raw, issues: IssueLog): readonly GigSong[] => {
  const bySong = new Map<string, Map<string, unknown>>();
  for (const [key, value] of raw) {
    const [song = "", field = ""] = key.split("/");
    const record = bySong.get(song) ?? new Map<string, unknown>();
    bySong.set(song, record.set(field, value));
  }
  const songs: (GigSong & { readonly id: string })[] = [];
  for (const [song, record] of bySong) {
    const { called, ...fields } = decodeFields(
      SET_SONG,
      record,
      "setSongs",
      (f) => `${gig}/${song}/${f}`,
      issues,
    );
    if (called) songs.push({ id: song, song, ...fields });
  }
  return songs.sort(byOrder).map(({ id: _, ...entry }) => entry);
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

/** Decodes a gig with its songs, line-up and waivers, or null when it was called off. */
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
  const songs = readGigSongs(id, raw.songs, issues);
  const waivers = readWaivers(id, raw.waivers, issues);
  // Only now, because whether a record is broken must not depend on what became of its gig.
  return deleted ? null : { id, ...fields, songs, lineUp, waivers };
};
