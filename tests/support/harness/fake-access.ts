import type { AccessProblem, BandAccess, KnownBand } from "#client/store/band-access.ts";
import { err, ok, type Result } from "#shared/lib/result.ts";
import type { Link } from "#shared/protocol/api.ts";

const DAY = 86_400_000;

const demo: KnownBand = {
  board: "demo",
  name: "Six Spare Fuses",
  role: "leader",
  member: null,
  lastOpened: Date.UTC(2026, 2, 5, 9),
};
const fresh: KnownBand = { ...demo, board: "empty", name: "Our band" };

/** A link for whoever comes, any number of times. */
const ANYBODY = { maxUses: null, uses: 0, memberId: null, gig: null };

/** A server that exists in the page only. The secret `expired` is refused, `offline` finds no server. */
export const createFakeAccess = (now: () => number, knows: boolean): BandAccess => {
  let known: readonly KnownBand[] = knows ? [demo] : [];
  let links: readonly Link[] = [
    {
      id: "link-1",
      role: "member",
      label: "for the band",
      createdAt: now() - 20 * DAY,
      expiresAt: now() + 10 * DAY,
      revokedAt: null,
      ...ANYBODY,
    },
    {
      id: "link-2",
      role: "guest",
      label: "",
      createdAt: now() - 60 * DAY,
      expiresAt: now() - 30 * DAY,
      revokedAt: null,
      ...ANYBODY,
    },
  ];
  const listeners = new Set<() => void>();
  const become = (next: readonly KnownBand[]) => {
    known = next;
    for (const listener of listeners) listener();
  };
  const enter = async (band: KnownBand): Promise<Result<KnownBand, AccessProblem>> => {
    become([band, ...known.filter(({ board }) => board !== band.board)]);
    return ok(band);
  };
  return {
    remembers: () => true,
    known: () => known,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    createBoard: (name) => enter({ ...fresh, name }),
    startFrom: (file) => enter({ ...fresh, name: file.band }),
    joinWith: async (secret, waiting) => {
      if (secret === "expired")
        return err({
          message: "This link has expired. Ask the band's leader for a new one.",
          retriable: false,
        });
      if (secret === "offline") {
        waiting?.onWaiting("The server cannot be reached. Your link is kept on this page.");
        await new Promise((done) => waiting?.signal.addEventListener("abort", done));
        return err({ message: "The server cannot be reached. Check the connection.", retriable: true });
      }
      return enter({ ...demo, role: secret === "guest" ? "guest" : "member" });
    },
    openDemo: () => enter(demo),
    resetDemo: () => enter(demo),
    claimMember: async (board, member) => {
      become(known.map((band) => (band.board === board ? { ...band, member } : band)));
      return ok(null);
    },
    links: async () => ok(links),
    createLink: async (board, { role, label = "", expiresAt = null }) => {
      const id = `link-${links.length + 1}`;
      links = [
        ...links,
        { id, role, label, createdAt: now(), expiresAt: expiresAt ?? null, revokedAt: null, ...ANYBODY },
      ];
      return ok({ id, board, secret: "q3Jv8mZr0WkXc5TnLh2PyA", role });
    },
    revokeLink: async (_board, id) => {
      links = links.map((link) => (link.id === id ? { ...link, revokedAt: now() } : link));
      return ok(null);
    },
    forget: async (board) => become(known.filter((band) => band.board !== board)),
    origin: location.origin,
  };
};
