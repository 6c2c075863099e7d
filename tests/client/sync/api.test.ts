import { describe, expect, test } from "vitest";
import { createApi } from "#client/sync/api.ts";
import { API_ERRORS } from "#shared/protocol/api.ts";
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
