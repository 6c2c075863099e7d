/**
 * Ten thousand damaged changes. What a phone's commands really send is broken in its bytes and given to a room in which
 * honest phones go on writing. Every batch ends with a server that starts again and has only the log.
 */
import fc from "fast-check";
import { expect, test } from "vitest";
import * as Y from "yjs";
import { updateFrame } from "#server/rooms/frames.ts";
import { RoomRegistry } from "#server/rooms/room-registry.ts";
import { createMemoryStorage } from "#server/storage/memory-storage.ts";
import { migrate } from "#shared/document/migrations/migrate.ts";
import { seeded } from "#tests/support/big-board.ts";
import { DAMAGES, damaged } from "#tests/support/damage.ts";
import { createFakeFrameSocket } from "#tests/support/fake-frame-socket.ts";
import { turn } from "#tests/support/fake-network.ts";
import { laws } from "#tests/support/fuzz.ts";
import { createHonestDevice, type HonestDevice } from "#tests/support/honest-device.ts";
import { sessionOn } from "#tests/support/open-access.ts";
import { type Dice, ROLLED } from "#tests/support/random-commands.ts";
import { openReplica, type Replica, startClock } from "#tests/support/replicas.ts";
import { roomBounds, roomParts } from "#tests/support/room-parts.ts";
import { boardOf } from "#tests/support/trace.ts";

const BOARD = "fuses";
const FLIPS = 10_000;
const BATCH = 25;
/** Phones that ran each command once, every other one with four more behind it. */
const PHONES_EACH = 6;

const MANY = 1_000_000;
const BOUNDS = roomBounds({
  framesPerSecond: MANY,
  boardFramesPerSecond: MANY,
  bytesPerSecond: 1000 * MANY,
  boardBytesPerSecond: 1000 * MANY,
  questionsPerSecond: MANY,
});

const below = (random: () => number, n: number): number => Math.floor(random() * n);
const rollDice = (random: () => number): Dice => ({
  a: below(random, 12),
  b: below(random, 12),
  c: below(random, 12),
});
const pick = <T>(list: readonly T[], random: () => number): T => list[below(random, list.length)] as T;

/** A board with something for every command to be about, in this release's shape. */
const seedBoard = (random: () => number): Uint8Array => {
  const desk = openReplica("desk", startClock());
  desk.ydoc.clientID = 1;
  desk.run("startBand", { name: "Six Spare Fuses", timeZone: "Europe/Lisbon" });
  for (const name of ["Lucía Borrasco", "Tomasz Wrzosnowicz"]) desk.run("addPerson", { name });
  for (const instrument of ["drums", "bass"]) desk.run("addChair", { name: instrument, instrument });
  for (const title of ["Marzipan Diesel", "Umbrella Season"]) desk.run("addSong", { title });
  desk.run("planGig", { name: "Harbour night", date: "2026-04-18", minutes: 90 });
  for (let round = 0; round < 2; round++)
    for (const command of ROLLED.filter((name) => !/^(remove|cancel)/.test(name)))
      desk.move(command, rollDice(random));
  migrate(desk.document);
  return Y.encodeStateAsUpdate(desk.ydoc);
};

const phoneOn = (seed: Uint8Array, writer: string, client: number): Replica => {
  const phone = openReplica(writer, startClock());
  Y.applyUpdate(phone.ydoc, seed);
  phone.ydoc.clientID = client;
  return phone;
};

/** What phones send, one after a command and others when they come back with several. */
const realUpdates = (seed: Uint8Array, random: () => number): readonly Uint8Array[] => {
  const had = Y.encodeStateVectorFromUpdate(seed);
  return ROLLED.flatMap((command, c) =>
    Array.from({ length: PHONES_EACH }, (_, n) => {
      const phone = phoneOn(seed, `phone-${c}-${n}`, 1000 + 7919 * (c * PHONES_EACH + n));
      phone.move(command, rollDice(random));
      if (n % 2 === 1)
        for (let more = 0; more < 4; more++) phone.move(pick(ROLLED, random), rollDice(random));
      const update = Y.encodeStateAsUpdate(phone.ydoc, had);
      return phone.noted.length > 0 ? [update] : [];
    }).flat(),
  );
};

/**
 * What a document holds, also where damage has made a value of a kind that no command writes. An empty map says nothing: to
 * Yjs it is there as soon as somebody looks for it.
 */
const contentOf = (ydoc: Y.Doc): unknown =>
  Object.fromEntries(
    [...ydoc.share.keys()].sort().flatMap((name) => {
      const values = [...ydoc.getMap(name)].sort(([x], [y]) => (x < y ? -1 : 1));
      return values.length === 0 ? [] : [[name, values.map(([key, value]) => [key, plain(value)])]];
    }),
  );

