import { describe, expect, test } from "vitest";
import * as Y from "yjs";
import { createMemoryStorage } from "#server/storage/memory-storage.ts";
import { type Storage, StorageRefusal } from "#server/storage/storage.ts";
import type { BoardGrant, Durable, SeasonClosed, SeasonList, Session } from "#shared/protocol/api.ts";
import { decodeHistoryRows, type SentRow } from "#shared/protocol/history-rows.ts";
import { call } from "#tests/support/api-client.ts";
import { createBoard, createLink, joinAs, refusal } from "#tests/support/boards.ts";
import { connectRaw } from "#tests/support/raw-client.ts";
import { connectStock, type StockClient } from "#tests/support/stock-client.ts";
import { startTestServer, type TestServer } from "#tests/support/test-server.ts";

const sessionOf = async ({ origin }: TestServer, { token }: BoardGrant): Promise<Session> =>
  (await call<Session>(origin, "GET /api/session", { bearer: token })).body;

/** A leader's phone on whatever document is open. */
const phoneOf = async (server: TestServer, who: BoardGrant): Promise<StockClient> => {
  const { document } = await sessionOf(server, who);
  const phone = connectStock(server.syncUrl, document, who.token);
  await phone.synced;
  return phone;
};

const write = async (phone: StockClient, map: string, entries: Readonly<Record<string, unknown>>) => {
  phone.doc.transact(() => {
    for (const [key, value] of Object.entries(entries)) phone.doc.getMap(map).set(key, value);
  });
  await phone.saved();
};

const close = (server: TestServer, who: BoardGrant, document: string) =>
  call<SeasonClosed & { error?: string }>(server.origin, "POST /api/seasons", {
    bearer: who.token,
    body: { document },
  });

const rowsOf = async (server: TestServer, who: BoardGrant, path: string): Promise<readonly SentRow[]> => {
  const response = await fetch(`${server.origin}/api/history/${path}`, {
    headers: { Authorization: `Bearer ${who.token}` },
  });
  expect([response.status, response.headers.get("content-type")]).toEqual([200, "application/octet-stream"]);
  const rows = decodeHistoryRows(new Uint8Array(await response.arrayBuffer()));
  if (rows === null) throw new Error("These rows cannot be read");
  return rows;
};

const folded = (rows: readonly SentRow[]): Y.Doc => {
  const doc = new Y.Doc();
  for (const { bytes } of rows) Y.applyUpdate(doc, bytes);
  return doc;
};

const band = async (storage: Storage = createMemoryStorage()) => {
  const server = await startTestServer({ storage });
  const leader = await createBoard(server.origin);
  const phone = await phoneOf(server, leader);
  return { server, leader, phone };
};

describe("[SRV-14] closing a season", () => {
  test("goes on in a fresh document with what stands, the past left behind, and everybody is told", async () => {
    const { server, leader, phone } = await band();
    for (let i = 0; i < 40; i++) await write(phone, "songs", { "a/title": `Marzipan Diesel ${i}` });
    const member = await joinAs(server.origin, leader, "member");
    const live = await connectRaw(`${server.syncUrl}/${member.document}`, member.token);
    await live.frame(0, 0);
    const closed = phone.closed();
    const { status, body } = await close(server, leader, leader.document);
    expect([status, body.season]).toEqual([201, 2]);
    expect(body.bytesAfter).toBeLessThan(body.bytesBefore);
    expect(await closed).toBe(4409);
    expect((await live.closed).code).toBe(4409);
    const after = await phoneOf(server, leader);
    expect(after.doc.getMap("songs").get("a/title")).toBe("Marzipan Diesel 39");
    expect(after.doc.store.clients.has(phone.doc.clientID)).toBe(false);
    // Old tokens are good for the new document, and for it alone.
    expect(await sessionOf(server, member)).toMatchObject({ document: body.document, season: 2 });
    const old = await connectRaw(`${server.syncUrl}/${leader.document}`, leader.token);
    expect((await old.closed).code).toBe(4409);
    expect(old.frames).toEqual([]);
  });

  test("twice, or by two leaders at once, closes it once", async () => {
    const { server, leader, phone } = await band();
    await write(phone, "songs", { "a/title": "Marzipan Diesel" });
    const two = await Promise.all([
      close(server, leader, leader.document),
      close(server, leader, leader.document),
    ]);
    const third = await close(server, leader, leader.document);
    expect(new Set([...two, third].map(({ body }) => body.document)).size).toBe(1);
    expect(third.body.season).toBe(2);
    const { body } = await call<SeasonList>(server.origin, "GET /api/seasons", { bearer: leader.token });
    expect(body.seasons.map(({ season, closedAt }) => [season, closedAt === null])).toEqual([
      [1, false],
      [2, true],
    ]);
    const stranger = await createBoard(server.origin, "Another band");
    expect((await close(server, stranger, leader.document)).body.error).toBe("not-found");
    const member = await joinAs(server.origin, leader, "member");
    expect((await close(server, member, third.body.document)).body.error).toBe("leaders-only");
  });

  test("a disk that refuses leaves the season open, and everybody comes back to it", async () => {
    const storage = createMemoryStorage();
    let refuses = true;
    const failing: Storage = Object.assign(Object.create(storage), {
      openSeason: (...args: Parameters<Storage["openSeason"]>) =>
        refuses ? Promise.reject(new StorageRefusal("full")) : storage.openSeason(...args),
    });
    const { server, leader, phone } = await band(failing);
    await write(phone, "songs", { "a/title": "Marzipan Diesel" });
    expect((await close(server, leader, leader.document)).status).toBe(503);
    expect(await sessionOf(server, leader)).toMatchObject({ document: leader.document, season: 1 });
    const again = await phoneOf(server, leader);
    expect(again.doc.getMap("songs").get("a/title")).toBe("Marzipan Diesel");
    refuses = false;
    expect((await close(server, leader, leader.document)).status).toBe(201);
  });

  test("a device can ask what of its changes had arrived", async () => {
    const { server, leader, phone } = await band();
    await write(phone, "songs", { "a/title": "Marzipan Diesel", "a/tempo": 120 });
    const clients = [phone.doc.clientID, 7];
    const ask = (who: BoardGrant, document: string) =>
      call<Durable & { error?: string }>(server.origin, `POST /api/seasons/${document}/durable`, {
        bearer: who.token,
        body: { clients },
      });
    expect((await ask(leader, leader.document)).body.error).toBe("not-found");
    await close(server, leader, leader.document);
    expect((await ask(leader, leader.document)).body.clocks).toEqual([
      { client: phone.doc.clientID, clock: 2 },
      { client: 7, clock: 0 },
    ]);
    expect((await ask(await createBoard(server.origin), leader.document)).body.error).toBe("not-found");
    expect((await ask(await joinAs(server.origin, leader, "guest"), leader.document)).body.error).toBe(
      "guests-look",
    );
  });
});

