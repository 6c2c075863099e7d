/** Gives the screens their access to bands: the server's API, this device's memory, and first words on a new board. */
import type { AccessProblem, BandAccess, KnownBand } from "#client/store/band-access.ts";
import { createListeners } from "#client/store/listeners.ts";
import type { Api, ApiProblem } from "#client/sync/api.ts";
import type { Device, KnownBoard } from "#client/sync/device.ts";
import { joinBoard, knownFromGrant } from "#client/sync/joining.ts";
import { deleteLocalBoard } from "#client/sync/local-persistence.ts";
import type { BoardFile } from "#shared/exchange/board-json.ts";
import { err, ok, type Result } from "#shared/lib/result.ts";
import type { BoardGrant } from "#shared/protocol/api.ts";

export interface BandAccessParts {
  readonly api: Api;
  readonly device: Device;
  /** Device clock, ms. */
  readonly now: () => number;
  /** Scheme, host and port under which others open Tightrow. */
  readonly origin: string;
}

const STRANGER: AccessProblem = {
  message: "This board is not on this device any more. Open your link again.",
  retriable: false,
};

const bandOf = ({ board, name, role, memberId, lastOpened }: KnownBoard): KnownBand => ({
  board,
  name,
  role,
  member: memberId,
  lastOpened,
});

const said = <T>(answer: Result<T, ApiProblem>): Result<T, AccessProblem> =>
  answer.ok ? answer : err({ message: answer.error.message, retriable: answer.error.retriable });

/** Needed once in a band's life. */
const firstWords = () => import("./first-words.ts");

/** What the device knows, as one reference until it changes; other tabs and the open board change it too. */
const createKnown = (device: Device) => {
  const listeners = createListeners<"bands">();
  let last: { readonly text: string; readonly bands: readonly KnownBand[] } = { text: "[]", bands: [] };
  return {
    changed: () => listeners.notify(["bands"]),
    read: (): readonly KnownBand[] => {
      const bands = device.boards().map(bandOf);
      const text = JSON.stringify(bands);
      if (text !== last.text) last = { text, bands };
      return last.bands;
    },
    subscribe: (listener: () => void) => {
      const stop = listeners.subscribe("bands", listener);
      window.addEventListener("storage", listener);
      return () => {
        stop();
        window.removeEventListener("storage", listener);
      };
    },
  };
};

/** Opens the access; one for the whole page. */
export const createBandAccess = ({ api, device, now, origin }: BandAccessParts): BandAccess => {
  const known = createKnown(device);

  const remember = (board: KnownBoard): KnownBand => {
    device.remember(board);
    known.changed();
    return bandOf(board);
  };

  /** Takes a grant in; a device that was on the board before keeps its name there. */
  const letIn = (grant: BoardGrant): KnownBoard => {
    const fresh = knownFromGrant(grant, now());
    return { ...fresh, memberId: device.board(grant.board)?.memberId ?? null };
  };

  const asMember = async <T>(
    board: string,
    call: (token: string) => Promise<Result<T, ApiProblem>>,
  ): Promise<Result<T, AccessProblem>> => {
    const token = device.board(board)?.token;
    return token === undefined ? err(STRANGER) : said(await call(token));
  };

  const start = async (
    name: string,
    begin: (board: KnownBoard) => Promise<Result<null>>,
  ): Promise<Result<KnownBand, AccessProblem>> => {
    const granted = await api.createBoard(name);
    if (!granted.ok) return said(granted);
    const board = letIn(granted.value);
    const begun = await begin(board);
    if (!begun.ok) return err({ message: begun.error, retriable: false });
    return ok(remember(board));
  };

  return {
    remembers: () => device.remembers,
    known: known.read,
    subscribe: known.subscribe,
    origin,
    createBoard: (name) =>
      start(name, async (board) => (await firstWords()).nameBand(board, device.writer, name)),
    startFrom: (file: BoardFile) =>
      start(file.band.trim() === "" ? "Our band" : file.band.trim().slice(0, 200), async (board) =>
        (await firstWords()).fillFrom(board, device.writer, file),
      ),
    joinWith: async (secret, waiting) => {
      const joined = await joinBoard(secret, {
        api,
        device,
        now,
        ...(waiting ?? { signal: AbortSignal.abort() }),
      });
      known.changed();
      return joined.ok ? ok(bandOf(joined.value)) : said(joined);
    },
    openDemo: async () => {
      const granted = await api.openDemo();
      return granted.ok ? ok(remember(letIn(granted.value))) : said(granted);
    },
    resetDemo: async (board) => {
      const granted = await asMember(board, api.resetDemo);
      if (!granted.ok) return granted;
      device.forget(board);
      await deleteLocalBoard(board).catch(() => {});
      return ok(remember(letIn(granted.value)));
    },
    claimMember: async (board, member) => {
      const session = await asMember(board, (token) => api.claimMember(token, member));
      if (!session.ok) return session;
      device.update(board, { memberId: member });
      known.changed();
      return ok(null);
    },
    links: (board) => asMember(board, api.links),
    createLink: (board, wanted) => asMember(board, (token) => api.createLink(token, wanted)),
    revokeLink: (board, link) => asMember(board, (token) => api.revokeLink(token, link)),
    forget: async (board) => {
      device.forget(board);
      known.changed();
      await deleteLocalBoard(board).catch(() => {});
    },
  };
};
