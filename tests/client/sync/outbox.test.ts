/** Commands on a device with a real IndexedDB behind it (fake-indexeddb follows the W3C Indexed Database API 3.0). */
import "fake-indexeddb/auto";
import { afterEach, describe, expect, onTestFinished, test, vi } from "vitest";
import * as Y from "yjs";
import { NOTHING_KEPT } from "#client/sync/board-session.ts";
import { deleteDatabase, openDatabase, settled } from "#client/sync/database.ts";
import { createFleetingBoard, type KeptEntry } from "#client/sync/local-board.ts";
import { deleteLocalBoard, openLocalBoard } from "#client/sync/local-persistence.ts";
import { createOutbox } from "#client/sync/outbox.ts";
import { createSaveStatus } from "#client/sync/save-status.ts";
import { COMMANDS } from "#shared/commands/registry.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { createFakeNetwork, turn } from "#tests/support/fake-network.ts";
import { BOARD, openPhone, type Phone, type PhoneOptions } from "#tests/support/phone.ts";

let boards = 0;

/** A network and a board of its own name, so that every test finds an empty IndexedDB. */
const start = () => {
  boards += 1;
  const board = `${BOARD}-${boards}`;
  const network = createFakeNetwork();
  const open = async (name: string, more: Partial<PhoneOptions> = {}): Promise<Phone> => {
    const phone = await openPhone({ network, name, board, openLocal: openLocalBoard, ...more });
    onTestFinished(() => phone.close());
    return phone;
  };
  return { board, network, open };
};

const run = (phone: Phone, name: string, args: unknown) => {
  const command = COMMANDS.get(name);
  if (command === undefined) throw new Error(`No command ${name}`);
  const result = phone.store().run(command, args, name);
  if (!result.ok) throw new Error(result.error.sentence);
  return result.value;
};

const titles = (phone: Phone): readonly string[] =>
  [...phone.store().board().songs.values()].map(({ song }) => song.title).sort();

afterEach(() => void vi.unstubAllGlobals());

describe("[SYNC-3] a command in the outbox", () => {
  test("stays over a reload without network, and is saved once there is one", async () => {
    const { network, open } = start();
    const phone = await open("phone");
    network.cut("phone");
    const { id } = run(phone, "addSong", { title: "Marzipan Diesel" });
    await phone.restart();
    expect(titles(phone)).toEqual(["Marzipan Diesel"]);
    expect(phone.session().outbox.stateOf(id)).toBe("on this phone");
    expect(phone.session().outbox.saveState().unsent).toBe(1);
    network.heal("phone");
    await phone.restart();
    await network.drain();
    expect(phone.session().outbox.stateOf(id)).toBe("saved");
    await phone.restart();
    expect(phone.session().outbox.saveState().unsent).toBe(0);
  });

  test("is run again when the stored document is gone, and writes what it wrote", async () => {
    const { board, network, open } = start();
    const phone = await open("phone");
    network.cut("phone");
    const song = run(phone, "addSong", { title: "Marzipan Diesel" });
    run(phone, "reviseSong", { song: song.id, fields: { tempo: 112 } });
    const before = phone.store().board();
    await phone.close();
    await deleteDatabase(`tightrow.board.${board}`);
    await phone.restart();
    expect(titles(phone)).toEqual([]);
    expect(phone.session().outbox.saveState().unsent).toBe(2);
    network.heal("phone");
    await phone.restart();
    await network.drain();
    expect(phone.store().board()).toEqual(before);
    expect(phone.session().outbox.saveState()).toMatchObject({ unsent: 0, refused: [] });
    const other = await open("other", { openLocal: async () => createFleetingBoard() });
    await network.drain();
    expect(other.store().board()).toEqual(before);
  });

  test("together with its undo, is run again as both", async () => {
    const { board, network, open } = start();
    const phone = await open("phone");
    network.cut("phone");
    const added = run(phone, "addSong", { title: "Marzipan Diesel" });
    expect(phone.store().undo(added).ok).toBe(true);
    await phone.close();
    await deleteDatabase(`tightrow.board.${board}`);
    network.heal("phone");
    await phone.restart();
    await network.drain();
    expect(titles(phone)).toEqual([]);
    expect(phone.store().board().removed).toContain(`songs/${added.id}`);
    expect(phone.session().outbox.saveState()).toMatchObject({ unsent: 0, refused: [] });
  });

  test("that cannot be run again is refused with its sentence, until its owner has read it", async () => {
    const { board, network, open } = start();
    const phone = await open("phone");
    network.cut("phone");
    const { id } = run(phone, "addSong", { title: "Marzipan Diesel" });
    await phone.close();
    await deleteDatabase(`tightrow.board.${board}`);
    const other = await open("other", { openLocal: async () => createFleetingBoard() });
    await network.drain();
    run(other, "addSong", { title: "marzipan diesel" });
    await network.drain();
    network.heal("phone");
    await phone.restart();
    await network.drain();
    const refused = {
      id,
      command: "addSong",
      sentence: "There is already a song called “marzipan diesel”. Choose another name, or open that one.",
    };
    expect(phone.session().outbox.stateOf(id)).toBe("refused");
    await phone.restart();
    expect(phone.session().outbox.saveState()).toMatchObject({ unsent: 0, refused: [refused] });
    phone.session().outbox.dismiss(id);
    expect(phone.session().outbox.saveState().refused).toEqual([]);
    await phone.restart();
    expect(phone.session().outbox.saveState().refused).toEqual([]);
  });

  test("whose acknowledgement was lost is asked about, not sent again", async () => {
    const { board, network, open } = start();
    const phone = await open("phone");
    await network.drain();
    const { id } = run(phone, "addSong", { title: "Marzipan Diesel" });
    while ((await network.storage.load(board)).length === 0) await network.deliverOne();
    network.cut("phone");
    while (network.storage.busy) await turn();
    expect(phone.session().outbox.stateOf(id)).toBe("on this phone");
    network.heal("phone");
    await phone.restart();
    expect(phone.session().outbox.saveState().unsent).toBe(1);
    await network.drain();
    expect(phone.session().outbox.stateOf(id)).toBe("saved");
    expect(await network.storage.load(board)).toHaveLength(1);
  });

  test("of another version of the page is refused instead of forgotten", async () => {
    const { board, network, open } = start();
    const local = await openLocalBoard(board);
    const author = { member: null, writer: "phone", role: "leader" } as const;
    local.keep({
      id: "x",
      name: "juggle",
      args: {},
      at: 1,
      author,
      written: [{ map: "band", key: "name", before: undefined, after: "A" }],
      client: 7,
      clock: 3,
    });
    await local.close();
    const phone = await open("phone");
    await network.drain();
    expect(phone.session().outbox.saveState().refused[0]?.sentence).toMatch(/another version/);
  });
});

