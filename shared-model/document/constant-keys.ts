/**
 * The band's constants by key: `gapSeconds`, `kindWeight.solo`, `claim.3`. One key per number, so that two leaders who
 * change different numbers at the same time both get what they asked for.
 * The first schema kept all of them in one record, `band/settings`. It is read where a constant has no key of its own,
 * so that an old client's late change of an untouched constant counts; where it has one, the key wins.
 */
import { DEFAULT_SETTINGS, type Settings } from "../board/settings.ts";
import type { BoardDocument } from "./board-document.ts";

/** What stands inside a value, by key; a value that holds nothing stands under its own name. */
const spread = (name: string, value: unknown): readonly (readonly [string, unknown])[] =>
  typeof value === "object" && value !== null
    ? Object.entries(value).map(([inside, leaf]) => [`${name}.${inside}`, leaf] as const)
    : [[name, value]];

/** Where every constant starts, by its key. */
export const CONSTANT_STARTS: ReadonlyMap<string, number> = new Map(
  Object.entries(DEFAULT_SETTINGS).flatMap(([name, value]) =>
    spread(name, value).map(([key, start]) => [key, Number(start)] as const),
  ),
);

/** Constants that divide: zero would turn every score into nothing. */
const POSITIVE: ReadonlySet<string> = new Set(["k", "g", "H0", "d", "Hc"]);

/** True when the key names a constant and the value can stand for it. */
export const isConstant = (key: string, value: unknown): value is number =>
  CONSTANT_STARTS.has(key) &&
  typeof value === "number" &&
  Number.isFinite(value) &&
  value >= 0 &&
  !(POSITIVE.has(key) && value === 0);

/** The constants that a record of the first schema (`band/settings`) says, and the keys that cannot be read. */
export const constantsOfRecord = (
  record: unknown,
): { readonly constants: ReadonlyMap<string, number>; readonly refused: readonly string[] } => {
  const constants = new Map<string, number>();
  const refused: string[] = [];
  if (typeof record !== "object" || record === null || Array.isArray(record)) return { constants, refused };
  for (const [name, value] of Object.entries(record)) {
    for (const [key, leaf] of spread(name, value)) {
      if (isConstant(key, leaf)) constants.set(key, leaf);
      else refused.push(key);
    }
  }
  return { constants, refused };
};

/** One constant out of the settings. `key` is one of `CONSTANT_STARTS`. */
export const constantIn = (settings: Settings, key: string): number => {
  const [name = "", inside] = key.split(".");
  const value: unknown = Reflect.get(settings, name);
  return Number(inside === undefined ? value : Reflect.get(Object(value), inside));
};

const filled = (name: string, start: unknown, constants: ReadonlyMap<string, number>): unknown => {
  if (typeof start !== "object" || start === null) return constants.get(name) ?? start;
  const leaves = spread(name, start).map(([key, leaf]) => constants.get(key) ?? leaf);
  return Array.isArray(start)
    ? leaves
    : Object.fromEntries(Object.keys(start).map((inside, i) => [inside, leaves[i]]));
};

/** Settings with the given constants in place of where they start. */
export const settingsFrom = (constants: ReadonlyMap<string, number>): Settings =>
  Object.fromEntries(
    Object.entries(DEFAULT_SETTINGS).map(([name, start]) => [name, filled(name, start, constants)]),
  ) as object as Settings;

/**
 * What a document says about one constant: its own key, else the record of the first schema, else null, which stands
 * for where the constant starts.
 */
export const storedConstant = (get: BoardDocument["get"], key: string): number | null => {
  const own = get("settings", key);
  if (own === null || isConstant(key, own)) return own;
  return constantsOfRecord(get("band", "settings")).constants.get(key) ?? null;
};
