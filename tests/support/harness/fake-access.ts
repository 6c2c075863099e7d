import type {
  AccessAnswer,
  AccessProblem,
  BandAccess,
  KnownBand,
  LedBand,
} from "#client/store/band-access.ts";
import type { HistoryRow } from "#shared/history/history.ts";
import { err, ok, type Result } from "#shared/lib/result.ts";
import type { DeviceInfo, Link, PrivateValues, Role, SeasonInfo } from "#shared/protocol/api.ts";
import { API_ERRORS, type ApiErrorCode } from "#shared/protocol/api-errors.ts";
import { parseRecoveryCode } from "#shared/protocol/recovery-code.ts";
import { fakeDevices, fakeLinks, fakeSeasons } from "./fake-members.ts";

const RECOVERY = "7ZK3Q-0VX8M-D1TGH-R5NCB-2W9EPY";
const NEXT_RECOVERY = "1M6AY-TQ40G-WZ93E-8KDHV-P7CRBX";

const demo: KnownBand = {
  board: "demo",
  document: "demo-2",
  name: "Six Spare Fuses",
  role: "leader",
  member: null,
  confirmed: true,
  expiresAt: null,
  lastOpened: Date.UTC(2026, 2, 5, 9),
};
const fresh: KnownBand = { ...demo, board: "empty", document: "empty", name: "Our band" };

const refused = (code: ApiErrorCode): Result<never, AccessProblem> =>
  err({ message: API_ERRORS[code].message, retriable: false });

/**
 * A server that exists in the page only. The secret `expired` is refused, `offline` finds no server, `dep` lets in for
 * one gig, `guest` to look. Every other secret lets a member in; every whole recovery code a leader.
 */
