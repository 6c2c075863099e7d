/** How records are called in the history, read from what was stored at that moment; those off the board have names too. */
import { LEVEL_WORDS, type Level } from "../../board/status.ts";
import { createIssueLog } from "../../document/read/decode.ts";
import { readText } from "../../document/read/read-card.ts";
import type { RootMap } from "../../document/root-maps.ts";
import type { StoredValues } from "../../document/stored-values.ts";

const LONGEST = 60;

/** A text in quotes, cut to one line; empty where there is none. */
export const quoted = (text: unknown): string => {
  if (typeof text !== "string") return "";
  const line = [...text.trim().replace(/\s+/g, " ")];
  if (line.length === 0) return "";
  return `‘${line.length > LONGEST ? `${line.slice(0, LONGEST).join("").trimEnd()}…` : line.join("")}’`;
};

export const levelWords = (level: unknown): string => LEVEL_WORDS[level as Level] ?? "something else";

/** One entry of a stored record; undefined for anything that is not a record. */
export const entryOf = (record: unknown, name: string): unknown =>
  typeof record === "object" && record !== null ? Reflect.get(record, name) : undefined;

/** The text of an entry; empty where it holds none. */
export const textOf = (record: unknown, name: string): string => {
  const text = entryOf(record, name);
  return typeof text === "string" ? text : "";
};

/** Names at one moment; total. */
export interface StoredNames {
  readonly song: (id: string) => string;
  readonly section: (song: string, id: string) => string;
  readonly chair: (id: string) => string;
  readonly person: (id: string) => string;
  readonly gig: (id: string) => string;
  /** A detail's words in quotes. */
  readonly detail: (id: string) => string;
  /** `‘Choke on 4-and’ (Drums) in ‘Marzipan Diesel’`. */
  readonly detailInSong: (id: string) => string;
  readonly get: StoredValues["get"];
}

export const storedNames = (values: StoredValues): StoredNames => {
  const text = (map: RootMap, key: string): string => {
    const value = values.get(map, key);
    return typeof value === "string" ? value.replace(/\s+/g, " ").trim() : "";
  };
  const song = (id: string): string => quoted(text("songs", `${id}/title`)) || "a song without a title";
  const chair = (id: string): string => text("chairs", `${id}/name`) || "a chair without a name";
  const detail = (id: string): string => {
    const texts = new Map<string, unknown>();
    for (const [key, value] of values.entries("texts"))
      if (key.startsWith(`${id}/`)) texts.set(key.slice(id.length + 1), value);
    return quoted(readText(id, "text", texts, createIssueLog()).text) || "a detail without words";
  };
  return {
    get: values.get,
    song,
    chair,
    detail,
    section: (of, id) => quoted(text("sections", `${of}/${id}/name`)) || "a section without a name",
    person: (id) => text("people", `${id}/name`) || "somebody",
    gig: (id) => quoted(text("gigs", `${id}/name`) || text("gigs", `${id}/place`)) || "a gig without a name",
    detailInSong: (id) => {
      const body = values.get("cards", `${id}/body`);
      const chairs = entryOf(body, "chairs");
      const [first, ...others] = Array.isArray(chairs) ? chairs : [];
      const more = others.length === 0 ? "" : ` and ${others.length} more`;
      const who = typeof first === "string" ? ` (${chair(first)}${more})` : "";
      return `${detail(id)}${who} in ${song(textOf(body, "song"))}`;
    },
  };
};
