/** Devices that want more than their way in gives. */
import { rm } from "node:fs/promises";
import { dirname } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import * as Y from "yjs";
import type { BoardGrant } from "#shared/protocol/api.ts";
import { call } from "#tests/support/api-client.ts";
import { createLink, joinAs, refusal } from "#tests/support/boards.ts";
import { buildServer } from "#tests/support/built-server.ts";
import { connectRaw } from "#tests/support/raw-client.ts";
import { type Arena, openArena, sayWaits } from "./arena.ts";
import { deleting, syncFrame, writing } from "./hostile-bytes.ts";

let program = "";
beforeAll(async () => {
  program = await buildServer();
});
afterAll(() => {
  sayWaits();
  return rm(dirname(program), { recursive: true, force: true });
});

/** What only a leader may ask for. */
const LEADING: readonly (readonly [string, unknown?])[] = [
  ["GET /api/links"],
  ["POST /api/links", { role: "leader" }],
  ["DELETE /api/links/some-link"],
  ["POST /api/recovery"],
  ["GET /api/seasons"],
  ["POST /api/seasons", { document: "some-document" }],
  ["POST /api/people/somebody/erase"],
  ["POST /api/board/erase", { name: "Six Spare Fuses" }],
  ["GET /api/history/some-document"],
];

const send = (arena: Arena, route: string, bearer: string | undefined, body?: unknown) =>
  refusal(arena.origin, route, {
    ...(bearer === undefined ? {} : { bearer }),
    ...(body === undefined && !route.startsWith("GET") ? { body: {} } : { body }),
  });

