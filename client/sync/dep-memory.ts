/** What a dep's device keeps of its gig between visits: the last it was shown, and what it has answered. */
import * as v from "valibot";
import type { Id } from "#shared/board/ids.ts";
import type { DepAnswer } from "#shared/protocol/dep-api.ts";
import type { KeptAnswer } from "#shared/selectors/dep-view.ts";
import { DEP_GIG, type TaggedGig } from "./dep-api.ts";
import { depKey } from "./dep-key.ts";

export interface DepMemory {
  /** Moment (ms) the way in ends for which this was kept. Another way in may be for another gig. */
  readonly until: number | null;
  readonly shown: TaggedGig | null;
  /** Moment (ms, device clock) it last equalled the server's; null = never. */
  readonly asOf: number | null;
  /** In the order they were given. */
  readonly answers: readonly KeptAnswer[];
}

const EMPTY: DepMemory = { until: null, shown: null, asOf: null, answers: [] };

const ANSWER: v.GenericSchema<unknown, DepAnswer> = v.variant("kind", [
  v.object({ id: v.string(), kind: v.literal("got it"), card: v.string() }),
  v.object({
    id: v.string(),
    kind: v.literal("ask"),
    song: v.string(),
    card: v.optional(v.nullable(v.string())),
    text: v.string(),
  }),
]);
const KEPT: v.GenericSchema<unknown, KeptAnswer> = v.object({
  answer: ANSWER,
  state: v.picklist(["on this phone", "saved", "refused"]),
  sentence: v.string(),
});
const SHOWN = v.object({ gig: DEP_GIG, tag: v.string() });

/** Each part is read on its own: a gig that cannot be read any more must not cost the answers. */
const parse = (text: string | null): DepMemory => {
  let raw: unknown;
  try {
    raw = JSON.parse(text ?? "{}");
  } catch {
    return EMPTY;
  }
  const part = <T>(name: string, schema: v.GenericSchema<unknown, T>, fallback: T): T => {
    const value: unknown = typeof raw === "object" && raw !== null ? Reflect.get(raw, name) : undefined;
    const parsed = v.safeParse(schema, value);
    return parsed.success ? parsed.output : fallback;
  };
  return {
    until: part("until", v.nullable(v.number()), null),
    shown: part("shown", v.nullable(SHOWN), null),
    asOf: part("asOf", v.nullable(v.number()), null),
    answers: part("answers", v.array(v.unknown()), []).flatMap((one) => {
      const kept = v.safeParse(KEPT, one);
      return kept.success ? [kept.output] : [];
    }),
  };
};

export interface DepShelf {
  /** The same reference until something changes; other tabs change it too. */
  readonly read: () => DepMemory;
  readonly change: (change: (memory: DepMemory) => DepMemory) => void;
  /** False when nothing outlives the page. */
  readonly remembers: () => boolean;
}

/**
 * Opens what is kept for one board. What was shown by another way in, such as last month's link, is dropped; answers
 * are kept until the server has judged them.
 * @param known the way in, which ends at `expiresAt` (ms, server clock; null = never)
 * @param storage null = memory only
 */
export const openDepShelf = (
  { board, expiresAt: until }: { readonly board: Id; readonly expiresAt: number | null },
  storage: Pick<Storage, "getItem" | "setItem"> | null,
): DepShelf => {
  let failed = storage === null;
  let last: { readonly text: string | null; readonly memory: DepMemory } = { text: null, memory: EMPTY };
  const read = (): DepMemory => {
    if (failed) return last.memory;
    try {
      const text = storage?.getItem(depKey(board)) ?? null;
      if (text !== last.text) last = { text, memory: parse(text) };
    } catch {
      failed = true;
    }
    return last.memory;
  };
  // Read first: another tab may have written since.
  const change: DepShelf["change"] = (changed) => {
    const memory = changed(read());
    const text = JSON.stringify(memory);
    last = { text, memory };
    if (storage === null) return;
    try {
      storage.setItem(depKey(board), text);
      failed = false;
    } catch {
      failed = true;
    }
  };
  if (read().until !== until) change(({ answers }) => ({ ...EMPTY, until, answers }));
  return { read, change, remembers: () => !failed };
};