const plain = (value: unknown): unknown =>
  value instanceof Y.AbstractType ? value.toJSON()
  : value instanceof Y.Doc ? value.guid
  : value; // biome-ignore format: one table

const tally = { damaged: 0, refused: 0, taken: 0, sentAway: 0, written: 0 };

test("[SRV-3] [DOC-1] [SYNC-2] 10,000 damaged changes break no room, no board and no honest phone's change", async () => {
  const forSeed = seeded(20_262);
  const seed = seedBoard(forSeed);
  const updates = realUpdates(seed, forSeed);
  expect(updates.length).toBeGreaterThan(100);

  const play = async (random: () => number): Promise<void> => {
    const storage = createMemoryStorage();
    storage.append({ document: BOARD, device: "desk", member: null, at: 0, bytes: seed });
    let now = 0;
    const open = () =>
      new RoomRegistry({ storage, ...roomParts({ bounds: BOUNDS, idleMs: 0, clock: () => now }) });
    const rooms = open();
    const phones = ["anneli", "priya"].map((name, i): Replica & HonestDevice => {
      const replica = phoneOn(seed, name, 11 + i);
      return { ...replica, ...createHonestDevice(replica.ydoc) };
    });
    const come = (phone: Replica): Promise<void> =>
      (phone as Replica & HonestDevice).join(rooms, sessionOn(BOARD, { device: phone.writer }));
    for (const phone of phones) await come(phone);
    const written: (readonly [map: string, key: string])[] = [];
    let songs = 0;
    const addSong = (): void => {
      const phone = phones[songs % phones.length] as Replica;
      const added = phone.run("addSong", { title: `Umbrella Season ${songs}` });
      if (!added.ok) throw new Error(added.error.sentence);
      songs += 1;
      written.push(...added.value.written.map(({ map, key }) => [map, key] as const));
    };

    for (let n = 0; n < BATCH; n++) {
      const socket = createFakeFrameSocket();
      const stranger = (await rooms.open(BOARD)).join(socket, sessionOn(BOARD, { device: "karim" }));
      // Now and then all that an honest phone has, with the honest phones' own ids in it.
      const real = n % 4 === 3 ? Y.encodeStateAsUpdate(pick(phones, random).ydoc) : pick(updates, random);
      const bytes = damaged(pick(DAMAGES, random), real, pick(updates, random), random);
      stranger.receive(updateFrame(bytes));
      await turn();
      tally.damaged += 1;
      if (socket.closedWith === null) tally.taken += 1;
      else tally.refused += 1;
      for (const phone of phones) {
        if (phone.sentAway() !== null) {
          tally.sentAway += 1;
          await come(phone);
        }
        // What a screen followed step by step is a board, whatever came in.
        expect(phone.board().songs).toBeInstanceOf(Map);
      }
      addSong();
      stranger.left();
    }
    await turn();
    for (const phone of phones) {
      expect(phone.sentAway()).toBeNull();
      expect(phone.saved()).toBe(Y.getState(phone.ydoc.store, phone.ydoc.clientID));
    }
    // What waited for something that never came is given up.
    now += 2 * BOUNDS.gapSeconds * 1000;
    rooms.tick();

    const log = new Y.Doc();
    for (const { bytes } of await storage.load(BOARD)) Y.applyUpdate(log, bytes);
    for (const { ydoc } of phones) expect(contentOf(ydoc)).toEqual(contentOf(log));
    for (const [map, key] of written) expect(log.getMap(map).has(key), `${map} ${key}`).toBe(true);
    tally.written += songs;

    // The marks of the release may have been damaged as well; then the server brings the board up to date again.
    const restarted = open();
    const late = createHonestDevice(new Y.Doc());
    await late.join(restarted, sessionOn(BOARD, { device: "late" }));
    for (const phone of phones) await phone.join(restarted, sessionOn(BOARD, { device: phone.writer }));
    await turn();
    const [content, board] = [contentOf(late.ydoc), boardOf(late.ydoc)];
    for (const phone of phones) {
      expect(phone.sentAway()).toBeNull();
      expect(contentOf(phone.ydoc)).toEqual(content);
      expect(boardOf(phone.ydoc)).toEqual(board);
      expect(phone.board()).toEqual(board);
    }
  };

  await fc.assert(
    fc.asyncProperty(fc.nat(), (batch) => play(seeded(batch))),
    { ...laws(FLIPS / BATCH), seed: 20_262, endOnFailure: true },
  );
  expect(tally.damaged).toBeGreaterThanOrEqual(FLIPS);
  expect(tally.taken).toBeGreaterThan(FLIPS / 100);
  expect(tally.refused).toBeGreaterThan(FLIPS / 100);
}, 300_000);
