import type { BoardRecord, DeviceRecord, LinkRecord } from "#server/storage/board-tables.ts";
import type { NewSnapshot, NewUpdate } from "#server/storage/update-log.ts";

/** A row of a document's log. */
export const update = (document: string, ...bytes: number[]): NewUpdate => ({
  document,
  device: "anneli-phone",
  member: "anneli",
  at: 1_900_000_000_000,
  bytes: Uint8Array.from(bytes),
});

export const board = (id: string, changes: Partial<BoardRecord> = {}): BoardRecord => ({
  id,
  name: "Six Spare Fuses",
  demo: false,
  createdAt: 1_900_000_000_000,
  retiredAt: null,
  erasedAt: null,
  document: id,
  season: 1,
  recoveryHash: null,
  ...changes,
});

export const link = (id: string, changes: Partial<LinkRecord> = {}): LinkRecord => ({
  id,
  board: "fuses",
  role: "member",
  secretHash: `hash-of-${id}`,
  label: "For the horns",
  createdAt: 1_900_000_000_000,
  expiresAt: null,
  revokedAt: null,
  maxUses: null,
  uses: 0,
  memberId: null,
  gig: null,
  ...changes,
});

export const device = (id: string, changes: Partial<DeviceRecord> = {}): DeviceRecord => ({
  id,
  board: "fuses",
  role: "leader",
  tokenHash: `hash-of-${id}`,
  memberId: null,
  createdAt: 1_900_000_000_000,
  name: "Phone",
  lastSeenAt: null,
  revokedAt: null,
  expiresAt: null,
  link: null,
  gig: null,
  confirmed: false,
  ...changes,
});

/** A snapshot that says which rows it stands for by its only byte. */
export const snapshot = (upTo: number, byte: number, at = 1_900_000_000_000): NewSnapshot => ({
  upTo,
  at,
  schema: 3,
  stateVector: Uint8Array.of(0, byte),
  bytes: Uint8Array.of(byte),
});
