import type { Storage } from "../storage/storage.ts";
import type { AccessPolicy } from "./access-policy.ts";
import { hashSecret, sameHash } from "./tokens.ts";

/** A device's last visit is written down at most this often (ms). */
const SEEN_EVERY_MS = 5 * 60_000;

/** The product's policy: whoever holds a device's token is that device. There are no accounts. */
export const createCapabilityAccess = (storage: Storage, clock: () => number): AccessPolicy => ({
  async admit(token, asked) {
    if (token === null) return { ok: false, refusal: "unknown-device" };
    const hash = hashSecret(token);
    const device = await storage.deviceByToken(hash);
    if (device === null || !sameHash(device.tokenHash, hash)) return { ok: false, refusal: "unknown-device" };
    const board = await storage.board(device.board);
    if (board === null) return { ok: false, refusal: "no-such-board" };
    if (board.erasedAt !== null) return { ok: false, refusal: "board-erased" };
    if (device.revokedAt !== null) return { ok: false, refusal: "device-removed" };
    if (device.expiresAt !== null && device.expiresAt <= clock())
      return { ok: false, refusal: "way-in-ended" };
    if (asked !== null && asked !== board.document) {
      // Another board than one's own looks like no board at all: tokens are no way to find out which boards exist.
      const earlier = (await storage.seasonOf(asked))?.board === board.id;
      if (!earlier) return { ok: false, refusal: "no-such-board" };
      if (board.retiredAt === null) return { ok: false, refusal: "season-closed" };
    }
    if (board.retiredAt !== null) return { ok: false, refusal: "demo-restarted" };
    const now = clock();
    if (device.lastSeenAt === null || now - device.lastSeenAt >= SEEN_EVERY_MS)
      touch(storage, device.id, now);
    const { id, role, memberId, confirmed, gig, expiresAt } = device;
    const { document, season, name } = board;
    return {
      ok: true,
      session: {
        board: board.id,
        document,
        season,
        device: id,
        role,
        memberId,
        boardName: name,
        confirmed,
        gig,
        expiresAt,
      },
    };
  },
});

const touch = (storage: Storage, device: string, at: number): void => {
  try {
    storage.touchDevice(device, at);
  } catch {
    // A full disk must keep nobody from reading.
  }
};
