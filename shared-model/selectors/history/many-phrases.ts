/** Many things of one kind that changed in one go, as a number: `added 12 songs`, `changed 9 details`. */
import { equalityDeep } from "lib0/function";
import type { KeyChange } from "../../document/stored-values.ts";
import type { HistoryEntry } from "../../history/entries.ts";
import { type RecordKind, type RecordRef, recordOf } from "../../history/record-ref.ts";
import { entryOf, type StoredNames, textOf } from "./stored-names.ts";

/** One and many of a kind. */
export const KIND_WORDS: { readonly [K in RecordKind]: readonly [one: string, many: string] } = {
  band: ["the band's own entries", "the band's own entries"],
  song: ["song", "songs"],
  section: ["section", "sections"],
  part: ["part", "parts"],
  chair: ["chair", "chairs"],
  person: ["person", "people"],
  gig: ["gig", "gigs"],
  rehearsal: ["rehearsal", "rehearsals"],
  away: ["absence", "absences"],
  detail: ["detail", "details"],
  take: ["take", "takes"],
  ruling: ["ruling", "rulings"],
  question: ["question", "questions"],
  upkeep: ["step of upkeep", "steps of upkeep"],
  unknown: ["thing this page has no words for", "things this page has no words for"],
};

/** `12 songs`, `1 song`. */
export const counted = (n: number, kind: RecordKind): string => `${n} ${KIND_WORDS[kind][n === 1 ? 0 : 1]}`;

type Fate = "added" | "removed" | "restored" | "marked" | "changed";

/** Fields that every record of a map is made with. */
const BORN: { readonly [map: string]: string } = {
  songs: "title",
  sections: "name",
  chairs: "name",
  people: "name",
  gigs: "date",
  rehearsals: "booked",
  cards: "body",
};

const isGone = (value: unknown): boolean => value === true || entryOf(value, "withdrawn") === true;

const fateOf = (changes: readonly KeyChange[]): Fate => {
  let isNew = false;
  let fate: Fate | null = null;
  for (const { map, key, before, after } of changes) {
    const field = key.slice(key.lastIndexOf("/") + 1);
    const registers = map === "takes" || map === "rulings" || map === "questions" || map === "aways";
    if ((BORN[map] === field || registers) && before === undefined) isNew = true;
    if ((field !== "deleted" || BORN[map] === undefined) && !registers) continue;
    if (isGone(after)) fate = "removed";
    else if (isGone(before)) fate = "restored";
  }
  if (fate !== null) return fate;
  if (isNew) return "added";
  return changes.every(({ map }) => map === "statuses") ? "marked" : "changed";
};

const FATE_WORDS: { readonly [F in Fate]: (what: string) => string } = {
  added: (what) => `added ${what}`,
  removed: (what) => `took ${what} off the board`,
  restored: (what) => `brought ${what} back`,
  marked: (what) => `marked ${what}`,
  changed: (what) => `changed ${what}`,
};

const LOG_WORDS: typeof FATE_WORDS = {
  ...FATE_WORDS,
  added: (what) => `logged ${what}`,
  removed: (what) => `took ${what} back out of the log`,
  restored: (what) => `put ${what} back into the log`,
};

const songOf = ({ kind, id }: RecordRef, { get }: StoredNames): string | null => {
  if (kind === "section" || kind === "part") return id.split("/")[0] ?? null;
  if (kind === "take") return id.split("/")[1] ?? null;
  return kind === "detail" ? textOf(get("cards", `${id}/body`), "song") : null;
};

/** ` in ‘Marzipan Diesel’` where everything is about one song. */
const inSong = (records: readonly RecordRef[], names: StoredNames): string => {
  const songs = new Set(records.map((record) => songOf(record, names)));
  const [song] = songs;
  return songs.size === 1 && song ? ` in ${names.song(song)}` : "";
};

/** One phrase per fate, in the order they first occur. */
export const manyPhrases = (
  { kind, records, changes }: HistoryEntry,
  names: StoredNames,
): readonly string[] => {
  const byRecord = new Map<string, KeyChange[]>(records.map(({ id }) => [id, []]));
  for (const change of changes) byRecord.get(recordOf(change.map, change.key).id)?.push(change);
  const counts = new Map<Fate, number>();
  for (const own of byRecord.values()) {
    const real = own.filter(({ before, after }) => !equalityDeep(before, after));
    if (real.length > 0) counts.set(fateOf(real), (counts.get(fateOf(real)) ?? 0) + 1);
  }
  const words = kind === "take" ? LOG_WORDS : FATE_WORDS;
  return [...counts].map(([fate, n]) => words[fate](`${counted(n, kind)}${inSong(records, names)}`));
};
