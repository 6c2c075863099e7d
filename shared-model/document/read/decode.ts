import * as v from "valibot";
import type { Issue } from "../../board/board.ts";
import type { RootMap } from "../root-maps.ts";
import type { Fields, RecordOf } from "../schema.ts";

/** Collects what the reader could not use, one sentence per document key. */
export interface IssueLog {
  readonly report: (map: RootMap, key: string, message: string) => void;
  readonly clear: (map: RootMap, key: string) => void;
  readonly list: () => readonly Issue[];
}

/** An issue log whose list keeps its reference until something changes. */
export const createIssueLog = (): IssueLog => {
  const byKey = new Map<string, Issue>();
  let cached: readonly Issue[] | null = [];
  const name = (map: RootMap, key: string): string => `${map} ${key}`;
  return {
    report: (map, key, message) => {
      if (byKey.get(name(map, key))?.message === message) return;
      byKey.set(name(map, key), { map, key, message });
      cached = null;
    },
    clear: (map, key) => {
      // Nearly always there is nothing to clear, and a board is read with this twenty thousand times.
      if (byKey.size > 0 && byKey.delete(name(map, key))) cached = null;
    },
    list: () => {
      cached ??= [...byKey.entries()].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, issue]) => issue);
      return cached;
    },
  };
};

/** Decodes one JSON value; a broken one is reported and becomes null. */
export const decodeValue = <T>(
  schema: v.GenericSchema<unknown, T>,
  raw: unknown,
  map: RootMap,
  key: string,
  issues: IssueLog,
): T | null => {
  const parsed = v.safeParse(schema, raw);
  if (parsed.success) {
    issues.clear(map, key);
    return parsed.output;
  }
  issues.report(
    map,
    key,
    `This record cannot be read and is left out: ${parsed.issues[0]?.message ?? "unknown shape"}.`,
  );
  return null;
};

/** Decodes the fields of one entity; a missing or broken field takes its default, unknown fields are kept aside. */
export const decodeFields = <F extends Fields>(
  fields: F,
  raw: ReadonlyMap<string, unknown>,
  map: RootMap,
  keyOf: (field: string) => string,
  issues: IssueLog,
): RecordOf<F> => {
  const record: Record<string, unknown> = {};
  for (const [name, { schema, fallback }] of Object.entries(fields)) {
    const value = raw.get(name);
    if (value === undefined) {
      record[name] = fallback;
      continue;
    }
    const parsed = v.safeParse(schema, value);
    record[name] = parsed.success ? parsed.output : fallback;
    if (parsed.success) issues.clear(map, keyOf(name));
    else issues.report(map, keyOf(name), `The ${name} cannot be read; the default stands in for it.`);
  }
  return record as RecordOf<F>;
};
