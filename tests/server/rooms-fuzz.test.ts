/**
 * Random evenings on one board: devices write, cross and lose frames, come and go; the board is folded, leaves the
 * memory and is let go; the disk fills up and fails; the server is killed. Whatever happened, in the end everybody, a
 * newcomer and the disk have the same board, and nothing that was acknowledged is missing on any disk in between.
 */
import fc from "fast-check";
import { expect, test } from "vitest";
import * as Y from "yjs";
import type { Connection } from "#server/rooms/connection.ts";
import { decodeFrame, missingFrame, stateVectorFrame, updateFrame } from "#server/rooms/frames.ts";
import { RoomRegistry } from "#server/rooms/room-registry.ts";
import { StorageRefusal } from "#server/storage/storage.ts";
import { createCrashingStorage } from "#tests/support/crashing-storage.ts";
import { createFakeFrameSocket, type FakeFrameSocket } from "#tests/support/fake-frame-socket.ts";
import { laws } from "#tests/support/fuzz.ts";
import { sessionOn } from "#tests/support/open-access.ts";
import { roomBounds, roomParts } from "#tests/support/room-parts.ts";
import { durableQueryFrame } from "#tests/support/stock-client.ts";

const DEVICES = 3;
const RUNS = 1000;
const TIMEOUT_MS = 120_000 * Math.max(1, Number(process.env.TIGHTROW_FUZZ ?? 1));

interface Step {
  readonly does:
    | "write"
    | "write twice, crossed"
    | "write, lost"
    | "join"
    | "leave"
    | "pass"
    | "long pass"
    | "fill"
    | "break"
    | "heal"
    | "kill";
  readonly device: number;
}

const weighted: readonly { readonly arbitrary: fc.Arbitrary<Step["does"]>; readonly weight: number }[] = [
  { arbitrary: fc.constant("write"), weight: 12 },
  { arbitrary: fc.constant("join"), weight: 6 },
  { arbitrary: fc.constantFrom("write twice, crossed", "write, lost", "leave", "pass"), weight: 8 },
  { arbitrary: fc.constantFrom("long pass", "fill", "break", "heal", "kill"), weight: 5 },
];
const evening = fc.array(fc.record<Step>({ does: fc.oneof(...weighted), device: fc.nat(DEVICES - 1) }), {
  minLength: 5,
  maxLength: 40,
});

/** A stock device: answers a state vector with what the other side lacks, and takes in what it is sent. */
class Device {
  readonly doc = new Y.Doc();
  readonly durable = new Map<number, number>();
  connection: Connection | null = null;
  #socket: FakeFrameSocket | null = null;
  #read = 0;
  #writes = 0;
  readonly #name: string;

  constructor(name: string, client: number) {
    this.#name = name;
    this.doc.clientID = client;
  }

