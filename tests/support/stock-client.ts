import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import { onTestFinished } from "vitest";
import WebSocket from "ws";
import { WebsocketProvider } from "y-websocket";
import * as Y from "yjs";
import { MESSAGE } from "#shared/protocol/messages.ts";
import { offeredSubprotocols } from "#shared/protocol/version.ts";

/** The stock y-websocket provider on a document of its own, with our acknowledgements listened to. */
export interface StockClient {
  readonly doc: Y.Doc;
  readonly provider: WebsocketProvider;
  /** How far the server has said each client's changes are on its disk. */
  readonly durable: ReadonlyMap<number, number>;
  /** That, for this document's own client. */
  ownDurable(): number;
  /** Resolves once the server has answered with all it has. */
  readonly synced: Promise<void>;
  /** Writes one value into the map "cards". */
  set(key: string, value: unknown): void;
  get(key: string): unknown;
  /** Resolves when the map "cards" holds this value at this key. */
  sees(key: string, value: unknown): Promise<void>;
  /** Resolves when everything this document's own client has written is acknowledged. */
  saved(): Promise<void>;
  /** Asks how far these clients are on the server's disk. */
  askDurable(clients: readonly number[]): void;
  /** Resolves with the code of the next close by the server. */
  closed(): Promise<number>;
  stop(): void;
}

export const connectStock = (
  syncUrl: string,
  board: string,
  token: string,
  doc = new Y.Doc(),
): StockClient => {
  const provider = new WebsocketProvider(syncUrl, board, doc, {
    WebSocketPolyfill: WebSocket as unknown as typeof globalThis.WebSocket,
    protocols: offeredSubprotocols(token),
    disableBc: true,
  });
  const durable = new Map<number, number>();
  const listeners = new Set<() => void>();
  provider.messageHandlers[MESSAGE.acknowledgement] = (_encoder, decoder) => {
    for (const [client, clock] of Y.decodeStateVector(decoding.readTailAsUint8Array(decoder)))
      durable.set(client, clock);
    for (const listener of listeners) listener();
  };
  const stop = (): void => {
    provider.destroy();
    doc.destroy();
  };
  onTestFinished(stop);
  const cards = doc.getMap("cards");

  return {
    doc,
    provider,
    durable,
    ownDurable: () => durable.get(doc.clientID) ?? 0,
    synced: new Promise((resolve) => provider.once("sync", () => resolve())),
    set: (key, value) => void cards.set(key, value),
    get: (key) => cards.get(key),
    sees: (key, value) =>
      when(() => cards.get(key) === value, {
        on: (check) => doc.on("update", check),
        off: (check) => doc.off("update", check),
      }),
    saved: () =>
      when(() => (durable.get(doc.clientID) ?? 0) >= Y.getState(doc.store, doc.clientID), {
        on: (check) => listeners.add(check),
        off: (check) => listeners.delete(check),
      }),
    askDurable: (clients) => provider.ws?.send(Uint8Array.from(durableQueryFrame(clients))),
    closed: () =>
      new Promise((resolve) =>
        provider.on("connection-close", (event: CloseEvent | null) => event !== null && resolve(event.code)),
      ),
    stop,
  };
};

export const durableQueryFrame = (clients: readonly number[]): Uint8Array =>
  encoding.encode((encoder) => {
    encoding.writeVarUint(encoder, MESSAGE.durableQuery);
    encoding.writeVarUint(encoder, clients.length);
    for (const client of clients) encoding.writeVarUint(encoder, client);
  });

/** Resolves as soon as the condition holds, looked at now and at each event. */
const when = (
  holds: () => boolean,
  events: { readonly on: (check: () => void) => unknown; readonly off: (check: () => void) => unknown },
): Promise<void> =>
  new Promise((resolve) => {
    const check = (): void => {
      if (!holds()) return;
      events.off(check);
      resolve();
    };
    events.on(check);
    check();
  });
