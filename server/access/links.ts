import { readBoard } from "#shared/document/read/board-reader.ts";
import { err, ok, type Result } from "#shared/lib/result.ts";
import type { CreateLink, NewLink } from "#shared/protocol/api.ts";
import type { ApiErrorCode } from "#shared/protocol/api-errors.ts";
import type { DeviceSession } from "./access-policy.ts";
import type { LiveRooms } from "./live-rooms.ts";
import type { Membership } from "./membership.ts";

const DAY_MS = 86_400_000;
/** A dep's link lasts at most this long (ms), whatever was asked for. */
const DEP_LINK_MS = 60 * DAY_MS;
/** A member's link for another device of their own lasts at most this long (ms). */
const OWN_LINK_MS = DAY_MS;

export interface LinksParts {
  readonly membership: Membership;
  readonly rooms: Pick<LiveRooms, "read">;
  readonly clock: () => number;
}

/** Makes the link that was asked for, as far as the asking device may make one. */
export type MakeLink = (asking: DeviceSession, wanted: CreateLink) => Promise<Result<NewLink, ApiErrorCode>>;

export const createMakeLink = ({ membership, rooms, clock }: LinksParts): MakeLink => {
  /** The link a member gets, who may bring in another device of theirs and nothing else. */
  const forSelf = (asking: DeviceSession, wanted: CreateLink): Result<CreateLink, ApiErrorCode> => {
    if (wanted.role !== "member" || wanted.memberId === undefined || wanted.gig !== undefined)
      return err("leaders-only");
    if (asking.memberId === null) return err("pick-a-name");
    if (wanted.memberId !== asking.memberId) return err("leaders-only");
    if (!asking.confirmed) return err("not-confirmed");
    const latest = clock() + OWN_LINK_MS;
    return ok({ ...wanted, maxUses: 1, expiresAt: Math.min(wanted.expiresAt ?? latest, latest) });
  };

  const forDep = async (
    asking: DeviceSession,
    wanted: CreateLink,
  ): Promise<Result<CreateLink, ApiErrorCode>> => {
    const { memberId, gig, expiresAt } = wanted;
    if (memberId === undefined || gig === undefined || expiresAt === undefined) return err("bad-request");
    const known = await rooms.read(asking.document, (document) => {
      const board = readBoard(document);
      return board.people.get(memberId)?.dep === true && board.gigs.some(({ id }) => id === gig);
    });
    return known
      ? ok({ ...wanted, expiresAt: Math.min(expiresAt, clock() + DEP_LINK_MS) })
      : err("unknown-dep");
  };

  const granted = async (
    asking: DeviceSession,
    wanted: CreateLink,
  ): Promise<Result<CreateLink, ApiErrorCode>> => {
    if (asking.role === "dep") return err("own-gig-only");
    if (asking.role === "guest") return err("guests-look");
    if (asking.role === "member") return forSelf(asking, wanted);
    if (wanted.role === "dep") return forDep(asking, wanted);
    // A guest is nobody of the board, and only deps are let in for one gig.
    const odd = wanted.gig !== undefined || (wanted.role === "guest" && wanted.memberId !== undefined);
    return odd ? err("bad-request") : ok(wanted);
  };

  return async (asking, wanted) => {
    const link = await granted(asking, wanted);
    return link.ok ? ok(await membership.createLink(asking.board, link.value)) : link;
  };
};
