/**
 * One member, two devices, two tabs on each, any interleaving of opening, closing, writing and bad network. Tabs share
 * the device's disk, storage and lock, as in a browser; commands, outbox and client ids are the product's.
 */
import "fake-indexeddb/auto";
import fc from "fast-check";
import { afterEach, beforeEach, describe, expect, onTestFinished, test, vi } from "vitest";
import * as Y from "yjs";
import { browserClaim } from "#client/sync/client-memory.ts";
import { openLocalBoard } from "#client/sync/local-persistence.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { NIGHT } from "#tests/support/band-night.ts";
import { seeded } from "#tests/support/big-board.ts";
import { createFakeNetwork, turn, useVirtualClock } from "#tests/support/fake-network.ts";
import { laws } from "#tests/support/fuzz.ts";
import { BOARD, createDisk, openPhone, type Phone } from "#tests/support/phone.ts";
import { ROLLED, roll } from "#tests/support/random-commands.ts";
import { createLedger, follow, sharedClaims, storageOver } from "#tests/support/shared-device.ts";
import { act, boardOf, contentOf, type Intent } from "#tests/support/trace.ts";

afterEach(() => void vi.useRealTimers());

const ACTS = [
  ...[
    "open",
    "open",
    "close",
    "reload",
    "deliver",
    "deliver",
    "drain",
    "drain",
    "cut",
    "hold",
    "heal",
    "heal",
  ],
  ...["wait", "kill server", "restart server"],
  ...Array<string>(10).fill("command"),
];

