import { expect, test } from "vitest";
import type { BoardGrant, Link, Session } from "#shared/protocol/api.ts";
import { call } from "#tests/support/api-client.ts";
import { createBoard, createLink, joinAs, refusal } from "#tests/support/boards.ts";
import { connectRaw } from "#tests/support/raw-client.ts";
import { connectStock } from "#tests/support/stock-client.ts";
import { startTestServer } from "#tests/support/test-server.ts";

test("a new board comes with its first leader's device", async () => {
  const { origin } = await startTestServer();
  const { status, body } = await call<BoardGrant>(origin, "POST /api/boards", {
    body: { name: "  Six Spare Fuses " },
  });
  expect(status).toBe(201);
  expect(body).toMatchObject({ role: "leader", boardName: "Six Spare Fuses" });
  // 128 bits in base64url are 22 characters (RFC 4648, section 5, without padding).
  expect(body.token).toMatch(/^[\w-]{22}$/);
  const session = await call<Session>(origin, "GET /api/session", { bearer: body.token });
  expect(session.body).toEqual({
    board: body.board,
    document: body.document,
    season: 1,
    device: expect.any(String),
    confirmed: false,
    expiresAt: null,
    role: "leader",
    memberId: null,
    name: "Six Spare Fuses",
  });
});

test("creating boards can be turned off", async () => {
  const { origin } = await startTestServer({ settings: { createBoards: false } });
  expect(await refusal(origin, "POST /api/boards", { body: { name: "x" } })).toMatchObject({
    status: 403,
    error: "creating-disabled",
  });
});

test("each link gives its role, and only to who has the whole secret", async () => {
  const { origin } = await startTestServer();
  const leader = await createBoard(origin);
  for (const role of ["leader", "member", "guest"] as const) {
    const link = await createLink(origin, leader, role);
    expect(link.secret).toMatch(/^[\w-]{22}$/);
    const joined = await call<BoardGrant>(origin, "POST /api/join", { bearer: link.secret });
    expect(joined.body).toMatchObject({ board: leader.board, role, boardName: "Six Spare Fuses" });
    expect(joined.body.token).not.toBe(link.secret);
    expect(await refusal(origin, "POST /api/join", { bearer: link.secret.slice(1) })).toMatchObject({
      status: 404,
      error: "unknown-link",
    });
  }
  expect(await refusal(origin, "POST /api/join")).toMatchObject({ status: 404, error: "unknown-link" });
});

test("a withdrawn link is gone, with a sentence; who came in before stays", async () => {
  const { origin } = await startTestServer();
  const leader = await createBoard(origin);
  const link = await createLink(origin, leader, "member", { label: "Door" });
  const member = (await call<BoardGrant>(origin, "POST /api/join", { bearer: link.secret })).body;
  expect((await call(origin, `DELETE /api/links/${link.id}`, { bearer: leader.token })).status).toBe(204);
  const refused = await refusal(origin, "POST /api/join", { bearer: link.secret });
  expect(refused).toMatchObject({ status: 410, error: "link-revoked" });
  expect(refused.message).toMatch(/withdrawn/);
  expect((await call(origin, "GET /api/session", { bearer: member.token })).status).toBe(200);
});

test("a link expires at its moment", async () => {
  const server = await startTestServer();
  const leader = await createBoard(server.origin);
  const expiresAt = Date.UTC(2031, 4, 6, 18, 30) + 60_000;
  const link = await createLink(server.origin, leader, "member", { expiresAt });
  server.advance(59_999);
  expect((await call(server.origin, "POST /api/join", { bearer: link.secret })).status).toBe(201);
  server.advance(1);
  expect(await refusal(server.origin, "POST /api/join", { bearer: link.secret })).toMatchObject({
    status: 410,
    error: "link-expired",
  });
});

test("the leader sees the links without their secrets", async () => {
  const { origin } = await startTestServer();
  const leader = await createBoard(origin);
  const { id, secret } = await createLink(origin, leader, "guest", { label: "Audience" });
  const { body } = await call<{ links: Link[] }>(origin, "GET /api/links", { bearer: leader.token });
  expect(body.links).toMatchObject([
    { id, role: "guest", label: "Audience", expiresAt: null, revokedAt: null },
  ]);
  expect(JSON.stringify(body)).not.toContain(secret);
});

test("links are the leader's business, and only those of their own board", async () => {
  const { origin } = await startTestServer();
  const leader = await createBoard(origin);
  const stranger = await createBoard(origin);
  const member = await joinAs(origin, leader, "member");
  const link = await createLink(origin, leader, "member");
  const asMember = { bearer: member.token };
  for (const route of ["GET /api/links", `DELETE /api/links/${link.id}`])
    expect(await refusal(origin, route, asMember)).toMatchObject({ status: 403, error: "leaders-only" });
  expect(await refusal(origin, "POST /api/links", { ...asMember, body: { role: "leader" } })).toMatchObject({
    status: 403,
  });
  expect(await refusal(origin, `DELETE /api/links/${link.id}`, { bearer: stranger.token })).toMatchObject({
    status: 404,
  });
  expect((await call(origin, "POST /api/join", { bearer: link.secret })).status).toBe(201);
});

