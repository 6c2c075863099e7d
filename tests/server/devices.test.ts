import { describe, expect, test } from "vitest";
import type { BoardGrant, DeviceInfo, DeviceList, NewLink, Role, Session } from "#shared/protocol/api.ts";
import { call } from "#tests/support/api-client.ts";
import { createBoard, createLink, joinAs, refusal } from "#tests/support/boards.ts";
import { connectRaw } from "#tests/support/raw-client.ts";
import { connectStock } from "#tests/support/stock-client.ts";
import { startTestServer, type TestServer } from "#tests/support/test-server.ts";

const DAY = 86_400_000;
const START = Date.UTC(2031, 4, 6, 18, 30);

const devicesOf = async ({ origin }: TestServer, { token }: BoardGrant): Promise<readonly DeviceInfo[]> =>
  (await call<DeviceList>(origin, "GET /api/devices", { bearer: token })).body.devices;

const ownId = async ({ origin }: TestServer, { token }: BoardGrant): Promise<string> =>
  (await call<Session>(origin, "GET /api/session", { bearer: token })).body.device;

const claim = async ({ origin }: TestServer, { token }: BoardGrant, memberId: string): Promise<Session> =>
  (await call<Session>(origin, "POST /api/session/member", { bearer: token, body: { memberId } })).body;

const band = async () => {
  const server = await startTestServer();
  const leader = await createBoard(server.origin);
  return { server, leader };
};

const connected = async (server: TestServer, who: BoardGrant) => {
  const raw = await connectRaw(`${server.syncUrl}/${who.document}`, who.token);
  if (who.role !== "guest") await raw.frame(0, 0);
  return raw;
};

