/**
 * A device that writes under one Yjs client id through all its visits. Two different structs under one id and clock
 * would part the replicas for ever, so the ledger of all changes ever made must never show one twice.
 */
import fc from "fast-check";
import { afterEach, beforeEach, describe, expect, onTestFinished, test, vi } from "vitest";
import * as Y from "yjs";
import { seeded } from "#tests/support/big-board.ts";
import { createFakeNetwork, type FakeNetwork, turn, useVirtualClock } from "#tests/support/fake-network.ts";
import { laws } from "#tests/support/fuzz.ts";
import { BOARD } from "#tests/support/phone.ts";
import {
  createLedger,
  createSharedDevice,
  type Ledger,
  type SharedDevice,
  type SharedDeviceOptions,
  type Tab,
} from "#tests/support/shared-device.ts";
import { contentOf } from "#tests/support/trace.ts";

beforeEach(() => useVirtualClock(Date.UTC(2026, 2, 4, 19)));
afterEach(() => void vi.useRealTimers());

const start = (more: Partial<SharedDeviceOptions> = {}) => {
  const network = createFakeNetwork();
  const ledger = createLedger();
  const devices: SharedDevice[] = [];
  const device = (name: string): SharedDevice => {
    const made = createSharedDevice({ network, name, ledger, ...more });
    devices.push(made);
    return made;
  };
  onTestFinished(async () => {
    for (const { tabs } of devices) for (const tab of [...tabs]) await tab.close();
    expect(ledger.twice).toEqual([]);
  });
  return { network, ledger, device };
};

const idOf = ({ session }: Tab): number => session.ydoc.clientID;

/** A visit that writes once, and the id it wrote under. */
const visit = async (network: FakeNetwork, device: SharedDevice): Promise<number> => {
  const tab = await device.open();
  await network.drain();
  tab.write();
  await network.drain();
  const id = idOf(tab);
  await tab.close();
  await network.drain();
  return id;
};

/** Puts the server back to the first rows of its log, as from a backup. */
const restoreServer = async (network: FakeNetwork, share: number): Promise<void> => {
  const rows = await network.storage.load(BOARD);
  network.killServer();
  await network.storage.forget(BOARD);
  for (const row of rows.slice(0, Math.floor(rows.length * share))) network.storage.append(row);
  await network.storage.flush();
};

