/** A device that follows its board over real sockets and real HTTP. */
import { describe, expect, onTestFinished, test } from "vitest";
import WebSocket from "ws";
import { createBoardStore } from "#client/store/board-store.ts";
import { createIdentity } from "#client/store/identity.ts";
import { type Api, createApi } from "#client/sync/api.ts";
import { openBoardSession } from "#client/sync/board-session.ts";
import { type Device, openDevice } from "#client/sync/device.ts";
import { followBoard, type OpenSession } from "#client/sync/follow-board.ts";
import { knownFromGrant } from "#client/sync/joining.ts";
import { createFleetingBoard } from "#client/sync/local-board.ts";
import { randomId } from "#client/sync/random-id.ts";
import { addSong } from "#shared/commands/add-song.ts";
import type { Result } from "#shared/lib/result.ts";
import type { BoardGrant } from "#shared/protocol/api.ts";
import { startTestServer, type TestServer } from "#tests/support/test-server.ts";

const must = <T>(result: Result<T, { readonly message: string }>): T => {
  if (!result.ok) throw new Error(result.error.message);
  return result.value;
};

const follow = (server: TestServer, api: Api, grant: BoardGrant) => {
  const device: Device = openDevice(null);
  device.remember(knownFromGrant(grant, 0));
  const opened: OpenSession[] = [];
  const followed = followBoard({
    board: grant.board,
    device,
    api,
    dropOthers: async () => {},
    open: (parts) =>
      openBoardSession({
        ...parts,
        serverUrl: server.syncUrl.replace(/\/sync$/, ""),
        openLocal: async () => createFleetingBoard(),
        WebSocketPolyfill: WebSocket as unknown as typeof globalThis.WebSocket,
      }),
    onOpen: (open) => void opened.push(open),
    onPerson: () => {},
  });
  onTestFinished(() => followed.close());
  const now = () => opened.at(-1);
  return {
    now,
    state: () => now()?.session.outbox.saveState(),
    add: (title: string) => {
      const open = now();
      if (open === undefined) throw new Error("Nothing is open");
      const { session, known } = open;
      const identity = createIdentity({ member: null, writer: device.writer, role: known.role });
      const { document, outbox } = session;
      const store = createBoardStore({ document, outbox, identity, now: Date.now, newId: randomId });
      const done = store.run(addSong, { title }, "Added");
      store.close();
      if (!done.ok) throw new Error(done.error.sentence);
      return done.value.id;
    },
    title: (id: string) => now()?.session.document.get("songs", `${id}/title`),
  };
};

const connected = { connection: "connected", unsent: 0 };

const band = async () => {
  const server = await startTestServer();
  const api = createApi({ origin: server.origin });
  const leader = must(await api.createBoard("Six Spare Fuses"));
  const link = must(await api.createLink(leader.token, { role: "member" }));
  const member = must(await api.join(link.secret));
  const phone = follow(server, api, member);
  await expect.poll(phone.state).toMatchObject(connected);
  return { server, api, leader, member, phone };
};

describe("over real sockets", () => {
  test("[SYNC-6] a closed season is followed, with what was being sent at that moment", async () => {
    const { server, api, leader, phone } = await band();
    const other = follow(server, api, leader);
    await expect.poll(other.state).toMatchObject(connected);
    const before = phone.add("Marzipan Diesel");
    const closing = api.closeSeason(leader.token, leader.document);
    const during = phone.add("Gravel Choir");
    const { document } = must(await closing);
    await expect.poll(() => phone.now()?.known.document, { timeout: 10_000 }).toBe(document);
    await expect.poll(phone.state, { timeout: 10_000 }).toMatchObject(connected);
    for (const [id, title] of [
      [before, "Marzipan Diesel"],
      [during, "Gravel Choir"],
    ] as const)
      await expect.poll(() => other.title(id), { timeout: 10_000 }).toBe(title);
  });

  test("[SRV-11] a new role is taken on, and a removal is told with its sentence", async () => {
    const { api, leader, member, phone } = await band();
    const { device } = must(await api.session(member.token));
    must(await api.changeDevice(leader.token, device, { role: "guest" }));
    await expect.poll(() => phone.now()?.known.role, { timeout: 10_000 }).toBe("guest");
    await expect.poll(phone.state, { timeout: 10_000 }).toMatchObject(connected);
    must(await api.removeDevice(leader.token, device));
    await expect.poll(phone.state).toMatchObject({
      connection: "refused",
      reason: expect.stringMatching(/^A leader has removed this device/),
    });
  });
});
