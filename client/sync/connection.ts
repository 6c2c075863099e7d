/** The live connection of one board to the server, on the stock y-websocket provider. */
import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import { WebsocketProvider } from "y-websocket";
import * as Y from "yjs";
import type { Id } from "#shared/board/ids.ts";
import type { Role } from "#shared/protocol/api.ts";
import type { CloseCode } from "#shared/protocol/close-codes.ts";
import { DURABLE_QUERY_MAX, MESSAGE } from "#shared/protocol/messages.ts";
import { isRetriable } from "#shared/protocol/retriable.ts";
import { offeredSubprotocols, SYNC_PATH } from "#shared/protocol/version.ts";
import type { ClientId } from "./client-id.ts";
import { muteAwareness } from "./mute-awareness.ts";
import type { SyncOutbox } from "./outbox.ts";
import { type PageSignals, pageSignals } from "./page-signals.ts";
import { isIncomplete } from "./salvage.ts";
import type { SaveStatus } from "./save-status.ts";

export interface ConnectionOptions {
  /** The document of the season; the room's name. */
  readonly documentId: Id;
  /** This device's token; it travels as a subprotocol, never in the address. */
  readonly token: string;
  /** Guests are never asked for changes and send none. */
  readonly role: Role;
  /** `ws(s)://host:port`. */
  readonly serverUrl: string;
  readonly ydoc: Y.Doc;
  readonly outbox: SyncOutbox;
  readonly clientId: ClientId;
  readonly status: SaveStatus;
  /** Device clock, ms. */
  readonly now: () => number;
  /** Called with the moment (ms) up to which the board is known to equal the server's. */
  readonly onAgreement: (moment: number) => void;
  /** Called when this device holds changes that refer to something neither it nor the server has. */
  readonly onIncomplete: () => void;
  /** Called with the code of every close from the server's side, after the state of saving says what it means. */
  readonly onClosed?: (code: number) => void;
  readonly WebSocketPolyfill?: typeof WebSocket;
  /** 0 ≤ r < 1; spreads the attempts of many phones after a restart of the server. */
  readonly random?: () => number;
  readonly signals?: PageSignals;
}

export interface BoardConnection {
  /** What presence travels on, once it is loaded. */
  readonly provider: WebsocketProvider;
  /** Tries at once, also after the server turned this device away. */
  readonly reconnect: () => void;
  /** Brings the outbox up to date now; while there is no agreement, the next one does. */
  readonly recover: () => void;
  readonly close: () => void;
}

/** Longest wait (ms) between two attempts. */
const BACKOFF_MAX_MS = 10_000;
const BACKOFF_FIRST_MS = 100;
/** A socket that has not opened after this long (ms) is given up. */
const OPENING_MS = 15_000;
/** A server that has been silent for this long (ms) is asked anew when the page is looked at again. */
const SILENCE_MS = 25_000;

/** How long (ms) what is missing may take to arrive once the board equals the server's. */
const GAPS_MS = 10_000;
const INCOMPLETE: CloseCode = 4422;

const TURNED_AWAY = "The server turned this device away. Reload the page, or open your joining link again.";

/** Opens the connection; it reconnects by itself until it is closed or turned away. */
export const openBoardConnection = (options: ConnectionOptions): BoardConnection => {
  const { ydoc, outbox, clientId, status, role, signals = pageSignals() } = options;
  const provider = createProvider(options);
  provider.messageHandlers[MESSAGE.acknowledgement] = (_encoder, decoder) => {
    const durable = Y.decodeStateVector(decoding.readTailAsUint8Array(decoder));
    outbox.acknowledge(durable);
    clientId.heard(durable);
  };
  // Until presence is loaded, the frames about it only keep the connection alive.
  provider.messageHandlers[MESSAGE.awareness] = () => {};
  // The provider sends the document's every change; a guest's device may hold changes from a better day.
  if (role === "guest") ydoc.off("update", provider._updateHandler);
  const recover = followAgreement(provider, options);
  followCloses(provider, options);
  const stopWaiting = watchGaps(provider, options);

  /** Gives up the socket there is, and opens another. */
  const tryNow = (): void => {
    provider.disconnect();
    provider.wsUnsuccessfulReconnects = 0;
    provider.connect();
  };
  const stopWatching = watchOpening(provider, tryNow);
  const isTurnedAway = (): boolean => status.state().connection === "refused";
  const isAlive = (): boolean => provider.synced && Date.now() - provider.wsLastMessageReceived < SILENCE_MS;
  const stopListening = signals.listen({
    // The browser may be wrong, and a server on this very machine needs no network: try instead of giving up.
    lost: () => {
      if (!isTurnedAway()) tryNow();
    },
    back: () => {
      if (!isTurnedAway() && !isAlive()) tryNow();
    },
    // A page that the browser puts aside may lose its locks without hearing of it.
    left: clientId.letGo,
  });
  provider.connect();

  return {
    provider,
    recover,
    reconnect: () => {
      if (isTurnedAway()) status.patch({ connection: "connecting" });
      status.explain("connection", "");
      tryNow();
    },
    close: () => {
      stopListening();
      provider.destroy();
      stopWatching();
      stopWaiting();
    },
  };
};

