/** What an entry of the history belongs to: songs it is about, the occasion it was made on, the device it came from. */

import type { Id } from "../../board/ids.ts";
import type { StoredValues } from "../../document/stored-values.ts";
import type { HistoryEntry } from "../../history/entries.ts";
import { recordOf } from "../../history/record-ref.ts";
import { textOf } from "./stored-names.ts";

const segment = (id: string, place: number): string => id.split("/")[place] ?? "";

/** Every song an entry is about. `values`: as of the end of the history the entry belongs to; ids outlive removal. */
export const songsOfEntry = (
  { changes }: Pick<HistoryEntry, "changes">,
  values: StoredValues,
): ReadonlySet<Id> => {
  const songs = changes.map(({ map, key, after, before }) => {
    const { kind, id } = recordOf(map, key);
    if (kind === "song") return id;
    if (kind === "section" || kind === "part") return segment(id, 0);
    if (kind === "take") return segment(id, 1);
    if (kind === "detail") return textOf(values.get("cards", `${id}/body`), "song");
    if (kind === "question") return textOf(values.get("questions", id), "song");
    if (kind === "ruling") return textOf(after ?? before, "song");
    return map === "setSongs" || map === "waivers" ? segment(key, 1) : "";
  });
  return new Set(songs.filter((song) => song !== ""));
};

/** Occasions of the takes in an entry: `r:2026-03-04`, `g:gigId`, `s:memberId:2026-03-04`. */
export const occasionsOfEntry = ({ records }: Pick<HistoryEntry, "records">): readonly string[] =>
  records.filter(({ kind }) => kind === "take").map(({ id }) => segment(id, 0));

/** What a day was, by the occasions of its takes: `rehearsal`, `gig at The Counting House`; empty for a day apart. */
export const occasionWords = (
  occasions: Iterable<string>,
  gigs: readonly { readonly id: Id; readonly name: string; readonly place: string }[],
): string => {
  const words = [...occasions].flatMap((occasion) => {
    if (occasion.startsWith("r:")) return ["rehearsal"];
    if (!occasion.startsWith("g:")) return [];
    const gig = gigs.find(({ id }) => occasion === `g:${id}`);
    return [gig === undefined ? "gig" : `gig: ${gig.name || gig.place}`];
  });
  return [...new Set(words)].join(" · ");
};

/**
 * The device that each writer of registers is: the one that handed most of its entries over. A writer names itself
 * once for all boards, the server names devices, and nothing stored says which is which.
 */
export const devicesOfWriters = (
  entries: Iterable<Pick<HistoryEntry, "author">>,
): ReadonlyMap<string, string> => {
  const counts = new Map<string, Map<string, number>>();
  for (const { author } of entries) {
    if (author.sentBy === null) continue;
    const of = counts.get(author.device) ?? new Map<string, number>();
    counts.set(author.device, of.set(author.sentBy, (of.get(author.sentBy) ?? 0) + 1));
  }
  return new Map(
    [...counts].flatMap(([writer, of]) => {
      const [most] = [...of].sort(([, a], [, b]) => b - a);
      return most === undefined ? [] : [[writer, most[0]] as const];
    }),
  );
};
