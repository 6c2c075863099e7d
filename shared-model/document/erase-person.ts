/**
 * Takes a person's name out of a document for good, together with `squash`: a change alone would leave the old name in
 * the document's past.
 */
import type { Id } from "../board/ids.ts";
import { joinKey } from "./root-maps.ts";
import type { DocumentEntry } from "./squash.ts";

/** What stands where the name stood. */
export const ERASED_NAME = "Former member";

/**
 * The entries with the person nameless, off the board and off their chairs. The board reads as after `removePerson`:
 * every seat of theirs is empty, the days they were away and their voice are gone, every score is the same to the last bit. Their id, a random word, stays in marks,
 * takes, rulings and in the seats of single songs and nights, so that the others' history keeps its ground.
 * What anybody wrote about them in titles, notes, details and reasons (and in a `by` that holds a name instead of an
 * id) cannot be told from other words and stays: it is for people to read over.
 * A person the document does not know: the entries as they are.
 */
export const erasePerson = (entries: readonly DocumentEntry[], person: Id): readonly DocumentEntry[] => {
  const fields = new Map<string, unknown>([
    [joinKey("people", person, "name"), ERASED_NAME],
    [joinKey("people", person, "deleted"), true],
  ]);
  const others: DocumentEntry[] = [];
  const held = new Set<Id>();
  let known = false;
  for (const entry of entries) {
    if (entry.map === "people" && entry.key.startsWith(`${person}/`)) known = true;
    // What somebody could sing, and when they were away, tells of nobody else.
    if (entry.map === "people" && entry.key === joinKey("people", person, "voice")) continue;
    if (entry.map === "aways" && Reflect.get(Object(entry.value), "person") === person) continue;
    if (entry.map !== "people" || !fields.has(entry.key)) others.push(entry);
    const [chair = "", field] = entry.key.split("/");
    if (entry.map === "chairs" && field === "holder" && entry.value === person) held.add(chair);
  }
  if (!known) return entries;
  // A song that names the chair's usual player says nothing of its own; left alone it would outlast the chair's holder.
  const leaves = ({ map, key, value }: DocumentEntry): boolean => {
    if (value !== person) return false;
    const segments = key.split("/");
    if (map === "chairs") return segments[1] === "holder";
    return map === "castings" && segments[2] === "holder" && held.has(segments[1] ?? "");
  };
  return [
    ...others.map((entry) => (leaves(entry) ? { ...entry, value: "" } : entry)),
    ...[...fields].map(([key, value]): DocumentEntry => ({ map: "people", key, value })),
  ];
};