  async join(rooms: RoomRegistry): Promise<void> {
    this.leave();
    const room = await rooms.open("fuses");
    this.#socket = createFakeFrameSocket();
    this.#read = 0;
    this.connection = room.join(this.#socket, sessionOn("fuses", { device: this.#name }));
    this.connection.receive(stateVectorFrame(Y.encodeStateVector(this.doc)));
    this.connection.receive(durableQueryFrame([this.doc.clientID]));
  }

  leave(): void {
    this.connection?.left();
    this.connection = null;
  }

  /** Writes a key; answers the update. */
  write(): Uint8Array {
    const before = Y.encodeStateVector(this.doc);
    this.#writes += 1;
    this.doc.getMap("cards").set(`${this.#name}-${this.#writes % 5}`, this.#writes);
    return Y.encodeStateAsUpdate(this.doc, before);
  }

  send(update: Uint8Array): void {
    this.connection?.receive(updateFrame(update));
  }

  /** Takes in what has arrived. */
  read(): void {
    const socket = this.#socket;
    if (socket === null) return;
    for (; this.#read < socket.sent.length; this.#read++)
      this.#take(socket.sent[this.#read] ?? new Uint8Array());
    if (socket.closedWith !== null) this.connection = null;
  }

  #take(bytes: Uint8Array): void {
    if (bytes[0] === 120)
      for (const [client, clock] of Y.decodeStateVector(bytes.slice(1))) this.durable.set(client, clock);
    if (bytes[0] !== 0) return;
    const frame = decodeFrame(bytes);
    if (frame.kind === "update") Y.applyUpdate(this.doc, frame.bytes);
    else if (frame.kind === "state-vector")
      this.connection?.receive(missingFrame(Y.encodeStateAsUpdate(this.doc, frame.bytes)));
  }
}

const createEvening = () => {
  const disk = createCrashingStorage();
  const faults = { full: false, broken: false };
  const storage: typeof disk = {
    ...disk,
    append(update) {
      if (faults.full) throw new StorageRefusal("database or disk is full");
      return disk.append(update);
    },
    async flush() {
      if (faults.broken) throw new StorageRefusal("input/output error");
      await disk.flush();
    },
    async compact(document, snapshot) {
      if (faults.full || faults.broken) throw new StorageRefusal("database or disk is full");
      await disk.compact(document, snapshot);
    },
  };
  let now = 1_000_000;
  const bounds = roomBounds({ foldRows: 4, boardsInMemory: 1, memoryBytes: 1, gapSeconds: 20 });
  const open = () =>
    new RoomRegistry({ storage, ...roomParts({ bounds, idleMs: 15_000, clock: () => now }) });
  let rooms = open();
  const devices = Array.from({ length: DEVICES }, (_, i) => new Device(`device-${i}`, 1000 + i));

  const settle = async (): Promise<void> => {
    for (let turns = 0; turns < 12; turns++) {
      await new Promise((done) => setImmediate(done));
      for (const device of devices) device.read();
    }
  };
  const pass = async (seconds: number): Promise<void> => {
    for (let second = 0; second < seconds; second++) {
      now += 1000;
      rooms.tick();
      await new Promise((done) => setImmediate(done));
    }
    await settle();
  };
  const stored = async (): Promise<Y.Doc> => {
    const doc = new Y.Doc();
    for (const { bytes } of await disk.load("fuses")) Y.applyUpdate(doc, bytes);
    return doc;
  };

  const does: Record<Step["does"], (device: Device) => Promise<void> | void> = {
    write: (device) => device.send(device.write()),
    "write twice, crossed": (device) => {
      const [first, second] = [device.write(), device.write()];
      device.send(second);
      device.send(first);
    },
    "write, lost": (device) => void device.write(),
    join: (device) => device.join(rooms),
    leave: (device) => device.leave(),
    pass: () => pass(2),
    "long pass": () => pass(35),
    fill: () => {
      faults.full = true;
    },
    break: () => {
      faults.broken = true;
    },
    heal: () => {
      faults.full = false;
      faults.broken = false;
    },
    kill: async () => {
      disk.crash();
      rooms = open();
      for (const device of devices) device.leave();
      // What was acknowledged is on the disk of a server that was killed.
      const { store } = await stored();
      for (const { durable } of devices)
        for (const [client, clock] of durable)
          expect(Y.getState(store, client)).toBeGreaterThanOrEqual(clock);
    },
  };

  return {
    async step({ does: what, device }: Step): Promise<void> {
      const one = devices[device];
      if (one !== undefined) await does[what](one);
      if (what !== "kill") await settle();
    },
    /** Heals everything, lets everybody exchange what they have, and answers all the boards there are. */
    async end() {
      faults.full = false;
      faults.broken = false;
      await pass(3);
      for (const device of devices) await device.join(rooms);
      await settle();
      await pass(3);
      const newcomer = new Device("newcomer", 2000);
      devices.push(newcomer);
      await newcomer.join(rooms);
      await settle();
      await disk.flush();
      return { devices, stored: await stored(), archived: await disk.history("fuses", {}) };
    },
  };
};

const contentOf = (doc: Y.Doc): unknown => ({
  cards: doc.getMap("cards").toJSON(),
  heads: Object.fromEntries([...Y.decodeStateVector(Y.encodeStateVector(doc))].sort(([a], [b]) => a - b)),
  gap: doc.store.pendingStructs,
});

test(
  "[SYNC-2] [SRV-5] [SRV-7] whatever happens to a board in an evening, everybody and the disk end with the same",
  async () => {
    await fc.assert(
      fc.asyncProperty(evening, async (steps) => {
        const { step, end } = createEvening();
        for (const one of steps) await step(one);
        const { devices, stored, archived } = await end();
        const board = contentOf(stored);
        for (const { doc } of devices) expect(contentOf(doc)).toEqual(board);
        // Rows without their snapshots tell the same story, for the history.
        const replayed = new Y.Doc();
        for (const { bytes } of archived) Y.applyUpdate(replayed, bytes);
        expect(contentOf(replayed)).toEqual(board);
      }),
      { ...laws(RUNS), endOnFailure: true },
    );
  },
  TIMEOUT_MS,
);
