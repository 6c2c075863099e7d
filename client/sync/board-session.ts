/** One open board: its document, the outbox for its commands, and the connection to the server. */
import type { WebsocketProvider } from "y-websocket";
import type * as Y from "yjs";
import type { Id } from "#shared/board/ids.ts";
import { type BoardDocument, createBoardDocument } from "#shared/document/board-document.ts";
import type { AskClosed } from "./carry-over.ts";
import { type ClientClaim, createClientId } from "./client-id.ts";
import { browserClaim } from "./client-memory.ts";
import { type ConnectionOptions, openBoardConnection } from "./connection.ts";
import type { KnownBoard } from "./device.ts";
import { createFleetingBoard, type LocalBoard } from "./local-board.ts";
import { openLocalBoard } from "./local-persistence.ts";
import { createOutbox, type LoadReplay, type SyncOutbox } from "./outbox.ts";
import { isIncomplete, wholePartOf } from "./salvage.ts";
import { createSaveStatus } from "./save-status.ts";

export interface BoardSession {
  readonly boardId: Id;
  /** False when nothing of the board outlives the page. */
  readonly lasting: boolean;
  readonly document: BoardDocument;
  readonly ydoc: Y.Doc;
  readonly outbox: SyncOutbox;
  /** The connection, for what travels beside the document. */
  readonly provider: WebsocketProvider;
  /** Tries to connect at once, also after the server turned this device away. */
  readonly reconnect: () => void;
  /** Takes over what the session before this one, of the same board and closed by now, still has to send. */
  readonly succeed: (before: BoardSession) => void;
  /** Stops syncing; resolves when everything is stored on this device. */
  readonly close: () => Promise<void>;
}

export interface BoardSessionOptions
  extends Pick<ConnectionOptions, "WebSocketPolyfill" | "random" | "signals" | "onClosed"> {
  readonly known: Pick<KnownBoard, "board" | "document" | "token" | "role">;
  /** `ws(s)://host:port`; absent = the server this page came from. */
  readonly serverUrl?: string;
  /** Device clock, ms. */
  readonly now?: () => number;
  /** Opens what this device keeps of the board, with that document. */
  readonly openLocal?: (board: Id, document: Id) => Promise<LocalBoard>;
  /** Asks what had arrived before an earlier season was closed; absent = nobody can be asked. */
  readonly askClosed?: AskClosed;
  /** Absent = from where the page came from. */
  readonly loadReplay?: LoadReplay;
  /**
   * Called when what this device keeps of the board turned out to be incomplete and was put aside: close the session
   * and open another, with `mended`. Without it the connection stays refused.
   */
  readonly onSetAside?: () => void;
  /** The session before this one was put aside. It is not tried a second time. */
  readonly mended?: boolean;
  /** What this device has to take up the same Yjs client id again; null = nothing. */
  readonly claimOf?: (document: Id) => ClientClaim | null;
}

/** Said while this device cannot keep a board between visits. */
export const NOTHING_KEPT =
  "This browser keeps nothing between visits, perhaps because the window is private. Keep this page open until everything is saved.";

const WAS_INCOMPLETE =
  "Something was missing in what this device kept of the board. That copy is put aside, the board comes from the server again, and your changes that were not sent yet are kept.";

const unreadableWords = (count: number): string =>
  `${count === 1 ? "One change that waited on this device is damaged and was not sent." : `${count} changes that waited on this device are damaged and were not sent.`} Look whether something of yours is missing, and make it again.`;

const pageServer = (): string => `${location.protocol === "https:" ? "wss:" : "ws:"}//${location.host}`;

/**
 * Opens a board from what this device keeps of it, then connects. Resolves before the server has answered: until
 * `outbox.saveState().asOf` is a moment, an empty board means "not here yet".
 */
export const openBoardSession = async (options: BoardSessionOptions): Promise<BoardSession> => {
  const { known, now = Date.now, openLocal = openLocalBoard, claimOf = browserClaim } = options;
  const local = await openLocal(known.board, known.document).catch(createFleetingBoard);
  // The outbox is read before the document, so that an entry another tab adds in between is never taken for lost.
  const { entries, unreadable, asOf } = await local.load();
  const ydoc = await local.open();

  const document = createBoardDocument(ydoc);
  const status = createSaveStatus(asOf);
  if (!local.lasting) status.explain("device", NOTHING_KEPT);
  local.onTrouble((sentence) => status.explain("device", sentence));
  local.onMended(status.note);
  if (unreadable > 0) status.note(unreadableWords(unreadable));
  if (options.mended === true) status.note(WAS_INCOMPLETE);
  const { askClosed } = options;
  const outbox = createOutbox({
    ydoc,
    document,
    local,
    status,
    entries,
    place: { board: known.board, document: known.document },
    ...(askClosed === undefined ? {} : { askClosed }),
    ...(options.loadReplay === undefined ? {} : { loadReplay: options.loadReplay }),
  });
  const keepsId = local.lasting && known.role !== "guest";
  const clientId = createClientId(ydoc, keepsId ? claimOf(known.document) : null);
  const connection = openBoardConnection({
    ...options,
    documentId: known.document,
    token: known.token,
    role: known.role,
    serverUrl: options.serverUrl ?? pageServer(),
    ydoc,
    outbox,
    clientId,
    status,
    now,
    onAgreement: local.keepAsOf,
    onIncomplete: () => {
      // Once, and never where the page is all there is: its unsent changes would go with the document.
      if (options.onSetAside === undefined || options.mended === true || !local.lasting) return;
      void setAside().then(options.onSetAside);
    },
  });
  const setAside = (): Promise<void> => {
    connection.close();
    clientId.close();
    const gaps = isIncomplete(ydoc);
    return local.setAside(gaps ? wholePartOf(ydoc) : null);
  };
  return {
    boardId: known.board,
    lasting: local.lasting,
    document,
    ydoc,
    outbox,
    provider: connection.provider,
    reconnect: connection.reconnect,
    succeed: (before) =>
      before.outbox.handOver(async (entries, stored) => {
        await outbox.take(entries, stored);
        connection.recover();
      }),
    close: async () => {
      outbox.close();
      connection.close();
      clientId.close();
      await local.close();
      ydoc.destroy();
    },
  };
};
