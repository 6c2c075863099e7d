import type * as Y from "yjs";
import type { Id } from "#shared/board/ids.ts";
import type { BoardDocument } from "#shared/document/board-document.ts";
import type { CloseCode } from "#shared/protocol/close-codes.ts";
import type { DeviceSession } from "./access-policy.ts";

/** What those who decide about access need of the rooms in memory. */
export interface LiveRooms {
  /** Cuts a device's live connections. Call it once the tables say why: whoever is just coming in is asked again. */
  closeDevice(device: Id, code: CloseCode): void;
  /** Tells a device's live connections whose it is. */
  nameDevice(device: Id, person: Pick<DeviceSession, "memberId" | "confirmed">): void;
  /** Devices of a board that are connected now. */
  devicesHere(board: Id): ReadonlySet<Id>;
  /** Looks at a document as it is now. Rejects with StorageRefusal. */
  read<T>(document: Id, use: (document: BoardDocument) => T): Promise<T>;
  /** Stores what was received, sends everybody away and keeps the document shut while `run` works. */
  freeze<T>(document: Id, code: CloseCode, run: (doc: Y.Doc) => Promise<T>): Promise<T>;
}
