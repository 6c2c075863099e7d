/**
 * A live server in a process of its own, a band on it that must come to no harm, another band whose ticks tell whether
 * the server still answers, and an attacker who leads a band of their own there.
 */
import { expect } from "vitest";
import * as Y from "yjs";
import type { BoardGrant } from "#shared/protocol/api.ts";
import { createBoard, joinAs } from "#tests/support/boards.ts";
import { newDataFolder, type ServerProcess, spawnServer } from "#tests/support/built-server.ts";
import { connectRaw, type RawClient, type RawOptions } from "#tests/support/raw-client.ts";
import { connectStock, type StockClient } from "#tests/support/stock-client.ts";

export interface Arena {
  readonly server: ServerProcess;
  readonly origin: string;
  readonly syncUrl: string;
  /** The band that is attacked, by each way in. */
  readonly leader: BoardGrant;
  readonly member: BoardGrant;
  readonly guest: BoardGrant;
  /** The attacker's own band. */
  readonly stranger: BoardGrant;
  /** An honest device of the band, connected. */
  readonly honest: StockClient;
  /** A bare socket to the band's document. */
  readonly attack: (token: string, options?: RawOptions) => Promise<RawClient>;
  /**
   * Proves that the band has everything it had and can go on, that the other band was answered all the time, and that
   * the process lives.
   */
  readonly unharmed: () => Promise<void>;
}

const SONGS = 40;

/**
 * Nobody waits longer for an acknowledgement because another band is attacked. A machine that runs tests is busy, so
 * this is far above what is measured (`sayWaits`); a server that stalls for good is what it must find.
 */
const LONGEST_WAIT_MS = 5000;
const waits: number[] = [];

/** Prints the longest waits of the other band in this file's attacks. For `afterAll`. */
export const sayWaits = (): void => {
  const sorted = [...waits].sort((a, b) => a - b);
  const middle = sorted[Math.floor(sorted.length / 2)] ?? 0;
  console.info(
    `Another band's longest wait for an acknowledgement: median attack ${middle.toFixed(0)} ms, worst ${(sorted.at(-1) ?? 0).toFixed(0)} ms, ${sorted.length} attacks`,
  );
};

/** Ticks every few ms and remembers the longest wait for an acknowledgement. */
const watch = (witness: StockClient) => {
  const sent: { readonly clock: number; readonly at: number }[] = [];
  let worst = 0;
  let ticks = 0;
  const look = (): void => {
    const durable = witness.ownDurable();
    for (let first = sent[0]; first !== undefined; first = sent[0]) {
      worst = Math.max(worst, performance.now() - first.at);
      if (first.clock > durable) break;
      sent.shift();
    }
  };
  const timer = setInterval(() => {
    look();
    if (sent.length > 0) return;
    witness.set(`tick-${ticks % 20}`, ticks);
    ticks += 1;
    sent.push({ clock: Y.getState(witness.doc.store, witness.doc.clientID), at: performance.now() });
  }, 5);
  return {
    stop: async (): Promise<number> => {
      clearInterval(timer);
      await witness.saved();
      look();
      return worst;
    },
  };
};

const contents = (doc: Y.Doc): Record<string, unknown> => doc.getMap("cards").toJSON();

/** Opens the arena on a program that `buildServer` made. `env`: settings of this server. */
export const openArena = async (program: string, env: Record<string, string> = {}): Promise<Arena> => {
  const server = spawnServer(program, {
    TIGHTROW_DATA: await newDataFolder(),
    TIGHTROW_TRIES_PER_MINUTE: "100000",
    ...env,
  });
  const origin = `http://127.0.0.1:${await server.listening}`;
  const syncUrl = `${origin.replace("http", "ws")}/sync`;
  const leader = await createBoard(origin, "Six Spare Fuses");
  const [member, guest] = [await joinAs(origin, leader, "member"), await joinAs(origin, leader, "guest")];
  const others = await createBoard(origin, "The Night Shift");
  const stranger = await createBoard(origin, "The Uninvited");

  const honest = connectStock(syncUrl, leader.document, leader.token);
  await honest.synced;
  for (let song = 0; song < SONGS; song++) honest.set(`song-${song}`, `kept ${song}`);
  await honest.saved();
  const before = contents(honest.doc);
  const witness = connectStock(syncUrl, others.document, others.token);
  await witness.synced;
  const watching = watch(witness);

  const unharmed = async (): Promise<void> => {
    const worst = await watching.stop();
    waits.push(worst);
    expect(worst).toBeLessThan(LONGEST_WAIT_MS);
    expect(server.child.exitCode).toBeNull();
    expect((await fetch(`${origin}/healthz`)).status).toBe(200);
    // What stands on the server's disk, told to a device that knows nothing.
    const reader = connectStock(syncUrl, leader.document, leader.token);
    await reader.synced;
    expect(contents(reader.doc)).toMatchObject(before);
    honest.set("afterwards", "still playing");
    await reader.sees("afterwards", "still playing");
    await honest.saved();
  };

  return {
    server,
    origin,
    syncUrl,
    leader,
    member,
    guest,
    stranger,
    honest,
    attack: (token, options) => connectRaw(`${syncUrl}/${leader.document}`, token, options),
    unharmed,
  };
};
