/** A whole band's server on the fake network: ways in, seasons and roles as the product decides them, without HTTP. */
import type { Api } from "#client/sync/api.ts";
import { type ApiProblem, OFFLINE } from "#client/sync/api-problem.ts";
import { type AccessPolicy, REFUSALS } from "#server/access/access-policy.ts";
import { createCapabilityAccess } from "#server/access/capability-access.ts";
import { createDevices, type Devices } from "#server/access/devices.ts";
import { createInTurn } from "#server/access/in-turn.ts";
import type { LiveRooms } from "#server/access/live-rooms.ts";
import { createMembership } from "#server/access/membership.ts";
import { createSeasons, type Seasons } from "#server/access/seasons.ts";
import { createLog } from "#server/log.ts";
import { err, ok, type Result } from "#shared/lib/result.ts";
import type { BoardGrant, Role } from "#shared/protocol/api.ts";
import { API_ERRORS, type ApiErrorCode } from "#shared/protocol/api-errors.ts";
import { createFakeNetwork, type FakeNetwork } from "./fake-network.ts";

export interface BandServer {
  readonly network: FakeNetwork;
  readonly board: string;
  /** Lets a device in. */
  readonly admit: (role: Role, memberId?: string) => Promise<BoardGrant>;
  /** What a phone of that name calls over HTTP; fails while its network is cut. */
  readonly apiFor: (phone: string) => Pick<Api, "session" | "durableIn">;
  readonly document: () => Promise<string>;
  /** Closes the season as a leader's device does. */
  readonly closeSeason: () => Promise<void>;
  readonly erasePerson: (member: string) => Promise<void>;
  readonly changeRole: (token: string, role: Role) => Promise<void>;
  readonly remove: (token: string) => Promise<void>;
}

const refused = (code: ApiErrorCode): Result<never, ApiProblem> =>
  err({ code, message: API_ERRORS[code].message, retriable: false });

export const startBandServer = async (): Promise<BandServer> => {
  let policy: AccessPolicy | null = null;
  const access: AccessPolicy = {
    admit: async (token, document) =>
      (await policy?.admit(token, document)) ?? { ok: false, refusal: "unknown-device" },
  };
  const network = createFakeNetwork({ access });
  const { storage } = network;
  policy = createCapabilityAccess(storage, Date.now);
  const rooms: LiveRooms = {
    closeDevice: (device, code) => network.rooms().closeDevice(device, code),
    nameDevice: (device, person) => network.rooms().nameDevice(device, person),
    devicesHere: (board) => network.rooms().devicesHere(board),
    read: (document, use) => network.rooms().read(document, use),
    freeze: (document, code, run) => network.rooms().freeze(document, code, run),
  };
  const inTurn = createInTurn();
  const clock = Date.now;
  const membership = createMembership(storage, clock);
  const devices: Devices = createDevices({ storage, rooms, inTurn, clock });
  const log = createLog("silent", () => {}, clock);
  const seasons: Seasons = createSeasons({ storage, rooms, devices, inTurn, clock, log });
  const record = await membership.createBoard("Six Spare Fuses");
  const admit = async (role: Role, memberId?: string): Promise<BoardGrant> =>
    (await membership.admitDevice(record, role, memberId === undefined ? {} : { memberId })).grant;
  const boss = await admit("leader");

  const sessionOf = async (token: string) => {
    const admission = await access.admit(token, null);
    if (!admission.ok) return refused(REFUSALS[admission.refusal].api);
    const { gig: _, boardName, ...session } = admission.session;
    return ok({ ...session, name: boardName });
  };
  const asking = async (token = boss.token) => {
    const admission = await access.admit(token, null);
    if (!admission.ok) throw new Error(admission.refusal);
    return admission.session;
  };
  const must = async (done: Promise<Result<unknown, ApiErrorCode>>): Promise<void> => {
    const result = await done;
    if (!result.ok) throw new Error(result.error);
  };

  return {
    network,
    board: record.id,
    admit,
    apiFor: (phone) => ({
      session: async (token) => (network.isCut(phone) ? err(OFFLINE) : sessionOf(token)),
      durableIn: async (_token, document, clients) => {
        if (network.isCut(phone)) return err(OFFLINE);
        const clocks = await seasons.durable(record.id, document, clients);
        return clocks === null
          ? refused("not-found")
          : ok(new Map(clocks.map(({ client, clock: at }) => [client, at])));
      },
    }),
    document: async () => (await asking()).document,
    closeSeason: async () => {
      const leader = await asking();
      await must(seasons.close(leader, leader.document));
    },
    erasePerson: async (member) => must(seasons.erasePerson(await asking(), member)),
    changeRole: async (token, role) =>
      must(devices.change(await asking(), (await asking(token)).device, { role })),
    remove: async (token) => must(devices.remove(await asking(), (await asking(token)).device)),
  };
};