describe("[SYNC-4] one client id per device", () => {
  test("is taken up again visit after visit", async () => {
    const { network, device } = start();
    const phone = device("phone");
    const ids = new Set<number>();
    for (let n = 0; n < 5; n++) ids.add(await visit(network, phone));
    expect(ids.size).toBe(1);
    const doc = new Y.Doc();
    for (const { bytes } of await network.storage.load(BOARD)) Y.applyUpdate(doc, bytes);
    expect(doc.store.clients.size).toBe(1);
  });

  test("belongs to one of two tabs; the other writes under its own, and may have it afterwards", async () => {
    const { network, device } = start();
    const phone = device("phone");
    const id = await visit(network, phone);
    const [first, second] = [await phone.open(), await phone.open()];
    await network.drain();
    for (const tab of [first, second, first, second]) tab.write();
    expect([idOf(first) === id, idOf(second) === id]).toEqual([true, false]);
    await first.close();
    network.cut(second.name);
    network.heal(second.name);
    await network.settle();
    expect(idOf(second)).toBe(id);
    second.write();
  });

  test("is not taken up before the server has answered: what is written offline goes under another", async () => {
    const { network, device } = start();
    const phone = device("phone");
    const id = await visit(network, phone);
    const tab = await phone.open();
    network.cut(tab.name);
    tab.write();
    expect(idOf(tab)).not.toBe(id);
    const offline = idOf(tab);
    await network.settle();
    expect(idOf(tab)).toBe(id);
    tab.write();
    await network.settle();
    expect(Y.getState(tab.session.ydoc.store, offline)).toBeGreaterThan(0);
  });

  test("is given up after a crash between sending and storing, while nobody knows whether it arrived", async () => {
    const { network, device } = start();
    const phone = device("phone");
    const id = await visit(network, phone);
    const tab = await phone.open();
    await network.drain();
    tab.write();
    expect(idOf(tab)).toBe(id);
    await tab.crash("lost");
    const next = await visit(network, phone);
    expect(next).not.toBe(id);
    expect(await visit(network, phone), "and the new one is remembered").toBe(next);
  });

  test("is kept after a crash when the change had arrived", async () => {
    const { network, device } = start();
    const phone = device("phone");
    const id = await visit(network, phone);
    const tab = await phone.open();
    await network.drain();
    tab.write();
    await network.drain();
    await tab.crash("lost");
    expect(await visit(network, phone)).toBe(id);
  });

  test("is kept with an older copy of the stored board, because the server has the rest", async () => {
    const { network, device } = start();
    const phone = device("phone");
    const id = await visit(network, phone);
    const old = [...phone.disk.updates];
    await visit(network, phone);
    phone.disk.updates.splice(0, phone.disk.updates.length, ...old);
    expect(await visit(network, phone)).toBe(id);
  });

  test("is given up with an older copy of the stored board when the server lacks the rest, too", async () => {
    const { network, device } = start();
    const phone = device("phone");
    const id = await visit(network, phone);
    const old = [...phone.disk.updates];
    const tab = await phone.open();
    await network.drain();
    network.cut(tab.name);
    tab.write();
    expect(idOf(tab)).toBe(id);
    await tab.close();
    phone.disk.updates.splice(0, phone.disk.updates.length, ...old);
    expect(await visit(network, phone)).not.toBe(id);
  });

  test("is kept when the server was put back to an older backup", async () => {
    const { network, device } = start();
    const phone = device("phone");
    const id = await visit(network, phone);
    for (let n = 0; n < 3; n++) await visit(network, phone);
    await restoreServer(network, 0.5);
    expect(await visit(network, phone)).toBe(id);
    const other = await device("other").open();
    await network.settle();
    const tab = await phone.open();
    await network.settle();
    expect(contentOf(other.session.ydoc)).toEqual(contentOf(tab.session.ydoc));
  });

  test("is given up when server and device both came back from a backup", async () => {
    const { network, device } = start();
    const phone = device("phone");
    const id = await visit(network, phone);
    const old = [...phone.disk.updates];
    await visit(network, phone);
    await restoreServer(network, 0.5);
    phone.disk.updates.splice(0, phone.disk.updates.length, ...old);
    expect(await visit(network, phone)).not.toBe(id);
  });

  test("is left as soon as a change comes in under it from outside", async () => {
    const { network, device } = start();
    const phone = device("phone");
    const id = await visit(network, phone);
    const tab = await phone.open();
    await network.drain();
    expect(idOf(tab)).toBe(id);
    const copy = new Y.Doc();
    Y.applyUpdate(copy, Y.encodeStateAsUpdate(tab.session.ydoc));
    copy.clientID = id;
    copy.getMap("band").set("name", "written by a copy of this device");
    Y.applyUpdate(tab.session.ydoc, Y.encodeStateAsUpdate(copy));
    expect(idOf(tab)).not.toBe(id);
    tab.write();
    const now = idOf(tab);
    await network.settle();
    await tab.close();
    expect(await visit(network, phone)).toBe(now);
  });

  test.each([
    ["a guest's device", { role: "guest" as const }],
    ["a browser without locks", { locks: false }],
    ["a private window that keeps nothing", { lasting: false }],
  ])("is nothing that %s has", async (_, more) => {
    const { network, device } = start(more);
    const phone = device("phone");
    const ids = new Set<number>();
    for (let n = 0; n < 3; n++) {
      const tab = await phone.open();
      await network.settle();
      ids.add(idOf(tab));
      await tab.close();
    }
    expect(ids.size).toBe(3);
    expect(phone.storage.size).toBe(0);
  });

  test.each(["{", "null", "[1]", "[-1,2]", '["a",1]', "[1,1e99]"])(
    "begins afresh from a broken memory: %s",
    async (text) => {
      const { network, device } = start();
      const phone = device("phone");
      await visit(network, phone);
      for (const key of phone.storage.keys()) phone.storage.set(key, text);
      const id = await visit(network, phone);
      expect(await visit(network, phone)).toBe(id);
    },
  );
});