describe("acknowledgements", () => {
  const entry = {
    name: "addSong",
    args: {},
    at: 1,
    author: { member: null, writer: "w", role: "leader" },
    written: [],
  } as const;
  const open = (entries: readonly KeptEntry[] = []) => {
    const ydoc = new Y.Doc();
    const document = createBoardDocument(ydoc);
    const status = createSaveStatus();
    const outbox = createOutbox({ ydoc, document, local: createFleetingBoard(), status, entries });
    const change = (id: string): void => {
      ydoc.getMap("band").set(id, id);
      outbox.keep({ ...entry, id });
    };
    return { ydoc, outbox, change };
  };

  test("save what lies below the clock, of that client, and nothing else", () => {
    const { ydoc, outbox, change } = open();
    change("first");
    change("second");
    outbox.acknowledge(new Map([[ydoc.clientID + 1, 99]]));
    expect(outbox.saveState().unsent).toBe(2);
    outbox.acknowledge(new Map([[ydoc.clientID, 1]]));
    expect([outbox.stateOf("first"), outbox.stateOf("second")]).toEqual(["saved", "on this phone"]);
    expect([...outbox.waiting()]).toEqual([ydoc.clientID]);
    outbox.acknowledge(new Map([[ydoc.clientID, 2]]));
    expect(outbox.saveState().unsent).toBe(0);
    expect(outbox.stateOf("never heard of")).toBeUndefined();
  });

  test("tell listeners once, and only when something changed", () => {
    const { ydoc, outbox, change } = open();
    change("first");
    const listener = vi.fn();
    outbox.subscribe(listener);
    outbox.acknowledge(new Map([[ydoc.clientID, 0]]));
    expect(listener).not.toHaveBeenCalled();
    outbox.acknowledge(new Map([[ydoc.clientID, 1]]));
    expect(listener).toHaveBeenCalledTimes(1);
  });

  test("of an earlier visit's client save what that visit left", () => {
    const left: KeptEntry = { ...entry, id: "left", client: 4711, clock: 12 };
    const { outbox } = open([left]);
    expect([...outbox.waiting()]).toEqual([4711]);
    outbox.acknowledge(new Map([[4711, 12]]));
    expect(outbox.stateOf("left")).toBe("saved");
  });
});

describe("a device that cannot keep anything", () => {
  test("works while the page is open, and says so", async () => {
    vi.stubGlobal("indexedDB", undefined);
    const { network, open } = start();
    const phone = await open("phone");
    expect(phone.session().outbox.saveState().reason).toBe(NOTHING_KEPT);
    await network.drain();
    const { id } = run(phone, "addSong", { title: "Marzipan Diesel" });
    await network.drain();
    expect(phone.session().outbox.stateOf(id)).toBe("saved");
    expect(phone.session().outbox.saveState()).toMatchObject({
      connection: "connected",
      reason: NOTHING_KEPT,
    });
  });

  test("says so when its memory is full", async () => {
    const { network, open } = start();
    const phone = await open("phone");
    await network.drain();
    const full = vi.spyOn(IDBObjectStore.prototype, "add").mockImplementation(() => {
      throw new DOMException("The quota has been exceeded.", "QuotaExceededError");
    });
    onTestFinished(() => full.mockRestore());
    expect(() => run(phone, "addSong", { title: "Marzipan Diesel" })).not.toThrow();
    await network.drain();
    expect(phone.session().outbox.saveState().reason).toMatch(/cannot store any more/);
  });

  test("deletes everything it kept of a board that is forgotten", async () => {
    const { board, network, open } = start();
    const phone = await open("phone");
    network.cut("phone");
    run(phone, "addSong", { title: "Marzipan Diesel" });
    await phone.close();
    await deleteLocalBoard(board);
    const db = await openDatabase(`tightrow.outbox.${board}`, (created) =>
      created.createObjectStore("entries"),
    );
    expect(await settled(db.transaction("entries").objectStore("entries").count())).toBe(0);
    db.close();
  });
});
