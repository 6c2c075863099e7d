/**
 * What has to be written so that the board reads as it did at an earlier moment.
 * Governing rule: what was not on the board then goes off it and keeps what it holds; of everything that was on it,
 * what counts is compared, not who wrote it when.
 */
import { equalityDeep } from "lib0/function";
import type { RestoreWrite, ValueWrite } from "../commands/restore-write.ts";
import { CONSTANT_STARTS, storedConstant } from "../document/constant-keys.ts";
import { migrate } from "../document/migrations/migrate.ts";
import { NEUTRAL_VALUES } from "../document/neutral-values.ts";
import { RECORD_FIELDS } from "../document/record-fields.ts";
import { type RootMap, splitKey } from "../document/root-maps.ts";
import { createValueStore, documentOver, type StoredValues } from "../document/stored-values.ts";
import { isCardOn, keysOf, type Moments, valueWrite, wasOn } from "./moments.ts";
import { REMOVABLE, REMOVABLE_MAPS, type Removable, readStates, recordOfKey } from "./record-states.ts";
import { logWrites } from "./restore-log.ts";
import { markWrites, wordingWrites } from "./restore-registers.ts";

/** Fields that stand for something even where no key says so. */
const fallbackOf = (map: RootMap, field: string): unknown => RECORD_FIELDS[map]?.[field]?.fallback;

/** Fields of records with keys of their own, where what holds them was on the board then. */
const fieldWrites = (
  moments: Moments,
  map: ValueWrite["map"],
  holds: (segments: readonly string[]) => boolean,
): readonly RestoreWrite[] => {
  const { current, past } = moments;
  const writes: RestoreWrite[] = [];
  for (const key of keysOf(moments, map)) {
    const segments = splitKey(map, key);
    const field = segments?.at(-1) ?? "";
    if (segments === null || field === "deleted" || !holds(segments)) continue;
    const fallback = fallbackOf(map, field);
    const before = past.get(map, key) ?? fallback;
    if (before !== undefined && !equalityDeep(before, current.get(map, key) ?? fallback))
      writes.push(valueWrite(moments, map, key, before));
  }
  return writes;
};

/** What comes back onto the board and what goes off it. */
const presenceWrites = (moments: Moments, map: Removable): readonly RestoreWrite[] => {
  const { states } = moments;
  const writes: RestoreWrite[] = [];
  for (const record of states.current.records(map)) {
    if (isUntouched(moments, map, record)) continue;
    const [before, after] = [states.past.of(map, record), states.current.of(map, record)];
    const wanted = before === "on";
    if (wanted === (after === "on") || after === "absent") continue;
    if (hidesWithItsSong(moments, map, record)) continue;
    writes.push(valueWrite(moments, map, `${record}/deleted`, !wanted));
  }
  return writes;
};

/** Nearly every detail: what says whether it is on the board reads as it did, so its body need not be decoded. */
const isUntouched = ({ current, past }: Moments, map: Removable, record: string): boolean =>
  map === "cards" &&
  current.get(map, `${record}/deleted`) === past.get(map, `${record}/deleted`) &&
  equalityDeep(current.get(map, `${record}/body`), past.get(map, `${record}/body`));

/** Sections and details of a song that was not on the board go off with the song and stay in it. */
const hidesWithItsSong = (moments: Moments, map: Removable, record: string): boolean => {
  if (map === "sections") return !wasOn(moments, "songs", record.split("/")[0] ?? "");
  if (map !== "cards") return false;
  const song = (moments.states.past.body(record) ?? moments.states.current.body(record))?.song;
  return song !== undefined && !wasOn(moments, "songs", song);
};

const constantWrites = (moments: Moments): readonly RestoreWrite[] =>
  [...CONSTANT_STARTS.keys()].flatMap((key) => {
    const before = storedConstant(moments.past.get, key);
    return before === storedConstant(moments.current.get, key)
      ? []
      : [valueWrite(moments, "settings", key, before)];
  });