describe("[SRV-11] devices that may do less", () => {
  test("a removed device is cut at once, and is told so whatever it asks", async () => {
    const { server, leader } = await band();
    const member = await joinAs(server.origin, leader, "member");
    const live = await connected(server, member);
    const id = await ownId(server, member);
    expect((await call(server.origin, `DELETE /api/devices/${id}`, { bearer: leader.token })).status).toBe(
      204,
    );
    expect(await live.closed).toEqual({ code: 4411, reason: "device-removed" });
    expect(await refusal(server.origin, "GET /api/session", { bearer: member.token })).toMatchObject({
      status: 401,
      error: "device-removed",
    });
    const again = await connectRaw(`${server.syncUrl}/${member.document}`, member.token);
    expect((await again.closed).code).toBe(4411);
    expect(again.frames).toEqual([]);
    expect((await devicesOf(server, leader)).map((device) => device.id)).not.toContain(id);
  });

  test("nothing that others write after the removal reaches the removed device", async () => {
    const { server, leader } = await band();
    const member = await joinAs(server.origin, leader, "member");
    const live = await connected(server, member);
    const writer = connectStock(server.syncUrl, leader.document, leader.token);
    await writer.synced;
    writer.set("before", 1);
    await writer.saved();
    await live.frame(0, 2);
    await call(server.origin, `DELETE /api/devices/${await ownId(server, member)}`, { bearer: leader.token });
    const heard = live.frames.length;
    writer.set("after", 2);
    await writer.saved();
    await live.closed;
    expect(live.frames.length).toBe(heard);
  });

  test("a downgraded device begins again with less: its next change is refused", async () => {
    const { server, leader } = await band();
    const member = await joinAs(server.origin, leader, "member");
    const live = await connected(server, member);
    const id = await ownId(server, member);
    const changed = await call<DeviceInfo>(server.origin, `PATCH /api/devices/${id}`, {
      bearer: leader.token,
      body: { role: "guest" },
    });
    expect(changed.body).toMatchObject({ id, role: "guest" });
    expect((await live.closed).code).toBe(4508);
    const writing = connectStock(server.syncUrl, member.document, member.token);
    const closed = writing.closed();
    await writing.synced;
    writing.set("song", "late");
    expect(await closed).toBe(4403);
    expect((await server.storage.load(member.document)).length).toBe(0);
  });

  test("a connected guest is cut when the link's time is over", async () => {
    const { server, leader } = await band();
    const link = await createLink(server.origin, leader, "guest", { expiresAt: START + DAY });
    const guest = (await call<BoardGrant>(server.origin, "POST /api/join", { bearer: link.secret })).body;
    expect(guest.expiresAt).toBe(START + DAY);
    const live = await connected(server, guest);
    server.advance(DAY);
    expect((await live.closed).code).toBe(4412);
    expect(await refusal(server.origin, "GET /api/session", { bearer: guest.token })).toMatchObject({
      status: 401,
      error: "way-in-ended",
    });
  });

  test("the band's own devices outlast the link they came in by", async () => {
    const { server, leader } = await band();
    const link = await createLink(server.origin, leader, "member", { expiresAt: START + DAY });
    const member = (await call<BoardGrant>(server.origin, "POST /api/join", { bearer: link.secret })).body;
    expect(member.expiresAt).toBeNull();
    server.advance(2 * DAY);
    expect((await call(server.origin, "GET /api/session", { bearer: member.token })).status).toBe(200);
  });

  test("withdrawing a link can remove those who came in by it, and nobody else", async () => {
    const { server, leader } = await band();
    const link = await createLink(server.origin, leader, "member");
    const join = async () =>
      (await call<BoardGrant>(server.origin, "POST /api/join", { bearer: link.secret })).body;
    const through = [await join(), await join()];
    const other = await joinAs(server.origin, leader, "member");
    const live = await connected(server, through[0] as BoardGrant);
    await call(server.origin, `DELETE /api/links/${link.id}?devices=1`, { bearer: leader.token });
    expect((await live.closed).code).toBe(4411);
    for (const { token } of through)
      expect(await refusal(server.origin, "GET /api/session", { bearer: token })).toMatchObject({
        error: "device-removed",
      });
    expect((await call(server.origin, "GET /api/session", { bearer: other.token })).status).toBe(200);
  });

  test("the last leading device can be neither removed nor made less; after a second one came, it can", async () => {
    const { server, leader } = await band();
    const id = await ownId(server, leader);
    const asLeader = { bearer: leader.token };
    const remove = `DELETE /api/devices/${id}`;
    expect(await refusal(server.origin, remove, asLeader)).toMatchObject({
      status: 409,
      error: "last-leader",
    });
    const less = { ...asLeader, body: { role: "member" } };
    expect(await refusal(server.origin, `PATCH /api/devices/${id}`, less)).toMatchObject({
      error: "last-leader",
    });
    const member = await joinAs(server.origin, leader, "member");
    await call(server.origin, `PATCH /api/devices/${await ownId(server, member)}`, {
      ...asLeader,
      body: { role: "leader" },
    });
    // Each removes the other at once: one of the two must stay.
    const other = `DELETE /api/devices/${await ownId(server, member)}`;
    const both = await Promise.all([
      call(server.origin, remove, { bearer: member.token }),
      call(server.origin, other, asLeader),
    ]);
    expect(both.filter(({ status }) => status === 204)).toHaveLength(1);
    const left = (await server.storage.devices(leader.board)).filter(({ revokedAt }) => revokedAt === null);
    expect(left.map(({ role }) => role)).toEqual(["leader"]);
  });
});

