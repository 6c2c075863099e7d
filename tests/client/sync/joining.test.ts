import { describe, expect, test, vi } from "vitest";
import type { Api } from "#client/sync/api.ts";
import type { ApiProblem } from "#client/sync/api-problem.ts";
import { openDevice } from "#client/sync/device.ts";
import { joinBoard } from "#client/sync/joining.ts";
import { err, ok } from "#shared/lib/result.ts";
import type { BoardGrant, Role } from "#shared/protocol/api.ts";

const NOW = Date.UTC(2026, 2, 4, 19);
const OFFLINE: ApiProblem = { code: "offline", message: "The server cannot be reached.", retriable: true };
const REVOKED: ApiProblem = { code: "link-revoked", message: "This link was withdrawn.", retriable: false };

const grant = (role: Role, token = `new ${role}`): BoardGrant => ({
  board: "fuses",
  document: "fuses",
  token,
  role,
  boardName: "Six Spare Fuses",
  memberId: null,
  expiresAt: null,
});

type Calls = Pick<Api, "join" | "session" | "claimMember">;
const unused = async (): Promise<never> => {
  throw new Error("not expected here");
};
const apiWith = (parts: Partial<Calls>): Calls => ({
  join: unused,
  session: unused,
  claimMember: unused,
  ...parts,
});
const session = (role: Role, memberId: string | null = null) =>
  ok({
    board: "fuses",
    document: "fuses",
    season: 1,
    device: "a-device",
    role,
    memberId,
    name: "Six Spare Fuses",
    confirmed: false,
    expiresAt: null,
  });

describe("joining a board", () => {
  test("keeps the device's own token, not the link's secret", async () => {
    const device = openDevice(null);
    const api = apiWith({ join: async () => ok(grant("member")) });
    const joined = await joinBoard("the-secret", { api, device, now: () => NOW });
    const known = {
      board: "fuses",
      document: "fuses",
      token: "new member",
      role: "member",
      memberId: null,
      confirmed: false,
      expiresAt: null,
      name: "Six Spare Fuses",
      lastOpened: NOW,
    };
    expect(joined).toEqual(ok(known));
    expect(device.boards()).toEqual([known]);
  });

  test("by a weaker link leaves a leader the leader", async () => {
    const device = openDevice(null);
    const leader = {
      board: "fuses",
      document: "fuses",
      token: "old",
      role: "leader",
      memberId: "lucia",
      confirmed: true,
      expiresAt: null,
      name: "A",
      lastOpened: 1,
    } as const;
    device.remember(leader);
    const api = apiWith({ join: async () => ok(grant("member")), session: async () => session("leader") });
    expect(await joinBoard("s", { api, device, now: () => NOW })).toEqual(ok({ ...leader, lastOpened: NOW }));
    expect(device.board("fuses")?.token).toBe("old");
  });

  test("by a dep's next link takes it, because it may be for another gig", async () => {
    const device = openDevice(null);
    const first = { ...grant("dep", "first gig"), memberId: "karim" };
    const next = { ...grant("dep", "next gig"), memberId: "karim" };
    for (const granted of [first, next])
      await joinBoard("s", { api: apiWith({ join: async () => ok(granted) }), device, now: () => NOW });
    expect(device.board("fuses")).toMatchObject({ token: "next gig", role: "dep", memberId: "karim" });
  });

  test("by a stronger link, or after being put out, takes the new way in and stays the same person", async () => {
    for (const [role, before] of [
      ["leader", "member"],
      ["member", "leader"],
    ] as const) {
      const device = openDevice(null);
      device.remember({
        board: "fuses",
        document: "fuses",
        token: "old",
        role: before,
        memberId: "lucia",
        confirmed: true,
        expiresAt: null,
        name: "A",
        lastOpened: 1,
      });
      const claimed: string[] = [];
      const api = apiWith({
        join: async () => ok(grant(role)),
        session: async () => err({ code: "unknown-device", message: "No.", retriable: false }),
        claimMember: async (token, member) => {
          claimed.push(token);
          return session(role, member);
        },
      });
      await joinBoard("s", { api, device, now: () => NOW });
      expect(device.board("fuses")).toMatchObject({ token: `new ${role}`, role, memberId: "lucia" });
      expect(claimed).toEqual([`new ${role}`]);
    }
  });

  test.each([
    [
      "the same person's personal link, while not confirmed",
      { memberId: "lucia" },
      { confirmed: false },
      true,
    ],
    ["the same person's personal link, confirmed already", { memberId: "lucia" }, { confirmed: true }, false],
    ["another person's personal link", { memberId: "priya" }, { confirmed: true }, true],
    ["a link that lasts longer", { expiresAt: 20 }, { expiresAt: 10 }, true],
    ["a link that lasts for good", { expiresAt: null }, { expiresAt: 10 }, true],
    ["a link that ends sooner", { expiresAt: 10 }, { expiresAt: 20 }, false],
    ["a link that ends at all", { expiresAt: 10 }, { expiresAt: null }, false],
    ["a link like the one before", {}, {}, false],
  ] as const)("by a link for the same role: %s", async (_, more, before, takes) => {
    const device = openDevice(null);
    device.remember({
      ...{ board: "fuses", document: "fuses", token: "old", role: "member", memberId: "lucia" },
      ...{ confirmed: true, expiresAt: null, name: "A", lastOpened: 1, ...before },
    });
    const api = apiWith({
      join: async () => ok({ ...grant("member"), ...more }),
      session: async () => session("member", "lucia"),
      claimMember: async () => session("member", "lucia"),
    });
    await joinBoard("s", { api, device, now: () => NOW });
    expect(device.board("fuses")?.token).toBe(takes ? "new member" : "old");
  });

  test("waits for the network, says so, and goes on when it is back", async () => {
    vi.useFakeTimers();
    let tries = 0;
    const sentences: string[] = [];
    const api = apiWith({
      join: async () => {
        tries += 1;
        return tries < 3 ? err(OFFLINE) : ok(grant("guest"));
      },
    });
    const joining = joinBoard("s", {
      api,
      device: openDevice(null),
      onWaiting: (said) => sentences.push(said),
    });
    await vi.advanceTimersByTimeAsync(60_000);
    expect(await joining).toMatchObject({ ok: true, value: { role: "guest" } });
    expect(tries).toBe(3);
    expect(sentences).toHaveLength(2);
    expect(sentences[0]).toMatch(/^The server cannot be reached\..*\.$/);
    vi.useRealTimers();
  });

  test("gives up when told to, and at once when the link is no good", async () => {
    const device = openDevice(null);
    const refused = await joinBoard("s", { api: apiWith({ join: async () => err(REVOKED) }), device });
    expect(refused).toEqual(err(REVOKED));
    const stop = new AbortController();
    const waiting = joinBoard("s", {
      api: apiWith({ join: async () => err(OFFLINE) }),
      device,
      onWaiting: () => stop.abort(),
      signal: stop.signal,
    });
    expect(await waiting).toEqual(err(OFFLINE));
    expect(device.boards()).toEqual([]);
  });
});
