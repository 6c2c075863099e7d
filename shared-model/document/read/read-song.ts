import type { SongFile } from "../../board/board.ts";
import type { Casting, Ruling, Section, Song } from "../../board/song.ts";
import type { TextureChanges } from "../../board/texture.ts";
import { byOrder, compareCodeUnits } from "../order-key.ts";
import { CASTING, dismissed, SECTION, SONG, TEXTURE } from "../schema.ts";
import { RULING } from "../schema-log.ts";
import { decodeFields, decodeValue, type IssueLog } from "./decode.ts";

type Raw = ReadonlyMap<string, unknown>;

/** Decodes a song, or null when it is marked deleted. */
export const readSong = (id: string, raw: Raw, issues: IssueLog): Song | null => {
  const { keySince, tempoSince, formSince, endingSince, deleted, ...fields } = decodeFields(
    SONG,
    raw,
    "songs",
    (field) => `${id}/${field}`,
    issues,
  );
  if (deleted) return null;
  return { id, ...fields, since: { key: keySince, tempo: tempoSince, form: formSince, ending: endingSince } };
};

/** Splits `id/field` keys of one song into one raw record per id. */
const byFirstSegment = (raw: Raw): Map<string, Map<string, unknown>> => {
  const records = new Map<string, Map<string, unknown>>();
  for (const [key, value] of raw) {
    const cut = key.indexOf("/");
    const id = key.slice(0, cut);
    const record = records.get(id);
    if (record === undefined) records.set(id, new Map([[key.slice(cut + 1), value]]));
    else record.set(key.slice(cut + 1), value);
  }
  return records;
};

/** The form of one song in playing order, and the ids of removed sections. */
export const readSections = (
  song: string,
  raw: Raw,
  issues: IssueLog,
): { readonly live: readonly Section[]; readonly removed: readonly string[] } => {
  const live: Section[] = [];
  const removed: string[] = [];
  for (const [id, record] of byFirstSegment(raw)) {
    const { deleted, ...fields } = decodeFields(
      SECTION,
      record,
      "sections",
      (f) => `${song}/${id}/${f}`,
      issues,
    );
    if (deleted) removed.push(id);
    else live.push({ id, song, ...fields });
  }
  return { live: live.sort(byOrder), removed };
};

/** How one song is cast where it differs from the default, by chair. */
export const readCastings = (song: string, raw: Raw, issues: IssueLog): ReadonlyMap<string, Casting> => {
  const castings = new Map<string, Casting>();
  const records = [...byFirstSegment(raw)].sort(([a], [b]) => compareCodeUnits(a, b));
  for (const [chair, record] of records) {
    const fields = decodeFields(CASTING, record, "castings", (f) => `${song}/${chair}/${f}`, issues);
    castings.set(chair, {
      song,
      chair,
      ...fields,
      holder: fields.holder || null,
      nothingSpecial: fields.nothingSpecial || null,
    });
  }
  return castings;
};

/** What is said of who plays when, by `section/chair/source` in code-unit order. */
export const readTextures = (song: string, raw: Raw, issues: IssueLog): SongFile["textures"] => {
  const said = new Map<string, TextureChanges>();
  for (const [key, value] of [...raw].sort(([a], [b]) => compareCodeUnits(a, b))) {
    const texture = decodeValue(TEXTURE, value, "textures", `${song}/${key}`, issues);
    if (texture !== null && texture.changes.length > 0) said.set(key, texture.changes);
  }
  return said;
};

/** Hints that somebody dismissed for this song, in code-unit order. */
export const readDismissed = (song: string, raw: Raw, issues: IssueLog): ReadonlySet<string> =>
  new Set(
    [...raw.keys()]
      .filter((hint) => decodeValue(dismissed, raw.get(hint), "hints", `${song}/${hint}`, issues))
      .sort(compareCodeUnits),
  );

/** Decodes one ruling, or null when it cannot be read or was taken back. */
export const readRuling = (id: string, raw: unknown, issues: IssueLog): Ruling | null => {
  const ruling = decodeValue(RULING, raw, "rulings", id, issues);
  if (ruling === null || ruling.withdrawn) return null;
  const { withdrawn: _, ...rest } = ruling;
  return { id, ...rest };
};
