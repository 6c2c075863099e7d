import type { Id } from "#shared/board/ids.ts";
import type { AccessPolicy } from "./access-policy.ts";
import type { LiveRooms } from "./live-rooms.ts";

/** The policy, and the work that makes ways in end while their devices are connected. */
export interface ExpiryWatch {
  readonly access: AccessPolicy;
  /** Cuts devices whose time is over. Call about every second. */
  tick(): void;
}

/** Watches over devices that were let in for a time. */
export const watchExpiry = (
  access: AccessPolicy,
  rooms: Pick<LiveRooms, "closeDevice">,
  clock: () => number,
): ExpiryWatch => {
  const ends = new Map<Id, number>();
  return {
    access: {
      async admit(token, document) {
        const admission = await access.admit(token, document);
        if (admission.ok && admission.session.expiresAt !== null)
          ends.set(admission.session.device, admission.session.expiresAt);
        return admission;
      },
    },
    tick() {
      const now = clock();
      for (const [device, end] of ends) {
        if (end > now) continue;
        ends.delete(device);
        rooms.closeDevice(device, 4412);
      }
    },
  };
};
