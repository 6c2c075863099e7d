/** What becomes of changes that wait from an earlier season, once the new season's document is here. */
import type { Id } from "#shared/board/ids.ts";
import type { KeptEntry, LocalBoard } from "./local-board.ts";

/**
 * How far clients' changes are on the server's disk in a document that is closed; null when the server keeps it no
 * longer. Undefined when there is no answer now.
 */
export type AskClosed = (
  document: Id,
  clients: ReadonlySet<number>,
) => Promise<ReadonlyMap<number, number> | null | undefined>;

/** `later`: the server could not be asked. An entry: another tab has run it again, and this is what it kept. */
export type Fate = "saved" | "run again" | "later" | KeptEntry;

export interface CarryOverParts {
  /** Changes of earlier documents, in the order they were kept. */
  readonly entries: readonly KeptEntry[];
  readonly documentOf: (entry: KeptEntry) => Id;
  readonly askClosed: AskClosed;
  readonly local: Pick<LocalBoard, "lasting" | "load">;
  /** Ids of entries that came from this device's storage, where other tabs see them, too. */
  readonly stored: ReadonlySet<string>;
}

/**
 * What had arrived before the season was closed is part of the new one, and perhaps somebody has changed it since: it
 * must not be run again. The same holds for what another tab of this device was quicker with.
 */
export const fatesOf = async (parts: CarryOverParts): Promise<ReadonlyMap<string, Fate>> => {
  const { entries, documentOf, askClosed, local, stored } = parts;
  const fates = new Map<string, Fate>();
  for (const document of new Set(entries.map(documentOf))) {
    const group = entries.filter((entry) => documentOf(entry) === document);
    const durable = await askClosed(document, new Set(group.map(({ client }) => client)));
    for (const { id, client, clock } of group) {
      const arrived = (durable?.get(client) ?? -1) >= clock;
      fates.set(id, durable === undefined ? "later" : arrived ? "saved" : "run again");
    }
  }
  if (!local.lasting) return fates;
  const there = new Map((await local.load()).entries.map((entry) => [entry.id, entry]));
  for (const entry of entries) {
    if (fates.get(entry.id) !== "run again" || !stored.has(entry.id)) continue;
    const now = there.get(entry.id);
    if (now === undefined) fates.set(entry.id, "saved");
    else if (documentOf(now) !== documentOf(entry)) fates.set(entry.id, now);
  }
  return fates;
};
