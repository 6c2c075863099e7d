import { WebSocket } from "ws";
import { WebsocketProvider } from "y-websocket";
import * as Y from "yjs";
import type { Board } from "#shared/board/board.ts";
import { type Command, idsFrom } from "#shared/commands/command.ts";
import { createRunner } from "#shared/commands/runner.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { MESSAGE } from "#shared/protocol/messages.ts";
import { offeredSubprotocols } from "#shared/protocol/version.ts";

/** Somebody else's device on a board of a real server, without a screen: the stock provider and our commands. */
export interface OtherDevice {
  readonly ydoc: Y.Doc;
  readonly board: () => Board;
  readonly run: <A, I>(command: Command<A, I>, args: NoInfer<I>) => void;
  /** Resolves once the server has on disk everything that was written here before the call. */
  readonly saved: () => Promise<void>;
  readonly close: () => void;
}

/** Joins as `member`; resolves when the device has everything the server has. */
export const joinOtherDevice = async (
  address: string,
  known: { readonly board: string; readonly token: string },
  member: string,
): Promise<OtherDevice> => {
  const ydoc = new Y.Doc();
  const provider = new WebsocketProvider(`${address.replace("http", "ws")}/sync`, known.board, ydoc, {
    WebSocketPolyfill: WebSocket as unknown as typeof globalThis.WebSocket,
    protocols: offeredSubprotocols(known.token),
    disableBc: true,
  });
  let heard: () => void = () => {};
  let durable = new Map<number, number>();
  provider.messageHandlers[MESSAGE.acknowledgement] = (_encoder, decoder) => {
    durable = new Map([...durable, ...Y.decodeStateVector(decoder.arr.subarray(decoder.pos))]);
    heard();
  };
  await new Promise<void>((done) => provider.once("sync", () => done()));
  const runner = createRunner(createBoardDocument(ydoc));
  let runs = 0;
  return {
    ydoc,
    board: runner.board,
    run: (command, args) => {
      runs += 1;
      const id = `other-${member}-${runs}`;
      const author = { member, writer: "other-device", role: "leader" } as const;
      const done = runner.run(command, args, { id, now: Date.now(), newId: idsFrom(id), author });
      if (!done.ok) throw new Error(done.error.sentence);
    },
    saved: () =>
      new Promise((done) => {
        const clock = Y.getState(ydoc.store, ydoc.clientID);
        heard = () => {
          if ((durable.get(ydoc.clientID) ?? 0) >= clock) done();
        };
        heard();
      }),
    close: () => {
      runner.close();
      provider.destroy();
      ydoc.destroy();
    },
  };
};