test("a device is bound to a person of the board, and its changes carry that", async () => {
  const server = await startTestServer();
  const leader = await createBoard(server.origin);
  const member = await joinAs(server.origin, leader, "member");
  const bound = await call<Session>(server.origin, "POST /api/session/member", {
    bearer: member.token,
    body: { memberId: "priya" },
  });
  expect(bound.body).toMatchObject({ role: "member", memberId: "priya" });
  expect(
    (await call<Session>(server.origin, "GET /api/session", { bearer: member.token })).body.memberId,
  ).toBe("priya");
  const phone = connectStock(server.syncUrl, member.board, member.token);
  await phone.synced;
  phone.set("intro", "noticed");
  await phone.saved();
  expect((await server.storage.load(member.board)).map((row) => row.member)).toEqual(["priya"]);
  const guest = await joinAs(server.origin, leader, "guest");
  expect(
    await refusal(server.origin, "POST /api/session/member", {
      bearer: guest.token,
      body: { memberId: "priya" },
    }),
  ).toMatchObject({ status: 403, error: "guests-look" });
});

test("[SRV-2] secrets are stored as hashes only", async () => {
  const server = await startTestServer();
  const leader = await createBoard(server.origin);
  const link = await createLink(server.origin, leader, "member");
  expect(await server.storage.deviceByToken(leader.token)).toBeNull();
  expect(await server.storage.linkBySecret(link.secret)).toBeNull();
  const [stored] = await server.storage.links(leader.board);
  // SHA-256 in base64url: 43 characters.
  expect(stored?.secretHash).toMatch(/^[\w-]{43}$/);
});

test("bad requests are told apart, and none of them does anything", async () => {
  const { origin } = await startTestServer({ settings: { bodyBytes: 256 } });
  const leader = await createBoard(origin);
  const post = (body: unknown, headers = {}) =>
    refusal(origin, "POST /api/links", { bearer: leader.token, body, headers });
  expect(await post({ role: "owner" })).toMatchObject({ status: 400, error: "bad-request" });
  expect(await post("{nonsense")).toMatchObject({ status: 400, error: "bad-request" });
  expect(await post({ role: "member", label: 7 })).toMatchObject({ status: 400 });
  expect(await post('{"role":"member","__proto__":{"role":"leader"}}')).toMatchObject({ status: 400 });
  expect(await post('{"role":"member"}', { "Content-Type": "text/plain" })).toMatchObject({
    status: 415,
    error: "not-json",
  });
  expect(await post({ role: "member", label: "x".repeat(300) })).toMatchObject({
    status: 413,
    error: "too-large",
  });
  expect(({} as Record<string, unknown>).role).toBeUndefined();
  const { body } = await call<{ links: Link[] }>(origin, "GET /api/links", { bearer: leader.token });
  expect(body.links).toEqual([]);
});

test("unknown addresses and methods are told apart", async () => {
  const { origin } = await startTestServer();
  expect(await refusal(origin, "GET /api/nothing")).toMatchObject({ status: 404, error: "not-found" });
  const wrong = await call(origin, "PUT /api/links");
  expect([wrong.status, wrong.headers.get("allow")]).toEqual([405, "GET, POST, HEAD, OPTIONS"]);
  expect(await refusal(origin, "GET /api/session")).toMatchObject({ status: 401, error: "unknown-device" });
  expect(await refusal(origin, "GET /api/session", { bearer: "bm90LWEtdG9rZW4" })).toMatchObject({
    status: 401,
  });
});

test("another site's page is refused, this server's own is not", async () => {
  const { origin } = await startTestServer();
  const from = (page: string) =>
    call(origin, "POST /api/boards", { body: { name: "x" }, headers: { Origin: page } });
  expect((await from("https://elsewhere.example.org")).status).toBe(403);
  expect((await from("null")).status).toBe(403);
  expect((await from(origin)).status).toBe(201);
});

test("an address may try to join only so often in a minute", async () => {
  const server = await startTestServer({ settings: { triesPerMinute: 3 } });
  const tries = () => call(server.origin, "POST /api/join", { bearer: "bm90LWEtc2VjcmV0" });
  const statuses: number[] = [];
  for (let i = 0; i < 4; i++) statuses.push((await tries()).status);
  expect(statuses).toEqual([404, 404, 404, 429]);
  expect((await tries()).headers.get("retry-after")).toBe("60");
  server.advance(60_000);
  expect((await tries()).status).toBe(404);
});

test("health answers with what is in memory", async () => {
  const server = await startTestServer();
  const leader = await createBoard(server.origin);
  const before = await call(server.origin, "GET /healthz");
  expect([before.status, before.body]).toEqual([200, { status: "ok", boards: 0, connections: 0 }]);
  const raw = await connectRaw(`${server.syncUrl}/${leader.board}`, leader.token);
  await raw.frame(0, 0);
  expect((await call(server.origin, "GET /healthz")).body).toEqual({
    status: "ok",
    boards: 1,
    connections: 1,
  });
});

test("[SRV-2] no log line ever carries a secret", async () => {
  const server = await startTestServer();
  const leader = await createBoard(server.origin);
  const link = await createLink(server.origin, leader, "member");
  const raw = await connectRaw(`${server.syncUrl}/${leader.board}?token=${leader.token}`, leader.token);
  raw.send([99]);
  await raw.closed;
  const logged = JSON.stringify(server.logged);
  expect(logged).toContain("connection-closed");
  for (const secret of [leader.token, link.secret]) expect(logged).not.toContain(secret);
});
