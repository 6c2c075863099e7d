import { rm, writeFile } from "node:fs/promises";
import { createServer } from "node:net";
import { dirname, join } from "node:path";
import { afterAll, beforeAll, expect, onTestFinished, test } from "vitest";
import * as Y from "yjs";
import { createBoard } from "#tests/support/boards.ts";
import { buildServer, newDataFolder, spawnServer } from "#tests/support/built-server.ts";
import { connectStock } from "#tests/support/stock-client.ts";

let program = "";

beforeAll(async () => {
  program = await buildServer();
});

afterAll(() => rm(dirname(program), { recursive: true, force: true }));

test("it greets with addresses, keeps its log apart, and stops when asked", async () => {
  const server = spawnServer(program, { TIGHTROW_DATA: await newDataFolder(), TIGHTROW_DEMO: "on" });
  const port = await server.listening;
  await expect.poll(server.out).toContain("Ctrl+C stops it.");
  expect(server.out()).toContain(`http://127.0.0.1:${port}`);
  const secrets = [...server.out().matchAll(/#\/join\/[\w-]+\/([\w-]+)/g)].map(([, secret]) => secret ?? "");
  expect(secrets).toHaveLength(2);
  server.child.kill("SIGTERM");
  expect(await server.ended).toEqual({ code: 0, signal: null });
  for (const line of server.err().trim().split("\n")) expect(JSON.parse(line)).toHaveProperty("event");
  for (const secret of secrets) expect(server.err()).not.toContain(secret);
});

test("a machine that does not know its time zone starts all the same", async () => {
  const server = spawnServer(program, {
    TIGHTROW_DATA: await newDataFolder(),
    TIGHTROW_DEMO: "on",
    TZ: "",
  });
  expect(await server.listening).toBeGreaterThan(0);
});

test("links are not printed where that is turned off", async () => {
  const env = { TIGHTROW_DATA: await newDataFolder(), TIGHTROW_DEMO: "on", TIGHTROW_PRINT_LINKS: "off" };
  const server = spawnServer(program, env);
  await server.listening;
  await expect.poll(server.out).toContain("Ctrl+C stops it.");
  expect(server.out()).not.toContain("#/join");
});

test("it goes on when nobody reads what it prints any more, and stops when asked", async () => {
  const server = spawnServer(program, { TIGHTROW_DATA: await newDataFolder() });
  const origin = `http://127.0.0.1:${await server.listening}`;
  server.child.stdout?.destroy();
  server.child.stderr?.destroy();
  // Each of these makes it log.
  const leader = await createBoard(origin);
  for (let visit = 0; visit < 3; visit++) {
    const phone = connectStock(`${origin.replace("http", "ws")}/sync`, leader.board, leader.token);
    await phone.synced;
    phone.stop();
  }
  expect((await fetch(`${origin}/healthz`)).status).toBe(200);
  server.child.kill("SIGTERM");
  expect(await server.ended).toEqual({ code: 0, signal: null });
});

test("stopping tells the devices to come again, and keeps what they wrote", async () => {
  const env = { TIGHTROW_DATA: await newDataFolder() };
  const first = spawnServer(program, env);
  const origin = `http://127.0.0.1:${await first.listening}`;
  const leader = await createBoard(origin);
  const phone = connectStock(`${origin.replace("http", "ws")}/sync`, leader.board, leader.token);
  await phone.synced;
  phone.set("intro", "locked in");
  await phone.saved();
  const told = phone.closed();
  first.child.kill("SIGTERM");
  // RFC 6455 and the IANA registry: 1012 = the service restarts.
  expect(await told).toBe(1012);
  phone.stop();
  expect((await first.ended).code).toBe(0);

  const second = spawnServer(program, env);
  const again = `ws://127.0.0.1:${await second.listening}/sync`;
  await connectStock(again, leader.board, leader.token, new Y.Doc()).sees("intro", "locked in");
});

test("a port in use is one clear sentence and exit code 1", async () => {
  const squatter = createServer();
  await new Promise<void>((resolve) => squatter.listen(0, "127.0.0.1", resolve));
  onTestFinished(() => void squatter.close());
  const address = squatter.address();
  const port = typeof address === "object" && address !== null ? `${address.port}` : "";
  const server = spawnServer(program, { TIGHTROW_DATA: await newDataFolder(), TIGHTROW_PORT: port });
  expect((await server.ended).code).toBe(1);
  expect(server.err()).toBe(
    `Port ${port} is in use by another program. Stop that one, or set TIGHTROW_PORT to a free port.\n`,
  );
  expect(server.out()).toBe("");
});

test("a data folder that cannot be used is one clear sentence and exit code 1", async () => {
  const file = join(await newDataFolder(), "file");
  await writeFile(file, "");
  const server = spawnServer(program, { TIGHTROW_DATA: join(file, "data") });
  expect((await server.ended).code).toBe(1);
  expect(server.err()).toMatch(/^The data folder .* cannot be used: .*\.\n$/);
});

test("wrong settings are one sentence each and exit code 1; unknown ones are pointed out", async () => {
  const wrong = spawnServer(program, { TIGHTROW_PORT: "many", TIGHTROW_DEMO: "perhaps" });
  expect((await wrong.ended).code).toBe(1);
  expect(wrong.err().trim().split("\n")).toHaveLength(2);
  const typo = spawnServer(program, { TIGHTROW_DATA: await newDataFolder(), TIGHTROW_DATTA: "x" });
  await typo.listening;
  expect(typo.err()).toContain("There is no setting TIGHTROW_DATTA");
});

test("--help prints all settings and starts nothing", async () => {
  const help = spawnServer(program, {}, ["--help"]);
  expect((await help.ended).code).toBe(0);
  expect(help.out()).toContain("TIGHTROW_PORT (4400)");
  expect(help.err()).toBe("");
});
