/**
 * The built program is killed at every kind of moment while six phones tick and strangers join. What a screen showed
 * as saved is looked up on the disk of each dead server; the next server's life begins on that very disk.
 */
import { rm } from "node:fs/promises";
import { dirname } from "node:path";
import { afterAll, beforeAll, expect, onTestFinished, test } from "vitest";
import WebSocket from "ws";
import * as Y from "yjs";
import { COMMANDS } from "#shared/commands/registry.ts";
import type { BoardGrant } from "#shared/protocol/api.ts";
import { call } from "#tests/support/api-client.ts";
import { seeded } from "#tests/support/big-board.ts";
import { createBoard, createLink, joinAs } from "#tests/support/boards.ts";
import { buildServer } from "#tests/support/built-server.ts";
import { createKilledServer, type KilledServer } from "#tests/support/killed-server.ts";
import { openPhone, type Phone } from "#tests/support/phone.ts";
import { sharedClaims } from "#tests/support/shared-device.ts";
import { connectStock } from "#tests/support/stock-client.ts";
import { contentOf } from "#tests/support/trace.ts";

const KILLS = 52;
/** Kills after which it is given up that enough of them met a folding; a busy machine folds less often in between. */
const KILLS_MOST = 90;
const FOLDS_LEAST = 4;
const PHONES = 6;
const SONGS = 30;
const DETAILS = 10;
/** Changes of one phone that may wait to be saved: enough to always be in the middle of something. */
const ON_THE_WAY = 15;

/** When a server dies: with so many more changes saved; with a snapshot on its way to the disk; and so on. */
const MOMENTS = ["ticks", "ticks", "folding", "ticks", "starting", "joined", "ticks", "stopping"] as const;
type Moment = (typeof MOMENTS)[number];

let program = "";
beforeAll(async () => {
  program = await buildServer();
});
afterAll(() => rm(dirname(program), { recursive: true, force: true }));

const turn = (): Promise<void> => new Promise((done) => setImmediate(done));

const until = async (holds: () => boolean): Promise<void> => {
  while (!holds()) await new Promise((done) => setTimeout(done, 1));
};

interface Ticking {
  readonly phone: Phone;
  /** Changes as much as may wait to be saved. */
  readonly tick: () => void;
  readonly stop: () => void;
  /** Changes that the phone's screens show as saved. */
  readonly saved: () => number;
  /** Those of them that this document does not hold, or holds in an older state. */
  readonly missingIn: (ydoc: Y.Doc) => readonly string[];
}

interface Change {
  readonly id: string;
  readonly map: string;
  readonly key: string;
  readonly value: string;
}

/** Marks and asks as fast as changes are saved, whether there is a server or not. No other phone writes its keys. */
const keepTicking = (phone: Phone, member: string, song: string, cards: readonly string[]): Ticking => {
  const changes: Change[] = [];
  const waiting = new Set<string>();
  let saved = 0;
  let ticks = 0;
  let going = true;
  const run = (name: string, args: unknown): void => {
    const command = COMMANDS.get(name);
    const done = command && phone.store().run(command, args, name);
    if (!done?.ok) throw new Error(`${name} was refused: ${done?.error.sentence}`);
    for (const { map, key, after } of done.value.written)
      changes.push({ id: done.value.id, map, key, value: JSON.stringify(after) });
    waiting.add(done.value.id);
  };
  const look = (): void => {
    const { outbox } = phone.session();
    for (const id of waiting) {
      if (outbox.stateOf(id) === "on this phone") continue;
      waiting.delete(id);
      saved += 1;
    }
  };
  const tick = (): void => {
    look();
    while (going && waiting.size < ON_THE_WAY) {
      ticks += 1;
      const card = cards[ticks % cards.length];
      if (ticks % 10 === 0) run("askQuestion", { song, text: `Question ${ticks}` });
      else run("markDetail", { card, member, level: 1 + (ticks % 3) });
    }
  };
  return {
    phone,
    tick,
    stop: () => {
      going = false;
    },
    saved: () => {
      look();
      return saved;
    },
    missingIn: (ydoc) => {
      look();
      const last = new Map<string, number>();
      const at = new Map<string, number>();
      changes.forEach(({ id, map, key, value }, i) => {
        at.set(`${map} ${key} ${value}`, i);
        if (!waiting.has(id)) last.set(`${map} ${key}`, i);
      });
      return [...last].flatMap(([name, i]) => {
        const { map = "", key = "" } = changes[i] ?? {};
        const found = JSON.stringify(ydoc.getMap(map).get(key));
        return (at.get(`${name} ${found}`) ?? -1) >= i ? [] : [name];
      });
    },
  };
};

