/**
 * The steps of a history as people would tell them: what one person did to one thing in one go is one entry.
 * Governing rule: no change is told twice and none is left out.
 */
import { equalityDeep } from "lib0/function";
import { splitKey } from "../document/root-maps.ts";
import type { KeyChange } from "../document/stored-values.ts";
import type { History, HistoryStep } from "./history.ts";
import { type RecordKind, type RecordRef, recordOf } from "./record-ref.ts";

/** Who made a change, as far as the rows and keys tell. */
export interface ChangeAuthor {
  /** `server` for what the server wrote itself. */
  readonly device: string;
  /** Null = unknown. */
  readonly member: string | null;
  /** The device that passed it on, where that was another one. */
  readonly sentBy: string | null;
}

export interface HistoryEntry {
  /** Stable for one history. */
  readonly id: string;
  /** First and last row it is made of. */
  readonly firstSeq: number;
  readonly lastSeq: number;
  /** Moment (ms, server clock) of its last row. */
  readonly at: number;
  readonly author: ChangeAuthor;
  /** Kind of all its records. */
  readonly kind: RecordKind;
  /** What it is about: one record, or several of a kind that changed in one go. */
  readonly records: readonly RecordRef[];
  /** From what stood before the entry to what stood after it, by key. Never empty. */
  readonly changes: readonly KeyChange[];
}

/** Rows of one person about one record belong together while no more than this (ms) lies between two of them. */
export const TOGETHER_MS = 60_000;
/** From so many records of a kind in one row they are told as a number. */
export const MANY = 4;

/** Where a map's key names the device that wrote it. */
const WRITER_AT: { readonly [map: string]: number } = {
  texts: 2,
  statuses: 2,
  takes: 3,
  slips: 5,
  answers: 1,
};

/** The person a value says wrote it. */
const memberIn = (value: unknown): string | null => {
  if (typeof value !== "object" || value === null) return null;
  const by: unknown = Reflect.get(value, "by") ?? Reflect.get(value, "createdBy");
  return typeof by === "string" && by !== "" ? by : null;
};

/**
 * The device in the key where it wrote its own register, else the device of the row. Takes, slips and answers that
 * stood before are withdrawn and put back by others too, so of those only a first writing is its writer's.
 */
const authorOf = ({ map, key, before, after }: KeyChange, { device, member }: HistoryStep): ChangeAuthor => {
  const place = WRITER_AT[map];
  const writer = place === undefined ? undefined : splitKey(map, key)?.[place];
  const own = map === "texts" || map === "statuses" || before === undefined;
  const said = before === undefined ? memberIn(after) : null;
  const row = { device, member: member || said, sentBy: null };
  if (writer === undefined || writer === device || !own || device === "server") return row;
  return { device: writer, member: memberIn(after), sentBy: device };
};

interface Draft {
  readonly firstSeq: number;
  lastSeq: number;
  at: number;
  readonly author: ChangeAuthor;
  readonly records: readonly RecordRef[];
  readonly changes: Map<string, KeyChange>;
}

/** Changes of one row by one author about records of one kind. */
interface Bundle {
  readonly author: ChangeAuthor;
  readonly kind: RecordKind;
  readonly byRecord: Map<string, { readonly record: RecordRef; readonly changes: KeyChange[] }>;
}

/** A new detail's own keys name no device; they are whose its words are. */
const authorsOfDetails = (step: HistoryStep): ReadonlyMap<string, ChangeAuthor> =>
  new Map(
    step.changes
      .filter(({ map, before }) => map === "texts" && before === undefined)
      .map((change) => [change.key.slice(0, change.key.indexOf("/")), authorOf(change, step)]),
  );

const bundlesOf = (step: HistoryStep): readonly Bundle[] => {
  const bundles = new Map<string, Bundle>();
  const wrote = authorsOfDetails(step);
  for (const change of step.changes) {
    const { map, key, before } = change;
    const isNew = map === "cards" && before === undefined;
    const author = (isNew && wrote.get(key.slice(0, key.indexOf("/")))) || authorOf(change, step);
    const record = recordOf(change.map, change.key);
    const name = `${record.kind} ${author.device} ${author.member ?? ""} ${author.sentBy ?? ""}`;
    const bundle = bundles.get(name) ?? { author, kind: record.kind, byRecord: new Map() };
    bundles.set(name, bundle);
    const known = bundle.byRecord.get(record.id);
    if (known === undefined) bundle.byRecord.set(record.id, { record, changes: [change] });
    else known.changes.push(change);
  }
  return [...bundles.values()];
};

const sameAuthor = (a: ChangeAuthor, b: ChangeAuthor): boolean =>
  a.device === b.device && a.member === b.member && a.sentBy === b.sentBy;

const addChanges = (draft: Draft, changes: readonly KeyChange[]): void => {
  for (const change of changes) {
    const name = `${change.map}/${change.key}`;
    const first = draft.changes.get(name);
    draft.changes.set(name, first === undefined ? change : { ...change, before: first.before });
  }
};

/** All entries, oldest first. A change that was undone within its entry leaves none. */
export const entriesOf = ({ steps }: Pick<History, "steps">): readonly HistoryEntry[] => {
  const drafts: Draft[] = [];
  /** The latest draft about each record; only that one may grow. */
  const latest = new Map<string, Draft>();

  const put = (
    step: HistoryStep,
    author: ChangeAuthor,
    records: readonly RecordRef[],
    changes: readonly KeyChange[],
  ): void => {
    const names = records.map(({ kind, id }) => `${kind}/${id}`);
    const open = names.length === 1 ? latest.get(names[0] ?? "") : undefined;
    const grows =
      open !== undefined &&
      open.records.length === 1 &&
      sameAuthor(open.author, author) &&
      step.at - open.at <= TOGETHER_MS;
    const draft: Draft = grows
      ? open
      : { firstSeq: step.seq, lastSeq: step.seq, at: step.at, author, records, changes: new Map() };
    if (!grows) drafts.push(draft);
    draft.lastSeq = step.seq;
    draft.at = step.at;
    addChanges(draft, changes);
    for (const name of names) latest.set(name, draft);
  };

  for (const step of steps) {
    for (const { author, byRecord } of bundlesOf(step)) {
      const parts = [...byRecord.values()];
      if (parts.length >= MANY) {
        const records = parts.map(({ record }) => record);
        put(
          step,
          author,
          records,
          parts.flatMap(({ changes }) => changes),
        );
      } else for (const { record, changes } of parts) put(step, author, [record], changes);
    }
  }
  return drafts.flatMap(({ changes, records, ...draft }, i) => {
    const kept = [...changes.values()].filter(({ before, after }) => !equalityDeep(before, after));
    const kind = records[0]?.kind ?? "unknown";
    return kept.length === 0
      ? []
      : [{ ...draft, id: `${draft.firstSeq}.${i}`, kind, records, changes: kept }];
  });
};
