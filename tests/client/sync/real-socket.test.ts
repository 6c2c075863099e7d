/** The client's session over real WebSockets to the real server. */
import { describe, expect, onTestFinished, test } from "vitest";
import WebSocket from "ws";
import { createBoardStore } from "#client/store/board-store.ts";
import { createIdentity } from "#client/store/identity.ts";
import type { SaveState } from "#client/store/save-state.ts";
import { createApi } from "#client/sync/api.ts";
import { type BoardSession, openBoardSession } from "#client/sync/board-session.ts";
import { createFleetingBoard } from "#client/sync/local-board.ts";
import { randomId } from "#client/sync/random-id.ts";
import { addSong } from "#shared/commands/add-song.ts";
import { startTestServer } from "#tests/support/test-server.ts";

const open = async (syncUrl: string, known: Parameters<typeof openBoardSession>[0]["known"]) => {
  const session = await openBoardSession({
    known,
    serverUrl: syncUrl.replace(/\/sync$/, ""),
    openLocal: async () => createFleetingBoard(),
    WebSocketPolyfill: WebSocket as unknown as typeof globalThis.WebSocket,
  });
  onTestFinished(() => session.close());
  return session;
};

/** Resolves when the state of saving is as wanted, looked at whenever it changes. */
const until = ({ outbox }: BoardSession, holds: (state: SaveState) => boolean): Promise<void> =>
  new Promise((resolve) => {
    const stop = outbox.subscribe(() => check());
    const check = (): void => {
      if (!holds(outbox.saveState())) return;
      stop();
      resolve();
    };
    check();
  });

describe("over real sockets", () => {
  test("a command is on the server's disk when its state says saved", async () => {
    const server = await startTestServer();
    const board = await createApi({ origin: server.origin }).createBoard("Six Spare Fuses");
    if (!board.ok) throw new Error(board.error.message);
    const session = await open(server.syncUrl, board.value);
    const store = createBoardStore({
      document: session.document,
      outbox: session.outbox,
      identity: createIdentity({ member: null, writer: randomId(), role: "leader" }),
      now: Date.now,
      newId: randomId,
    });
    const added = store.run(addSong, { title: "Marzipan Diesel" }, "Added");
    if (!added.ok) throw new Error(added.error.sentence);
    await until(session, ({ connection, unsent }) => connection === "connected" && unsent === 0);
    expect(session.outbox.stateOf(added.value.id)).toBe("saved");
    expect(await server.storage.load(board.value.board)).not.toEqual([]);
    const other = await open(server.syncUrl, board.value);
    await until(other, ({ asOf }) => asOf !== null);
    expect(other.document.get("songs", `${added.value.id}/title`)).toBe("Marzipan Diesel");
    store.close();
  });

  test("a token that opens nothing is turned away with the sentence both sides share", async () => {
    const server = await startTestServer();
    const session = await open(server.syncUrl, {
      board: "nowhere",
      document: "nowhere",
      token: "nobody",
      role: "member",
    });
    const sentence = "This device is not known to the board. Open your joining link again.";
    await until(session, ({ connection, reason }) => connection === "refused" && reason === sentence);
    expect(session.outbox.saveState().connection).toBe("refused");
  });
});
