import type { Id } from "#shared/board/ids.ts";
import { err, ok, type Result } from "#shared/lib/result.ts";
import type { ApiErrorCode, BoardGrant, CreateLink, NewLink, Role } from "#shared/protocol/api.ts";
import type { BoardRecord, Storage } from "../storage/storage.ts";
import { hashSecret, mintId, mintSecret, sameHash } from "./tokens.ts";

/** Boards, the links into them, and the devices that came in: who belongs, as the server's tables say it. */
export interface Membership {
  /** A new board: empty until somebody writes into it, or the demo with its first content (a Yjs update). */
  createBoard(name: string, demoContent?: Uint8Array): Promise<BoardRecord>;
  /** A new device on a board. The token in the grant is not kept. */
  admitDevice(board: BoardRecord, role: Role): Promise<BoardGrant>;
  /** A new link into a board. The secret is not kept. */
  createLink(board: Id, wanted: CreateLink): Promise<NewLink>;
  /** Lets a new device in by a link's secret. */
  join(secret: string): Promise<Result<BoardGrant, ApiErrorCode>>;
}

export const createMembership = (storage: Storage, clock: () => number): Membership => {
  const createBoard = async (name: string, demoContent?: Uint8Array): Promise<BoardRecord> => {
    const demo = demoContent !== undefined;
    const board: BoardRecord = { id: mintId(), name, demo, createdAt: clock(), retiredAt: null };
    // Content first: a crash in between leaves rows nobody can reach, not a demo without a band.
    if (demo)
      storage.append({ board: board.id, device: "server", member: null, at: clock(), bytes: demoContent });
    await storage.addBoard(board);
    return board;
  };

  const admitDevice = async (board: BoardRecord, role: Role): Promise<BoardGrant> => {
    const token = mintSecret();
    await storage.addDevice({
      id: mintId(),
      board: board.id,
      role,
      tokenHash: hashSecret(token),
      memberId: null,
      createdAt: clock(),
    });
    return { board: board.id, token, role, boardName: board.name };
  };

  const createLink = async (board: Id, { role, expiresAt, label }: CreateLink): Promise<NewLink> => {
    const secret = mintSecret();
    const id = mintId();
    await storage.addLink({
      id,
      board,
      role,
      secretHash: hashSecret(secret),
      label: label ?? "",
      createdAt: clock(),
      expiresAt: expiresAt ?? null,
      revokedAt: null,
    });
    return { id, board, secret, role };
  };

  const join = async (secret: string): Promise<Result<BoardGrant, ApiErrorCode>> => {
    const hash = hashSecret(secret);
    const link = await storage.linkBySecret(hash);
    if (link === null || !sameHash(link.secretHash, hash)) return err("unknown-link");
    const board = await storage.board(link.board);
    if (board === null) return err("unknown-link");
    if (board.retiredAt !== null) return err("demo-restarted");
    if (link.revokedAt !== null) return err("link-revoked");
    if (link.expiresAt !== null && link.expiresAt <= clock()) return err("link-expired");
    return ok(await admitDevice(board, link.role));
  };

  return { createBoard, admitDevice, createLink, join };
};