describe("who has a say in which device", () => {
  test("a leader sees all devices with their names, a member those of their own person", async () => {
    const { server, leader } = await band();
    const { secret } = await createLink(server.origin, leader, "member");
    const arrive = async (deviceName: string) =>
      (await call<BoardGrant>(server.origin, "POST /api/join", { bearer: secret, body: { deviceName } }))
        .body;
    const phone = await arrive(" Phone, Firefox\u202e\n");
    await arrive("Tablet");
    await claim(server, phone, "priya");
    const seen = await devicesOf(server, leader);
    expect(seen.map(({ name, memberId, own, here }) => [name, memberId, own, here])).toEqual([
      ["", null, true, false],
      ["Phone, Firefox", "priya", false, false],
      ["Tablet", null, false, false],
    ]);
    expect(JSON.stringify(seen)).not.toContain(phone.token);
    expect((await devicesOf(server, phone)).map(({ name }) => name)).toEqual(["Phone, Firefox"]);
    const live = await connected(server, phone);
    expect((await devicesOf(server, leader))[1]).toMatchObject({ here: true });
    live.ws.close();
    await live.closed;
    await expect.poll(async () => (await devicesOf(server, leader))[1]?.here).toBe(false);
    const guest = await joinAs(server.origin, leader, "guest");
    expect(await refusal(server.origin, "GET /api/devices", { bearer: guest.token })).toMatchObject({
      error: "guests-look",
    });
  });

  test("when a device was here last is written down every few minutes, not at each request", async () => {
    const { server, leader } = await band();
    const seenAt = async () => (await server.storage.devices(leader.board))[0]?.lastSeenAt;
    await ownId(server, leader);
    expect(await seenAt()).toBe(START);
    server.advance(60_000);
    await ownId(server, leader);
    expect(await seenAt()).toBe(START);
    server.advance(5 * 60_000);
    await ownId(server, leader);
    expect(await seenAt()).toBe(START + 6 * 60_000);
  });

  test("[SRV-12] a person's first device is confirmed; another waits until that one, or a leader, vouches for it", async () => {
    const { server, leader } = await band();
    const first = await joinAs(server.origin, leader, "member");
    const second = await joinAs(server.origin, leader, "member");
    const third = await joinAs(server.origin, leader, "member");
    expect((await claim(server, first, "priya")).confirmed).toBe(true);
    expect((await claim(server, second, "priya")).confirmed).toBe(false);
    expect((await claim(server, third, "priya")).confirmed).toBe(false);
    const [firstId, secondId, thirdId] = [
      await ownId(server, first),
      await ownId(server, second),
      await ownId(server, third),
    ];
    const confirm = (by: BoardGrant, id: string) =>
      call(server.origin, `PATCH /api/devices/${id}`, { bearer: by.token, body: { confirmed: true } });
    // It neither vouches for itself nor has a say in the first.
    expect((await confirm(second, secondId)).body).toMatchObject({ error: "not-confirmed" });
    expect(
      (await call(server.origin, `DELETE /api/devices/${firstId}`, { bearer: second.token })).status,
    ).toBe(404);
    expect((await devicesOf(server, second)).map(({ id }) => id)).toEqual([secondId]);
    expect((await confirm(first, secondId)).status).toBe(200);
    expect((await confirm(leader, thirdId)).status).toBe(200);
    expect((await devicesOf(server, second)).map(({ confirmed }) => confirmed)).toEqual([true, true, true]);
    expect(
      (await call(server.origin, `DELETE /api/devices/${firstId}`, { bearer: second.token })).status,
    ).toBe(204);
  });

  test("members change no roles and no other person's devices, and nobody makes a dep of a device", async () => {
    const { server, leader } = await band();
    const member = await joinAs(server.origin, leader, "member");
    await claim(server, member, "priya");
    const [own, leaders] = [await ownId(server, member), await ownId(server, leader)];
    const patch = (by: BoardGrant, id: string, body: object) =>
      refusal(server.origin, `PATCH /api/devices/${id}`, { bearer: by.token, body });
    expect(await patch(member, own, { role: "leader" })).toMatchObject({ error: "leaders-only" });
    expect(await patch(member, leaders, { name: "Mine" })).toMatchObject({ status: 404 });
    expect(await patch(leader, own, { role: "dep" })).toMatchObject({ error: "bad-request" });
    expect(await patch(leader, leaders, { confirmed: true })).toMatchObject({ error: "bad-request" });
    const renamed = await call<DeviceInfo>(server.origin, `PATCH /api/devices/${own}`, {
      bearer: member.token,
      body: { name: "Kitchen tablet" },
    });
    expect(renamed.body).toMatchObject({ name: "Kitchen tablet", role: "member", own: true });
    const elsewhere = await createBoard(server.origin, "Another band");
    expect(await patch(elsewhere, own, { name: "Theirs" })).toMatchObject({ status: 404 });
  });

  test("what a device sends after its person was named is stored under that name, without reconnecting by hand", async () => {
    const { server, leader } = await band();
    const member = await joinAs(server.origin, leader, "member");
    const phone = connectStock(server.syncUrl, member.document, member.token);
    await phone.synced;
    phone.set("a", 1);
    await phone.saved();
    await claim(server, member, "priya");
    phone.set("b", 2);
    await phone.saved();
    expect(phone.provider.wsconnected).toBe(true);
    const rows = await server.storage.history(member.document, {});
    expect(rows.map((row) => row.member)).toEqual([null, "priya"]);
  });
});

