import type { Id } from "#shared/board/ids.ts";
import type { Role } from "#shared/protocol/api.ts";
import type { NewUpdate } from "./update-log.ts";

/** Boards, the ways into them, and what is private to their members. Writes resolve once they are on the disk. */
export interface BoardTables {
  /** Adds a board and its first document. */
  addBoard(board: BoardRecord): Promise<void>;
  board(id: Id): Promise<BoardRecord | null>;
  /** The demo board that is open to visitors: the latest one that was not retired. */
  currentDemo(): Promise<BoardRecord | null>;
  /** Closes a board for good and forgets its documents' logs. Its links and devices stay, to be told why. */
  retireBoard(id: Id, at: number): Promise<void>;
  /**
   * Erases a board: its logs, links and private values go, its name is emptied, and its devices keep nothing but what
   * tells them that the board was erased.
   */
  eraseBoard(id: Id, at: number): Promise<void>;
  boardByRecovery(recoveryHash: string): Promise<BoardRecord | null>;
  /** Replaces the hash of the recovery code; null = no code. */
  setRecovery(board: Id, recoveryHash: string | null): Promise<void>;

  /** A board's documents, first season first. */
  seasons(board: Id): Promise<readonly SeasonRecord[]>;
  /** Which board and season a document belongs to; null for an unknown document. */
  seasonOf(document: Id): Promise<SeasonRecord | null>;
  /**
   * Closes the board's season and opens the next with `first` as its document's first row, in one transaction.
   * `erasing` forgets the logs of all earlier documents. Throws StorageRefusal when the board's document is no longer
   * `closing`.
   */
  openSeason(board: Id, closing: Id, first: NewUpdate, erasing: boolean): Promise<SeasonRecord>;

  addLink(link: LinkRecord): Promise<void>;
  linkBySecret(secretHash: string): Promise<LinkRecord | null>;
  /** Links of a board, oldest first. */
  links(board: Id): Promise<readonly LinkRecord[]>;
  /** False when the board has no such link. Withdrawing twice keeps the first moment. */
  revokeLink(board: Id, id: Id, at: number): Promise<boolean>;
  /** Counts one use; false when the link has been used as often as it may. */
  countUse(id: Id): Promise<boolean>;

  addDevice(device: DeviceRecord): Promise<void>;
  deviceByToken(tokenHash: string): Promise<DeviceRecord | null>;
  device(board: Id, id: Id): Promise<DeviceRecord | null>;
  /** Devices of a board, oldest first, removed ones included. */
  devices(board: Id): Promise<readonly DeviceRecord[]>;
  /** False when the board has no such device. Removing twice keeps the first moment. */
  changeDevice(board: Id, id: Id, changes: DeviceChanges): Promise<boolean>;
  /** Remembers when a device was here last. Need not outlive a crash. */
  touchDevice(id: Id, at: number): void;

  privateValues(board: Id, member: Id): Promise<readonly PrivateValue[]>;
  /** Sets one private value; null takes it away. */
  setPrivate(board: Id, member: Id, key: string, value: string | null, at: number): Promise<void>;
  /** Forgets a member's private values, and removes their devices and links. */
  eraseMember(board: Id, member: Id, at: number): Promise<void>;
}

export interface BoardRecord {
  readonly id: Id;
  /** The name it was created with; the document holds the current one. */
  readonly name: string;
  readonly demo: boolean;
  readonly createdAt: number;
  readonly retiredAt: number | null;
  readonly erasedAt: number | null;
  /** The document of the season that is open. The first document has the board's own id. */
  readonly document: Id;
  /** Number of the season that is open, from 1. */
  readonly season: number;
  /** SHA-256 of the recovery code, base64url. */
  readonly recoveryHash: string | null;
}

export interface SeasonRecord {
  readonly board: Id;
  readonly document: Id;
  readonly season: number;
  readonly openedAt: number;
  readonly closedAt: number | null;
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
  /** How many devices may come in by it; null = any number. */
  readonly maxUses: number | null;
  readonly uses: number;
  /** The person whose devices come in by it; null = whoever comes picks their name. */
  readonly memberId: Id | null;
  /** The one gig a dep's link is for. */
  readonly gig: Id | null;
}

export interface DeviceRecord {
  readonly id: Id;
  readonly board: Id;
  readonly role: Role;
  /** SHA-256 of the token, base64url. */
  readonly tokenHash: string;
  readonly memberId: Id | null;
  readonly createdAt: number;
  /** What the device calls itself, such as "Phone, Firefox". */
  readonly name: string;
  readonly lastSeenAt: number | null;
  readonly revokedAt: number | null;
  readonly expiresAt: number | null;
  /** The link it came in by. */
  readonly link: Id | null;
  readonly gig: Id | null;
  /** True when the person's other device or a leader vouches that it is theirs: it may read what is private. */
  readonly confirmed: boolean;
}

export interface DeviceChanges {
  readonly role?: Role;
  readonly memberId?: Id | null;
  readonly confirmed?: boolean;
  readonly name?: string;
  readonly revokedAt?: number;
}

export interface PrivateValue {
  readonly key: string;
  /** JSON. */
  readonly value: string;
  readonly at: number;
}
