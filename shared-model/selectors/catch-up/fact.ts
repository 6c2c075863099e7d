/**
 * What one member knows of the board, as facts: one record each of what concerns them, with entries that can be
 * compared one by one. Governing rule: an entry at its default is not kept, so that a later release with one entry
 * more finds no change where nobody made one.
 */
import type { Id } from "../../board/ids.ts";
import type { Json } from "../../document/board-document.ts";
import type { Day } from "../../lib/calendar.ts";

export const FACT_KINDS = [
  "ruling", "detail", "question", "song", "chair", "gig", "rehearsal", "away", "take", "mark", "band",
] as const; // biome-ignore format: one glance
export type FactKind = (typeof FACT_KINDS)[number];

/** Entries by name, in code-unit order of their names. `is` says that the thing is there at all. */
export type FactValue = Readonly<Record<string, Json>>;

export interface Fact {
  /** `kind:id`; the same for good, on every device. */
  readonly key: string;
  readonly kind: FactKind;
  readonly id: Id;
  readonly value: FactValue;
  /** True for an entry that the member wrote themselves, as far as the document says who. `isNew`: they never saw the thing. */
  readonly own: (entry: string, isNew: boolean) => boolean;
}

/** What somebody knows: the entries of every fact by its key. */
export type Known = ReadonlyMap<string, FactValue>;

/** Whose facts, and since when. */
export interface Whose {
  readonly member: Id;
  /** This device: what it marked itself is no news. */
  readonly writer: Id;
  /** Band's day of the last look; older dates are left out. */
  readonly from: Day;
  /** Moment (ms) of the last look. */
  readonly since: number;
}

export const PRESENT = "is";

const isPlain = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** Undefined stands for a default: nothing, no, none, an empty text. */
const kept = (value: unknown): Json | undefined => {
  if (value === null || value === undefined || value === "" || value === false || value === 0)
    return undefined;
  if (value instanceof Map) return kept(Object.fromEntries(value));
  if (Array.isArray(value)) return value.length === 0 ? undefined : value.map((entry) => kept(entry) ?? null);
  if (!isPlain(value)) return value as Json;
  const entries = entriesKept(value);
  return Object.keys(entries).length === 0 ? undefined : entries;
};

const entriesKept = (record: Readonly<Record<string, unknown>>): Record<string, Json> => {
  const entries: Record<string, Json> = Object.create(null);
  for (const name of Object.keys(record).sort()) {
    const value = kept(record[name]);
    if (value !== undefined) entries[name] = value;
  }
  return { ...entries };
};

/** Entries in their one form: sorted, defaults left out, with the sign that the thing is there. */
export const factValue = (record: Readonly<Record<string, unknown>>): FactValue =>
  entriesKept({ ...record, [PRESENT]: true });

export const same = (a: Json | undefined, b: Json | undefined): boolean =>
  a === b || JSON.stringify(a) === JSON.stringify(b);

/** Names of the entries in which two values differ. */
export const entriesThatDiffer = (
  before: FactValue | undefined,
  after: FactValue | undefined,
): readonly string[] =>
  [...new Set([...Object.keys(before ?? {}), ...Object.keys(after ?? {})])]
    .filter((name) => !same(before?.[name], after?.[name]))
    .sort();

/** One entry of a fact as somebody has now read it; undefined = it is not there. */
export interface Cover {
  readonly key: string;
  readonly entry: string;
  readonly value: Json | undefined;
}

/** What is known once these entries are understood as they were shown. What changed since stays unknown. */
export const understand = (known: Known, covers: readonly Cover[]): Known => {
  const next = new Map(known);
  for (const { key, entry, value } of covers) {
    const { [entry]: _, ...others } = next.get(key) ?? {};
    const entries = value === undefined ? others : { ...others, [entry]: value };
    if (Object.keys(entries).length === 0) next.delete(key);
    else next.set(key, Object.fromEntries(Object.entries(entries).sort(([a], [b]) => (a < b ? -1 : 1))));
  }
  return next;
};

/** How these entries were known before; handed to `understand`, it takes the understanding back. */
export const knownBefore = (known: Known, covers: readonly Cover[]): readonly Cover[] =>
  covers.map(({ key, entry }) => ({ key, entry, value: known.get(key)?.[entry] }));

/** What is known once somebody has changed the board themselves: exactly the entries their change touched. */
export const absorb = (known: Known, before: Known, after: Known): Known => {
  const covers: Cover[] = [];
  for (const key of new Set([...before.keys(), ...after.keys()])) {
    const [was, is] = [before.get(key), after.get(key)];
    for (const entry of entriesThatDiffer(was, is)) covers.push({ key, entry, value: is?.[entry] });
  }
  return covers.length === 0 ? known : understand(known, covers);
};