/** Six members' phones on a board with details to mark. Phones that come in twice keep their Yjs client id. */
const openPhones = async (server: KilledServer, leader: BoardGrant) => {
  const syncOrigin = server.origin().replace("http", "ws");
  const open = async (name: string, { board, token, role }: BoardGrant, member: string | null) => {
    const claims = sharedClaims(new Map());
    const phone = await openPhone({
      network: { socketFor: () => WebSocket as unknown as typeof globalThis.WebSocket },
      serverUrl: syncOrigin,
      claimOf: claims(name),
      ...{ name, board, token, role, member },
    });
    onTestFinished(() => phone.close());
    return phone;
  };
  const desk = await open("desk", leader, null);
  const run = (name: string, args: unknown): string => {
    const command = COMMANDS.get(name);
    const done = command && desk.store().run(command, args, name);
    if (!done?.ok) throw new Error(`${name} was refused: ${done?.error.sentence}`);
    return done.value.id;
  };
  run("startBand", { name: "Six Spare Fuses", timeZone: "Europe/Lisbon" });
  const songs = Array.from({ length: SONGS }, (_, i) => run("addSong", { title: `Marzipan Diesel ${i}` }));
  const text = "Choke on the and of four. ".repeat(36);
  const cards = songs.flatMap((song) =>
    Array.from({ length: DETAILS }, () => run("addDetail", { song, text })),
  );
  const members = Array.from({ length: PHONES }, (_, i) => run("addPerson", { name: `Player ${i}` }));
  await until(() => desk.session().outbox.saveState().unsent === 0);
  const ticking: Ticking[] = [];
  for (const [i, member] of members.entries()) {
    const phone = await open(`phone${i}`, await joinAs(server.origin(), leader, "member"), member);
    await until(() => phone.store().board().people.size === PHONES);
    ticking.push(keepTicking(phone, member, songs[i] ?? "", cards));
  }
  return { desk, ticking };
};

test(`[SYNC-2] [SYNC-3] killed ${KILLS} times while ${PHONES} phones tick, the server has all that any screen showed as saved`, async () => {
  const random = seeded(20_261);
  const server = await createKilledServer(program, {
    TIGHTROW_LOG: "info",
    TIGHTROW_FOLD_ROWS: "1",
    TIGHTROW_TRIES_PER_MINUTE: "100000",
    TIGHTROW_BOARD_CONNECTIONS: "10000",
  });
  await server.start();
  const leader = await createBoard(server.origin());
  const { secret } = await createLink(server.origin(), leader, "member");
  const { desk, ticking } = await openPhones(server, leader);
  const phones = [desk, ...ticking.map(({ phone }) => phone)];
  const beat = setInterval(() => ticking.forEach(({ tick }) => void tick()), 2);
  onTestFinished(() => clearInterval(beat));
  const saved = (): number => ticking.reduce((sum, one) => sum + one.saved(), 0);

  const tokens: string[] = [];
  let [lost, folds, midway, foldedTo] = [0, 0, 0, 0];
  const join = async (): Promise<void> => {
    const { status, body } = await call<BoardGrant>(server.origin(), "POST /api/join", { bearer: secret });
    if (status < 300) tokens.push(body.token);
  };
  const said = (event: string): number => server.process().err().split(`"event":"${event}"`).length - 1;

  const die = async (moment: Moment): Promise<void> => {
    if (moment === "starting") {
      await server.kill();
      const { child, listening } = server.launch();
      // Dies between the first instruction and the first visitor.
      if (random() < 0.5) await until(() => child.pid !== undefined && random() < 0.02);
      else await listening;
    } else if (moment === "joined") await join();
    else if (moment === "folding") {
      const before = said("folding");
      while (said("folding") === before) await turn();
    } else {
      const enough = saved() + Math.floor(random() * 120);
      await until(() => saved() >= enough);
    }
    if (moment === "stopping") {
      server.process().child.kill("SIGTERM");
      await until(() => random() < 0.05);
    }
    await server.kill();
  };

  for (let kill = 0; kill < KILLS_MOST; kill++) {
    const moment = MOMENTS[kill % MOMENTS.length] as Moment;
    for (const phone of phones) phone.session().reconnect();
    // Somebody comes in while the server has hardly started, or is dying.
    const arriving = join().catch(() => undefined);
    await die(moment);
    await arriving;
    await until(() => phones.every((p) => p.session().outbox.saveState().connection !== "connected"));

    const disk = await server.diskOf(leader.document);
    for (const { missingIn } of ticking) lost += missingIn(disk.ydoc).length;
    if (disk.foldedTo > foldedTo) folds += 1;
    if (said("folding") > said("folded")) midway += 1;
    foldedTo = disk.foldedTo;

    if (kill >= KILLS - 1 && folds >= FOLDS_LEAST && midway > 0) break;
    const starting = server.start();
    await ticking[kill % PHONES]?.phone.restart();
    await starting;
  }
  expect(lost).toBe(0);
  expect(saved()).toBeGreaterThan(KILLS * PHONES);
  expect(folds).toBeGreaterThanOrEqual(FOLDS_LEAST);
  expect(midway).toBeGreaterThan(0);

  // The last disk alone, on a port where none of the phones is there to help.
  for (const { stop } of ticking) stop();
  const hidden = await server.start("hidden");
  const stranger = connectStock(`${hidden.replace("http", "ws")}/sync`, leader.document, leader.token);
  await stranger.synced;
  for (const { missingIn } of ticking) expect(missingIn(stranger.doc)).toEqual([]);
  stranger.stop();
  const known = await Promise.all(tokens.map((bearer) => call(hidden, "GET /api/session", { bearer })));
  expect(known.map(({ status }) => status)).toEqual(tokens.map(() => 200));
  await server.kill();

  // And what was still on a phone comes in.
  await server.start();
  for (const phone of phones) phone.session().reconnect();
  const alike = (): boolean =>
    new Set(phones.map((p) => Y.encodeStateVector(p.session().ydoc).toString())).size === 1;
  await until(() => phones.every((p) => p.session().outbox.saveState().unsent === 0) && alike());
  await server.kill();
  const { ydoc } = await server.diskOf(leader.document);
  for (const { missingIn } of ticking) expect(missingIn(ydoc)).toEqual([]);
  for (const phone of phones) {
    expect(phone.session().outbox.saveState().refused).toEqual([]);
    expect(contentOf(phone.session().ydoc)).toEqual(contentOf(ydoc));
  }
}, 300_000);
