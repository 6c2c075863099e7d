/** What a device does with a damaged copy of the board (fake-indexeddb follows the W3C Indexed Database API 3.0). */
import "fake-indexeddb/auto";
import fc from "fast-check";
import { describe, expect, onTestFinished, test, vi } from "vitest";
import * as Y from "yjs";
import { deleteDatabase, settled } from "#client/sync/database.ts";
import { createFleetingBoard } from "#client/sync/local-board.ts";
import { deleteLocalBoard, openLocalBoard } from "#client/sync/local-persistence.ts";
import { fillFrom, isIncomplete, wholePartOf } from "#client/sync/salvage.ts";
import { COMMANDS } from "#shared/commands/registry.ts";
import { createFakeNetwork, type FakeNetwork } from "#tests/support/fake-network.ts";
import { laws } from "#tests/support/fuzz.ts";
import { BOARD, openPhone, type Phone, type PhoneOptions } from "#tests/support/phone.ts";

let boards = 0;

const start = () => {
  boards += 1;
  const board = `${BOARD}-damaged-${boards}`;
  const network = createFakeNetwork();
  const open = async (name: string, more: Partial<PhoneOptions> = {}): Promise<Phone> => {
    const phone = await openPhone({ network, name, board, openLocal: openLocalBoard, ...more });
    onTestFinished(() => phone.close());
    return phone;
  };
  return {
    board,
    network,
    open,
    other: () => open("other", { openLocal: async () => createFleetingBoard() }),
  };
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
const notes = (phone: Phone): readonly string[] => phone.session().outbox.saveState().notes;

/** Resolves once the phone has what the server has, and the server what the phone has. */
const joined = (network: FakeNetwork, phone: Phone): Promise<void> =>
  vi.waitFor(async () => {
    await network.drain();
    expect(phone.session().outbox.saveState()).toMatchObject({ connection: "connected", unsent: 0 });
  }, 10_000);

const opened = (name: string, version?: number, layOut?: (db: IDBDatabase) => void): Promise<IDBDatabase> => {
  const request = indexedDB.open(name, version);
  request.onupgradeneeded = () => layOut?.(request.result);
  return settled(request);
};

/** Changes the rows of one store as a failing disk would: `change` answers what then stands there. */
const damage = async (
  name: string,
  part: string,
  change: (row: unknown, index: number, of: number) => unknown,
): Promise<void> => {
  const db = await opened(name);
  const objects = db.transaction(part, "readwrite").objectStore(part);
  const [keys, rows] = [await settled(objects.getAllKeys()), await settled(objects.getAll())];
  for (const [i, key] of keys.entries()) await settled(objects.put(change(rows[i], i, keys.length), key));
  db.close();
};

const names = async (): Promise<readonly (string | undefined)[]> =>
  (await indexedDB.databases()).map(({ name }) => name);

const NOISE = Uint8Array.of(255, 255, 255, 255, 7, 9, 1);
const documentOf = (board: string): string => `tightrow.board.${board}`;
const outboxOf = (board: string): string => `tightrow.outbox.${board}`;

describe("[SYNC-3] a damaged copy of the board", () => {
  test("costs one row, not the others: they are read, the copy is put aside, and the person is told", async () => {
    const { board, network, open } = start();
    const phone = await open("phone");
    await network.drain();
    for (const title of ["Marzipan Diesel", "Umbrella Season", "Lantern Tax"])
      run(phone, "addSong", { title });
    await network.drain();
    await phone.close();
    await damage(documentOf(board), "updates", (row, i, of) => (i === of - 2 ? NOISE : row));
    network.cut("phone");
    await phone.restart();
    // The damaged change is gone, and what came after it from the same page waits for it.
    expect(titles(phone)).toContain("Marzipan Diesel");
    expect(notes(phone)).toEqual([
      expect.stringMatching(/Part of what this device kept of the board was damaged/),
    ]);
    network.heal("phone");
    await joined(network, phone);
    expect(titles(phone)).toEqual(["Lantern Tax", "Marzipan Diesel", "Umbrella Season"]);
    expect(phone.session().outbox.saveState()).toMatchObject({ connection: "connected", unsent: 0 });
    await phone.restart();
    expect(notes(phone), "is said once").toEqual([]);
    expect(titles(phone)).toEqual(["Lantern Tax", "Marzipan Diesel", "Umbrella Season"]);
  });

  test("keeps what only this device has, where its rows can be read", async () => {
    const { board, network, open, other } = start();
    const phone = await open("phone");
    await network.drain();
    network.cut("phone");
    // No command: it stands in no outbox.
    phone.session().document.transact("test", (set) => set("band", "name", "Six Spare Fuses"));
    await phone.close();
    const db = await opened(documentOf(board));
    await settled(db.transaction("updates", "readwrite").objectStore("updates").add(NOISE));
    db.close();
    network.heal("phone");
    await phone.restart();
    await joined(network, phone);
    const laptop = await other();
    await joined(network, laptop);
    expect(laptop.store().board().band.name).toBe("Six Spare Fuses");
  });

  test("loses no change that waits: each is run again unless it can still be read", async () => {
    const { board, network, open, other } = start();
    const phone = await open("phone");
    await network.drain();
    network.cut("phone");
    run(phone, "addSong", { title: "Marzipan Diesel" });
    run(phone, "addSong", { title: "Umbrella Season" });
    await phone.close();
    await damage(documentOf(board), "updates", () => NOISE);
    await phone.restart();
    expect(titles(phone)).toEqual([]);
    expect(phone.session().outbox.saveState().unsent).toBe(2);
    network.heal("phone");
    await joined(network, phone);
    const laptop = await other();
    await joined(network, laptop);
    for (const device of [phone, laptop])
      expect(titles(device)).toEqual(["Marzipan Diesel", "Umbrella Season"]);
    expect(phone.session().outbox.saveState()).toMatchObject({ unsent: 0, refused: [] });
  });

  test.each([
    ["of another layout", 1, (db: IDBDatabase) => void db.createObjectStore("strange")],
    ["of a version that this page cannot open", 7, (db: IDBDatabase) => void db.createObjectStore("updates")],
  ])("%s is put aside under its old name and left as it is", async (_, version, layOut) => {
    const { board, network, open } = start();
    const phone = await open("phone");
    await network.drain();
    run(phone, "addSong", { title: "Marzipan Diesel" });
    await network.drain();
    await phone.close();
    await deleteDatabase(documentOf(board));
    (await opened(documentOf(board), version, layOut)).close();
    await phone.restart();
    expect(notes(phone)).toEqual([expect.stringMatching(/fetched from the server again/)]);
    await joined(network, phone);
    expect(titles(phone)).toEqual(["Marzipan Diesel"]);
    await phone.restart();
    expect(notes(phone)).toEqual([]);
    expect(titles(phone), "stored under the next name").toEqual(["Marzipan Diesel"]);
    expect(await names()).toEqual(expect.arrayContaining([documentOf(board), `${documentOf(board)}.1`]));
  });

  test("is kept until the next one is put aside; forgetting the board deletes all of it", async () => {
    const { board, network, open } = start();
    const phone = await open("phone");
    await network.drain();
    const ours = async () => (await names()).filter((name) => name?.startsWith(documentOf(board))).sort();
    for (const generation of ["", ".1", ".2"]) {
      run(phone, "addSong", { title: `Song ${generation}` });
      await network.drain();
      await phone.close();
      await damage(documentOf(board) + generation, "updates", () => "no bytes at all");
      await phone.restart();
      await joined(network, phone);
    }
    expect(await ours()).toEqual([`${documentOf(board)}.2`, `${documentOf(board)}.3`]);
    await phone.close();
    await deleteLocalBoard(board);
    expect((await names()).filter((name) => name?.includes(board))).toEqual([]);
  });

  test("found by two tabs at once moves on once", async () => {
    const { board, network, open } = start();
    const phone = await open("phone");
    await network.drain();
    run(phone, "addSong", { title: "Marzipan Diesel" });
    await network.drain();
    await phone.close();
    await damage(documentOf(board), "updates", (row, i) => (i === 0 ? NOISE : row));
    const locals = await Promise.all([openLocalBoard(board), openLocalBoard(board)]);
    const docs = await Promise.all(locals.map((local) => local.open()));
    for (const doc of docs) expect(doc.getMap("songs").size).toBeGreaterThan(0);
    await Promise.all(locals.map((local) => local.close()));
    const ours = (await names()).filter((name) => name?.startsWith(documentOf(board))).sort();
    expect(ours).toEqual([documentOf(board), `${documentOf(board)}.1`]);
    await phone.restart();
    expect(titles(phone)).toEqual(["Marzipan Diesel"]);
  });
});

describe("a browser that does not answer", () => {
  test("is taken for slow, not for damaged: nothing is put aside", async () => {
    vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
    onTestFinished(() => void vi.useRealTimers());
    const { board } = start();
    const local = await openLocalBoard(board);
    const sentences: string[] = [];
    local.onMended((sentence) => sentences.push(sentence));
    local.onTrouble((sentence) => sentences.push(sentence));
    const silent = vi.spyOn(indexedDB, "open").mockImplementation(() => ({}) as IDBOpenDBRequest);
    onTestFinished(() => silent.mockRestore());
    const opening = local.open();
    await vi.waitFor(async () => {
      await vi.advanceTimersByTimeAsync(1000);
      expect(sentences).toEqual([
        expect.stringMatching(/cannot be read; it is fetched from the server again/),
      ]);
    });
    expect((await opening).getMap("songs").size).toBe(0);
    const other = openLocalBoard(board);
    await vi.advanceTimersByTimeAsync(20_000);
    expect((await other).lasting).toBe(false);
    silent.mockRestore();
    await local.close();
    expect((await names()).filter((name) => name?.startsWith(documentOf(board)))).toEqual([]);
  });
});

describe("[SYNC-3] a damaged outbox", () => {
  test("keeps the entries that cannot be read, and counts them in a sentence", async () => {
    const { board, network, open } = start();
    const phone = await open("phone");
    network.cut("phone");
    run(phone, "addSong", { title: "Marzipan Diesel" });
    run(phone, "addSong", { title: "Umbrella Season" });
    await phone.close();
    await damage(outboxOf(board), "entries", (row, i) =>
      i === 0 ? { ...(row as object), written: 7 } : row,
    );
    network.heal("phone");
    for (let visit = 0; visit < 2; visit++) {
      await phone.restart();
      expect(notes(phone)).toEqual([
        expect.stringMatching(/^One change that waited on this device is damaged/),
      ]);
    }
    await joined(network, phone);
    expect(phone.session().outbox.saveState().unsent).toBe(0);
    await phone.close();
    const db = await opened(outboxOf(board));
    expect(await settled(db.transaction("entries").objectStore("entries").count())).toBe(1);
    db.close();
    await phone.restart();
    phone.session().outbox.forgetNote(notes(phone)[0] ?? "");
    expect(notes(phone)).toEqual([]);
  });

  test("that cannot be opened is put aside; another one begins", async () => {
    const { board, network, open } = start();
    (await opened(outboxOf(board), 9, (db) => void db.createObjectStore("strange"))).close();
    const phone = await open("phone");
    expect(phone.session().lasting).toBe(true);
    expect(notes(phone)).toEqual([expect.stringMatching(/list of changes that waited on this device/)]);
    network.cut("phone");
    run(phone, "addSong", { title: "Marzipan Diesel" });
    await phone.restart();
    expect(phone.session().outbox.saveState().unsent).toBe(1);
    expect(await names()).toContain(outboxOf(board));
  });
});

/** A document whose second half refers to a change of another client that is missing. */
const withGap = (): { readonly rows: readonly Uint8Array[]; readonly gap: Uint8Array } => {
  const author = new Y.Doc();
  const rows: Uint8Array[] = [];
  author.on("update", (update: Uint8Array) => rows.push(update));
  for (const name of ["one", "two", "three"]) author.getMap("band").set("name", name);
  const [first, gap, last] = rows as [Uint8Array, Uint8Array, Uint8Array];
  return { rows: [first, last], gap };
};

describe("[SYNC-3] a copy that refers to something nobody has", () => {
  test("is put aside as soon as the server says so, and what waits is run again", async () => {
    const { network, open, other, board } = start();
    const phone = await open("phone");
    await network.drain();
    run(phone, "addSong", { title: "Marzipan Diesel" });
    await network.drain();
    network.cut("phone");
    run(phone, "addSong", { title: "Umbrella Season" });
    await phone.close();
    const db = await opened(documentOf(board));
    const { rows } = withGap();
    for (const row of rows)
      await settled(db.transaction("updates", "readwrite").objectStore("updates").add(row));
    db.close();
    await phone.restart();
    expect(isIncomplete(phone.session().ydoc)).toBe(true);
    network.heal("phone");
    await phone.restart();
    network.closeWith("phone", 4422);
    await vi.waitFor(async () => {
      await network.drain();
      expect(notes(phone)).toEqual([expect.stringMatching(/Something was missing in what this device kept/)]);
    }, 10_000);
    await joined(network, phone);
    expect(isIncomplete(phone.session().ydoc)).toBe(false);
    const laptop = await other();
    await joined(network, laptop);
    for (const device of [phone, laptop])
      expect(titles(device)).toEqual(["Marzipan Diesel", "Umbrella Season"]);
    expect(await names()).toEqual(expect.arrayContaining([documentOf(board), `${documentOf(board)}.1`]));
  });
});

describe("[SYNC-3] reading what can be read", () => {
  const history = (keys: readonly number[]): readonly Uint8Array[] => {
    const rows: Uint8Array[] = [];
    for (const [i, key] of keys.entries()) {
      const author = new Y.Doc();
      author.on("update", (update: Uint8Array) => rows.push(update));
      author.getMap("band").set(`key${key}-${i}`, i);
    }
    return rows;
  };

  test("loses no row that is sound, whatever stands between", () => {
    const noise = fc.oneof(
      fc.uint8Array({ minLength: 1, maxLength: 40 }),
      fc.string(),
      fc.constant(null),
      fc.nat(),
    );
    fc.assert(
      fc.property(
        fc.array(fc.nat(5), { minLength: 1, maxLength: 12 }),
        fc.array(fc.tuple(fc.nat(12), noise), { maxLength: 6 }),
        (keys, broken) => {
          const sound = history(keys);
          const rows: unknown[] = [...sound];
          for (const [at, row] of broken) rows.splice(Math.min(at, rows.length), 0, row);
          const { ydoc } = fillFrom(rows, "test");
          const alone = new Y.Doc();
          for (const row of sound) Y.applyUpdate(alone, row);
          const kept = ydoc.getMap("band").toJSON();
          expect(kept).toMatchObject(alone.getMap("band").toJSON());
          // The document still takes changes.
          ydoc.getMap("band").set("after", 1);
          expect(ydoc.getMap("band").get("after")).toBe(1);
        },
      ),
      laws(200),
    );
  });

  test("the whole part of a document leaves out what refers to something missing, and nothing else", () => {
    const { rows, gap } = withGap();
    const { ydoc, broken } = fillFrom(rows, "test");
    expect([broken, isIncomplete(ydoc)]).toEqual([0, true]);
    const whole = new Y.Doc();
    Y.applyUpdate(whole, wholePartOf(ydoc));
    expect([isIncomplete(whole), whole.getMap("band").get("name")]).toEqual([false, "one"]);
    const filled = fillFrom([...rows, gap], "test").ydoc;
    expect([isIncomplete(filled), filled.getMap("band").get("name")]).toEqual([false, "three"]);
  });
});
