/** Gives the screens their access to bands: the server's API, this device's memory, and first words on a new board. */
import type { AccessProblem, BandAccess, KnownBand, LedBand } from "#client/store/band-access.ts";
import type { Api } from "#client/sync/api.ts";
import type { ApiProblem } from "#client/sync/api-problem.ts";
import type { Device, KnownBoard } from "#client/sync/device.ts";
import { deleteLocalBoard } from "#client/sync/local-persistence.ts";
import type { BoardFile } from "#shared/exchange/board-json.ts";
import { err, ok, type Result } from "#shared/lib/result.ts";
import type { BoardGrant, NewBoardGrant } from "#shared/protocol/api.ts";
import { groupRecoveryCode } from "#shared/protocol/recovery-code.ts";

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

const bandOf = ({ memberId, token: _, ...known }: KnownBoard): KnownBand => ({ ...known, member: memberId });

const said = <T>(answer: Result<T, ApiProblem>): Result<T, AccessProblem> =>
  answer.ok ? answer : err(toldAs(answer.error));

const toldAs = ({ message, retriable, code }: ApiProblem): AccessProblem => ({
  message,
  retriable,
  unreached: code === "offline",
});

/* Needed once in a band's life, and once in a device's. */
const firstWords = () => import("./first-words.ts");
const joining = () => import("#client/sync/joining.ts");

const NOT_LOADED: AccessProblem = {
  message: "The page could not load what it needs to join. Look at the signal and try again.",
  retriable: true,
};

/** What the device knows, as one reference until it changes; other tabs and the open board change it too. */
const createKnown = (device: Device) => {
  let last: { readonly text: string; readonly bands: readonly KnownBand[] } = { text: "[]", bands: [] };
  return {
    read: (): readonly KnownBand[] => {
      const bands = device.boards().map(bandOf);
      const text = JSON.stringify(bands);
      if (text !== last.text) last = { text, bands };
      return last.bands;
    },
    subscribe: (listener: () => void) => {
      const stop = device.subscribe(listener);
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
    return bandOf(board);
  };

  /** Takes a way in that replaces whatever this device had on that board; it stays the person it was. */
  const letIn = async (grant: BoardGrant): Promise<KnownBoard> => {
    const { claimedAgain, knownFromGrant } = await joining();
    const fresh = knownFromGrant(grant, now());
    return { ...fresh, ...(await claimedAgain(api, fresh, device.board(grant.board))) };
  };
  const leads = async (grant: NewBoardGrant): Promise<LedBand> => ({
    ...remember(await letIn(grant)),
    recoveryCode: groupRecoveryCode(grant.recoveryCode),
  });

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
  ): Promise<Result<LedBand, AccessProblem>> => {
    const granted = await api.createBoard(name);
    if (!granted.ok) return said(granted);
    const begun = await begin((await joining()).knownFromGrant(granted.value, now()));
    if (!begun.ok) return err({ message: begun.error, retriable: false });
    return ok(await leads(granted.value));
  };

  /** Takes in what the server says this device is. */
  const refresh = async (board: string): Promise<Result<KnownBand, AccessProblem>> => {
    const session = await asMember(board, api.session);
    if (!session.ok) return session;
    const { document, role, memberId, confirmed, expiresAt } = session.value;
    device.update(board, { document, role, memberId, confirmed, expiresAt });
    const after = device.board(board);
    return after === null ? err(STRANGER) : ok(bandOf(after));
  };

  const forget = async (board: string): Promise<void> => {
    device.forget(board);
    await deleteLocalBoard(board).catch(() => {});
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
      const loaded = await joining().catch(() => null);
      if (loaded === null) return err(NOT_LOADED);
      const joined = await loaded.joinBoard(secret, {
        api,
        device,
        now,
        ...(waiting ?? { signal: AbortSignal.abort() }),
      });
      return joined.ok ? ok(bandOf(joined.value)) : said(joined);
    },
    openDemo: async () => {
      const granted = await api.openDemo();
      return granted.ok ? ok(remember(await letIn(granted.value))) : said(granted);
    },
    resetDemo: async (board) => {
      const granted = await asMember(board, api.resetDemo);
      if (!granted.ok) return granted;
      device.forget(board);
      await deleteLocalBoard(board).catch(() => {});
      return ok(remember(await letIn(granted.value)));
    },
    claimMember: async (board, member) => {
      const session = await asMember(board, (token) => api.claimMember(token, member));
      if (!session.ok) return session;
      device.update(board, { memberId: member, confirmed: session.value.confirmed });
      return ok(null);
    },
    refresh,
    links: (board) => asMember(board, api.links),
    createLink: (board, wanted) => asMember(board, (token) => api.createLink(token, wanted)),
    revokeLink: (board, link, andDevices = false) =>
      asMember(board, (token) => api.revokeLink(token, link, andDevices)),
    devices: (board) => asMember(board, api.devices),
    changeDevice: (board, id, changes) => asMember(board, (token) => api.changeDevice(token, id, changes)),
    removeDevice: (board, id) => asMember(board, (token) => api.removeDevice(token, id)),
    newRecoveryCode: async (board) => {
      const code = await asMember(board, api.newRecoveryCode);
      return code.ok ? ok(groupRecoveryCode(code.value)) : code;
    },
    recover: async (code) => {
      const granted = await api.recover(code);
      return granted.ok ? ok(await leads(granted.value)) : said(granted);
    },
    seasons: (board) => asMember(board, api.seasons),
    closeSeason: (board, document) => asMember(board, (token) => api.closeSeason(token, document)),
    erasePerson: (board, member) => asMember(board, (token) => api.erasePerson(token, member)),
    eraseBand: async (board, name) => {
      const erased = await asMember(board, (token) => api.eraseBoard(token, name));
      if (erased.ok) await forget(board);
      return erased;
    },
    historyRows: (board, document, page) => asMember(board, (token) => api.history(token, document, page)),
    historyState: (board, document, seq) =>
      asMember(board, (token) => api.history(token, document, { state: seq })),
    privateValues: (board) => asMember(board, api.privateValues),
    setPrivate: (board, key, value) => asMember(board, (token) => api.setPrivate(token, key, value)),
    forget,
  };
};
