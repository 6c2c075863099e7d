/** Pages of other sites, and requests no browser would send. */
import { mkdir, rm, writeFile } from "node:fs/promises";
import { connect } from "node:net";
import { dirname, join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { writeCsv } from "#shared/exchange/csv.ts";
import { call } from "#tests/support/api-client.ts";
import { createLink, refusal } from "#tests/support/boards.ts";
import { buildServer, newDataFolder } from "#tests/support/built-server.ts";
import { openArena, sayWaits } from "./arena.ts";

let program = "";
beforeAll(async () => {
  program = await buildServer();
});
afterAll(() => {
  sayWaits();
  return rm(dirname(program), { recursive: true, force: true });
});

/**
 * Sends bytes as they are; resolves to what came back until the other side closed. A server that hangs up in the middle
 * of an overlong request resets the connection, and its answer may be lost on the way: then it says "hung up".
 */
const speak = (origin: string, text: string): Promise<string> =>
  new Promise((resolve) => {
    const { hostname, port } = new URL(origin);
    const socket = connect(Number(port), hostname, () => socket.write(text));
    let answer = "";
    socket.on("data", (data) => {
      answer += data.toString("latin1");
    });
    socket.on("close", () => resolve(answer));
    socket.on("error", () => resolve(answer || "hung up"));
  });

const ELSEWHERE = "https://elsewhere.example";

describe("[SRV-26] another site's page can do nothing", () => {
  test("it cannot open the sync socket, with or without a token", async () => {
    const arena = await openArena(program);
    for (const origin of [ELSEWHERE, "null", `${arena.origin}.elsewhere.example`, "http://127.0.0.1:1"])
      for (const token of [arena.leader.token, ""])
        await expect(arena.attack(token, { headers: { origin } })).rejects.toThrow("403");
    await arena.unharmed();
  });

  test("it cannot call the API, and is given no permission to read an answer", async () => {
    const arena = await openArena(program);
    const headers = { origin: ELSEWHERE };
    for (const route of ["GET /api/session", "POST /api/boards", "POST /api/board/erase"]) {
      const request = { bearer: arena.leader.token, headers };
      const reply = await call(
        arena.origin,
        route,
        route.startsWith("GET") ? request : { ...request, body: {} },
      );
      expect(reply.status).toBe(403);
      expect(reply.headers.get("access-control-allow-origin")).toBeNull();
    }
    const preflight = await fetch(`${arena.origin}/api/session`, {
      method: "OPTIONS",
      headers: { ...headers, "access-control-request-method": "DELETE" },
    });
    expect(preflight.headers.get("access-control-allow-origin")).toBeNull();
    await arena.unharmed();
  });

  test("a form it makes the browser send has no effect, and there is no cookie that could help it", async () => {
    const arena = await openArena(program);
    for (const type of [
      "application/x-www-form-urlencoded",
      "text/plain",
      "multipart/form-data; boundary=x",
    ]) {
      const reply = await call(arena.origin, "POST /api/boards", {
        body: '{"name":"Forged"}',
        headers: { "Content-Type": type },
      });
      expect(reply.status).toBe(415);
      expect(reply.headers.get("set-cookie")).toBeNull();
    }
    const page = await fetch(arena.origin);
    expect(page.headers.get("set-cookie")).toBeNull();
    expect(page.headers.get("content-security-policy")).not.toContain("unsafe-inline");
    await arena.unharmed();
  });
});

describe("[SRV-27] no request breaks the server or reads what it must not", () => {
  const BODIES = [
    '{"__proto__":{"role":"leader"},"role":"member"}',
    '{"constructor":{"prototype":{"role":"leader"}},"role":"member"}',
    '{"role":"member","role":"leader","__proto__":null}',
    "[".repeat(10_000),
    `{"role":${"[".repeat(8000)}${"]".repeat(8000)}}`,
    '{"role":{"toString":"x"}}',
    '{"role":["leader"]}',
    '{"role":"member","expiresAt":1e999}',
    '{"role":"member","maxUses":-1}',
    '{"role":"member","label":{"$gt":""}}',
    "null",
    '"leader"',
    "\u0000",
    "{",
  ];
  test("hostile JSON is refused and changes no object it did not send", async () => {
    const arena = await openArena(program);
    for (const body of BODIES) {
      const reply = await call(arena.origin, "POST /api/links", { bearer: arena.leader.token, body });
      expect({ body: body.slice(0, 40), status: reply.status }).toEqual({
        body: body.slice(0, 40),
        status: 400,
      });
    }
    const link = await createLink(arena.origin, arena.leader, "member");
    expect(link.role).toBe("member");
    await arena.unharmed();
  });

  const FILES = [
    "/../package.json",
    "/..%2fpackage.json",
    "/%2e%2e/%2e%2e/package.json",
    "/....//package.json",
    "/..%5c..%5cpackage.json",
    "//etc/passwd",
    "/assets/../../main.js",
    "/%00",
    "/index.html%00.png",
    "/.env",
    "/tightrow.db",
    "/data/tightrow.db",
  ];
  test("no path leads out of the built client", async () => {
    const folder = await newDataFolder();
    await mkdir(join(folder, "client"));
    await writeFile(join(folder, "client/index.html"), "the page");
    await writeFile(join(folder, "package.json"), '{"dependencies":{}}');
    const arena = await openArena(program, { TIGHTROW_CLIENT: join(folder, "client") });
    expect(await (await fetch(arena.origin)).text()).toBe("the page");
    for (const path of FILES) {
      const answer = await speak(
        arena.origin,
        `GET ${path} HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n`,
      );
      expect(answer).not.toMatch(/root:|"dependencies"|SQLite format|better-sqlite3/);
      // Addresses of the page itself are answered with the page.
      expect(answer).toMatch(/^HTTP\/1\.1 (400|404)|\r\n\r\nthe page$/);
    }
    await arena.unharmed();
  });

  test("requests that are none, too long, or two in one", async () => {
    const arena = await openArena(program);
    const requests = [
      "nonsense\r\n\r\n",
      "GET / HTTP/9.9\r\n\r\n",
      `GET / HTTP/1.1\r\nHost: x\r\nX: ${"y".repeat(100_000)}\r\n\r\n`,
      `GET /${"y".repeat(100_000)} HTTP/1.1\r\nHost: x\r\n\r\n`,
      "POST /api/boards HTTP/1.1\r\nHost: x\r\nContent-Length: 5\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\nGET /healthz HTTP/1.1\r\n\r\n",
      "POST /api/boards HTTP/1.1\r\nHost: x\r\nContent-Length: -5\r\n\r\n",
      "GET /sync/x HTTP/1.1\r\nHost: x\r\nConnection: Upgrade\r\nUpgrade: websocket\r\nSec-WebSocket-Version: 99\r\nSec-WebSocket-Key: x\r\n\r\n",
    ];
    for (const request of requests)
      expect(await speak(arena.origin, request)).toMatch(/^HTTP\/1\.1 4\d\d |^hung up$/);
    const large = await refusal(arena.origin, "POST /api/boards", { body: { name: "x".repeat(1_000_000) } });
    expect(large.status).toBe(413);
    await arena.unharmed();
  });

  test("guessing links, tokens and recovery codes is slowed down", async () => {
    const arena = await openArena(program, { TIGHTROW_TRIES_PER_MINUTE: "40" });
    for (const route of ["POST /api/join", "POST /api/recover"]) {
      const statuses: number[] = [];
      for (let i = 0; i < 60; i++)
        statuses.push((await call(arena.origin, route, { bearer: `guess-${i}`, body: {} })).status);
      expect(statuses).toContain(429);
      expect(statuses.at(-1)).toBe(429);
    }
    await arena.unharmed();
  });

  test("cells of an exported list begin with nothing that a spreadsheet runs", () => {
    const titles = ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", '=HYPERLINK("http://elsewhere.example")'];
    for (const title of titles) {
      const [, row = ""] = writeCsv([["Title"], [title]]).split("\r\n");
      // OWASP, "CSV Injection": cells that begin with one of = + - @ tab or return are run by spreadsheets.
      expect(row.replace(/^"/, "")).not.toMatch(/^[=+\-@\t\r]/);
    }
  });
});
