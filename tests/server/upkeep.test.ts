import { copyFileSync, existsSync, readdirSync, writeFileSync } from "node:fs";
import { rm } from "node:fs/promises";
import { dirname, join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { parseBoardFile } from "#shared/exchange/board-json.ts";
import { createBoard } from "#tests/support/boards.ts";
import { buildServer, newDataFolder, spawnServer } from "#tests/support/built-server.ts";
import { connectStock } from "#tests/support/stock-client.ts";

let program = "";

beforeAll(async () => {
  program = await buildServer();
});

afterAll(() => rm(dirname(program), { recursive: true, force: true }));

/** Runs a tool to its end. */
const tool = async (data: string, ...args: string[]) => {
  const { ended, out, err } = spawnServer(program, { TIGHTROW_DATA: data }, args);
  return { code: (await ended).code, out: out().trim(), err: err().trim() };
};

const serve = async (data: string) => {
  const server = spawnServer(program, { TIGHTROW_DATA: data });
  const origin = `http://127.0.0.1:${await server.listening}`;
  return {
    origin,
    sync: `${origin.replace("http", "ws")}/sync`,
    stop: async () => {
      server.child.kill("SIGTERM");
      await server.ended;
    },
  };
};

test("[SRV-20] a backup made while the server runs restores the board, and later changes come back from the phones", async () => {
  const data = await newDataFolder();
  const first = await serve(data);
  const leader = await createBoard(first.origin);
  const phone = connectStock(first.sync, leader.board, leader.token);
  await phone.synced;
  phone.set("intro", "noticed");
  await phone.saved();
  const file = join(data, "by-hand.db");
  expect(await tool(data, "backup", file)).toMatchObject({ code: 0 });
  expect(readdirSync(data).filter((name) => name.startsWith("by-hand"))).toEqual(["by-hand.db"]);
  phone.set("outro", "locked in");
  await phone.saved();
  await first.stop();

  const restored = await tool(data, "restore", file);
  expect(restored).toMatchObject({ code: 0 });
  expect(restored.out).toContain("set-aside-");
  const second = await serve(data);
  const stranger = connectStock(second.sync, leader.board, leader.token);
  await stranger.synced;
  expect(stranger.get("intro")).toBe("noticed");
  expect(stranger.get("outro")).toBeUndefined();
  // The phone was told "saved" after the backup; it still has what it wrote, and the server asks for it.
  const again = connectStock(second.sync, leader.board, leader.token, phone.doc);
  await again.synced;
  await expect.poll(() => stranger.get("outro")).toBe("locked in");
  await second.stop();
});

test("nothing is restored while a server runs, from a damaged file, or from no file; and nothing is lost", async () => {
  const data = await newDataFolder();
  const server = await serve(data);
  await createBoard(server.origin);
  const file = join(data, "by-hand.db");
  await tool(data, "backup", file);
  expect(await tool(data, "restore", file)).toMatchObject({
    code: 1,
    err: expect.stringMatching(/in use .* Stop it first/),
  });
  await server.stop();

  const broken = join(data, "broken.db");
  copyFileSync(file, broken);
  writeFileSync(broken, Buffer.alloc(4096, 7), { flag: "r+" });
  expect(await tool(data, "restore", broken)).toMatchObject({
    code: 1,
    err: expect.stringContaining("broken.db cannot be used"),
  });
  expect(await tool(data, "restore", join(data, "nothing.db"))).toMatchObject({
    code: 1,
    err: expect.stringContaining("There is no file"),
  });
  expect(await tool(data, "restore")).toMatchObject({ code: 1, err: "Say which backup: restore <file>." });
  expect(await tool(data, "backup", file)).toMatchObject({
    code: 1,
    err: expect.stringContaining("already"),
  });
  expect((await tool(data, "boards")).out).toMatch(
    /^[\w-]{16} {2}Six Spare Fuses, season 1, 1 devices, \d+ kB$/,
  );
  expect(existsSync(join(data, "tightrow.db"))).toBe(true);
});

test("a board is exported as JSON that a new board can start from", async () => {
  const data = await newDataFolder();
  const server = await serve(data);
  const leader = await createBoard(server.origin);
  const phone = connectStock(server.sync, leader.board, leader.token);
  await phone.synced;
  phone.set("intro", "noticed");
  await phone.saved();
  const exported = await tool(data, "export", leader.board);
  expect(exported.code).toBe(0);
  expect(parseBoardFile(exported.out).ok).toBe(true);
  expect(JSON.parse(exported.out).maps.cards).toEqual({ intro: "noticed" });
  expect(await tool(data, "export", "no-such-board")).toMatchObject({
    code: 1,
    err: expect.stringContaining("There is no board"),
  });
  await server.stop();
});

test("whoever runs the server can let a leader back in, once", async () => {
  const data = await newDataFolder();
  const server = await serve(data);
  const leader = await createBoard(server.origin);
  const { out } = await tool(data, "link", leader.board);
  const secret = /#\/join\/[\w-]+\/([\w-]+)$/.exec(out)?.[1] ?? "";
  const join = () =>
    fetch(`${server.origin}/api/join`, {
      method: "POST",
      headers: { authorization: `Bearer ${secret}`, "content-type": "application/json" },
      body: "{}",
    });
  expect(await (await join()).json()).toMatchObject({ board: leader.board, role: "leader" });
  expect((await join()).status).toBe(410);
  await server.stop();
});

test("an unknown tool and a folder without data are one sentence each", async () => {
  const data = await newDataFolder();
  expect(await tool(data, "juggle")).toMatchObject({
    code: 1,
    err: "There is no tool juggle; --help lists them all.",
  });
  expect(await tool(join(data, "empty"), "boards")).toMatchObject({
    code: 1,
    err: expect.stringContaining("There is no data in"),
  });
});
