/**
 * What a restore writes, as data: what shall stand, and what stood when it was planned. It does not depend on the
 * history it was read from, so an outbox can repeat it.
 * Governing rule: a restore undoes only what its planner saw. What was changed since is left alone.
 */
import { equalityDeep } from "lib0/function";
import * as v from "valibot";
import type { Json, SetKey } from "../document/board-document.ts";
import { CARD_TEXTS } from "../document/read/read-card.ts";
import { ROOT_MAP_NAMES, type RootMap, splitKey } from "../document/root-maps.ts";
import { id, level, moment, note } from "../document/schema.ts";
import type { RunContext } from "./command.ts";

/** Maps whose keys a restore sets outright; marks and wordings are registers per device and have forms of their own. */
const SET_MAPS = ROOT_MAP_NAMES.filter(
  (map) => map !== "statuses" && map !== "texts" && map !== "migrations",
);
/** Maps that only grow: what is in them is withdrawn. */
const LOG_MAPS = ["takes", "slips", "rulings", "questions", "answers", "waivers", "aways"] as const;

/** Nested deeper than any value of the board. */
const DEEP = 32;
const isJson = (value: unknown, depth = 0): boolean => {
  if (value === null || typeof value === "string" || typeof value === "boolean") return true;
  if (typeof value === "number") return Number.isFinite(value);
  if (typeof value !== "object" || depth > DEEP) return false;
  return Object.values(value).every((inside) => isJson(inside, depth + 1));
};
const json = v.custom<Json>((value) => isJson(value), "this value cannot be stored");

const UNFIT = "this page does not know such a record";

const valueWrite = v.pipe(
  v.object({
    put: v.literal("value"),
    map: v.picklist(SET_MAPS),
    key: v.string(),
    value: json,
    /** What stood there when the restore was planned; absent = nothing did. */
    seen: v.optional(json),
  }),
  v.check(({ map, key }) => splitKey(map, key) !== null, UNFIT),
);

/** Takes an entry of the log out of it, if it is still the one of that moment (ms). */
const withdrawalWrite = v.pipe(
  v.object({ put: v.literal("withdrawal"), map: v.picklist(LOG_MAPS), key: v.string(), at: moment }),
  v.check(({ map, key }) => splitKey(map, key) !== null, UNFIT),
);

const statusWrite = v.object({
  put: v.literal("mark"),
  card: id,
  member: id,
  level,
  anchor: moment,
  /** What counted when the restore was planned, and the time (ms) of that mark. */
  from: level,
  fromAnchor: moment,
  seenAt: moment,
});

const wordingWrite = v.object({
  put: v.literal("wording"),
  card: id,
  field: v.picklist(CARD_TEXTS),
  text: note,
  was: note,
  /** Every version there was when the restore was planned, writer → at. */
  base: v.record(v.string(), v.number()),
});

export const restoreWrite = v.variant("put", [valueWrite, withdrawalWrite, statusWrite, wordingWrite]);

/** One key that a restore puts back. */
export type RestoreWrite = v.InferOutput<typeof restoreWrite>;
export type ValueWrite = v.InferOutput<typeof valueWrite>;
export type WithdrawalWrite = v.InferOutput<typeof withdrawalWrite>;

/** The log entry as it stands once it is withdrawn. */
const withdrawn = (map: WithdrawalWrite["map"], entry: unknown): Json => ({
  ...(entry as { readonly [name: string]: Json }),
  ...(map === "slips" ? { severity: 0 } : { withdrawn: true }),
});

const atOf = (mark: unknown): number => {
  const at: unknown = typeof mark === "object" && mark !== null ? Reflect.get(mark, "at") : undefined;
  return typeof at === "number" ? at : Number.NEGATIVE_INFINITY;
};

/** Writes what still stands as its planner saw it; everything else somebody has changed since. */
export const writeRestored = (
  set: SetKey,
  writes: readonly RestoreWrite[],
  { now, author, stored }: RunContext,
): void => {
  for (const write of writes) {
    if (write.put === "value") {
      const { map, key, value, seen } = write;
      if (equalityDeep(stored(map, key), seen)) set(map, key, value);
    } else if (write.put === "withdrawal") {
      const entry = stored(write.map, write.key);
      if (atOf(entry) === write.at) set(write.map, write.key, withdrawn(write.map, entry));
    } else if (write.put === "mark") {
      const { card, member, level, anchor, from, fromAnchor, seenAt } = write;
      const key = `${card}/${member}/${author.writer}`;
      // A later mark of another device wins by its time; this device's own would be written over.
      if (atOf(stored("statuses", key)) > seenAt) continue;
      set("statuses", key, { level, from, anchor, fromAnchor, at: Math.max(now, seenAt + 1) });
    } else {
      const { card, field, text, was, base } = write;
      const key = `${card}/${field}/${author.writer}`;
      if (atOf(stored("texts", key)) > (base[author.writer] ?? Number.NEGATIVE_INFINITY)) continue;
      const by = author.member ?? "";
      set("texts", key, {
        text,
        was,
        base,
        by,
        at: Math.max(now, ...Object.values(base).map((at) => at + 1)),
      });
    }
  }
};

/** The leader's side of the board: the band, its constants, waived gates, and questions others asked. */
const LEADERS_MAPS: ReadonlySet<RootMap> = new Set(["band", "settings", "waivers", "questions"]);
/** Registers that a device writes for itself. */
const OWN_MAPS: ReadonlySet<RootMap> = new Set(["takes", "slips", "answers"]);

/** True when somebody who does not lead could have made this change by other commands too. */
export const isOwnToPut = (write: RestoreWrite, { author }: RunContext): boolean => {
  if (write.put === "mark") return write.member === author.member;
  if (write.put === "wording") return true;
  if (OWN_MAPS.has(write.map)) return write.key.endsWith(`/${author.writer}`);
  return !LEADERS_MAPS.has(write.map);
};
