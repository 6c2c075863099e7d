/**
 * A band's whole document as one JSON file, and back.
 * Governing rule: nothing is interpreted. Every key of every root map goes out and comes in as it is, known or not,
 * so an export loses nothing that the board could not read either. Shape: see `BoardFile`.
 */
import type { BoardDocument, Json } from "../document/board-document.ts";
import { applyMigrations, unknownMigrations } from "../document/migrations/migrate.ts";
import { ROOT_MAP_NAMES, type RootMap } from "../document/root-maps.ts";
import type { Day } from "../lib/calendar.ts";
import { err, ok, type Result } from "../lib/result.ts";
import { byKey, canonicalJson, whyNotStorable } from "./canonical-json.ts";
import { withoutMark } from "./clean-text.ts";
import { findJsonFault } from "./json-position.ts";

export const BOARD_FORMAT = "tightrow board";
/** Raised when the shape of the file changes; a change of the document is a migration instead. */
export const BOARD_FORMAT_VERSION = 1;

/** A file that was read and found whole: `{format, version, band, exportedOn, maps: {songs: {key: value}, …}}`. */
export interface BoardFile {
  /** The band's name, for people; the board itself takes it from `maps.band`. */
  readonly band: string;
  readonly exportedOn: string;
  readonly maps: ReadonlyMap<RootMap, readonly (readonly [string, Json])[]>;
}

export interface BoardExport {
  readonly text: string;
  /** Keys whose values JSON cannot say. No command writes such a value; a foreign program might. */
  readonly leftOut: readonly { readonly map: RootMap; readonly key: string }[];
}

/** Writes the whole document, keys sorted, one per line. Equal documents give equal files on the same day. */
export const exportBoard = (
  document: Pick<BoardDocument, "get" | "entries">,
  exportedOn: Day,
): BoardExport => {
  const leftOut: { map: RootMap; key: string }[] = [];
  const maps = [...ROOT_MAP_NAMES].sort().map((map) => {
    const lines = [...document.entries(map)].sort(byKey).flatMap(([key, value]) => {
      const written = canonicalJson(value);
      if (written === null) leftOut.push({ map, key });
      return written === null ? [] : [`      ${JSON.stringify(key)}: ${written}`];
    });
    return `    ${JSON.stringify(map)}: ${lines.length === 0 ? "{}" : `{\n${lines.join(",\n")}\n    }`}`;
  });
  const name = document.get("band", "name");
  const header = {
    format: BOARD_FORMAT,
    version: BOARD_FORMAT_VERSION,
    band: typeof name === "string" ? name : "",
    exportedOn,
  };
  const head = Object.entries(header).map(
    ([key, value]) => `  ${JSON.stringify(key)}: ${JSON.stringify(value)},\n`,
  );
  return { text: `{\n${head.join("")}  "maps": {\n${maps.join(",\n")}\n  }\n}\n`, leftOut };
};

/** Reads a file without touching any document. Refuses with one sentence that says where and what to do. */
export const parseBoardFile = (text: string): Result<BoardFile> => {
  const bare = withoutMark(text);
  const root = parseJson(bare);
  if (!root.ok) return root;
  const file = root.value;
  if (!isRecord(file) || file.format !== BOARD_FORMAT) return err(NOT_OURS);
  const version = versionFault(file.version) ?? mapsFault(file.maps);
  if (version !== null || !isRecord(file.maps)) return err(version ?? NOT_OURS);
  const maps = new Map<RootMap, readonly (readonly [string, Json])[]>();
  for (const name of ROOT_MAP_NAMES) {
    const map = Object.hasOwn(file.maps, name) ? file.maps[name] : undefined;
    maps.set(name, isRecord(map) ? Object.entries(map) : []);
  }
  const newer = newerMigration(maps.get("migrations") ?? []);
  return newer === null ? ok({ band: line(file.band), exportedOn: line(file.exportedOn), maps }) : err(newer);
};