interface Step {
  readonly act: (typeof ACTS)[number];
  readonly device: number;
  readonly n: number;
}

const ACTS = [
  "open",
  "open",
  "open",
  "write",
  "write",
  "write",
  "write",
  "deliver",
  "drain",
  "drain",
  "cut",
  "heal",
  "wait",
  "close",
  "close",
  "flush",
  "crash, sent is lost",
  "crash, sent arrives",
  "older disk",
  "kill server",
  "older server",
] as const;

const steps: fc.Arbitrary<{ readonly seed: number; readonly steps: readonly Step[] }> = fc.record({
  seed: fc.nat(),
  steps: fc.array(fc.record({ act: fc.constantFrom(...ACTS), device: fc.nat(1), n: fc.nat(9) }), {
    minLength: 30,
    maxLength: 120,
    size: "max",
  }),
});

/** Plays one history of two devices; answers what the replicas hold at the end. */
const play = async (seed: number, history: readonly Step[], ledger: Ledger) => {
  const network = createFakeNetwork({ random: seeded(seed), duplicates: 0.1 });
  const devices = ["left", "right"].map((name) => createSharedDevice({ network, name, ledger }));
  const snapshots = devices.map((): Uint8Array[] => []);
  const writers = new Map<number, string>();
  let reused = 0;
  for (const { act, device: which, n } of history) {
    const device = devices[which] as SharedDevice;
    const tab = device.tabs[n % Math.max(1, device.tabs.length)];
    if (act === "open" && device.tabs.length < 3) {
      await device.open();
      if (n < 7) await network.drain();
    } else if (act === "write" && tab !== undefined) {
      const id = idOf(tab);
      const first = writers.get(id) ?? tab.name;
      if (first !== tab.name) reused += 1;
      writers.set(id, first);
      tab.write();
    } else if (act === "deliver") for (let i = 0; i <= n; i++) await network.deliverOne();
    else if (act === "drain") await network.drain();
    else if (act === "cut" && tab !== undefined) network.cut(tab.name);
    else if (act === "heal" && tab !== undefined) network.heal(tab.name);
    else if (act === "wait") network.elapse(500 * (1 + n) ** 2);
    else if (act === "close" && tab !== undefined) await tab.close();
    else if (act === "flush") {
      device.flush();
      if (n < 4) snapshots[which] = [...device.disk.updates];
    } else if (act.startsWith("crash") && tab !== undefined)
      await tab.crash(act.endsWith("lost") ? "lost" : "arrives");
    else if (act === "older disk" && device.tabs.length === 0)
      device.disk.updates.splice(0, device.disk.updates.length, ...(snapshots[which] ?? []));
    else if (act === "kill server") network.killServer();
    else if (act === "older server") await restoreServer(network, n / 10);
    await turn();
  }
  const last = [];
  for (const device of devices) last.push(await device.open());
  await network.settle();
  const contents = last.map(({ session }) => contentOf(session.ydoc));
  for (const { tabs } of devices) for (const tab of [...tabs]) await tab.close();
  return { contents, reused };
};

test(
  "[SYNC-4] no two changes ever share an id and a clock, whatever visits, tabs, crashes and copies do",
  async () => {
    let reused = 0;
    await fc.assert(
      fc.asyncProperty(steps, async ({ seed, steps: history }) => {
        const ledger = createLedger();
        const played = await play(seed, history, ledger);
        reused += played.reused;
        expect(ledger.twice).toEqual([]);
        expect(played.contents[0]).toEqual(played.contents[1]);
      }),
      { ...laws(200), endOnFailure: true },
    );
    // Or the law would hold because nobody ever goes on under an id.
    expect(reused).toBeGreaterThan(100);
  },
  120_000 * Number(process.env.TIGHTROW_FUZZ ?? 1),
);
