import { describe, expect, test } from "vitest";
import { createRateBound, neighbourhood } from "#server/api/rate-bound.ts";
import type { BoardGrant } from "#shared/protocol/api.ts";
import { API_ERRORS } from "#shared/protocol/api-errors.ts";
import { call } from "#tests/support/api-client.ts";
import { createBoard, refusal } from "#tests/support/boards.ts";
import { startTestServer } from "#tests/support/test-server.ts";

describe("what HTTP allows at an address", () => {
  test("HEAD answers like GET without a body, OPTIONS says what there is, the rest is refused with the same list", async () => {
    const { origin } = await startTestServer();
    const leader = await createBoard(origin);
    const head = (headers: Record<string, string>) =>
      fetch(`${origin}/api/session`, { method: "HEAD", headers });
    const known = await head({ Authorization: `Bearer ${leader.token}` });
    expect([known.status, await known.text()]).toEqual([200, ""]);
    expect((await head({})).status).toBe(401);
    const options = await call(origin, "OPTIONS /api/session");
    expect([options.status, options.headers.get("allow")]).toEqual([204, "GET, HEAD, OPTIONS"]);
    const post = await call(origin, "PATCH /api/session", { bearer: leader.token });
    expect([post.status, post.headers.get("allow")]).toEqual([405, "GET, HEAD, OPTIONS"]);
    // A page of another site is told nothing (Fetch standard: a preflight without its headers is a refusal).
    expect(options.headers.get("access-control-allow-origin")).toBeNull();
  });

  test("a segment that cannot be decoded is no address", async () => {
    const { origin } = await startTestServer();
    const leader = await createBoard(origin);
    for (const id of ["%", "%zz", "%E0%A4%A", "%00"])
      expect((await refusal(origin, `DELETE /api/devices/${id}`, { bearer: leader.token })).status).toBe(404);
  });

  test("a secret in the address opens nothing", async () => {
    const { origin } = await startTestServer();
    const leader = await createBoard(origin);
    for (const name of ["token", "bearer", "authorization", "access_token"])
      expect((await call(origin, `GET /api/session?${name}=${leader.token}`)).status).toBe(401);
  });

  test("a body that is missing counts as an empty one, which only those who need none take", async () => {
    const { origin } = await startTestServer();
    const leader = await createBoard(origin);
    expect(await refusal(origin, "POST /api/links", { bearer: leader.token })).toMatchObject({
      error: "bad-request",
    });
    for (const body of ["null", "[]", '"x"', "7", "{} {}", '{"name":"x","name2":1}', "\u0000"])
      expect(await refusal(origin, "POST /api/boards", { body })).toMatchObject({ error: "bad-request" });
  });

  test("every refusal carries one sentence", () => {
    for (const { status, message } of Object.values(API_ERRORS)) {
      expect(status).toBeGreaterThanOrEqual(400);
      expect(message).toMatch(/^[A-Z].*\.$/);
    }
  });
});

describe("[SRV-6] requests are bounded", () => {
  test("for one address over all routes, the unknown ones included", async () => {
    const server = await startTestServer({ settings: { requestsPerMinute: 5 } });
    const statuses: number[] = [];
    for (let i = 0; i < 7; i++) statuses.push((await call(server.origin, `GET /api/nothing-${i}`)).status);
    expect(statuses).toEqual([404, 404, 404, 404, 404, 429, 429]);
    const refused = await call(server.origin, "GET /api/session");
    expect([refused.status, refused.headers.get("retry-after")]).toEqual([429, "60"]);
    // Whoever watches over the server is not kept out by a flood.
    expect((await call(server.origin, "GET /healthz")).status).toBe(200);
    server.advance(60_000);
    expect((await call(server.origin, "GET /api/session")).status).toBe(401);
  });

  test("for one device's writes, and others go on", async () => {
    const server = await startTestServer({ settings: { writesPerMinute: 3 } });
    const one = await createBoard(server.origin);
    const other = await createBoard(server.origin);
    const link = (who: BoardGrant) =>
      call(server.origin, "POST /api/links", { bearer: who.token, body: { role: "member" } });
    const statuses: number[] = [];
    for (let i = 0; i < 4; i++) statuses.push((await link(one)).status);
    expect(statuses).toEqual([201, 201, 201, 429]);
    expect((await link(other)).status).toBe(201);
    expect((await call(server.origin, "GET /api/links", { bearer: one.token })).status).toBe(200);
    server.advance(60_000);
    expect((await link(one)).status).toBe(201);
  });

  // RFC 4291, section 2.5.1: the last 64 bits name the interface; sections 2.2 and 2.5.5.2: how addresses are written.
  test.each([
    ["192.0.2.7", "192.0.2.7"],
    ["::ffff:192.0.2.7", "::ffff:192.0.2.7"],
    ["2001:db8:1:2:3:4:5:6", "2001:db8:1:2::/64"],
    ["2001:db8:1:2::", "2001:db8:1:2::/64"],
    ["2001:0DB8:0001:0002::9", "2001:db8:1:2::/64"],
    ["2001:db8::1:2:3", "2001:db8:0:0::/64"],
    ["fe80::1%eth0", "fe80:0:0:0::/64"],
    ["::1", "0:0:0:0::/64"],
    ["a-hash-of-a-token", "a-hash-of-a-token"],
  ])("%s counts as %s", (address, counted) => {
    expect(neighbourhood(address)).toBe(counted);
  });

  test("an IPv6 network cannot get around it by taking new addresses", () => {
    const mayTry = createRateBound(2, () => 0);
    expect([1, 2, 3].map((i) => mayTry(`2001:db8:1:2::${i}`))).toEqual([true, true, false]);
    expect(mayTry("2001:db8:1:3::1")).toBe(true);
  });
});