interface Step {
  readonly act: string;
  readonly device: number;
  readonly tab: number;
  readonly command: string;
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

const histories = fc.record({
  seed: fc.nat(),
  steps: fc.array(
    fc.record({
      act: fc.constantFrom(...ACTS),
      device: fc.nat(1),
      tab: fc.nat(1),
      command: fc.constantFrom(...ROLLED),
      a: fc.nat(11),
      b: fc.nat(11),
      c: fc.nat(11),
    }),
    { minLength: 30, maxLength: 90, size: "max" },
  ),
});

const play = async (seed: number, steps: readonly Step[]) => {
  const network = createFakeNetwork({ random: seeded(seed), duplicates: 0.15 });
  const ledger = createLedger();
  const intents: Intent[] = [];
  const ids = new Map<number, Set<string>>();
  const reloads = new Map<string, number>();
  let opened = 0;
  const createDevice = (writer: string) => {
    const disk = createDisk();
    const claims = sharedClaims(new Map());
    const tabs: Phone[] = [];
    return {
      disk,
      tabs,
      open: async (): Promise<void> => {
        opened += 1;
        const name = `${writer}.${opened}`;
        const tab = await openPhone({ network, name, writer, member: "lucia", disk, claimOf: claims(name) });
        follow(ledger, tab.session().ydoc, name);
        tabs.push(tab);
      },
    };
  };
  const devices = [createDevice("phone"), createDevice("tablet")] as const;
  for (const device of devices) await device.open();
  await network.drain();
  const desk = devices[0].tabs[0] as Phone;
  const seeds: readonly (readonly [string, unknown])[] = [
    ["startBand", { name: "Six Spare Fuses", timeZone: "Europe/Lisbon" }],
    ["addChair", { name: "Drums", instrument: "drums" }],
    ["addPerson", { name: "Lucía Borrasco" }],
    ["addSong", { title: "Marzipan Diesel", tempo: 112 }],
  ];
  for (const [name, args] of seeds) act(desk, name, args, intents);
  await network.drain();

  for (const step of steps) {
    const device = devices[step.device === 0 ? 0 : 1];
    const tab = device.tabs[step.tab % Math.max(1, device.tabs.length)];
    if (step.act === "open" && device.tabs.length < 2) await device.open();
    else if (step.act === "deliver") for (let i = 0; i <= step.a; i++) await network.deliverOne();
    else if (step.act === "drain") await network.drain();
    else if (step.act === "wait") network.elapse(100 * (1 + step.b) ** 2);
    else if (step.act === "kill server") network.killServer();
    else if (step.act === "restart server") await network.restartServer();
    else if (tab === undefined) continue;
    else if (step.act === "close") {
      device.tabs.splice(device.tabs.indexOf(tab), 1);
      await tab.close();
    } else if (step.act === "reload") {
      reloads.set(tab.name, (reloads.get(tab.name) ?? 0) + 1);
      await tab.restart();
      follow(ledger, tab.session().ydoc, tab.name);
    } else if (step.act === "cut") network.cut(tab.name);
    else if (step.act === "hold") network.hold(tab.name);
    else if (step.act === "heal") network.heal(tab.name);
    else if (step.act === "command") {
      const rolled = roll(tab.store().board(), step.command, step);
      const client = tab.session().ydoc.clientID;
      if (rolled !== null && act(tab, rolled.name, rolled.args, intents))
        ids.set(client, (ids.get(client) ?? new Set()).add(`${tab.name} ${reloads.get(tab.name)}`));
    }
    await turn();
  }
  // Whatever a closed tab left on its device, the next one brings.
  for (const device of devices) await device.open();
  await network.settle();
  network.storage.crash();
  const server = new Y.Doc();
  createBoardDocument(server);
  for (const { bytes } of await network.storage.load(BOARD)) Y.applyUpdate(server, bytes);
  return {
    devices,
    ledger,
    intents,
    server,
    shared: [...ids.values()].filter(({ size }) => size > 1).length,
  };
};

/** By key: what each tab wrote last. Tabs of one device write the same keys, so a key may have two last writers. */
const lastWritten = (intents: readonly Intent[]): ReadonlyMap<string, readonly unknown[]> => {
  const keys = new Map<string, Map<string, unknown>>();
  for (const { map, key, phone, value } of intents) {
    const name = `${map}\n${key}`;
    keys.set(name, (keys.get(name) ?? new Map()).set(phone, value));
  }
  return new Map([...keys].map(([name, values]) => [name, [...values.values()]]));
};

describe("[SYNC-1] [SYNC-4] two devices of one member, two tabs on each", () => {
  beforeEach(() => useVirtualClock(NIGHT));

  test("[SYNC-3] show one board, lose nothing and never write two changes under one id and clock", async () => {
    let [shared, written] = [0, 0];
    await fc.assert(
      fc.asyncProperty(histories, async ({ seed, steps }) => {
        const { devices, ledger, intents, server, shared: again } = await play(seed, steps);
        shared += again;
        written += intents.length;
        expect(ledger.twice).toEqual([]);
        const [content, board] = [contentOf(server), boardOf(server)];
        for (const { tabs, disk } of devices) {
          for (const tab of tabs) {
            const { ydoc, outbox } = tab.session();
            expect(contentOf(ydoc)).toEqual(content);
            expect(tab.store().board()).toEqual(board);
            expect(outbox.saveState()).toMatchObject({ connection: "connected", unsent: 0, refused: [] });
          }
          expect(disk.entries.size).toBe(0);
        }
        for (const [name, values] of lastWritten(intents)) {
          const [map = "", key = ""] = name.split("\n");
          expect(values, name).toContainEqual(server.getMap(map).get(key));
        }
        for (const { tabs } of devices) for (const tab of tabs) await tab.close();
      }),
      { ...laws(120), seed: 20_264, endOnFailure: true },
    );
    // Or the law would hold because every tab writes under an id of its own.
    expect(shared).toBeGreaterThan(20);
    expect(written).toBeGreaterThan(1000);
  }, 240_000);
});

describe("[SYNC-4] a board opened as the page opens it", () => {
  test("takes its id up again in the next visit, and a second tab keeps out", async () => {
    const held = new Set<string>();
    const locks = {
      request: async (name: string, _: object, run: (lock: object | null) => Promise<void> | undefined) => {
        if (held.has(name)) return run(null);
        held.add(name);
        await run({});
        held.delete(name);
      },
    };
    vi.stubGlobal("localStorage", storageOver(new Map()));
    vi.stubGlobal("navigator", { locks });
    onTestFinished(() => void vi.unstubAllGlobals());
    expect(browserClaim(BOARD)).not.toBeNull();
    const network = createFakeNetwork();
    const visit = (name: string): Promise<Phone> =>
      openPhone({ network, name, writer: "phone", openLocal: openLocalBoard });
    const ids: number[] = [];
    for (let n = 0; n < 3; n++) {
      const phone = await visit(`visit ${n}`);
      await network.drain();
      expect(act(phone, "addSong", { title: `Umbrella Season ${n}` }, [])).toBe(true);
      await vi.waitFor(async () => {
        await network.drain();
        expect(phone.session().outbox.saveState().unsent).toBe(0);
      });
      ids.push(phone.session().ydoc.clientID);
      const second = n === 2 ? await visit("second tab") : null;
      await network.drain();
      if (second !== null) {
        expect(act(second, "addSong", { title: "Lantern Tax" }, [])).toBe(true);
        expect(second.session().ydoc.clientID).not.toBe(ids[0]);
        await network.drain();
        await second.close();
      }
      await phone.close();
    }
    expect(new Set(ids).size).toBe(1);
  });
});
