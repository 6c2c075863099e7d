/** What a joining address does: exchange the link's secret for this device's own token, and remember the board. */
import { ok, type Result } from "#shared/lib/result.ts";
import type { BoardGrant, Role } from "#shared/protocol/api.ts";
import type { Api } from "./api.ts";
import type { ApiProblem } from "./api-problem.ts";
import type { Device, KnownBoard } from "./device.ts";
import { type Patience, untilAnswered } from "./until-answered.ts";

export interface JoiningOptions extends Pick<Patience, "signal"> {
  readonly api: Pick<Api, "join" | "session" | "claimMember">;
  readonly device: Device;
  /** Device clock, ms. */
  readonly now?: () => number;
  /** Called with a sentence while the server cannot be reached; the exchange is tried again by itself. */
  readonly onWaiting?: (sentence: string) => void;
}

const WAITING =
  "The server cannot be reached. Your link is kept on this page and used as soon as there is a connection.";

const RANK: Readonly<Record<Role, number>> = { dep: 0, guest: 1, member: 2, leader: 3 };

/** What is known about a board this device was just let into. Whoever comes by a personal link is that person. */
export const knownFromGrant = (grant: BoardGrant, now: number): KnownBoard => ({
  board: grant.board,
  document: grant.document,
  token: grant.token,
  role: grant.role,
  memberId: grant.memberId,
  confirmed: grant.memberId !== null,
  expiresAt: grant.expiresAt,
  name: grant.boardName,
  lastOpened: now,
});

/**
 * Joins a board by a link's secret. A device keeps the way in it has unless the link gives more, so that a leader who
 * tries out the link for members stays the leader.
 */
export const joinBoard = async (
  secret: string,
  options: JoiningOptions,
): Promise<Result<KnownBoard, ApiProblem>> => {
  const { api, device, now = Date.now } = options;
  const granted = await untilAnswered(() => api.join(secret), {
    ...options,
    onProblem: ({ code, message }) => options.onWaiting?.(code === "offline" ? WAITING : message),
  });
  if (!granted.ok) return granted;
  const fresh = knownFromGrant(granted.value, now());
  const before = device.board(fresh.board);
  // A dep's next link may be for another gig, so it counts.
  const keeps = before !== null && before.role !== "dep" && !givesMore(fresh, before);
  if (keeps && (await isStillLetIn(api, before))) {
    device.update(fresh.board, { lastOpened: now() });
    return ok({ ...before, lastOpened: now() });
  }
  const known = { ...fresh, ...(await claimedAgain(api, fresh, before)) };
  device.remember(known);
  return ok(known);
};

/** Takes the secret out of the address bar and the history. `path` is where the page goes on, such as `/b/<board>`. */
export const cleanAddress = (path: string): void =>
  history.replaceState(history.state, "", `${location.pathname}${location.search}#${path}`);

/** A stronger role, or the same for a certain person or for longer. */
const givesMore = (fresh: KnownBoard, before: KnownBoard): boolean => {
  if (RANK[fresh.role] !== RANK[before.role]) return RANK[fresh.role] > RANK[before.role];
  const names = fresh.memberId !== null && !(before.confirmed && before.memberId === fresh.memberId);
  return names || endOf(fresh) > endOf(before);
};

const endOf = ({ expiresAt }: KnownBoard): number => expiresAt ?? Number.POSITIVE_INFINITY;

/** Unless the server says otherwise: being offline takes nobody's way in. */
const isStillLetIn = async (api: Pick<Api, "session">, { token }: KnownBoard): Promise<boolean> => {
  const session = await api.session(token);
  return session.ok || session.error.retriable;
};

/** A person who joins again stays the same person, unless the link says who they are. */
export const claimedAgain = async (
  api: Pick<Api, "claimMember">,
  fresh: KnownBoard,
  before: KnownBoard | null,
): Promise<Pick<KnownBoard, "memberId" | "confirmed">> => {
  const memberId = before?.memberId ?? null;
  const asks = fresh.memberId === null && (fresh.role === "leader" || fresh.role === "member");
  const claimed = asks && memberId !== null ? await api.claimMember(fresh.token, memberId) : null;
  const { confirmed, memberId: person } = claimed?.ok ? claimed.value : fresh;
  return { memberId: person, confirmed };
};