/** Keeps the moment of the last agreement, and brings the outbox up to date at each. Answers how to do so in between. */
const followAgreement = (
  provider: WebsocketProvider,
  { outbox, clientId, role, status, now, onAgreement }: ConnectionOptions,
): (() => void) => {
  let agreed = false;
  const recover = (): void => {
    // A guest could send nothing of what would be run again.
    const recovered = role === "guest" ? null : outbox.recover();
    askWhatIsDurable(provider, outbox.waiting());
    void recovered?.then((more) => more && askWhatIsDurable(provider, outbox.waiting()));
  };
  const agree = (moment: number): void => {
    status.patch({ asOf: moment });
    onAgreement(moment);
  };
  provider.on("sync", (synced: boolean) => {
    if (synced) {
      agreed = true;
      status.patch({ connection: "connected" });
      status.explain("connection", "");
      agree(now());
      recover();
      clientId.synced((client) => askWhatIsDurable(provider, new Set([client])));
    } else {
      clientId.unsynced();
      if (agreed) agree(provider.wsLastMessageReceived);
      agreed = false;
    }
  });
  return () => {
    if (provider.synced) recover();
  };
};

/**
 * Says what a close code means, as soon as the sentences are there, unless the connection has become another since: nobody
 * needs them before a server has closed a connection. `otherwise` stands for codes without one.
 */
const explainClose = (
  { status }: Pick<ConnectionOptions, "status">,
  code: number,
  otherwise: string,
): void => {
  const { connection } = status.state();
  status.explain("connection", otherwise);
  import("#shared/protocol/close-codes.ts").then(
    ({ closeReason }) => {
      if (status.state().connection === connection)
        status.explain("connection", closeReason(code)?.sentence ?? otherwise);
    },
    // Without them the short words at the top still say that it is not connected.
    () => {},
  );
};

/** Says what a close means, and spreads the next attempt. */
const followCloses = (
  provider: WebsocketProvider,
  { status, onIncomplete, onClosed, random = Math.random }: ConnectionOptions,
): void => {
  provider.on("connection-close", (event) => {
    provider.maxBackoffTime = jittered(provider.wsUnsuccessfulReconnects, random());
    if (event !== null && !isRetriable(event.code)) return;
    status.patch({ connection: "offline" });
    explainClose({ status }, event?.code ?? 0, "");
    if (event !== null) onClosed?.(event.code);
  });
  provider.on("closed", ({ code }) => {
    status.patch({ connection: "refused" });
    explainClose({ status }, code, TURNED_AWAY);
    if (code === INCOMPLETE) onIncomplete();
    onClosed?.(code);
  });
};

/** Changes may arrive before those they refer to; once the board equals the server's, they do not wait for long. */
const watchGaps = (provider: WebsocketProvider, { ydoc, onIncomplete }: ConnectionOptions): (() => void) => {
  let waiting: ReturnType<typeof setTimeout> | undefined;
  const stop = (): void => clearTimeout(waiting);
  provider.on("sync", (synced: boolean) => {
    stop();
    if (synced && isIncomplete(ydoc))
      waiting = setTimeout(() => {
        if (isIncomplete(ydoc)) onIncomplete();
      }, GAPS_MS);
  });
  return stop;
};

/** Gives up sockets that never open: a browser may wait for minutes. */
const watchOpening = (provider: WebsocketProvider, giveUp: () => void): (() => void) => {
  let opening: ReturnType<typeof setTimeout> | undefined;
  const stop = (): void => clearTimeout(opening);
  provider.on("connection-close", stop);
  provider.on("status", ({ status }) => {
    stop();
    if (status === "connecting") opening = setTimeout(giveUp, OPENING_MS);
  });
  return stop;
};

const createProvider = ({
  serverUrl,
  documentId,
  token,
  ydoc,
  WebSocketPolyfill,
}: ConnectionOptions): WebsocketProvider =>
  new WebsocketProvider(serverUrl + SYNC_PATH, encodeURIComponent(documentId), ydoc, {
    connect: false,
    awareness: muteAwareness(ydoc),
    protocols: offeredSubprotocols(token),
    // Between tabs a change would be taken for the server's own and never sent by the tab that heard it.
    disableBc: true,
    shouldReconnect: ({ code }) => isRetriable(code),
    ...(WebSocketPolyfill === undefined ? {} : { WebSocketPolyfill }),
  });

/** The provider waits 100 ms × 2^attempts, at most what this says: between half of that and all of it. */
const jittered = (attempts: number, random: number): number =>
  Math.min(BACKOFF_MAX_MS, BACKOFF_FIRST_MS * 2 ** (attempts + 1)) * (0.5 + random / 2);

/** Asks how far the changes of these clients are on the server's disk. */
const askWhatIsDurable = (provider: WebsocketProvider, clients: ReadonlySet<number>): void => {
  // Asked late, the connection may be gone; the next one asks again.
  if (!provider.wsconnected) return;
  const all = [...clients];
  for (let from = 0; from < all.length; from += DURABLE_QUERY_MAX) {
    const asked = all.slice(from, from + DURABLE_QUERY_MAX);
    const frame = encoding.encode((encoder) => {
      encoding.writeVarUint(encoder, MESSAGE.durableQuery);
      encoding.writeVarUint(encoder, asked.length);
      for (const client of asked) encoding.writeVarUint(encoder, client);
    });
    provider.ws?.send(frame as Uint8Array<ArrayBuffer>);
  }
};
