import type { Id } from "#shared/board/ids.ts";
import { err, ok, type Result } from "#shared/lib/result.ts";
import type { ChangeDevice, DeviceInfo } from "#shared/protocol/api.ts";
import type { ApiErrorCode } from "#shared/protocol/api-errors.ts";
import type { DeviceRecord } from "../storage/board-tables.ts";
import type { Storage } from "../storage/storage.ts";
import type { DeviceSession } from "./access-policy.ts";
import type { InTurn } from "./in-turn.ts";
import type { LiveRooms } from "./live-rooms.ts";

/**
 * The devices on a board: who sees, vouches for and removes which. Governing rule: what a device may not do any more is
 * written down first, then its live connections are cut; there is always a device that leads.
 */
export interface Devices {
  /** Devices the asking one may see, oldest first. */
  list(asking: DeviceSession): Promise<readonly DeviceInfo[]>;
  change(asking: DeviceSession, id: Id, wanted: ChangeDevice): Promise<Result<DeviceInfo, ApiErrorCode>>;
  remove(asking: DeviceSession, id: Id): Promise<Result<null, ApiErrorCode>>;
  /** Removes the devices that came in by a link. */
  removeByLink(board: Id, link: Id): Promise<Result<null, ApiErrorCode>>;
  /** Says which person the asking device belongs to. */
  claim(asking: DeviceSession, memberId: Id): Promise<Result<DeviceSession, ApiErrorCode>>;
  /** True when some device leads that `without` does not name. */
  leadsWithout(board: Id, without: (device: DeviceRecord) => boolean): Promise<boolean>;
}

export interface DevicesParts {
  readonly storage: Storage;
  readonly rooms: Pick<LiveRooms, "closeDevice" | "nameDevice" | "devicesHere">;
  /** One key per board. */
  readonly inTurn: InTurn;
  readonly clock: () => number;
}

export const createDevices = ({ storage, rooms, inTurn, clock }: DevicesParts): Devices => {
  const isLive = ({ revokedAt, expiresAt }: DeviceRecord): boolean =>
    revokedAt === null && (expiresAt === null || expiresAt > clock());

  /** Field by field: nothing the record gains later is told by accident. */
  const infoOf = (asking: DeviceSession): ((device: DeviceRecord) => DeviceInfo) => {
    const here = rooms.devicesHere(asking.board);
    return ({ id, role, memberId, name, createdAt, lastSeenAt, expiresAt, link, confirmed }) => {
      const told = { id, role, memberId, name, createdAt, lastSeenAt, expiresAt, link, confirmed };
      return { ...told, own: id === asking.device, here: here.has(id) };
    };
  };

  const leadsWithout: Devices["leadsWithout"] = async (board, without) =>
    (await storage.devices(board)).some(
      (device) => device.role === "leader" && isLive(device) && !without(device),
    );

  /** The device that is meant, if the asking one may have a say in it. */
  const within = async (asking: DeviceSession, id: Id): Promise<DeviceRecord | null> => {
    const device = await storage.device(asking.board, id);
    return device !== null && device.revokedAt === null && maySee(asking, device) ? device : null;
  };

  const removeAll = async (board: Id, gone: readonly DeviceRecord[]): Promise<Result<null, ApiErrorCode>> => {
    const ids = new Set(gone.map(({ id }) => id));
    const leads = gone.some(({ role }) => role === "leader");
    if (leads && !(await leadsWithout(board, ({ id }) => ids.has(id)))) return err("last-leader");
    for (const { id } of gone) {
      await storage.changeDevice(board, id, { revokedAt: clock() });
      rooms.closeDevice(id, 4411);
    }
    return ok(null);
  };

  return {
    leadsWithout,
    list: async (asking) =>
      (await storage.devices(asking.board))
        .filter((device) => device.revokedAt === null && maySee(asking, device))
        .map(infoOf(asking)),
    change: (asking, id, wanted) =>
      inTurn(asking.board, async () => {
        const device = await within(asking, id);
        if (device === null) return err("not-found");
        const { role = device.role, confirmed = device.confirmed, name = device.name } = wanted;
        const refusal = mayChange(asking, device, { role, confirmed });
        if (refusal !== null) return err(refusal);
        const steps = role !== device.role;
        if (steps && device.role === "leader" && !(await leadsWithout(asking.board, (one) => one.id === id)))
          return err("last-leader");
        await storage.changeDevice(asking.board, id, { role, confirmed, name });
        if (steps) rooms.closeDevice(id, 4508);
        return ok(infoOf(asking)({ ...device, role, confirmed, name }));
      }),
    remove: (asking, id) =>
      inTurn(asking.board, async () => {
        const device = await within(asking, id);
        return device === null ? err("not-found") : removeAll(asking.board, [device]);
      }),
    removeByLink: (board, link) =>
      inTurn(board, async () => {
        const devices = await storage.devices(board);
        return removeAll(
          board,
          devices.filter((device) => device.link === link && device.revokedAt === null),
        );
      }),
    claim: (asking, memberId) =>
      inTurn(asking.board, async () => {
        if (asking.role === "guest") return err("guests-look");
        if (asking.role === "dep") return err("own-gig-only");
        if (asking.memberId === memberId) return ok(asking);
        const devices = await storage.devices(asking.board);
        const others = devices.some((one) => one.memberId === memberId && isLive(one));
        // What somebody has kept to themselves opens to nobody just because their devices are gone.
        const kept = (await storage.privateValues(asking.board, memberId)).length > 0;
        const confirmed = !others && !kept;
        await storage.changeDevice(asking.board, asking.device, { memberId, confirmed });
        rooms.nameDevice(asking.device, { memberId, confirmed });
        return ok({ ...asking, memberId, confirmed });
      }),
  };
};

/** A person's devices see each other once they are vouched for; until then a device sees itself. */
const maySee = (asking: DeviceSession, device: DeviceRecord): boolean =>
  asking.role === "leader" ||
  device.id === asking.device ||
  (asking.confirmed && asking.memberId !== null && device.memberId === asking.memberId);

const mayChange = (
  asking: DeviceSession,
  device: DeviceRecord,
  wanted: Pick<DeviceRecord, "role" | "confirmed">,
): ApiErrorCode | null => {
  const leads = asking.role === "leader";
  if (wanted.role !== device.role) {
    if (!leads) return "leaders-only";
    // A dep's device has a gig and no board: nothing turns one kind into the other.
    if (wanted.role === "dep" || device.role === "dep") return "bad-request";
  }
  if (wanted.confirmed !== device.confirmed) {
    if (!leads && !asking.confirmed) return "not-confirmed";
    if (device.memberId === null) return "bad-request";
  }
  return null;
};