describe("links for one person, one use, one gig", () => {
  const link = (server: TestServer, by: BoardGrant, role: Role, more: object) =>
    call<NewLink & { error?: string }>(server.origin, "POST /api/links", {
      bearer: by.token,
      body: { role, ...more },
    });

  test("a link with uses lets in that many devices, also when they come at once", async () => {
    const { server, leader } = await band();
    const { secret } = await createLink(server.origin, leader, "member", { maxUses: 2 });
    const tries = await Promise.all(
      Array.from({ length: 5 }, () => call(server.origin, "POST /api/join", { bearer: secret })),
    );
    expect(tries.map(({ status }) => status).sort()).toEqual([201, 201, 410, 410, 410]);
    expect(await refusal(server.origin, "POST /api/join", { bearer: secret })).toMatchObject({
      error: "link-used-up",
    });
  });

  test("whoever comes in by a personal link is that person, and vouched for", async () => {
    const { server, leader } = await band();
    const { secret } = await createLink(server.origin, leader, "member", { memberId: "priya" });
    const { body } = await call<BoardGrant>(server.origin, "POST /api/join", { bearer: secret });
    expect(body.memberId).toBe("priya");
    expect(
      (await call<Session>(server.origin, "GET /api/session", { bearer: body.token })).body,
    ).toMatchObject({
      memberId: "priya",
      confirmed: true,
    });
  });

  test("a member brings in another device of their own, once and within a day, and nothing else", async () => {
    const { server, leader } = await band();
    const member = await joinAs(server.origin, leader, "member");
    expect((await link(server, member, "member", { memberId: "priya" })).body.error).toBe("pick-a-name");
    await claim(server, member, "priya");
    for (const [role, more] of [
      ["member", {}],
      ["member", { memberId: "anneli" }],
      ["leader", { memberId: "priya" }],
      ["guest", {}],
      ["dep", { memberId: "priya", gig: "a-gig", expiresAt: START + DAY }],
    ] as const)
      expect((await link(server, member, role, more)).body.error).toBe("leaders-only");
    const made = await link(server, member, "member", {
      memberId: "priya",
      maxUses: 9,
      expiresAt: START + 90 * DAY,
    });
    expect((await server.storage.links(member.board)).at(-1)).toMatchObject({
      maxUses: 1,
      expiresAt: START + DAY,
      memberId: "priya",
      role: "member",
    });
    const tablet = (await call<BoardGrant>(server.origin, "POST /api/join", { bearer: made.body.secret }))
      .body;
    expect(tablet).toMatchObject({ memberId: "priya", role: "member" });
    const doubtful = await joinAs(server.origin, leader, "member");
    await claim(server, doubtful, "priya");
    expect((await link(server, doubtful, "member", { memberId: "priya" })).body.error).toBe("not-confirmed");
  });

  test("a dep's link needs a dep of the board, a gig of the board and an end, at most sixty days away", async () => {
    const { server, leader } = await band();
    const phone = connectStock(server.syncUrl, leader.document, leader.token);
    await phone.synced;
    phone.doc.transact(() => {
      const people = phone.doc.getMap("people");
      for (const [id, dep] of [
        ["karim", true],
        ["priya", false],
      ] as const) {
        people.set(`${id}/name`, id);
        people.set(`${id}/dep`, dep);
      }
      phone.doc.getMap("gigs").set("regatta/name", "Regatta");
    });
    phone.set("sent", 1);
    await phone.saved();
    const dep = (more: object) => link(server, leader, "dep", more);
    const whole = { memberId: "karim", gig: "regatta", expiresAt: START + 400 * DAY };
    for (const missing of ["memberId", "gig", "expiresAt"] as const)
      expect((await dep({ ...whole, [missing]: undefined })).body.error).toBe("bad-request");
    expect((await dep({ ...whole, memberId: "priya" })).body.error).toBe("unknown-dep");
    expect((await dep({ ...whole, gig: "nowhere" })).body.error).toBe("unknown-dep");
    expect((await link(server, leader, "member", { gig: "regatta" })).body.error).toBe("bad-request");
    expect((await link(server, leader, "guest", { memberId: "priya" })).body.error).toBe("bad-request");
    const made = await dep(whole);
    const joined = (await call<BoardGrant>(server.origin, "POST /api/join", { bearer: made.body.secret }))
      .body;
    expect(joined).toMatchObject({ role: "dep", memberId: "karim", expiresAt: START + 60 * DAY });
    const raw = await connectRaw(`${server.syncUrl}/${joined.document}`, joined.token);
    expect((await raw.closed).code).toBe(4416);
    for (const route of ["GET /api/devices", "GET /api/private", "GET /api/links"])
      expect((await refusal(server.origin, route, { bearer: joined.token })).status).toBe(403);
    server.advance(60 * DAY);
    expect(await refusal(server.origin, "GET /api/gig", { bearer: joined.token })).toMatchObject({
      error: "way-in-ended",
    });
  });
});