describe("[SRV-14] erasing", () => {
  test("a person leaves the board, its past, the tables and the room", async () => {
    const { server, leader, phone } = await band();
    await write(phone, "people", { "priya/name": "Priya Sundarvane", "anneli/name": "Anneli Kuusvirre" });
    await write(phone, "chairs", { "vx/name": "Lead voice", "vx/holder": "priya" });
    const { secret } = await createLink(server.origin, leader, "member", { memberId: "priya" });
    const priya = (await call<BoardGrant>(server.origin, "POST /api/join", { bearer: secret })).body;
    const put = `PUT /api/private/notes`;
    await call(server.origin, put, { bearer: priya.token, body: { value: "mine" } });
    const live = await connectRaw(`${server.syncUrl}/${priya.document}`, priya.token);
    await live.frame(0, 0);
    const { status, body } = await call<SeasonClosed>(server.origin, "POST /api/people/priya/erase", {
      bearer: leader.token,
    });
    expect([status, body.season]).toEqual([201, 2]);
    expect((await live.closed).code).toBe(4411);
    expect((await call(server.origin, "GET /api/session", { bearer: priya.token })).status).toBe(401);
    expect((await call(server.origin, "POST /api/join", { bearer: secret })).status).toBe(410);
    const { storage } = server;
    expect(await storage.privateValues(leader.board, "priya")).toEqual([]);
    expect(await storage.history(leader.document, {})).toEqual([]);
    expect(await storage.load(leader.document)).toEqual([]);
    const rows = await storage.load(body.document);
    const text = rows.map(({ bytes }) => Buffer.from(bytes).toString("utf8")).join();
    expect(text).not.toContain("Sundarvane");
    expect(text).toContain("Kuusvirre");
    const after = await phoneOf(server, leader);
    expect(after.doc.getMap("people").get("priya/deleted")).toBe(true);
    expect(after.doc.getMap("chairs").get("vx/holder")).toBe("");
  });

  test("an unknown person, and the one whose device alone leads, are refused and nothing changes", async () => {
    const { server, leader, phone } = await band();
    await write(phone, "people", { "tomasz/name": "Tomasz Wrzosnowicz" });
    await call(server.origin, "POST /api/session/member", {
      bearer: leader.token,
      body: { memberId: "tomasz" },
    });
    const erase = (id: string) =>
      refusal(server.origin, `POST /api/people/${id}/erase`, { bearer: leader.token });
    expect(await erase("nobody")).toMatchObject({ error: "not-found" });
    expect(await erase("tomasz")).toMatchObject({ error: "last-leader" });
    expect(await sessionOf(server, leader)).toMatchObject({ document: leader.document, season: 1 });
  });

  test("a band goes whole once its leader has typed its name", async () => {
    const { server, leader, phone } = await band();
    await write(phone, "band", { name: "Seven  Spare Fuses" });
    const member = await joinAs(server.origin, leader, "member");
    const link = await createLink(server.origin, leader, "member");
    const erase = (who: BoardGrant, name: string) =>
      call<{ error?: string }>(server.origin, "POST /api/board/erase", { bearer: who.token, body: { name } });
    expect((await erase(leader, "Six Spare Fuses")).body.error).toBe("name-differs");
    expect((await erase(member, "Seven Spare Fuses")).body.error).toBe("leaders-only");
    const live = await connectRaw(`${server.syncUrl}/${member.document}`, member.token);
    await live.frame(0, 0);
    expect((await erase(leader, " Seven Spare  Fuses ")).status).toBe(204);
    expect((await live.closed).code).toBe(4415);
    for (const { token } of [leader, member])
      expect(await refusal(server.origin, "GET /api/session", { bearer: token })).toMatchObject({
        status: 410,
        error: "board-erased",
      });
    expect((await call(server.origin, "POST /api/join", { bearer: link.secret })).status).toBe(404);
    const again = await connectRaw(`${server.syncUrl}/${member.document}`, member.token);
    expect((await again.closed).code).toBe(4415);
    expect(await server.storage.load(leader.document)).toEqual([]);
    expect(await server.storage.board(leader.board)).toMatchObject({ name: "" });
  });

  test("a board without a name of its own is erased by the name it was made with, and a new demo follows an erased one", async () => {
    const server = await startTestServer({ seedDemo: (doc) => void doc.getMap("songs").set("a/title", "x") });
    const { body: demo } = await call<BoardGrant>(server.origin, "POST /api/demo");
    const erased = await call(server.origin, "POST /api/board/erase", {
      bearer: demo.token,
      body: { name: "Six Spare Fuses" },
    });
    expect(erased.status).toBe(204);
    const next = await call<BoardGrant>(server.origin, "POST /api/demo");
    expect(next.status).toBe(201);
    expect(next.body.board).not.toBe(demo.board);
    expect((await phoneOf(server, next.body)).doc.getMap("songs").get("a/title")).toBe("x");
  });
});