/** Keys that each hold one whole value, where the night, evening or song they belong to was on the board then. */
const wholeWrites = (
  moments: Moments,
  map: "lineUps" | "standIns" | "pins" | "attendance" | "textures" | "hints",
  holder: Removable,
): readonly RestoreWrite[] => {
  const { current, past } = moments;
  const nothing = NEUTRAL_VALUES[map];
  return [...keysOf(moments, map)].flatMap((key) => {
    const before = past.get(map, key) ?? nothing;
    const changed = !equalityDeep(before, current.get(map, key) ?? nothing);
    // An evening may be known by nothing but who was there.
    const belongs = holder === "rehearsals" || wasOn(moments, holder, key.split("/")[0] ?? "");
    return changed && belongs ? [valueWrite(moments, map, key, before)] : [];
  });
};

/** The earlier moment in today's shape, so that the two can be compared. */
const inTodaysShape = (past: StoredValues): StoredValues => {
  const store = createValueStore(past);
  migrate(documentOver(store));
  return store;
};

/**
 * The writes that take a board back to an earlier moment, in a fixed order. None = it reads as it did then.
 * @param current what stands now
 * @param past what stood then, see `valuesAt`
 */
export const restoreWrites = (current: StoredValues, past: StoredValues): readonly RestoreWrite[] => {
  const earlier = inTodaysShape(past);
  const moments: Moments = {
    current,
    past: earlier,
    states: { current: readStates(current), past: readStates(earlier) },
  };
  const on = (map: Removable) => (segments: readonly string[]) =>
    wasOn(moments, map, segments.slice(0, REMOVABLE[map]).join("/"));
  const onSong = on("songs");
  return [
    ...fieldWrites(moments, "band", ([field]) => field !== "settings"),
    ...constantWrites(moments),
    ...REMOVABLE_MAPS.flatMap((map) => presenceWrites(moments, map)),
    ...fieldWrites(moments, "songs", onSong),
    ...fieldWrites(moments, "sections", (segments) => onSong(segments) && on("sections")(segments)),
    ...fieldWrites(moments, "chairs", on("chairs")),
    ...fieldWrites(moments, "people", on("people")),
    ...fieldWrites(moments, "castings", ([song = "", chair = ""]) => onSong([song]) && on("chairs")([chair])),
    ...wholeWrites(moments, "textures", "songs"),
    ...wholeWrites(moments, "hints", "songs"),
    ...fieldWrites(moments, "cards", ([card = ""]) => isCardOn(moments, card)),
    ...wordingWrites(moments),
    ...markWrites(moments),
    ...logWrites(moments),
    ...fieldWrites(moments, "gigs", on("gigs")),
    ...fieldWrites(moments, "setSongs", on("gigs")),
    ...wholeWrites(moments, "lineUps", "gigs"),
    ...fieldWrites(moments, "rehearsals", on("rehearsals")),
    ...wholeWrites(moments, "attendance", "rehearsals"),
    ...wholeWrites(moments, "standIns", "rehearsals"),
    ...wholeWrites(moments, "pins", "rehearsals"),
  ];
};

/**
 * Those of `writes` that concern the given keys (`map/key`): what one entry of the history changed. A record that
 * came or went by that entry counts with any of its keys.
 */
export const onlyKeys = (
  writes: readonly RestoreWrite[],
  keys: ReadonlySet<string>,
): readonly RestoreWrite[] => {
  const records = new Set<string>();
  const registers = new Set<string>();
  for (const name of keys) {
    const cut = name.indexOf("/");
    const [map, key] = [name.slice(0, cut) as RootMap, name.slice(cut + 1)];
    if (map in REMOVABLE) records.add(`${map}/${recordOfKey(map as Removable, key)}`);
    if (map === "texts" || map === "statuses")
      registers.add(`${map}/${key.split("/").slice(0, 2).join("/")}`);
  }
  return writes.filter((write) => {
    if (write.put === "mark") return registers.has(`statuses/${write.card}/${write.member}`);
    if (write.put === "wording") return registers.has(`texts/${write.card}/${write.field}`);
    const { map, key } = write;
    if (keys.has(`${map}/${key}`)) return true;
    return (
      key.endsWith("/deleted") &&
      map in REMOVABLE &&
      records.has(`${map}/${recordOfKey(map as Removable, key)}`)
    );
  });
};
