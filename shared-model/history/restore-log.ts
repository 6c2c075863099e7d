/**
 * The log, the rulings, the questions, the waivers and the days away only grow, so going back withdraws what was logged since and puts back what was withdrawn.
 * A key of the log is written for one take or slip only, ever: whoever writes it again speaks of the same thing.
 */
import { equalityDeep } from "lib0/function";
import * as v from "valibot";
import type { RestoreWrite, WithdrawalWrite } from "../commands/restore-write.ts";
import { songOfBody } from "../document/read/read-card.ts";
import { splitKey } from "../document/root-maps.ts";
import { AWAY } from "../document/schema.ts";
import { ANSWER, QUESTION, RULING, SLIP_MARK, TAKE_MARK, WAIVER } from "../document/schema-log.ts";
import { type Moments, valueWrite, wasOn } from "./moments.ts";

interface LogMap {
  readonly map: WithdrawalWrite["map"];
  /** True when what the entry belongs to was on the board then. */
  readonly belongs: (moments: Moments, key: string, raw: unknown) => boolean;
  readonly counts: (raw: unknown) => boolean;
}

const ofSong = (moments: Moments, song: string | null): boolean =>
  song !== null && wasOn(moments, "songs", song);
const songInKey = (moments: Moments, key: string): boolean => ofSong(moments, key.split("/")[1] ?? null);
const songInBody = (moments: Moments, _key: string, raw: unknown): boolean =>
  ofSong(moments, songOfBody(raw));

const LOG_MAPS: readonly LogMap[] = [
  {
    map: "takes",
    belongs: songInKey,
    counts: (raw) => v.is(TAKE_MARK, raw) && raw.withdrawn !== true,
  },
  {
    map: "slips",
    belongs: songInKey,
    counts: (raw) => v.is(SLIP_MARK, raw) && raw.severity !== 0,
  },
  {
    map: "rulings",
    belongs: songInBody,
    counts: (raw) => v.is(RULING, raw) && raw.withdrawn !== true,
  },
  {
    map: "questions",
    belongs: songInBody,
    counts: (raw) => v.is(QUESTION, raw) && raw.withdrawn !== true,
  },
  {
    map: "answers",
    belongs: (moments, key) =>
      ofSong(moments, songOfBody(moments.current.get("questions", key.split("/")[0] ?? ""))),
    counts: (raw) => v.is(ANSWER, raw) && raw.withdrawn !== true,
  },
  {
    map: "waivers",
    belongs: (moments, key) => wasOn(moments, "gigs", key.split("/")[0] ?? ""),
    counts: (raw) => v.is(WAIVER, raw) && raw.withdrawn !== true,
  },
  {
    map: "aways",
    belongs: () => true,
    counts: (raw) => v.is(AWAY, raw) && raw.withdrawn !== true,
  },
];

/** What counts now and did not then, or the other way round. */
export const logWrites = (moments: Moments): readonly RestoreWrite[] =>
  LOG_MAPS.flatMap(({ map, belongs, counts }) => {
    const writes: RestoreWrite[] = [];
    for (const [key, now] of moments.current.entries(map)) {
      const then = moments.past.get(map, key);
      if (equalityDeep(then, now) || splitKey(map, key) === null || !belongs(moments, key, now)) continue;
      if (counts(then)) writes.push(valueWrite(moments, map, key, then));
      else if (counts(now))
        writes.push({ put: "withdrawal", map, key, at: Number(Reflect.get(Object(now), "at")) });
    }
    return writes;
  });
