/**
 * What a browser's storage does at the worst moment: power goes between two writes, the quota is reached, somebody
 * deletes the site's data while the page is open (fake-indexeddb follows the W3C Indexed Database API 3.0).
 * One law for all: what a person typed is saved sooner or later, or the page has said that it cannot be kept.
 */
import "fake-indexeddb/auto";
import { afterEach, describe, expect, onTestFinished, test, vi } from "vitest";
import { deleteDatabase, settled } from "#client/sync/database.ts";
import { createFleetingBoard } from "#client/sync/local-board.ts";
import { openLocalBoard } from "#client/sync/local-persistence.ts";
import { createFakeNetwork, type FakeNetwork, turn } from "#tests/support/fake-network.ts";
import { BOARD, openPhone, type Phone } from "#tests/support/phone.ts";
import { act } from "#tests/support/trace.ts";

const TYPED = ["Marzipan Diesel", "Umbrella Season", "Lantern Tax", "Gravel Compass", "Velvet Tractor"];
const CANNOT_STORE = /cannot store any more.*Keep this page open/;

let boards = 0;
afterEach(() => void vi.restoreAllMocks());

const start = async () => {
  boards += 1;
  const board = `${BOARD}-storage-${boards}`;
  const network = createFakeNetwork();
  const open = async (name: string, openLocal: typeof openLocalBoard): Promise<Phone> => {
    const phone = await openPhone({ network, name, board, openLocal });
    onTestFinished(() => phone.close());
    return phone;
  };
  const phone = await open("phone", openLocalBoard);
  await network.drain();
  network.cut("phone");
  return {
    network,
    phone,
    documentName: `tightrow.board.${board}`,
    outboxName: `tightrow.outbox.${board}`,
    /** What a device without a past gets from the server. */
    onServer: async (): Promise<readonly string[]> => {
      const other = await open("other", async () => createFleetingBoard());
      await network.drain();
      return titles(other);
    },
  };
};

const titles = (phone: Phone): readonly string[] =>
  [...phone.store().board().songs.values()].map(({ song }) => song.title).sort();
const type = (phone: Phone, title: string): void => expect(act(phone, "addSong", { title }, [])).toBe(true);
const said = (phone: Phone): string => phone.session().outbox.saveState().reason;

const online = async (network: FakeNetwork, phone: Phone): Promise<void> => {
  network.heal("phone");
  phone.session().reconnect();
  await vi.waitFor(async () => {
    await network.drain();
    expect(phone.session().outbox.saveState()).toMatchObject({ connection: "connected", unsent: 0 });
  }, 10_000);
};

const opened = (name: string): Promise<IDBDatabase> => settled(indexedDB.open(name));

const countOf = async (name: string, part: string): Promise<number> => {
  const db = await opened(name);
  const count = await settled(db.transaction(part).objectStore(part).count());
  db.close();
  return count;
};

/** Leaves the first rows of a store: the later ones never reached the disk. */
const keepFirst = async (name: string, part: string, rows: number): Promise<void> => {
  const db = await opened(name);
  const objects = db.transaction(part, "readwrite").objectStore(part);
  for (const key of (await settled(objects.getAllKeys())).slice(rows)) await settled(objects.delete(key));
  db.close();
};

describe("[SYNC-3] power lost between the writes of the outbox and of the document", () => {
  const upTo = [0, 1, 2, 3, 4, 5];
  const moments = upTo.flatMap((rows) => upTo.map((entries) => [rows, entries] as const));

  test.each(moments)(
    "with %i changes of five in the document and %i in the outbox, what either has is saved",
    async (rows, entries) => {
      const { network, phone, documentName, outboxName, onServer } = await start();
      await phone.close();
      const before = await countOf(documentName, "updates");
      network.cut("phone");
      await phone.restart();
      for (const title of TYPED) type(phone, title);
      await phone.close();
      expect(await countOf(documentName, "updates")).toBe(before + TYPED.length + 1);
      await keepFirst(documentName, "updates", before + 1 + rows);
      await keepFirst(outboxName, "entries", entries);

      await phone.restart();
      await online(network, phone);
      const kept = TYPED.slice(0, Math.max(rows, entries)).sort();
      expect(titles(phone)).toEqual(kept);
      expect(await onServer()).toEqual(kept);
      expect(phone.session().outbox.saveState().refused).toEqual([]);
    },
  );
});

/** Writes that the browser still takes before its quota is reached; in which store they land is its own affair. */
const takeOnly = (writes: number): void => {
  let left = writes;
  for (const method of ["add", "put"] as const) {
    const real = IDBObjectStore.prototype[method];
    vi.spyOn(IDBObjectStore.prototype, method).mockImplementation(function (this: IDBObjectStore, ...args) {
      if (left <= 0) throw new DOMException("The quota has been exceeded.", "QuotaExceededError");
      left -= 1;
      return real.apply(this, args);
    });
  }
};

describe("[SYNC-3] a quota that is reached", () => {
  const writes = Array.from({ length: 2 * TYPED.length + 1 }, (_, n) => n);

  test.each(writes)(
    "after %i writes stops nobody from typing; all of it is saved while the page is open",
    async (n) => {
      const { network, phone, onServer } = await start();
      takeOnly(n);
      for (const title of TYPED) type(phone, title);
      expect(titles(phone)).toEqual([...TYPED].sort());
      await vi.waitFor(async () => {
        await turn();
        if (n < 2 * TYPED.length) expect(said(phone)).toMatch(CANNOT_STORE);
      });
      await online(network, phone);
      expect(await onServer()).toEqual([...TYPED].sort());
    },
  );

  test.each(writes)("after %i writes loses by a reload only what the page had spoken of", async (n) => {
    const { network, phone, onServer } = await start();
    takeOnly(n);
    for (const title of TYPED) type(phone, title);
    await phone.session().close();
    const warned = said(phone);
    vi.restoreAllMocks();
    await phone.restart();
    await online(network, phone);
    const kept = await onServer();
    if (kept.length < TYPED.length) expect(warned).toMatch(CANNOT_STORE);
    expect(kept).toEqual(titles(phone));
    expect(kept.length).toBeGreaterThanOrEqual(Math.floor(n / 2));
  });
});

describe("[SYNC-3] a site whose data somebody deletes while its page is open", () => {
  test.each([
    ["before", 0],
    ["between", 2],
    ["after", TYPED.length],
  ])("%s the changes says so, and saves them all the same", async (_, typedBefore) => {
    const { network, phone, documentName, outboxName, onServer } = await start();
    for (const title of TYPED.slice(0, typedBefore)) type(phone, title);
    await turn();
    await Promise.all([documentName, outboxName].map(deleteDatabase));
    for (const title of TYPED.slice(typedBefore)) type(phone, title);
    await vi.waitFor(() => expect(said(phone)).toMatch(CANNOT_STORE));
    expect(phone.session().outbox.saveState().unsent).toBe(TYPED.length);
    await online(network, phone);
    expect(await onServer()).toEqual([...TYPED].sort());
    await phone.restart();
    await online(network, phone);
    expect(titles(phone)).toEqual([...TYPED].sort());
  });
});
