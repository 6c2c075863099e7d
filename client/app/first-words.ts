/** What is written on a board before anybody opens it: its name, or everything a file holds. */
import { createBoardStore } from "#client/store/board-store.ts";
import { createIdentity } from "#client/store/identity.ts";
import { type BoardSession, openBoardSession } from "#client/sync/board-session.ts";
import type { KnownBoard } from "#client/sync/device.ts";
import { randomId } from "#client/sync/random-id.ts";
import type { Author } from "#shared/commands/command.ts";
import { startBand } from "#shared/commands/start-band.ts";
import { type BoardFile, importBoard } from "#shared/exchange/board-json.ts";
import { isTimeZone } from "#shared/lib/calendar.ts";
import { err, ok, type Result } from "#shared/lib/result.ts";

/** How long (ms) to wait for the server to have it on disk. A device that keeps boards sends it later as well. */
const SAVED_MS = 15_000;

const NOT_SENT =
  "The server did not take the new board in time, and this browser keeps nothing between visits. Try again.";

const hereZone = (): string => {
  const { timeZone } = Intl.DateTimeFormat().resolvedOptions();
  return isTimeZone(timeZone) ? timeZone : "UTC";
};

/** Resolves with true once the server has the change on disk, with false when it takes too long. */
const isSaved = ({ outbox }: BoardSession, change: string): Promise<boolean> =>
  new Promise((resolve) => {
    const look = (): void => {
      if (outbox.stateOf(change) === "on this phone") return;
      done(true);
    };
    const done = (saved: boolean): void => {
      clearTimeout(timer);
      stop();
      resolve(saved);
    };
    const timer = setTimeout(() => done(false), SAVED_MS);
    const stop = outbox.subscribe(look);
    look();
  });

/** Opens the new board, lets `write` put something on it, waits for the server, and closes it again. */
const write = async (
  known: KnownBoard,
  write: (session: BoardSession) => Result<string>,
): Promise<Result<null>> => {
  const session = await openBoardSession({ known });
  try {
    const change = write(session);
    if (!change.ok) return change;
    const saved = await isSaved(session, change.value);
    return saved || session.lasting ? ok(null) : err(NOT_SENT);
  } finally {
    await session.close();
  }
};

/** Names a new band, in the time zone of this device. */
export const nameBand = (known: KnownBoard, writer: string, name: string): Promise<Result<null>> =>
  write(known, (session) => {
    const store = createBoardStore({
      document: session.document,
      outbox: session.outbox,
      identity: createIdentity({ member: null, writer, role: known.role }),
      now: Date.now,
      newId: randomId,
    });
    const named = store.run(startBand, { name, timeZone: hereZone() }, `Started: ${name}`);
    store.close();
    return named.ok ? ok(named.value.id) : err(named.error.sentence);
  });

/** Puts everything a file holds on a new board. */
export const fillFrom = (known: KnownBoard, writer: string, file: BoardFile): Promise<Result<null>> =>
  write(known, ({ document, outbox }) => {
    const id = randomId();
    const filled = importBoard(document, file, { command: "importBoard", id });
    if (!filled.ok) return filled;
    const author: Author = { member: null, writer, role: known.role };
    const name = document.get("band", "name");
    const timeZone = document.get("band", "timeZone");
    // Stands for the whole import: it is saved when everything before it is, and harmless to run again.
    outbox.keep({
      id,
      name: startBand.name,
      args: { name, timeZone: isTimeZone(timeZone) ? timeZone : hereZone() },
      at: Date.now(),
      author,
      written: [],
    });
    return ok(id);
  });
