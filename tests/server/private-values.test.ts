import { describe, expect, test } from "vitest";
import type { BoardGrant, PrivateValues } from "#shared/protocol/api.ts";
import { call } from "#tests/support/api-client.ts";
import { createBoard, joinAs, refusal } from "#tests/support/boards.ts";
import { startTestServer } from "#tests/support/test-server.ts";

const band = async () => {
  const server = await startTestServer();
  const { origin } = server;
  const leader = await createBoard(origin);
  const join = async (memberId: string | null): Promise<BoardGrant> => {
    const grant = await joinAs(origin, leader, "member");
    if (memberId !== null)
      await call(origin, "POST /api/session/member", { bearer: grant.token, body: { memberId } });
    return grant;
  };
  const put = (who: BoardGrant, key: string, value: unknown) =>
    call<{ error?: string }>(origin, `PUT /api/private/${key}`, { bearer: who.token, body: { value } });
  const all = async (who: BoardGrant) =>
    (await call<PrivateValues>(origin, "GET /api/private", { bearer: who.token })).body.values;
  return { server, origin, leader, join, put, all };
};

describe("[SRV-12] what is private to a member", () => {
  test("is read by their confirmed devices, and by nobody else, leaders included", async () => {
    const { server, origin, leader, join, put, all } = await band();
    const priya = await join("priya");
    expect((await put(priya, "notes", { song: "a", text: "Hum the low part first" })).status).toBe(204);
    expect(await all(priya)).toEqual([
      { key: "notes", value: { song: "a", text: "Hum the low part first" }, at: expect.any(Number) },
    ]);
    const anneli = await join("anneli");
    expect(await all(anneli)).toEqual([]);
    const pretender = await join("priya");
    for (const [who, error] of [
      [pretender, "not-confirmed"],
      [leader, "pick-a-name"],
      [await joinAs(origin, leader, "guest"), "guests-look"],
    ] as const) {
      expect(await refusal(origin, "GET /api/private", { bearer: who.token })).toMatchObject({
        status: 403,
        error,
      });
      expect((await put(who, "notes", "mine")).body.error).toBe(error);
    }
    expect(JSON.stringify(server.logged)).not.toContain("Hum the low part");
    expect((await server.storage.load(leader.document)).length).toBe(0);
  });

  test("does not open to the next who picks the name once its devices are gone", async () => {
    const { origin, leader, join, put, all } = await band();
    const priya = await join("priya");
    await put(priya, "notes", "mine");
    const { body } = await call<{ device: string }>(origin, "GET /api/session", { bearer: priya.token });
    await call(origin, `DELETE /api/devices/${body.device}`, { bearer: leader.token });
    const next = await join("priya");
    expect(await refusal(origin, "GET /api/private", { bearer: next.token })).toMatchObject({
      error: "not-confirmed",
    });
    const session = await call<{ device: string }>(origin, "GET /api/session", { bearer: next.token });
    await call(origin, `PATCH /api/devices/${session.body.device}`, {
      bearer: leader.token,
      body: { confirmed: true },
    });
    expect(await all(next)).toMatchObject([{ key: "notes", value: "mine" }]);
  });

  test("null takes a value away; every other JSON value comes back as it was", async () => {
    const { join, put, all } = await band();
    const priya = await join("priya");
    const values = [0, false, "", [], {}, [1, { a: [null, "ü"] }]];
    for (const value of values) {
      await put(priya, "k", value);
      expect((await all(priya)).map((one) => one.value)).toEqual([value]);
    }
    await put(priya, "k", null);
    expect(await all(priya)).toEqual([]);
  });

  test("is bounded in key, size and number", async () => {
    const { origin, join, put, all } = await band();
    const priya = await join("priya");
    for (const key of ["Notes", "a_b", "a%2Fb", "%E0%A4%A", "x".repeat(65)])
      expect([400, 404]).toContain((await put(priya, key, 1)).status);
    expect((await put(priya, "x".repeat(64), "y".repeat(8190))).status).toBe(204);
    expect((await put(priya, "long", "y".repeat(8191))).body.error).toBe("too-large");
    expect((await put(priya, "wide", "€".repeat(2731))).body.error).toBe("too-large");
    for (let i = 1; i < 200; i++) await put(priya, `k-${i}`, i);
    expect((await put(priya, "one-more", 1)).body.error).toBe("private-full");
    expect((await put(priya, "k-7", "again")).status).toBe(204);
    expect(await all(priya)).toHaveLength(200);
    expect(await refusal(origin, "PUT /api/private/k", { bearer: priya.token, body: {} })).toMatchObject({
      error: "bad-request",
    });
  });

  test("hostile JSON is kept as the text it is, or refused, and reaches nothing else", async () => {
    const { origin, join, all } = await band();
    const priya = await join("priya");
    const raw = (body: string) => call(origin, "PUT /api/private/k", { bearer: priya.token, body });
    expect(
      (await raw('{"value":{"__proto__":{"leads":true},"constructor":{"prototype":{"leads":true}}}}')).status,
    ).toBe(204);
    expect(({} as Record<string, unknown>).leads).toBeUndefined();
    expect(Object.hasOwn((await all(priya))[0]?.value as object, "__proto__")).toBe(true);
    expect((await raw('{"value":1,"__proto__":{"value":2}}')).status).toBe(400);
    const deep = `{"value":${"[".repeat(4000)}${"]".repeat(4000)}}`;
    expect([204, 400]).toContain((await raw(deep)).status);
    expect(await all(priya)).toHaveLength(1);
  });
});