describe("[SRV-21] whoever has less may not do more", () => {
  for (const step of ["missing", "update"] as const)
    test(`a guest who sends changes as "${step}" is cut off and changes nothing`, async () => {
      const arena = await openArena(program);
      const guest = await arena.attack(arena.guest.token);
      guest.send(syncFrame(step, writing("forged")));
      expect((await guest.closed).code).toBe(4403);
      await arena.unharmed();
      expect(arena.honest.get("forged")).toBeUndefined();
    });

  test("a guest who sends nothing but deletions is cut off, and everything is still there", async () => {
    const arena = await openArena(program);
    const guest = await arena.attack(arena.guest.token);
    guest.send(syncFrame("update", deleting(Y.decodeStateVector(Y.encodeStateVector(arena.honest.doc)))));
    expect((await guest.closed).code).toBe(4403);
    await arena.unharmed();
  });

  for (const role of ["member", "guest"] as const)
    test(`a ${role} who asks for what leaders do is refused everywhere`, async () => {
      const arena = await openArena(program);
      for (const [route, body] of LEADING) {
        const { status } = await send(arena, route, arena[role].token, body);
        expect({ route, status }).toEqual({ route, status: 403 });
      }
      await arena.unharmed();
    });

  test("a dep gets nothing on the socket, and nothing over HTTP but their gig", async () => {
    const arena = await openArena(program);
    const { doc } = arena.honest;
    doc.getMap("people").set("a-dep/name", "Karim");
    doc.getMap("people").set("a-dep/dep", true);
    doc.getMap("gigs").set("a-gig/date", "2031-05-10");
    await arena.honest.saved();
    const link = await createLink(arena.origin, arena.leader, "dep", {
      memberId: "a-dep",
      gig: "a-gig",
      expiresAt: Date.now() + 86_400_000,
    });
    const { body: dep } = await call<BoardGrant>(arena.origin, "POST /api/join", {
      bearer: link.secret,
      body: {},
    });
    expect(dep.role).toBe("dep");
    const socket = await arena.attack(dep.token);
    socket.send(syncFrame("update", writing("forged")));
    expect((await socket.closed).code).toBe(4416);
    expect(socket.frames).toEqual([]);
    const more: readonly (readonly [string, unknown?])[] = [
      ["POST /api/session/member", { memberId: "anneli" }],
      ["GET /api/private"],
      ["PUT /api/private/top", { value: "g4" }],
    ];
    for (const [route, body] of [...LEADING, ...more]) {
      const { status } = await send(arena, route, dep.token, body);
      expect({ route, status }).toEqual({ route, status: 403 });
    }
    await arena.unharmed();
    expect(arena.honest.get("forged")).toBeUndefined();
  });

  test("what is private to one member is not given to another who claims their name", async () => {
    const arena = await openArena(program);
    const claim = (grant: BoardGrant) =>
      call(arena.origin, "POST /api/session/member", { bearer: grant.token, body: { memberId: "anneli" } });
    await claim(arena.member);
    await call(arena.origin, "PUT /api/private/top", { bearer: arena.member.token, body: { value: "g4" } });
    const impostor = await joinAs(arena.origin, arena.leader, "member");
    await claim(impostor);
    for (const grant of [impostor, arena.leader, arena.stranger, arena.guest])
      expect((await send(arena, "GET /api/private", grant.token)).status).toBe(403);
    const own = await call(arena.origin, "GET /api/private", { bearer: arena.member.token });
    expect(own.body).toMatchObject({ values: [{ key: "top", value: "g4" }] });
    await arena.unharmed();
  });

  test("a member and a guest cannot promote themselves", async () => {
    const arena = await openArena(program);
    for (const grant of [arena.member, arena.guest]) {
      const { body } = await call<{ device: string }>(arena.origin, "GET /api/session", {
        bearer: grant.token,
      });
      const { status } = await send(arena, `PATCH /api/devices/${body.device}`, grant.token, {
        role: "leader",
      });
      expect(status).toBe(403);
      const again = await call<{ role: string }>(arena.origin, "GET /api/session", { bearer: grant.token });
      expect(again.body.role).toBe(grant.role);
    }
    await arena.unharmed();
  });

  test("without a token, or with one that is none, nothing opens", async () => {
    const arena = await openArena(program);
    const { token } = arena.leader;
    const wrong = [
      undefined,
      "",
      token.slice(0, -1),
      `${token}A`,
      token.toLowerCase() === token ? token.toUpperCase() : token.toLowerCase(),
      "' OR 1=1 --",
      "null",
      "../leader",
      "A".repeat(5000),
    ];
    for (const bearer of wrong)
      for (const route of ["GET /api/session", "GET /api/links", "GET /api/devices", "POST /api/board/erase"])
        expect((await send(arena, route, bearer)).status).toBe(401);
    for (const bad of ["x", token.slice(0, -1), `${token}A`]) {
      const socket = await arena.attack(bad);
      expect((await socket.closed).code).toBe(4401);
    }
    await arena.unharmed();
  });

  test("a token in the address is no token", async () => {
    const arena = await openArena(program);
    const url = `${arena.syncUrl}/${arena.leader.document}?token=${arena.leader.token}&access_token=${arena.leader.token}`;
    const socket = await connectRaw(url, "", { protocols: ["tightrow.v1"] });
    expect((await socket.closed).code).toBe(4401);
    expect((await refusal(arena.origin, `GET /api/session?token=${arena.leader.token}`)).status).toBe(401);
    await arena.unharmed();
    expect(arena.server.err()).not.toContain(arena.leader.token);
  });
});

