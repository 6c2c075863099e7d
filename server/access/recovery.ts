import type { Id } from "#shared/board/ids.ts";
import { err, ok, type Result } from "#shared/lib/result.ts";
import type { NewBoardGrant } from "#shared/protocol/api.ts";
import type { ApiErrorCode } from "#shared/protocol/api-errors.ts";
import { parseRecoveryCode } from "#shared/protocol/recovery-code.ts";
import type { BoardRecord } from "../storage/board-tables.ts";
import type { Storage } from "../storage/storage.ts";
import { createInTurn } from "./in-turn.ts";
import type { Membership } from "./membership.ts";
import { hashSecret, mintRecoveryCode, sameHash } from "./tokens.ts";

/** The way back in when a band has lost every leading device. */
export interface Recovery {
  /** A new code for the board, canonical; the one before is void. It is not kept. */
  issue(board: Id): Promise<string>;
  /** Lets a device in as a leader by a code as somebody typed it, and replaces the code. */
  recover(typed: string, deviceName: string): Promise<Result<NewBoardGrant, ApiErrorCode>>;
}

/** How long (ms) a used code opens the board once more if its answer was never heard of. */
const LOST_ANSWER_MS = 10 * 60_000;

interface Spent {
  readonly board: Id;
  readonly device: Id;
  readonly at: number;
}

export const createRecovery = (storage: Storage, membership: Membership, clock: () => number): Recovery => {
  const inTurn = createInTurn();
  /**
   * Codes used a moment ago, by their hash. An answer lost on its way would take the old code and the new one: so the
   * old one works again until the device that was let in by it has shown up.
   */
  const spent = new Map<string, Spent>();

  const issue = async (board: Id): Promise<string> => {
    const code = mintRecoveryCode();
    await storage.setRecovery(board, hashSecret(code));
    return code;
  };

  const boardBehind = async (hash: string): Promise<BoardRecord | null> => {
    const board = await storage.boardByRecovery(hash);
    if (board !== null) return sameHash(board.recoveryHash ?? "", hash) ? board : null;
    const lost = spent.get(hash);
    if (lost === undefined || clock() - lost.at >= LOST_ANSWER_MS) return null;
    const device = await storage.device(lost.board, lost.device);
    if (device === null || device.lastSeenAt !== null || device.revokedAt !== null) return null;
    await storage.changeDevice(lost.board, lost.device, { revokedAt: clock() });
    return storage.board(lost.board);
  };

  const forgetOld = (): void => {
    for (const [hash, { at }] of spent) if (clock() - at >= LOST_ANSWER_MS) spent.delete(hash);
  };

  return {
    issue,
    async recover(typed, deviceName) {
      const code = parseRecoveryCode(typed);
      if (code === null) return err("unknown-code");
      const hash = hashSecret(code);
      return inTurn(hash, async () => {
        forgetOld();
        const board = await boardBehind(hash);
        if (board === null || board.erasedAt !== null || board.retiredAt !== null) return err("unknown-code");
        const { grant, device } = await membership.admitDevice(board, "leader", { name: deviceName });
        const recoveryCode = await issue(board.id);
        spent.set(hash, { board: board.id, device, at: clock() });
        return ok({ ...grant, recoveryCode });
      });
    },
  };
};
