import { err, ok } from "#shared/lib/result.ts";
import type { NewBoardGrant, RecoveryCode, Session } from "#shared/protocol/api.ts";
import type { AccessPolicy, DeviceSession } from "../access/access-policy.ts";
import type { Demo } from "../access/demo.ts";
import type { Devices } from "../access/devices.ts";
import type { Membership } from "../access/membership.ts";
import type { Recovery } from "../access/recovery.ts";
import { ARRIVAL, BIND_MEMBER, CREATE_BOARD } from "./bodies.ts";
import { admitted, leading, type Routes, replied } from "./handler.ts";
import type { RateBound } from "./rate-bound.ts";

export interface BoardRoutesParts {
  readonly access: AccessPolicy;
  readonly membership: Membership;
  readonly recovery: Recovery;
  readonly devices: Devices;
  /** Null when the server has no demo band. */
  readonly demo: Demo | null;
  readonly createBoards: boolean;
  readonly mayTry: RateBound;
}

/** Ways in: creating, joining, recovering, the demo; and who one is. */
export const boardRoutes = (parts: BoardRoutesParts): Routes => ({
  ...waysIn(parts),
  ...sessionRoutes(parts),
  ...demoRoutes(parts),
});

const waysIn = ({ access, membership, recovery, createBoards, mayTry }: BoardRoutesParts): Routes => ({
  "POST /api/boards": async (request) => {
    if (!createBoards) return err("creating-disabled");
    if (!mayTry(request.address)) return err("too-many");
    const wanted = await request.body(CREATE_BOARD);
    if (!wanted.ok) return wanted;
    const { name, deviceName = "" } = wanted.value;
    const board = await membership.createBoard(name);
    const { grant } = await membership.admitDevice(board, "leader", { name: deviceName });
    const recoveryCode = await recovery.issue(board.id);
    return ok({ status: 201, body: { ...grant, recoveryCode } satisfies NewBoardGrant });
  },
  "POST /api/join": async (request) => {
    if (!mayTry(request.address)) return err("too-many");
    if (request.bearer === null) return err("unknown-link");
    const arrival = await request.body(ARRIVAL);
    if (!arrival.ok) return arrival;
    return replied(201, await membership.join(request.bearer, arrival.value.deviceName ?? ""));
  },
  "POST /api/recover": async (request) => {
    if (!mayTry(request.address)) return err("too-many");
    if (request.bearer === null) return err("unknown-code");
    const arrival = await request.body(ARRIVAL);
    if (!arrival.ok) return arrival;
    return replied(201, await recovery.recover(request.bearer, arrival.value.deviceName ?? ""));
  },
  "POST /api/recovery": async (request) => {
    const leader = await leading(access, request);
    if (!leader.ok) return leader;
    const recoveryCode = await recovery.issue(leader.value.board);
    return ok({ status: 201, body: { recoveryCode } satisfies RecoveryCode });
  },
});

const sessionRoutes = ({ access, devices }: BoardRoutesParts): Routes => ({
  "GET /api/session": async (request) => {
    const session = await admitted(access, request);
    return session.ok ? ok({ status: 200, body: sessionBody(session.value) }) : session;
  },
  "POST /api/session/member": async (request) => {
    const session = await admitted(access, request);
    if (!session.ok) return session;
    const wanted = await request.body(BIND_MEMBER);
    if (!wanted.ok) return wanted;
    const claimed = await devices.claim(session.value, wanted.value.memberId);
    return claimed.ok ? ok({ status: 200, body: sessionBody(claimed.value) }) : claimed;
  },
});

const demoRoutes = ({ access, demo, mayTry }: BoardRoutesParts): Routes => ({
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

const sessionBody = ({ boardName, gig: _, ...session }: DeviceSession): Session => ({
  ...session,
  name: boardName,
});
