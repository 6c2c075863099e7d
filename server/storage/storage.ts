import type { Id } from "#shared/board/ids.ts";
import type { Role } from "#shared/protocol/api.ts";

/**
 * Everything the server keeps, behind one interface.
 * Governing rule: an update handed to `append` is in the log, in order, but only a `flush` that began afterwards and
 * resolved makes it durable; nothing may be acknowledged before that.
 *
 * A board is the fold of its updates in the order of `seq`. The log knows nothing about their content, and a snapshot
 * is itself an update, so folding old rows into one changes nothing above this interface.
 */
export interface Storage {
  /**
   * Appends to the log and answers the row's place. Synchronous, so that a room can broadcast in the order of the log.
   * Throws StorageRefusal when it cannot be written; then nothing was.
   */
  append(update: NewUpdate): number;
  /** Resolves when all that was appended before the call is on the disk; rejects with StorageRefusal when not. */
  flush(): Promise<void>;
  /** The board's updates in order; empty for an unknown board. */
  load(board: Id): Promise<readonly StoredUpdate[]>;

  addBoard(board: BoardRecord): Promise<void>;
  board(id: Id): Promise<BoardRecord | null>;
  /** The demo board that is open to visitors: the latest one that was not retired. */
  currentDemo(): Promise<BoardRecord | null>;
  /** Closes a board for good and forgets its updates. Its links and devices stay, to be told why. */
  retireBoard(id: Id, at: number): Promise<void>;

  addLink(link: LinkRecord): Promise<void>;
  linkBySecret(secretHash: string): Promise<LinkRecord | null>;
  /** Links of a board, oldest first. */
  links(board: Id): Promise<readonly LinkRecord[]>;
  /** False when the board has no such link. Withdrawing twice keeps the first moment. */
  revokeLink(board: Id, id: Id, at: number): Promise<boolean>;

  addDevice(device: DeviceRecord): Promise<void>;
  deviceByToken(tokenHash: string): Promise<DeviceRecord | null>;
  /** Says which person of the board a device belongs to. */
  bindDevice(id: Id, memberId: Id): Promise<void>;

  /** Flushes and lets go of files. The storage cannot be used afterwards. */
  close(): Promise<void>;
}

export interface NewUpdate {
  readonly board: Id;
  /** The device whose connection brought it; `server` for what the server itself wrote. */
  readonly device: Id;
  /** The person bound to that device at the time, when known. */
  readonly member: Id | null;
  /** Server time, ms. */
  readonly at: number;
  /** A Yjs update, encoding version 1. */
  readonly bytes: Uint8Array;
}

export interface StoredUpdate extends NewUpdate {
  /** Place in the log: ascending, never used twice. */
  readonly seq: number;
}

export interface BoardRecord {
  readonly id: Id;
  /** The name it was created with; the document holds the current one. */
  readonly name: string;
  readonly demo: boolean;
  readonly createdAt: number;
  readonly retiredAt: number | null;
}

export interface LinkRecord {
  readonly id: Id;
  readonly board: Id;
  readonly role: Role;
  /** SHA-256 of the secret, base64url. */
  readonly secretHash: string;
  readonly label: string;
  readonly createdAt: number;
  readonly expiresAt: number | null;
  readonly revokedAt: number | null;
}

export interface DeviceRecord {
  readonly id: Id;
  readonly board: Id;
  readonly role: Role;
  /** SHA-256 of the token, base64url. */
  readonly tokenHash: string;
  readonly memberId: Id | null;
  readonly createdAt: number;
}

/** The disk said no: full, read-only, broken. What was asked for did not happen; asking again later may work. */
export class StorageRefusal extends Error {
  override readonly name = "StorageRefusal";
}

/** The storage cannot be opened at all; the message is a sentence for the person who starts the server. */
export class StorageUnavailable extends Error {
  override readonly name = "StorageUnavailable";
}
