/** A phone as the product has it: it remembers its ways in, and follows its board into new seasons and roles. */
import { type BoardStore, createBoardStore } from "#client/store/board-store.ts";
import { createIdentity } from "#client/store/identity.ts";
import { openBoardSession } from "#client/sync/board-session.ts";
import { type Device, openDevice } from "#client/sync/device.ts";
import { type FollowedBoard, followBoard, type OpenSession } from "#client/sync/follow-board.ts";
import { knownFromGrant } from "#client/sync/joining.ts";
import { createFleetingBoard } from "#client/sync/local-board.ts";
import { dropOtherDocuments, openLocalBoard } from "#client/sync/local-persistence.ts";
import { replay } from "#client/sync/replay.ts";
import { COMMANDS } from "#shared/commands/registry.ts";
import type { BoardGrant } from "#shared/protocol/api.ts";
import type { BandServer } from "./band-server.ts";

export interface FollowingPhone {
  readonly device: Device;
  /** The session that is open now; a new one with each season and role. */
  readonly open: () => OpenSession;
  readonly store: () => BoardStore;
  /** Runs a command by name; answers its id. Throws when it is refused. */
  readonly run: (name: string, args: unknown) => string;
  readonly titles: () => readonly string[];
  readonly unsent: () => number;
  readonly close: () => Promise<void>;
}

export interface FollowingOptions {
  readonly server: BandServer;
  /** Its name on the network: another one for each tab and each visit. */
  readonly name: string;
  /** What lets it in; absent = what the device knows. */
  readonly grant?: BoardGrant;
  /** The device it is a tab of; a new one unless given. */
  readonly device?: Device;
  /** False = its browser keeps nothing. */
  readonly keeps?: boolean;
}

export const openFollowing = async (options: FollowingOptions): Promise<FollowingPhone> => {
  const { server, name, grant, device = openDevice(null), keeps = true } = options;
  if (grant !== undefined) device.remember(knownFromGrant(grant, 0));
  /** All devices of a test share one IndexedDB; each has names of its own there. */
  const own = (id: string): string => `${device.writer}.${id}`;
  let current: (OpenSession & { readonly store: BoardStore }) | null = null;
  let commands = 0;
  let opened = (): void => {};
  const first = new Promise<void>((resolve) => {
    opened = resolve;
  });
  const followed: FollowedBoard = followBoard({
    board: server.board,
    device,
    api: server.apiFor(name),
    dropOthers: (board, document) =>
      keeps ? dropOtherDocuments(own(board), own(document)) : Promise.resolve(),
    open: (parts) =>
      openBoardSession({
        loadReplay: async () => replay,
        ...parts,
        serverUrl: "ws://board.test",
        openLocal: async (board, document) =>
          keeps ? openLocalBoard(own(board), own(document)) : createFleetingBoard(),
        claimOf: () => null,
        WebSocketPolyfill: server.network.socketFor(name),
        random: () => 0.5,
        signals: { listen: () => () => {} },
      }),
    onOpen: ({ known, session }) => {
      current?.store.close();
      const identity = createIdentity({ member: known.memberId, writer: device.writer, role: known.role });
      const store = createBoardStore({
        document: session.document,
        outbox: session.outbox,
        identity,
        now: Date.now,
        newId: () => {
          commands += 1;
          return `${name}-${commands}`;
        },
      });
      current = { known, session, store };
      opened();
    },
    onPerson: ({ memberId }) => current?.store.identity.become(memberId),
  });
  await first;
  const open = () => {
    if (current === null) throw new Error("Nothing is open");
    return current;
  };
  return {
    device,
    open,
    store: () => open().store,
    run: (command, args) => {
      const known = COMMANDS.get(command);
      if (known === undefined) throw new Error(`No command ${command}`);
      const result = open().store.run(known, args, command);
      if (!result.ok) throw new Error(result.error.sentence);
      return result.value.id;
    },
    titles: () => [...open().store.board().songs.values()].map(({ song }) => song.title).sort(),
    unsent: () => open().session.outbox.saveState().unsent,
    close: async () => {
      current?.store.close();
      await followed.close();
    },
  };
};
