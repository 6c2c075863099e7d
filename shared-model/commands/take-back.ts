/**
 * Undo: a compensating command that puts back what one's own command found. Nothing is deleted, so the undo
 * travels, is acknowledged and can itself be taken back like any other change.
 */
import { equalityDeep } from "lib0/function";
import * as v from "valibot";
import type { Board } from "../board/board.ts";
import type { Json, SetKey, Written } from "../document/board-document.ts";
import { constantsOfRecord, storedConstant } from "../document/constant-keys.ts";
import { NEUTRAL_VALUES } from "../document/neutral-values.ts";
import { RECORD_FIELDS } from "../document/record-fields.ts";
import { ROOT_MAP_NAMES, splitKey } from "../document/root-maps.ts";
import { findCard } from "./checks.ts";
import { defineCommand, type RunContext, refuse } from "./command.ts";
import { statusOf } from "./mark-detail.ts";

const written = v.object({
  map: v.picklist(ROOT_MAP_NAMES),
  key: v.string(),
  before: v.unknown(),
  after: v.unknown(),
});

type Marks = Readonly<Record<string, Json>>;
const asMarks = (value: unknown): Marks =>
  typeof value === "object" && value !== null ? (value as Marks) : {};
const numberIn = (marks: Marks, name: string): number => (typeof marks[name] === "number" ? marks[name] : 0);

/** What the record of the first schema says about a constant; null = where it starts. */
const recordedConstant = (stored: RunContext["stored"], key: string): number | null =>
  constantsOfRecord(stored("band", "settings")).constants.get(key) ?? null;

/** The first schema changed all constants in one key; its changes are taken back constant by constant. */
const byConstant = (write: Written): readonly Written[] => {
  if (write.map !== "band" || write.key !== "settings") return [write];
  const before = constantsOfRecord(write.before).constants;
  const after = constantsOfRecord(write.after).constants;
  return [...new Set([...before.keys(), ...after.keys()])]
    .filter((key) => before.get(key) !== after.get(key))
    .map((key) => ({
      map: "settings",
      key,
      before: before.get(key) ?? null,
      after: after.get(key) ?? null,
    }));
};

const writesOf = (args: { readonly written: readonly unknown[] }): readonly Written[] =>
  (args.written as readonly Written[]).flatMap(byConstant);

/** What to write so that `after` counts as never written; undefined = leave the key alone. */
const revert = ({ map, key, before, after }: Written, { now, stored }: RunContext): Json | undefined => {
  const marks = asMarks(after);
  const segments = splitKey(map, key) ?? [];
  const later = Math.max(now, numberIn(marks, "at") + 1);
  switch (map) {
    case "statuses":
      return {
        level: marks.from ?? 0,
        from: marks.level ?? 0,
        anchor: marks.fromAnchor ?? 0,
        fromAnchor: marks.anchor ?? 0,
        at: later,
      };
    case "texts": {
      const writer = segments[2] ?? "";
      return {
        text: marks.was ?? "",
        was: marks.text ?? "",
        base: { ...asMarks(marks.base), [writer]: marks.at ?? 0 },
        by: marks.by ?? "",
        at: later,
      };
    }
    case "takes":
      return before === undefined ? { ...marks, withdrawn: true } : (before as Json);
    case "slips":
      return before === undefined ? { severity: 0, at: marks.at ?? 0 } : (before as Json);
    case "rulings":
    case "questions":
    case "answers":
    case "waivers":
    case "aways":
      return before === undefined ? { ...marks, withdrawn: true } : (before as Json);
    case "lineUps":
    case "standIns":
    case "pins":
    case "attendance":
    case "textures":
    case "hints":
      return before === undefined ? NEUTRAL_VALUES[map] : (before as Json);
    case "settings":
      // Without a key of its own the constant was what an older document's record says.
      return before === undefined ? recordedConstant(stored, key) : (before as Json);
    case "migrations":
      return undefined;
    default: {
      if (before !== undefined) return before as Json;
      const field = segments[segments.length - 1] ?? "";
      // `deleted: false` is written when a record is created: taking that back takes the record off the board.
      if (field === "deleted") return after !== true;
      if (field === "since") return 0;
      return RECORD_FIELDS[map]?.[field]?.fallback as Json | undefined;
    }
  }
};

/**
 * Records that came into being in the run: their other fields, and a detail's words, stay hidden with the record, so
 * that it comes back whole when somebody restores it.
 */
const createdIn = (writes: readonly Written[]): ReadonlySet<string> =>
  new Set(
    writes
      .filter(({ key, before, after }) => key.endsWith("/deleted") && before === undefined && after === false)
      .flatMap(({ map, key }) => {
        const record = key.slice(0, -"deleted".length);
        return map === "cards" ? [`cards/${record}`, `texts/${record}`] : [`${map}/${record}`];
      }),
  );

/** True while what the run wrote is what counts: same stored value, and no other device has spoken since. */
const stillStands = (board: Board, write: Written, { stored, author }: RunContext): boolean => {
  const { map, key } = write;
  const now = map === "settings" ? storedConstant(stored, key) : stored(map, key);
  if (!equalityDeep(write.after, now)) return false;
  const [card = "", field = ""] = key.split("/");
  // Of a detail that is off the board no other mark can be seen, and none can have been made here.
  if (write.map === "statuses")
    return (statusOf(board, card, field)?.writer ?? author.writer) === author.writer;
  if (write.map !== "texts") return true;
  const versions = findCard(board, card)?.card.versions[field === "right" ? "right" : "text"] ?? [];
  return versions.every((version) => version.writer === author.writer);
};

/** Takes one's own change back, provided nobody has changed the same thing since. */
export const takeBack = defineCommand({
  name: "takeBack",
  schema: v.object({ written: v.array(written) }),
  check: (board, args, context) =>
    writesOf(args).every((write) => stillStands(board, write, context))
      ? null
      : refuse(
          "conflict",
          "Somebody has changed this since, so it cannot be undone. Change it by hand instead.",
        ),
  write: (set: SetKey, args, context) => {
    const writes = writesOf(args);
    const created = createdIn(writes);
    for (const write of writes) {
      const inCreated = [...created].some((prefix) => `${write.map}/${write.key}`.startsWith(prefix));
      if (inCreated && !write.key.endsWith("/deleted")) continue;
      const value = revert(write, context);
      if (value !== undefined) set(write.map, write.key, value);
    }
  },
});