describe("[SRV-22] one band's ways in open no other band", () => {
  test("another band's document looks like no document at all", async () => {
    const arena = await openArena(program);
    const theirs = await arena.attack(arena.stranger.token);
    const nobodys = await connectRaw(`${arena.syncUrl}/no-such-document`, arena.stranger.token);
    expect(await theirs.closed).toEqual(await nobodys.closed);
    expect((await theirs.closed).code).toBe(4404);
    expect(theirs.frames).toEqual([]);
    const { token } = arena.stranger;
    const ours = await send(arena, `GET /api/history/${arena.leader.document}`, token);
    expect(ours).toEqual(await send(arena, "GET /api/history/no-such-document", token));
    await arena.unharmed();
  });

  const PATHS = [
    "../sync/OURS",
    "OURS/../OURS",
    "OURS%2f..",
    "%2e%2e/OURS",
    "OURS%00",
    "OURS/",
    "/OURS",
    "OURS#OURS",
    "OURS%2525",
    "%",
    "%c0%ae%c0%ae",
    "STRANGERS/../OURS",
    "STRANGERS%2f..%2fOURS",
    "x".repeat(4000),
  ];
  test("no trick with the path leads to another band's document", async () => {
    const arena = await openArena(program);
    for (const path of PATHS) {
      const there = path
        .replaceAll("OURS", arena.leader.document)
        .replaceAll("STRANGERS", arena.stranger.document);
      const socket = await connectRaw(`${arena.syncUrl}/${there}`, arena.stranger.token).catch(() => null);
      // Refused before the socket opens, or closed with the code for no such document.
      if (socket !== null) {
        expect((await socket.closed).code).toBe(4404);
        expect(socket.frames).toEqual([]);
      }
    }
    await arena.unharmed();
  });

  test("another band's leader can neither see, change nor remove our links and devices", async () => {
    const arena = await openArena(program);
    const link = await createLink(arena.origin, arena.leader, "member");
    const { body } = await call<{ device: string }>(arena.origin, "GET /api/session", {
      bearer: arena.member.token,
    });
    const { token } = arena.stranger;
    expect((await send(arena, `DELETE /api/links/${link.id}`, token)).status).toBe(404);
    expect((await send(arena, `DELETE /api/devices/${body.device}`, token)).status).toBe(404);
    expect((await send(arena, `PATCH /api/devices/${body.device}`, token, { name: "mine" })).status).toBe(
      404,
    );
    const list = await call<{ links: unknown[] }>(arena.origin, "GET /api/links", { bearer: token });
    expect(list.body.links).toEqual([]);
    const joined = await call(arena.origin, "POST /api/join", { bearer: link.secret, body: {} });
    expect(joined.status).toBe(201);
    await arena.unharmed();
  });

  test("a link's secret is no token, and a token no link", async () => {
    const arena = await openArena(program);
    const { secret } = await createLink(arena.origin, arena.leader, "leader");
    const socket = await arena.attack(secret);
    expect((await socket.closed).code).toBe(4401);
    expect((await send(arena, "GET /api/session", secret)).status).toBe(401);
    expect((await send(arena, "POST /api/join", arena.leader.token)).status).toBe(404);
    await arena.unharmed();
  });

  test("a link that was withdrawn, has run out or is used up lets nobody in, however often it is tried", async () => {
    const arena = await openArena(program);
    const withdrawn = await createLink(arena.origin, arena.leader, "leader");
    await call(arena.origin, `DELETE /api/links/${withdrawn.id}`, { bearer: arena.leader.token });
    const expired = await createLink(arena.origin, arena.leader, "leader", { expiresAt: Date.now() - 1 });
    const once = await createLink(arena.origin, arena.leader, "member", { maxUses: 1 });
    const race = await Promise.all(
      Array.from({ length: 20 }, () =>
        call(arena.origin, "POST /api/join", { bearer: once.secret, body: {} }),
      ),
    );
    expect(race.filter(({ status }) => status === 201)).toHaveLength(1);
    for (const { secret } of [withdrawn, expired, once])
      expect((await send(arena, "POST /api/join", secret)).status).toBe(410);
    await arena.unharmed();
  });

  test("a device that was removed is cut off at once, and its token opens nothing again", async () => {
    const arena = await openArena(program);
    const socket = await arena.attack(arena.member.token);
    const { body } = await call<{ device: string }>(arena.origin, "GET /api/session", {
      bearer: arena.member.token,
    });
    await call(arena.origin, `DELETE /api/devices/${body.device}`, { bearer: arena.leader.token });
    expect((await socket.closed).code).toBe(4411);
    const again = await arena.attack(arena.member.token);
    expect((await again.closed).code).toBe(4411);
    expect((await send(arena, "GET /api/session", arena.member.token)).status).toBe(401);
    await arena.unharmed();
  });
});
