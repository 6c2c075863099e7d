/** What waits in the outbox and is lost from the document is run again by a part of the page that is fetched first. */
import { expect, test } from "vitest";
import * as Y from "yjs";
import { createFleetingBoard, type KeptEntry } from "#client/sync/local-board.ts";
import { createOutbox } from "#client/sync/outbox.ts";
import { replay } from "#client/sync/replay.ts";
import { createSaveStatus } from "#client/sync/save-status.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";

const author = { member: null, writer: "phone", role: "leader" } as const;

const lost = (title: string): KeptEntry => ({
  id: `add-${title}`,
  name: "addSong",
  args: { title },
  at: 1,
  author,
  written: [{ map: "songs", key: "gone/title", before: undefined, after: title }],
  client: 4711,
  clock: 3,
});

/** An outbox whose replaying arrives when the test says so. */
const setup = (entries: readonly KeptEntry[]) => {
  const ydoc = new Y.Doc();
  const fetches: ((answer: typeof replay | null) => void)[] = [];
  const outbox = createOutbox({
    ydoc,
    document: createBoardDocument(ydoc),
    local: createFleetingBoard(),
    status: createSaveStatus(),
    entries,
    loadReplay: () => new Promise((resolve) => fetches.push(resolve)),
  });
  const titles = (): unknown[] =>
    [...ydoc.getMap("songs").entries()].filter(([key]) => key.endsWith("/title")).map(([, title]) => title);
  return { ydoc, outbox, fetches, titles };
};

test("[SYNC-3] while it is fetched, changes are made and acknowledged as always, and each lost one is run again once", async () => {
  const { ydoc, outbox, fetches, titles } = setup([lost("Marzipan Diesel"), lost("Umbrella Season")]);
  const first = outbox.recover();
  const second = outbox.recover();
  ydoc.getMap("band").set("name", "Six Spare Fuses");
  outbox.keep({ id: "typed", name: "startBand", args: {}, at: 2, author, written: [] });
  outbox.acknowledge(new Map([[ydoc.clientID, 1]]));
  expect(outbox.stateOf("typed")).toBe("saved");
  expect(titles()).toEqual([]);
  expect(fetches).toHaveLength(1);
  fetches[0]?.(replay);
  expect(await Promise.all([first, second])).toEqual([true, true]);
  expect(titles()).toEqual(["Marzipan Diesel", "Umbrella Season"]);
  expect(outbox.saveState().unsent).toBe(2);
  outbox.acknowledge(new Map([[ydoc.clientID, Y.getState(ydoc.store, ydoc.clientID)]]));
  expect(outbox.saveState()).toMatchObject({ unsent: 0, refused: [] });
});

test("[SYNC-3] what cannot be fetched now is fetched at the next agreement, and until then nothing is given up", async () => {
  const { outbox, fetches, titles } = setup([lost("Marzipan Diesel")]);
  const first = outbox.recover();
  fetches[0]?.(null);
  expect(await first).toBe(false);
  expect(outbox.saveState()).toMatchObject({ unsent: 1, refused: [] });
  const second = outbox.recover();
  fetches[1]?.(replay);
  expect(await second).toBe(true);
  expect(titles()).toEqual(["Marzipan Diesel"]);
});

test("what arrives meanwhile is not run again, and what another session took over is left to it", async () => {
  const arrived = setup([lost("Marzipan Diesel")]);
  const waiting = arrived.outbox.recover();
  const other = new Y.Doc();
  other.clientID = 4711;
  for (const step of [1, 2, 3]) other.getMap("songs").set("gone/title", `Marzipan Diesel ${step}`);
  Y.applyUpdate(arrived.ydoc, Y.encodeStateAsUpdate(other));
  arrived.fetches[0]?.(replay);
  expect(await waiting).toBe(false);
  expect(arrived.titles()).toEqual(["Marzipan Diesel 3"]);

  const leaving = setup([lost("Marzipan Diesel")]);
  const left = leaving.outbox.recover();
  const taken: KeptEntry[] = [];
  leaving.outbox.handOver(async (entries) => void taken.push(...entries));
  leaving.fetches[0]?.(replay);
  expect(await left).toBe(false);
  expect(leaving.titles()).toEqual([]);
  expect(taken.map(({ id }) => id)).toEqual(["add-Marzipan Diesel"]);
});

test("a page without lost changes fetches nothing", async () => {
  const { outbox, fetches } = setup([]);
  expect(await outbox.recover()).toBe(false);
  expect(fetches).toEqual([]);
});
