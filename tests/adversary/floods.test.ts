/** Devices that ask for more than their share. The bounds are set low here, so that a flood is over soon. */
import { rm } from "node:fs/promises";
import { connect, type Socket } from "node:net";
import { dirname } from "node:path";
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from "vitest";
import * as Y from "yjs";
import { createBoard } from "#tests/support/boards.ts";
import { buildServer } from "#tests/support/built-server.ts";
import { connectRaw, type RawClient } from "#tests/support/raw-client.ts";
import { connectStock } from "#tests/support/stock-client.ts";
import { openArena, sayWaits } from "./arena.ts";
import { numbers, presenceFrame, RESET, syncFrame, writing } from "./hostile-bytes.ts";

let program = "";
beforeAll(async () => {
  program = await buildServer();
});
afterAll(() => {
  sayWaits();
  return rm(dirname(program), { recursive: true, force: true });
});

const FLOOD = 5000;
/** A minute's worth may come at once: 600 messages, 60 questions, 4 MB. */
const LOW = {
  TIGHTROW_FRAMES_PER_SECOND: "10",
  TIGHTROW_QUESTIONS_PER_SECOND: "1",
  TIGHTROW_BYTES_PER_SECOND: "65536",
};
const EMPTY_VECTOR = numbers(0);

/** Sends frames until the server cuts the connection; resolves to its code. */
const flood = async (socket: RawClient, frame: (i: number) => Uint8Array, times = FLOOD): Promise<number> => {
  for (let i = 0; i < times && socket.ws.readyState === socket.ws.OPEN; i++) {
    socket.send(frame(i));
    if (i % 50 === 0) await new Promise(setImmediate);
  }
  return (await socket.closed).code;
};

const FLOODS: Readonly<Record<string, (i: number) => Uint8Array>> = {
  "small changes": (i) => syncFrame("update", writing(`flood-${i % 10}`, i, 70_000 + i)),
  "questions for the whole board": () => syncFrame("stateVector", EMPTY_VECTOR),
  "questions about what is saved": (i) => numbers(121, 1, i),
  "questions who is there": () => numbers(3),
  presence: (i) => presenceFrame([7000, i + 1, `{"song":"${i}"}`]),
};

describe("[SRV-28] a flood is cut off, and other bands play on", () => {
  for (const [what, frame] of Object.entries(FLOODS))
    test(`of ${what}`, async () => {
      const arena = await openArena(program, LOW);
      const socket = await arena.attack(arena.member.token);
      expect([4529, 1013, RESET]).toContain(await flood(socket, frame));
      await arena.unharmed();
    });

  test("of large changes", async () => {
    const arena = await openArena(program, LOW);
    const socket = await arena.attack(arena.member.token);
    const large = "x".repeat(100_000);
    const code = await flood(socket, (i) => syncFrame("update", writing(`large-${i}`, large)), 500);
    expect([4529, RESET]).toContain(code);
    await arena.unharmed();
  });

  test("beyond the size a board may have: it takes no more, and what it has stays", async () => {
    const arena = await openArena(program, { TIGHTROW_BOARD_BYTES: "1048576" });
    const socket = await arena.attack(arena.member.token);
    const code = await flood(
      socket,
      (i) => syncFrame("update", writing(`large-${i}`, "x".repeat(100_000))),
      100,
    );
    expect([4414, RESET]).toContain(code);
    const reader = connectStock(arena.syncUrl, arena.leader.document, arena.leader.token);
    await reader.synced;
    expect(reader.doc.getMap("cards").get("song-0")).toBe("kept 0");
    expect(Y.encodeStateAsUpdate(reader.doc).length).toBeLessThan(1_500_000);
  });

  test("of boards", async () => {
    const arena = await openArena(program, { TIGHTROW_TRIES_PER_MINUTE: "50" });
    const made = await Promise.all(
      Array.from({ length: 200 }, (_, i) => createBoard(arena.origin, `Band ${i}`)),
    );
    expect(made.filter((grant) => "token" in grant).length).toBeLessThanOrEqual(50);
    await arena.unharmed();
  });
});

describe("[SRV-29] connections are bounded", () => {
  test("two thousand sockets of one address: beyond the bound they are sent away, and afterwards others get in", async () => {
    const arena = await openArena(program, {
      TIGHTROW_CONNECTIONS: "300",
      TIGHTROW_CONNECTIONS_PER_ADDRESS: "300",
    });
    const sockets: RawClient[] = [];
    let refused = 0;
    for (let batch = 0; batch < 20; batch++) {
      const opened = await Promise.allSettled(
        Array.from({ length: 100 }, () => arena.attack(arena.member.token)),
      );
      for (const one of opened)
        if (one.status === "fulfilled") sockets.push(one.value);
        else refused += 1;
    }
    const closed = await Promise.all(
      sockets.map(({ closed }) =>
        Promise.race([closed.then(({ code }) => code), new Promise<null>((r) => setTimeout(r, 1000, null))]),
      ),
    );
    const sentAway = refused + closed.filter((code) => code === 4530).length;
    expect(sentAway).toBeGreaterThan(1600);
    for (const { ws } of sockets) ws.terminate();
    await expect
      .poll(async () => {
        const late = await connectRaw(`${arena.syncUrl}/${arena.leader.document}`, arena.member.token);
        return Promise.race([late.frame(0).then(() => "in"), late.closed.then(() => "sent away")]);
      })
      .toBe("in");
    await arena.unharmed();
  });

  test("a reader that never reads is sent away before it costs the memory it asks for", async () => {
    const arena = await openArena(program, { TIGHTROW_BUFFERED_BYTES: "262144" });
    arena.honest.set("large", "x".repeat(400_000));
    await arena.honest.saved();
    const socket = await arena.attack(arena.member.token);
    socket.ws.pause();
    for (let i = 0; i < 200; i++) socket.send(syncFrame("stateVector", EMPTY_VECTOR));
    await expect
      .poll(async () => (await (await fetch(`${arena.origin}/healthz`)).json()).connections, {
        timeout: 15_000,
      })
      .toBe(2);
    await arena.unharmed();
  });

  test("requests that never end their first line do not keep others out", async () => {
    const arena = await openArena(program);
    const { hostname, port } = new URL(arena.origin);
    const idle: Socket[] = [];
    for (let i = 0; i < 500; i++) {
      const socket = connect(Number(port), hostname, () => socket.write("GET / HT"));
      socket.on("error", () => undefined);
      idle.push(socket);
    }
    onTestFinished(() => {
      for (const socket of idle) socket.destroy();
    });
    await expect.poll(() => idle.every(({ connecting }) => !connecting)).toBe(true);
    expect((await fetch(`${arena.origin}/healthz`)).status).toBe(200);
    await arena.unharmed();
  });

  test("ten thousand pings", async () => {
    const arena = await openArena(program);
    const socket = await arena.attack(arena.member.token);
    for (let i = 0; i < 10_000; i++) socket.ws.ping("x".repeat(100));
    await arena.unharmed();
  });
});