/**
 * Puts a file into a document that has no songs, people or anything else yet, all in one transaction.
 * A name and a time zone given to the new band give way to the file's. What the file has not been through is migrated,
 * whatever the new band's own document has been through. `keys`: how many the file holds.
 */
export const importBoard = (
  document: BoardDocument,
  file: BoardFile,
  origin: unknown,
): Result<{ readonly keys: number }> => {
  const taken = ROOT_MAP_NAMES.find(
    (map) => map !== "band" && map !== "migrations" && !document.entries(map).next().done,
  );
  if (taken !== undefined) {
    return err(
      `This band has ${taken} already, and an import would mix the two. Start a new band and import there.`,
    );
  }
  let keys = 0;
  document.transact(origin, (set) => {
    for (const [map, entries] of file.maps) {
      for (const [key, value] of entries) set(map, key, value);
      keys += entries.length;
    }
    applyMigrations(document, set, finishedIn(file.maps.get("migrations") ?? []));
  });
  return ok({ keys });
};

const NOT_OURS = `This is not an exported board: its "format" does not say "${BOARD_FORMAT}". Choose a file that Tightrow exported.`;
const UPDATE = "Update Tightrow and import it again.";

const parseJson = (text: string): Result<Json> => {
  try {
    return ok(JSON.parse(text) as Json);
  } catch {
    const fault = findJsonFault(text);
    const place = fault
      ? `line ${fault.line}, column ${fault.column}: ${fault.what}`
      : "it is nested too deeply";
    return err(`The file is not whole JSON (${place}). Export the board again, or mend that place.`);
  }
};

const versionFault = (version: Json | undefined): string | null => {
  if (typeof version !== "number" || !Number.isInteger(version) || version < 1) {
    return `The file's "version" is ${say(version)}; it should be ${BOARD_FORMAT_VERSION}. Export the board again.`;
  }
  if (version <= BOARD_FORMAT_VERSION) return null;
  return `The file was written by a newer Tightrow (version ${version}; this one reads up to ${BOARD_FORMAT_VERSION}). ${UPDATE}`;
};

const mapsFault = (maps: Json | undefined): string | null => {
  if (!isRecord(maps))
    return `The file's "maps" is ${say(maps)}; it should be an object. Export the board again.`;
  for (const [name, map] of Object.entries(maps)) {
    if (!ROOT_MAP_NAMES.some((known) => known === name)) {
      return `The file has a map ${say(name)} that this Tightrow does not know. ${UPDATE}`;
    }
    if (!isRecord(map))
      return `The map ${say(name)} is ${say(map)}; it should be an object. Export the board again.`;
    for (const [key, value] of Object.entries(map)) {
      const why = whyNotStorable(value);
      if (why !== null)
        return `In the map ${say(name)}, the value of ${say(key)} ${why}. Mend it and import again.`;
    }
  }
  return null;
};

const finishedIn = (entries: readonly (readonly [string, Json])[]): ReadonlySet<string> =>
  new Set(entries.flatMap(([id, done]) => (done === true ? [id] : [])));

/** A document that went through migrations we lack has a shape we cannot read. */
const newerMigration = (entries: readonly (readonly [string, Json])[]): string | null => {
  const [unknown] = unknownMigrations(finishedIn(entries));
  return unknown === undefined
    ? null
    : `The board was changed by a newer Tightrow (migration ${say(unknown)}). ${UPDATE}`;
};

const isRecord = (value: Json | undefined): value is { readonly [key: string]: Json } =>
  typeof value === "object" && value !== null && !Array.isArray(value);

const line = (value: Json | undefined): string => (typeof value === "string" ? value : "");

/** A value in a message, short. */
const say = (value: Json | undefined): string => {
  if (value === undefined) return "missing";
  if (Array.isArray(value)) return "a list";
  if (isRecord(value)) return "an object";
  const written = JSON.stringify(value);
  return written.length > 60 ? `${written.slice(0, 60)}…` : written;
};
