/**
 * The log, the rulings and the questions only grow, so going back withdraws what was logged since and puts back what was withdrawn.
 * A key of the log is written for one take or slip only, ever: whoever writes it again speaks of the same thing.
 */
import { equalityDeep } from "lib0/function";
import * as v from "valibot";
import type { RestoreWrite, ValueWrite } from "../commands/restore-write.ts";
import { songOfBody } from "../document/read/read-card.ts";
import { ANSWER, QUESTION, RULING, SLIP_MARK, TAKE_MARK } from "../document/schema.ts";
import { type Moments, valueWrite, wasOn } from "./moments.ts";

interface LogMap {
  readonly map: ValueWrite["map"];
  readonly song: (key: string, raw: unknown, moments: Moments) => string | null;
  readonly counts: (raw: unknown) => boolean;
  /** The entry as withdrawn. */
  readonly withdrawn: (raw: object) => object;
}

const songInKey = (key: string): string | null => key.split("/")[1] ?? null;
const asWithdrawn = (raw: object): object => ({ ...raw, withdrawn: true });

const LOG_MAPS: readonly LogMap[] = [
  {
    map: "takes",
    song: songInKey,
    counts: (raw) => v.is(TAKE_MARK, raw) && raw.withdrawn !== true,
    withdrawn: asWithdrawn,
  },
  {
    map: "slips",
    song: songInKey,
    counts: (raw) => v.is(SLIP_MARK, raw) && raw.severity !== 0,
    withdrawn: (raw) => ({ ...raw, severity: 0 }),
  },
  {
    map: "rulings",
    song: (_key, raw) => songOfBody(raw),
    counts: (raw) => v.is(RULING, raw) && raw.withdrawn !== true,
    withdrawn: asWithdrawn,
  },
  {
    map: "questions",
    song: (_key, raw) => songOfBody(raw),
    counts: (raw) => v.is(QUESTION, raw) && raw.withdrawn !== true,
    withdrawn: asWithdrawn,
  },
  {
    map: "answers",
    song: (key, _raw, { current }) => songOfBody(current.get("questions", key.split("/")[0] ?? "")),
    counts: (raw) => v.is(ANSWER, raw) && raw.withdrawn !== true,
    withdrawn: asWithdrawn,
  },
];

/** What counts now and did not then, or the other way round. */
export const logWrites = (moments: Moments): readonly RestoreWrite[] =>
  LOG_MAPS.flatMap(({ map, song, counts, withdrawn }) => {
    const writes: RestoreWrite[] = [];
    for (const [key, now] of moments.current.entries(map)) {
      const then = moments.past.get(map, key);
      const home = song(key, now, moments);
      if (equalityDeep(then, now) || home === null || !wasOn(moments, "songs", home)) continue;
      if (counts(then)) writes.push(valueWrite(moments, map, key, then));
      else if (counts(now)) writes.push(valueWrite(moments, map, key, withdrawn(Object(now))));
    }
    return writes;
  });
