import { err, ok } from "#shared/lib/result.ts";
import type { DeviceList, Link, LinkList } from "#shared/protocol/api.ts";
import type { AccessPolicy } from "../access/access-policy.ts";
import type { Devices } from "../access/devices.ts";
import type { MakeLink } from "../access/links.ts";
import type { PrivateDrawer } from "../access/private-values.ts";
import type { LinkRecord } from "../storage/board-tables.ts";
import type { Storage } from "../storage/storage.ts";
import { CHANGE_DEVICE, CREATE_LINK, SET_PRIVATE } from "./bodies.ts";
import { admitted, done, leading, type Routes, replied } from "./handler.ts";

export interface PeopleRoutesParts {
  readonly access: AccessPolicy;
  readonly storage: Pick<Storage, "links" | "revokeLink">;
  readonly makeLink: MakeLink;
  readonly devices: Devices;
  readonly drawer: PrivateDrawer;
  readonly clock: () => number;
}

const PRIVATE_KEY = /^[a-z0-9-]{1,64}$/;

/** Links, devices, and what a person keeps to themselves. */
export const peopleRoutes = (parts: PeopleRoutesParts): Routes => ({
  ...linkRoutes(parts),
  ...deviceRoutes(parts),
  ...privateRoutes(parts),
});

const linkRoutes = ({ access, storage, makeLink, devices, clock }: PeopleRoutesParts): Routes => ({
  "GET /api/links": async (request) => {
    const leader = await leading(access, request);
    if (!leader.ok) return leader;
    const links = await storage.links(leader.value.board);
    return ok({ status: 200, body: { links: links.map(linkBody) } satisfies LinkList });
  },
  "POST /api/links": async (request) => {
    const session = await admitted(access, request);
    if (!session.ok) return session;
    const wanted = await request.body(CREATE_LINK);
    return wanted.ok ? replied(201, await makeLink(session.value, wanted.value)) : wanted;
  },
  "DELETE /api/links/:id": async (request) => {
    const leader = await leading(access, request);
    if (!leader.ok) return leader;
    const { board } = leader.value;
    // The link first: nobody must come in by it while its devices are put out.
    if (!(await storage.revokeLink(board, request.id, clock()))) return err("not-found");
    return request.query.get("devices") === "1"
      ? done(await devices.removeByLink(board, request.id))
      : ok({ status: 204 });
  },
});

const deviceRoutes = ({ access, devices }: PeopleRoutesParts): Routes => ({
  "GET /api/devices": async (request) => {
    const session = await admitted(access, request);
    if (!session.ok) return session;
    if (session.value.role === "guest") return err("guests-look");
    if (session.value.role === "dep") return err("own-gig-only");
    return ok({ status: 200, body: { devices: await devices.list(session.value) } satisfies DeviceList });
  },
  "PATCH /api/devices/:id": async (request) => {
    const session = await admitted(access, request);
    if (!session.ok) return session;
    const wanted = await request.body(CHANGE_DEVICE);
    return wanted.ok ? replied(200, await devices.change(session.value, request.id, wanted.value)) : wanted;
  },
  "DELETE /api/devices/:id": async (request) => {
    const session = await admitted(access, request);
    return session.ok ? done(await devices.remove(session.value, request.id)) : session;
  },
});

const privateRoutes = ({ access, drawer }: PeopleRoutesParts): Routes => ({
  "GET /api/private": async (request) => {
    const session = await admitted(access, request);
    return session.ok ? replied(200, await drawer.all(session.value)) : session;
  },
  "PUT /api/private/:id": async (request) => {
    const session = await admitted(access, request);
    if (!session.ok) return session;
    if (!PRIVATE_KEY.test(request.id)) return err("bad-request");
    const wanted = await request.body(SET_PRIVATE);
    return wanted.ok ? done(await drawer.set(session.value, request.id, wanted.value.value)) : wanted;
  },
});

const linkBody = ({ secretHash: _, board: __, ...link }: LinkRecord): Link => link;
