import type { Storage } from "../storage/storage.ts";
import type { AccessPolicy } from "./access-policy.ts";
import { hashSecret, sameHash } from "./tokens.ts";

/** The product's policy: whoever holds a device's token is that device. There are no accounts. */
export const createCapabilityAccess = (storage: Storage): AccessPolicy => ({
  async admit(token, asked) {
    if (token === null) return { ok: false, refusal: "unknown-device" };
    const hash = hashSecret(token);
    const device = await storage.deviceByToken(hash);
    if (device === null || !sameHash(device.tokenHash, hash)) return { ok: false, refusal: "unknown-device" };
    // Another board than one's own looks like no board at all: tokens are no way to find out which boards exist.
    if (asked !== null && asked !== device.board) return { ok: false, refusal: "no-such-board" };
    const board = await storage.board(device.board);
    if (board === null) return { ok: false, refusal: "no-such-board" };
    if (board.retiredAt !== null) return { ok: false, refusal: "demo-restarted" };
    const { id, role, memberId } = device;
    return { ok: true, session: { board: board.id, device: id, role, memberId, boardName: board.name } };
  },
});
