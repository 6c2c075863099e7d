import * as v from "valibot";
import { isId } from "#shared/board/ids.ts";
import { err, ok, type Result } from "#shared/lib/result.ts";
import { type ApiErrorCode, type Link, ROLES, type Session } from "#shared/protocol/api.ts";
import { type AccessPolicy, type DeviceSession, REFUSALS } from "../access/access-policy.ts";
import type { Demo } from "../access/demo.ts";
import type { Membership } from "../access/membership.ts";
import { depRoutes } from "../dep/dep-routes.ts";
import type { RoomRegistry } from "../rooms/room-registry.ts";
import type { Settings } from "../settings/settings.ts";
import type { LinkRecord } from "../storage/board-tables.ts";
import type { Storage } from "../storage/storage.ts";
import type { RateBound } from "./rate-bound.ts";
import type { ApiReply, ApiRequest } from "./request.ts";

export interface RouteParts {
  readonly storage: Storage;
  readonly access: AccessPolicy;
  readonly membership: Membership;
  readonly rooms: RoomRegistry;
  /** Null when the server has no demo band. */
  readonly demo: Demo | null;
  readonly settings: Settings;
  readonly mayTry: RateBound;
  readonly clock: () => number;
}

type Answer = Promise<Result<ApiReply, ApiErrorCode>>;

/** Answers one kind of request; a refusal is the code of its sentence. */
export type Handler = (request: ApiRequest) => Answer;

const NAME_MAX = 200;
const LABEL_MAX = 200;

const CREATE_BOARD = v.strictObject({
  name: v.pipe(v.string(), v.trim(), v.minLength(1), v.maxLength(NAME_MAX)),
});
const BIND_MEMBER = v.strictObject({ memberId: v.custom<string>(isId) });
const CREATE_LINK = v.strictObject({
  role: v.picklist(ROLES),
  expiresAt: v.optional(v.pipe(v.number(), v.safeInteger(), v.minValue(0))),
  label: v.optional(v.pipe(v.string(), v.maxLength(LABEL_MAX))),
});

/** The routes of the API by method and path; `:id` stands for one segment. */
export const createRoutes = (parts: RouteParts): Readonly<Record<string, Handler>> => ({
  ...boardRoutes(parts),
  ...sessionRoutes(parts),
  ...linkRoutes(parts),
  ...demoRoutes(parts),
  ...depRoutes(parts),
});

const boardRoutes = ({ membership, settings, mayTry }: RouteParts): Record<string, Handler> => ({
  "POST /api/boards": async (request) => {
    if (!settings.createBoards) return err("creating-disabled");
    if (!mayTry(request.address)) return err("too-many");
    const wanted = await request.body(CREATE_BOARD);
    if (!wanted.ok) return wanted;
    const board = await membership.createBoard(wanted.value.name);
    return ok({ status: 201, body: await membership.admitDevice(board, "leader") });
  },
  "POST /api/join": async (request) => {
    if (!mayTry(request.address)) return err("too-many");
    if (request.bearer === null) return err("unknown-link");
    const grant = await membership.join(request.bearer);
    return grant.ok ? ok({ status: 201, body: grant.value }) : grant;
  },
});

const sessionRoutes = (parts: RouteParts): Record<string, Handler> => ({
  "GET /api/session": async (request) => {
    const session = await admitted(parts.access, request);
    return session.ok ? ok({ status: 200, body: sessionBody(session.value) }) : session;
  },
  "POST /api/session/member": async (request) => {
    const session = await admitted(parts.access, request);
    if (!session.ok) return session;
    if (session.value.role === "guest") return err("guests-look");
    const wanted = await request.body(BIND_MEMBER);
    if (!wanted.ok) return wanted;
    const { board, device } = session.value;
    await parts.storage.changeDevice(board, device, { memberId: wanted.value.memberId });
    return ok({ status: 200, body: sessionBody({ ...session.value, memberId: wanted.value.memberId }) });
  },
});

const linkRoutes = ({ access, storage, membership, clock }: RouteParts): Record<string, Handler> => ({
  "GET /api/links": async (request) => {
    const leader = await leading(access, request);
    if (!leader.ok) return leader;
    const links = await storage.links(leader.value.board);
    return ok({ status: 200, body: { links: links.map(linkBody) } });
  },
  "POST /api/links": async (request) => {
    const leader = await leading(access, request);
    if (!leader.ok) return leader;
    const wanted = await request.body(CREATE_LINK);
    if (!wanted.ok) return wanted;
    return ok({ status: 201, body: await membership.createLink(leader.value.board, wanted.value) });
  },
  "DELETE /api/links/:id": async (request) => {
    const leader = await leading(access, request);
    if (!leader.ok) return leader;
    const found = await storage.revokeLink(leader.value.board, request.id, clock());
    return found ? ok({ status: 204 }) : err("not-found");
  },
});

const demoRoutes = ({ access, demo, mayTry }: RouteParts): Record<string, Handler> => ({
  "POST /api/demo": async (request) => {
    if (demo === null) return err("no-demo");
    if (!mayTry(request.address)) return err("too-many");
    return ok({ status: 201, body: await demo.enter() });
  },
  "POST /api/demo/reset": async (request) => {
    if (demo === null) return err("no-demo");
    if (!mayTry(request.address)) return err("too-many");
    const leader = await leading(access, request);
    if (!leader.ok) return leader;
    if (!(await demo.isCurrent(leader.value.board))) return err("no-demo");
    return ok({ status: 201, body: await demo.restart() });
  },
});

const admitted = async (
  access: AccessPolicy,
  request: ApiRequest,
): Promise<Result<DeviceSession, ApiErrorCode>> => {
  const admission = await access.admit(request.bearer, null);
  return admission.ok ? ok(admission.session) : err(REFUSALS[admission.refusal].api);
};

const leading = async (
  access: AccessPolicy,
  request: ApiRequest,
): Promise<Result<DeviceSession, ApiErrorCode>> => {
  const session = await admitted(access, request);
  return session.ok && session.value.role !== "leader" ? err("leaders-only") : session;
};

const sessionBody = ({ boardName, gig: _, ...session }: DeviceSession): Session => ({
  ...session,
  name: boardName,
});

const linkBody = ({ secretHash: _, board: __, ...link }: LinkRecord): Link => link;
