import type { Id } from "#shared/board/ids.ts";
import { err, ok, type Result } from "#shared/lib/result.ts";
import type { BoardGrant, CreateLink, NewLink, Role } from "#shared/protocol/api.ts";
import type { ApiErrorCode } from "#shared/protocol/api-errors.ts";
import type { BoardRecord, DeviceRecord } from "../storage/board-tables.ts";
import type { Storage } from "../storage/storage.ts";
import { hashSecret, mintId, mintSecret, sameHash } from "./tokens.ts";

/** What else is known about a device that comes in. */
type DeviceDetails = Partial<
  Pick<DeviceRecord, "memberId" | "name" | "expiresAt" | "link" | "gig" | "confirmed">
>;

/** A device that was let in: what it is told, and its id. */
export interface Admitted {
  /** The token in it is not kept. */
  readonly grant: BoardGrant;
  readonly device: Id;
}

/** Boards, the links into them, and the devices that came in: who belongs, as the server's tables say it. */
export interface Membership {
  /** A new board: empty until somebody writes into it, or the demo with its first content (a Yjs update). */
  createBoard(name: string, demoContent?: Uint8Array): Promise<BoardRecord>;
  /** A new device on a board. */
  admitDevice(board: BoardRecord, role: Role, details?: DeviceDetails): Promise<Admitted>;
  /** A new link into a board; whoever asks may make it. The secret is not kept. */
  createLink(board: Id, wanted: CreateLink): Promise<NewLink>;
  /** Lets a new device in by a link's secret. */
  join(secret: string, deviceName: string): Promise<Result<BoardGrant, ApiErrorCode>>;
}

/** Devices of these roles are let in for as long as their link lasts; the band's own stay. */
const ENDS_WITH_LINK: ReadonlySet<Role> = new Set<Role>(["guest", "dep"]);

export const createMembership = (storage: Storage, clock: () => number): Membership => {
  const createBoard = async (name: string, demoContent?: Uint8Array): Promise<BoardRecord> => {
    const demo = demoContent !== undefined;
    const id = mintId();
    const board: BoardRecord = {
      id,
      name,
      demo,
      createdAt: clock(),
      retiredAt: null,
      erasedAt: null,
      document: id,
      season: 1,
      recoveryHash: null,
    };
    // Content first: a crash in between leaves rows nobody can reach, not a demo without a band.
    if (demo)
      storage.append({
        document: board.document,
        device: "server",
        member: null,
        at: clock(),
        bytes: demoContent,
      });
    await storage.addBoard(board);
    return board;
  };

  const admitDevice = async (
    board: BoardRecord,
    role: Role,
    details: DeviceDetails = {},
  ): Promise<Admitted> => {
    const token = mintSecret();
    const device: DeviceRecord = {
      id: mintId(),
      board: board.id,
      role,
      tokenHash: hashSecret(token),
      memberId: null,
      createdAt: clock(),
      name: "",
      lastSeenAt: null,
      revokedAt: null,
      expiresAt: null,
      link: null,
      gig: null,
      confirmed: false,
      ...details,
    };
    await storage.addDevice(device);
    const { memberId, expiresAt } = device;
    const { id, document, name: boardName } = board;
    return { device: device.id, grant: { board: id, document, token, role, boardName, memberId, expiresAt } };
  };

  const createLink = async (board: Id, wanted: CreateLink): Promise<NewLink> => {
    const secret = mintSecret();
    const id = mintId();
    await storage.addLink({
      id,
      board,
      role: wanted.role,
      secretHash: hashSecret(secret),
      label: wanted.label ?? "",
      createdAt: clock(),
      expiresAt: wanted.expiresAt ?? null,
      revokedAt: null,
      maxUses: wanted.maxUses ?? null,
      uses: 0,
      memberId: wanted.memberId ?? null,
      gig: wanted.gig ?? null,
    });
    return { id, board, secret, role: wanted.role };
  };

  const join = async (secret: string, deviceName: string): Promise<Result<BoardGrant, ApiErrorCode>> => {
    const hash = hashSecret(secret);
    const link = await storage.linkBySecret(hash);
    if (link === null || !sameHash(link.secretHash, hash)) return err("unknown-link");
    const board = await storage.board(link.board);
    if (board === null) return err("unknown-link");
    if (board.erasedAt !== null) return err("board-erased");
    if (board.retiredAt !== null) return err("demo-restarted");
    if (link.revokedAt !== null) return err("link-revoked");
    if (link.expiresAt !== null && link.expiresAt <= clock()) return err("link-expired");
    // Counted last: a refusal costs no use.
    if (!(await storage.countUse(link.id))) return err("link-used-up");
    const { memberId, gig, role } = link;
    const { grant } = await admitDevice(board, role, {
      memberId,
      gig,
      name: deviceName,
      link: link.id,
      expiresAt: ENDS_WITH_LINK.has(role) ? link.expiresAt : null,
      confirmed: memberId !== null,
    });
    return ok(grant);
  };

  return { createBoard, admitDevice, createLink, join };
};
