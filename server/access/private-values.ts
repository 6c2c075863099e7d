import { err, ok, type Result } from "#shared/lib/result.ts";
import type { PrivateValues } from "#shared/protocol/api.ts";
import type { ApiErrorCode } from "#shared/protocol/api-errors.ts";
import type { Storage } from "../storage/storage.ts";
import type { DeviceSession } from "./access-policy.ts";
import type { InTurn } from "./in-turn.ts";

/** Longest value, in bytes of JSON. */
const VALUE_BYTES = 8192;
const KEYS_MAX = 200;

/**
 * What a member keeps to themselves, next to the board and never in it. Governing rule: only devices that are vouched
 * for as the person's own, and nothing of it in any log.
 */
export interface PrivateDrawer {
  all(asking: DeviceSession): Promise<Result<PrivateValues, ApiErrorCode>>;
  /** null takes the value away. */
  set(asking: DeviceSession, key: string, value: unknown): Promise<Result<null, ApiErrorCode>>;
}

export const createPrivateDrawer = (
  storage: Storage,
  inTurn: InTurn,
  clock: () => number,
): PrivateDrawer => ({
  async all(asking) {
    const owner = ownerOf(asking);
    if (!owner.ok) return owner;
    const stored = await storage.privateValues(asking.board, owner.value);
    return ok({ values: stored.map(({ key, value, at }) => ({ key, value: JSON.parse(value), at })) });
  },
  async set(asking, key, value) {
    const owner = ownerOf(asking);
    if (!owner.ok) return owner;
    const text = value === null ? null : textOf(value);
    if (text === undefined) return err("bad-request");
    if (text !== null && Buffer.byteLength(text) > VALUE_BYTES) return err("too-large");
    return inTurn(asking.board, async () => {
      // Whoever was erased while this waited leaves nothing behind.
      const device = await storage.device(asking.board, asking.device);
      if (device === null || device.revokedAt !== null) return err("device-removed");
      const stored = await storage.privateValues(asking.board, owner.value);
      if (text !== null && stored.length >= KEYS_MAX && !stored.some((one) => one.key === key))
        return err("private-full");
      await storage.setPrivate(asking.board, owner.value, key, text, clock());
      return ok(null);
    });
  },
});

const ownerOf = ({ role, memberId, confirmed }: DeviceSession): Result<string, ApiErrorCode> => {
  if (role === "guest") return err("guests-look");
  if (role === "dep") return err("own-gig-only");
  if (memberId === null) return err("pick-a-name");
  return confirmed ? ok(memberId) : err("not-confirmed");
};

/** Undefined for what JSON cannot say, or only deeper than it can be written. */
const textOf = (value: unknown): string | undefined => {
  try {
    return JSON.stringify(value);
  } catch {
    return undefined;
  }
};