describe("the past of every season", () => {
  test("comes in pages, oldest first, with who sent it; and as the document was after any row", async () => {
    const { server, leader, phone } = await band();
    for (let i = 0; i < 10; i++) await write(phone, "songs", { "a/title": `v${i}` });
    await close(server, leader, leader.document);
    const all = await rowsOf(server, leader, leader.document);
    expect(all).toHaveLength(10);
    const { device } = await sessionOf(server, leader);
    expect(new Set(all.map((row) => row.device))).toEqual(new Set([device]));
    expect(all.map(({ seq }) => seq)).toEqual(all.map(({ seq }) => seq).toSorted((a, b) => a - b));
    const page = await rowsOf(server, leader, `${leader.document}?limit=4`);
    expect(page.map(({ seq }) => seq)).toEqual(all.slice(6).map(({ seq }) => seq));
    const before = await rowsOf(server, leader, `${leader.document}?limit=4&before=${page[0]?.seq}`);
    expect(before.map(({ seq }) => seq)).toEqual(all.slice(2, 6).map(({ seq }) => seq));
    expect(await rowsOf(server, leader, `${leader.document}?before=${all[0]?.seq}`)).toEqual([]);
    for (const [i, { seq }] of all.entries())
      expect(
        folded(await rowsOf(server, leader, `${leader.document}?state=${seq}`))
          .getMap("songs")
          .get("a/title"),
      ).toBe(`v${i}`);
  });

  test("a page is bounded in rows and bytes, and paging through it misses nothing", async () => {
    const { server, leader, phone } = await band();
    await write(phone, "songs", { small: 1 });
    const sizes = [3_000_000, 3_000_000, 100, 5_000_000, 100];
    for (const [i, size] of sizes.entries()) await write(phone, "songs", { [`b${i}`]: "x".repeat(size) });
    const pages: number[][] = [];
    let before = "";
    for (;;) {
      const page = await rowsOf(server, leader, `${leader.document}${before}`);
      if (page.length === 0) break;
      pages.push(page.map(({ bytes }) => bytes.length));
      before = `?before=${page[0]?.seq}`;
    }
    // The server may have noted its migrations in a row of its own meanwhile.
    expect(pages.flat().length).toBeGreaterThanOrEqual(6);
    expect(pages.flat().filter((size) => size > 1_000_000)).toHaveLength(3);
    expect(pages.length).toBeGreaterThan(2);
    for (const page of pages)
      expect(page.length === 1 || page.reduce((sum, size) => sum + size, 0) <= 4 * 1024 * 1024).toBe(true);
  });

  test("is the leader's, of their own board, and asked for in plain numbers", async () => {
    const { server, leader, phone } = await band();
    await write(phone, "songs", { "a/title": "v" });
    const member = await joinAs(server.origin, leader, "member");
    const stranger = await createBoard(server.origin);
    const ask = (who: BoardGrant, query = "") =>
      refusal(server.origin, `GET /api/history/${leader.document}${query}`, { bearer: who.token });
    expect(await ask(member)).toMatchObject({ error: "leaders-only" });
    expect(await ask(stranger)).toMatchObject({ error: "not-found" });
    for (const query of [
      "?limit=-1",
      "?limit=1e3",
      "?after=x",
      "?limit=1&limit=2",
      "?who=me",
      "?__proto__=1",
    ])
      expect(await ask(leader, query)).toMatchObject({ status: 400, error: "bad-request" });
    expect(await refusal(server.origin, "GET /api/history/nothing", { bearer: leader.token })).toMatchObject({
      error: "not-found",
    });
  });
});