export const createFakeAccess = (
  now: () => number,
  knows: boolean,
  who: { readonly role: Role; readonly member: string | null; readonly rows: number },
): BandAccess => {
  let known: readonly KnownBand[] = knows ? [demo] : [];
  let links: readonly Link[] = fakeLinks(now());
  let devices: readonly DeviceInfo[] = fakeDevices(now());
  let seasons: readonly SeasonInfo[] = fakeSeasons(now());
  let values: PrivateValues["values"] = [{ key: "notes", value: "Hum the low part first.", at: now() }];
  let past: Promise<readonly HistoryRow[]> | null = null;
  const listeners = new Set<() => void>();
  const become = (next: readonly KnownBand[]) => {
    known = next;
    for (const listener of listeners) listener();
  };
  const enter = async <B extends KnownBand>(band: B): Promise<Result<B, AccessProblem>> => {
    const { board, document, name, role, member, confirmed, expiresAt, lastOpened } = band;
    const entry = { board, document, name, role, member, confirmed, expiresAt, lastOpened };
    become([entry, ...known.filter((other) => other.board !== board)]);
    return ok(band);
  };
  const lead = (band: KnownBand, recoveryCode: string): AccessAnswer<LedBand> =>
    enter({ ...band, recoveryCode });
  const change = (board: string, changes: Partial<KnownBand>) =>
    become(known.map((band) => (band.board === board ? { ...band, ...changes } : band)));
  const isLastLeader = (id: string): boolean =>
    devices.every((device) => (device.role === "leader") === (device.id === id));
  /** Closes the season that is open and opens the next, with what squashing leaves. */
  const openNext = (board: string, removed: number) => {
    const last = seasons.at(-1);
    const season = (last?.season ?? 0) + 1;
    const document = `${board}-${season}`;
    const bytesBefore = last?.bytes ?? 0;
    const bytesAfter = Math.round((bytesBefore - removed) * 0.4);
    seasons = [
      ...seasons.map((one) => (one === last ? { ...one, closedAt: now() } : one)),
      { document, season, openedAt: now(), closedAt: null, bytes: bytesAfter, archivedBytes: 0 },
    ];
    change(board, { document });
    return ok({ document, season, bytesBefore, bytesAfter });
  };
  const rowsOfPast = (): Promise<readonly HistoryRow[]> => {
    past ??= import("./fake-past.ts").then(({ fakePast }) => fakePast(now(), devices, who.rows));
    return past;
  };

  return {
    remembers: () => true,
    known: () => known,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    createBoard: (name) => lead({ ...fresh, name }, RECOVERY),
    startFrom: (file) => lead({ ...fresh, name: file.band }, RECOVERY),
    joinWith: async (secret, waiting) => {
      if (secret === "expired") return refused("link-expired");
      if (secret === "offline") {
        waiting?.onWaiting("The server cannot be reached. Your link is kept on this page.");
        await new Promise((done) => waiting?.signal.addEventListener("abort", done));
        return err({ message: "The server cannot be reached. Check the connection.", retriable: true });
      }
      if (secret === "dep")
        return enter({ ...demo, role: "dep", member: "demo-karim", expiresAt: now() + 10 * 86_400_000 });
      return enter({ ...demo, role: secret === "guest" ? "guest" : "member" });
    },
    openDemo: () => enter(demo),
    resetDemo: () => enter(demo),
    claimMember: async (board, member) => {
      change(board, { member });
      return ok(null);
    },
    refresh: async (board) => {
      const band = known.find((one) => one.board === board);
      return band === undefined ? refused("unknown-device") : ok(band);
    },

    links: async () => ok(links),
    createLink: async (board, { role, label = "", expiresAt, maxUses, memberId, gig }) => {
      if (role === "dep" && (memberId === undefined || gig === undefined || expiresAt === undefined))
        return refused("bad-request");
      const id = `link-${links.length + 1}`;
      const link: Link = {
        id,
        role,
        label,
        createdAt: now(),
        expiresAt: expiresAt ?? null,
        revokedAt: null,
        maxUses: maxUses ?? null,
        uses: 0,
        memberId: memberId ?? null,
        gig: gig ?? null,
      };
      links = [...links, link];
      return ok({ id, board, secret: "q3Jv8mZr0WkXc5TnLh2PyA", role });
    },
    revokeLink: async (_board, id, andDevices = false) => {
      links = links.map((link) => (link.id === id ? { ...link, revokedAt: link.revokedAt ?? now() } : link));
      if (andDevices) devices = devices.filter(({ link }) => link !== id);
      return ok(null);
    },

    devices: async () =>
      ok(
        who.role === "leader"
          ? devices
          : devices
              .filter(({ memberId }) => memberId !== null && memberId === who.member)
              .map((device, i) => ({ ...device, own: i === 0 })),
      ),
    changeDevice: async (_board, id, changes) => {
      const before = devices.find((device) => device.id === id);
      if (before === undefined) return refused("not-found");
      if (changes.role !== undefined && changes.role !== "leader" && isLastLeader(id))
        return refused("last-leader");
      const { role = before.role, confirmed = before.confirmed, name = before.name } = changes;
      const after: DeviceInfo = { ...before, role, confirmed, name };
      devices = devices.map((device) => (device.id === id ? after : device));
      return ok(after);
    },
    removeDevice: async (_board, id) => {
      if (isLastLeader(id)) return refused("last-leader");
      devices = devices.filter((device) => device.id !== id);
      return ok(null);
    },

    newRecoveryCode: async () => ok(NEXT_RECOVERY),
    recover: async (code) =>
      parseRecoveryCode(code) === null ? refused("unknown-code") : lead(demo, NEXT_RECOVERY),

    seasons: async () => ok(seasons),
    closeSeason: async (board, document) => {
      const open = seasons.at(-1);
      if (open !== undefined && document !== open.document)
        return ok({
          document: open.document,
          season: open.season,
          bytesBefore: open.bytes,
          bytesAfter: open.bytes,
        });
      return openNext(board, 0);
    },
    erasePerson: async (board, member) => {
      devices = devices.filter(({ memberId }) => memberId !== member);
      links = links.map((link) =>
        link.memberId === member ? { ...link, revokedAt: link.revokedAt ?? now() } : link,
      );
      seasons = seasons.map((season) => ({ ...season, archivedBytes: 0 }));
      return openNext(board, 9_000);
    },
    eraseBand: async (board, name) => {
      if (name.trim() !== known.find((band) => band.board === board)?.name) return refused("name-differs");
      become(known.filter((band) => band.board !== board));
      return ok(null);
    },

    historyRows: async (_board, document, { after = 0, before = Number.POSITIVE_INFINITY, limit = 200 }) => {
      if (document !== demo.document) return ok([]);
      const rows = (await rowsOfPast()).filter(({ seq }) => seq > after && seq < before);
      return ok(rows.slice(Math.max(0, rows.length - limit)));
    },
    historyState: async (_board, _document, seq) => ok((await rowsOfPast()).filter((row) => row.seq <= seq)),

    privateValues: async () => ok(values),
    setPrivate: async (_board, key, value) => {
      const others = values.filter((one) => one.key !== key);
      values = value === null ? others : [...others, { key, value, at: now() }];
      return ok(null);
    },

    forget: async (board) => become(known.filter((band) => band.board !== board)),
    origin: location.origin,
  };
};
