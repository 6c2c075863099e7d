/**
 * Keeps one board open while the server changes what it is: a new season's document, another role, a damaged copy that
 * was put aside. Governing rule: there is always one session that takes changes, and whatever one still has to send is
 * handed over to the next.
 */
import type { Id } from "#shared/board/ids.ts";
import type { Session } from "#shared/protocol/api.ts";
import type { CloseCode } from "#shared/protocol/close-codes.ts";
import type { Api } from "./api.ts";
import type { BoardSession, BoardSessionOptions } from "./board-session.ts";
import type { AskClosed } from "./carry-over.ts";
import type { Device, KnownBoard } from "./device.ts";
import { pause, untilAnswered } from "./until-answered.ts";

/** A session with what was known of the board when it was opened. */
export interface OpenSession {
  readonly known: KnownBoard;
  readonly session: BoardSession;
}

export interface FollowParts {
  readonly board: Id;
  readonly device: Pick<Device, "board" | "update">;
  readonly api: Pick<Api, "session" | "durableIn">;
  readonly open: (
    options: Pick<BoardSessionOptions, "known" | "mended" | "onSetAside" | "onClosed" | "askClosed">,
  ) => Promise<BoardSession>;
  /** Deletes what this device keeps of the board's other documents. */
  readonly dropOthers: (board: Id, document: Id) => Promise<void>;
  /** Called with each session in turn; the one before it is closed right afterwards. */
  readonly onOpen: (open: OpenSession) => void;
  /** Called when nothing changed but whose device this is, or whether it is confirmed. */
  readonly onPerson: (known: KnownBoard) => void;
}

export interface FollowedBoard {
  /** Closes whatever is open; resolves when everything is stored on this device. */
  readonly close: () => Promise<void>;
}

const SEASON_CLOSED: CloseCode = 4409;
/** After these the device may be something else than it was. */
const ASKS: ReadonlySet<number> = new Set<CloseCode>([SEASON_CLOSED, 4403, 4508]);
/** Asked for no close at all, but because a connection stands: roles also change while a device is away. */
const CONNECTED = 0;
/** Wait (ms) before the server is asked once more about something it is in the middle of. */
const SOON_MS = 1000;

/** Opens a board this device knows, and follows it. */
export const followBoard = (parts: FollowParts): FollowedBoard => {
  const { board, device, api, open, dropOthers, onOpen, onPerson } = parts;
  const gone = new AbortController();
  let current: OpenSession | null = null;
  let asking: Promise<void> | null = null;
  /** The close about which the server is to be asked next. */
  let due: number | null = null;

  const askClosed: AskClosed = async (document, clients) => {
    const token = device.board(board)?.token ?? "";
    const answer = await api.durableIn(token, document, [...clients]);
    if (answer.ok) return answer.value;
    return answer.error.code === "not-found" ? null : undefined;
  };

  const openOne = async (known: KnownBoard, mended = false): Promise<BoardSession> => {
    const session = await open({
      known,
      mended,
      askClosed,
      onSetAside: () => void replace(known, true),
      onClosed: (code) => {
        if (ASKS.has(code)) askAgain(code);
      },
    });
    let connected = false;
    session.outbox.subscribe(() => {
      const now = session.outbox.saveState().connection === "connected";
      if (now && !connected) askAgain(CONNECTED);
      connected = now;
    });
    return session;
  };

  const become = (next: OpenSession): void => {
    current = next;
    onOpen(next);
  };

  /** The same document again: the session before it is closed first, so that nobody stores into what is being read. */
  const replace = async (known: KnownBoard, mended = false): Promise<void> => {
    const before = current?.session;
    await before?.close();
    if (gone.signal.aborted) return;
    const session = await openOne(known, mended);
    if (before !== undefined) session.succeed(before);
    become({ known, session });
  };

  /** The old document stays on the screen, and takes changes, until the new one is here. False when it did not come. */
  const moveOn = async (known: KnownBoard): Promise<boolean> => {
    const before = current?.session;
    const session = await openOne(known);
    if (!(await untilAgreed(session, gone.signal))) {
      await session.close();
      return false;
    }
    device.update(board, known);
    become({ known, session });
    await before?.close();
    if (before !== undefined) session.succeed(before);
    await dropOthers(board, known.document).catch(() => {});
    return true;
  };

  /** Takes in what the server says this device is; false when it should be asked once more. */
  const ask = async (code: number): Promise<boolean> => {
    const call = () => api.session(current?.known.token ?? "");
    const answer = await (code === CONNECTED ? call() : untilAnswered(call, { signal: gone.signal }));
    const before = current;
    if (before === null || gone.signal.aborted) return true;
    if (!answer.ok) {
      // The way in has ended as well: the server says so on the connection.
      if (code !== CONNECTED) before.session.reconnect();
      return true;
    }
    const known = { ...before.known, ...told(answer.value) };
    if (known.document !== before.known.document) return moveOn(known);
    device.update(board, told(answer.value));
    if (known.role !== before.known.role) {
      await replace(known);
      return true;
    }
    current = { ...before, known };
    onPerson(known);
    // The next document is on its way to the server's disk, or did not get there.
    if (code === SEASON_CLOSED) {
      await pause(SOON_MS, gone.signal);
      if (!gone.signal.aborted) before.session.reconnect();
    }
    return true;
  };
  const askAgain = (code: number): void => {
    if (due === null || code !== CONNECTED) due = code;
    const run = async (): Promise<void> => {
      for (let next = due; next !== null && !gone.signal.aborted; next = due) {
        due = null;
        if (await ask(next)) continue;
        await pause(SOON_MS, gone.signal);
        due ??= next;
      }
    };
    asking ??= run().finally(() => {
      asking = null;
    });
  };

  const start = async (): Promise<void> => {
    const known = device.board(board);
    if (known === null) return;
    const session = await openOne(known);
    current = { known, session };
    if (!gone.signal.aborted) onOpen(current);
  };
  const started = start();

  return {
    close: async () => {
      gone.abort();
      await started.catch(() => {});
      await asking;
      await current?.session.close();
    },
  };
};

const told = ({ document, role, memberId, confirmed, expiresAt }: Session) => ({
  document,
  role,
  memberId,
  confirmed,
  expiresAt,
});

/** True once the session's board has equalled the server's; false when it was turned away or nobody waits any more. */
const untilAgreed = ({ outbox }: BoardSession, signal: AbortSignal): Promise<boolean> =>
  new Promise((resolve) => {
    const end = (agreed: boolean): void => {
      stop();
      signal.removeEventListener("abort", giveUp);
      resolve(agreed);
    };
    const giveUp = (): void => end(false);
    const check = (): void => {
      const { asOf, connection } = outbox.saveState();
      if (signal.aborted || asOf !== null || connection === "refused") end(!signal.aborted && asOf !== null);
    };
    const stop = outbox.subscribe(check);
    signal.addEventListener("abort", giveUp);
    check();
  });
