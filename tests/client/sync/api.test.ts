import { describe, expect, test } from "vitest";
import { createApi } from "#client/sync/api.ts";
import type { ApiProblem } from "#client/sync/api-problem.ts";
import type { Result } from "#shared/lib/result.ts";
import { API_ERRORS } from "#shared/protocol/api-errors.ts";
import { groupRecoveryCode, parseRecoveryCode } from "#shared/protocol/recovery-code.ts";
import { startTestServer } from "#tests/support/test-server.ts";

const answering = (status: number, body: string): typeof fetch =>
  (async () => new Response(status === 204 ? null : body, { status })) as typeof fetch;

describe("the API client against the real server", () => {
  test("creates a board, lets a member in by a link, and closes the link again", async () => {
    const { origin } = await startTestServer();
    const api = createApi({ origin });
    const board = await api.createBoard("Six Spare Fuses");
    if (!board.ok) throw new Error(board.error.message);
    expect(board.value).toMatchObject({ role: "leader", boardName: "Six Spare Fuses" });
    const leader = board.value.token;

    const link = await api.createLink(leader, { role: "member", label: "For the group chat" });
    if (!link.ok) throw new Error(link.error.message);
    const joined = await api.join(link.value.secret);
    if (!joined.ok) throw new Error(joined.error.message);
    expect(joined.value).toMatchObject({ board: board.value.board, role: "member" });
    expect(await api.session(joined.value.token)).toMatchObject({ ok: true, value: { memberId: null } });
    const claimed = await api.claimMember(joined.value.token, "lucia");
    expect(claimed).toMatchObject({ ok: true, value: { memberId: "lucia", role: "member" } });

    const denied = await api.links(joined.value.token);
    expect(denied).toMatchObject({ ok: false, error: { code: "leaders-only", retriable: false } });
    expect(await api.links(leader)).toMatchObject({
      ok: true,
      value: [{ id: link.value.id, label: "For the group chat", revokedAt: null }],
    });
    expect(await api.revokeLink(leader, link.value.id)).toEqual({ ok: true, value: null });
    expect(await api.join(link.value.secret)).toMatchObject({
      ok: false,
      error: { code: "link-revoked", message: API_ERRORS["link-revoked"].message },
    });
    expect(await api.openDemo()).toMatchObject({ ok: false, error: { code: "no-demo" } });
  });

  test("manages devices, recovery, private values, seasons and the past, each answer in its type", async () => {
    const { origin } = await startTestServer();
    const api = createApi({ origin, deviceName: "Computer, Firefox" });
    const must = <T>(result: Result<T, ApiProblem>): T => {
      if (!result.ok) throw new Error(result.error.message);
      return result.value;
    };
    const board = must(await api.createBoard("Six Spare Fuses"));
    const { token } = board;
    expect(parseRecoveryCode(board.recoveryCode)).toBe(board.recoveryCode);
    must(await api.claimMember(token, "tomasz"));
    const [own] = must(await api.devices(token));
    expect(own).toMatchObject({ name: "Computer, Firefox", memberId: "tomasz", confirmed: true, own: true });
    if (own === undefined) throw new Error("A leader sees their own device");
    expect(must(await api.changeDevice(token, own.id, { name: "Desk" }))).toMatchObject({ name: "Desk" });
    expect(await api.removeDevice(token, own.id)).toMatchObject({
      ok: false,
      error: { code: "last-leader" },
    });

    must(await api.setPrivate(token, "notes", { a: [1, null] }));
    expect(must(await api.privateValues(token))).toMatchObject([{ key: "notes", value: { a: [1, null] } }]);
    expect(await api.setPrivate(token, "Not a key", 1)).toMatchObject({ error: { code: "bad-request" } });

    const next = must(await api.newRecoveryCode(token));
    expect(await api.recover(board.recoveryCode)).toMatchObject({ error: { code: "unknown-code" } });
    const recovered = must(await api.recover(` ${groupRecoveryCode(next).toLowerCase()} `));
    expect(recovered).toMatchObject({ board: board.board, role: "leader" });
    expect(await api.recover("nonsense")).toMatchObject({
      error: { code: "unknown-code", retriable: false },
    });

    const link = must(await api.createLink(token, { role: "guest", maxUses: 1 }));
    const guest = must(await api.join(link.secret));
    must(await api.revokeLink(token, link.id, true));
    expect(await api.session(guest.token)).toMatchObject({ error: { code: "device-removed" } });

    const closed = must(await api.closeSeason(token, board.document));
    expect(closed).toMatchObject({ season: 2 });
    expect(must(await api.seasons(token)).map(({ season }) => season)).toEqual([1, 2]);
    expect(must(await api.history(token, closed.document, { limit: 10 }))).toMatchObject([
      { device: "server", member: null },
    ]);
    const [row] = must(await api.history(token, closed.document, { after: 0 }));
    expect(must(await api.history(token, closed.document, { state: row?.seq ?? 0 }))).toEqual([row]);
    expect(await api.durableIn(token, board.document, [7])).toMatchObject({ error: { code: "not-found" } });
    expect(await api.erasePerson(token, "nobody")).toMatchObject({ error: { code: "not-found" } });
    expect(await api.eraseBoard(token, "Another")).toMatchObject({ error: { code: "name-differs" } });
    expect(await api.eraseBoard(token, "Six Spare Fuses")).toEqual({ ok: true, value: null });
    expect(await api.session(token)).toMatchObject({ error: { code: "board-erased", retriable: false } });
  });

  test("tells a server that is not there from one that says no", async () => {
    const { origin } = await startTestServer();
    expect(await createApi({ origin }).session("nobody")).toMatchObject({
      ok: false,
      error: { code: "unknown-device", retriable: false },
    });
    // Port 9 is the discard service, which nobody runs and fetch refuses to call (WHATWG Fetch, bad ports).
    expect(await createApi({ origin: "http://127.0.0.1:9" }).session("nobody")).toMatchObject({
      ok: false,
      error: { code: "offline", retriable: true },
    });
  });
});

describe("every failure is a sentence for people", () => {
  test.each([
    [413, JSON.stringify({ error: "too-large", message: "x" }), "too-large", false],
    [413, "<html>413</html>", "too-large", false],
    [410, "", "link-revoked", false],
    [404, "", "not-found", false],
    [401, "", "unknown-device", false],
    [429, "", "too-many", true],
    [500, "oops", "server-mistake", true],
    [502, "<html>Bad gateway</html>", "server-mistake", true],
    [503, JSON.stringify({ error: "not-stored", message: "x" }), "not-stored", true],
    [418, "teapot", "unreadable", false],
    [200, "<html>a captive portal</html>", "unreadable", false],
    [200, "{}", "unreadable", false],
    [410, JSON.stringify({ error: "board-erased", message: "x" }), "board-erased", false],
    [401, JSON.stringify({ error: "device-removed", message: "x" }), "device-removed", false],
  ])("%i with %s → %s", async (status, body, code, retriable) => {
    const api = createApi({ fetch: answering(status, body) });
    const result = await api.createBoard("Six Spare Fuses");
    expect(result).toMatchObject({ ok: false, error: { code, retriable } });
    if (!result.ok) expect(result.error.message).toMatch(/^[A-Z].*\.$/);
  });

  test("a link mangled on its way is an unknown link, not a broken network", async () => {
    const api = createApi({ fetch: answering(200, "{}") });
    expect(await api.join("söcret…")).toMatchObject({ ok: false, error: { code: "unknown-link" } });
  });
});
