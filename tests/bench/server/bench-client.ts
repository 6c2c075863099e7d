import { once } from "node:events";
import type { Socket } from "node:net";
import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import { WebSocket } from "ws";
import * as sync from "y-protocols/sync";
import * as Y from "yjs";
import { MESSAGE, SYNC_STEP } from "#shared/protocol/messages.ts";
import type { Dialect } from "./dialects.ts";

/** Numbers of the named dialect that the plain protocol does not have. */
const NAMED_MESSAGE = { auth: 2, syncReply: 4, syncStatus: 8 } as const;
const AUTHENTICATED = 2;

export interface ClientOptions {
  readonly origin: string;
  readonly board: string;
  readonly dialect: Dialect;
  /**
   * A thin client keeps no copy of the board, only what it wrote itself. It calls back with the moment (ms since 1970)
   * that others wrote into each status as its `at`.
   */
  readonly thin?: (at: number) => void;
  /** What the client has from before; without it, nothing. */
  readonly known?: Uint8Array;
  /** The server says that `changes` more are safe, or everything below the clocks of a state vector. */
  readonly onSafe?: (
    safe: { readonly changes: number } | { readonly upTo: ReadonlyMap<number, number> },
  ) => void;
}

/** A lean client of the sync protocol, the same for every peer: what differs is the dialect. */
export class BenchClient {
  readonly doc = new Y.Doc();
  /** Resolves when the server has answered what the client misses, or let a thin one in. */
  readonly synced: Promise<void>;
  /** Time (ms) from connecting to that answer; null before. */
  syncedAfter: number | null = null;
  readonly begun = performance.now();
  readonly #options: ClientOptions;
  readonly #socket: WebSocket;
  #wire: Socket | null = null;
  #why: string | null = null;
  #resolveSynced: () => void = () => {};

  private constructor(options: ClientOptions) {
    this.#options = options;
    const { dialect, origin, board, known } = options;
    if (known !== undefined) Y.applyUpdate(this.doc, known);
    this.synced = new Promise((resolve) => {
      this.#resolveSynced = resolve;
    });
    this.doc.on("update", (update: Uint8Array, by: unknown) => {
      if (by !== this) this.sendUpdate(update);
    });
    // Without a bound, as one bound holds for all clients of this process, and those that are cut off may keep a place.
    this.#socket = new WebSocket(dialect.address(origin, board), [...dialect.subprotocols], {
      perMessageDeflate: { concurrencyLimit: Number.POSITIVE_INFINITY },
    });
    this.#socket.binaryType = "nodebuffer";
    this.#socket.on("upgrade", ({ socket }) => {
      this.#wire = socket;
    });
    this.#socket.on("message", (frame: Buffer) => this.#receive(frame));
    this.#socket.on("close", (code, reason) => {
      this.#why = `${code} ${reason}`.trim();
    });
    // A killed server is part of the work; who waits for an answer finds out by its absence.
    this.#socket.on("error", () => undefined);
  }

  /** Resolves when the socket is open and the first frames are sent; rejects when the server refuses. */
  static async connect(options: ClientOptions): Promise<BenchClient> {
    const client = new BenchClient(options);
    await once(client.#socket, "open");
    client.#greet();
    return client;
  }

  /** Code and reason with which the socket was closed; null while it is not. */
  get why(): string | null {
    return this.#why;
  }

  get closed(): boolean {
    return this.#socket.readyState !== WebSocket.OPEN;
  }

  /** Bytes that came over the wire, as they were sent: compressed, with their framing. */
  get bytesIn(): number {
    return this.#wire?.bytesRead ?? 0;
  }

  sendUpdate(update: Uint8Array): void {
    this.#send((encoder) => {
      encoding.writeVarUint(encoder, MESSAGE.sync);
      sync.writeUpdate(encoder, update);
    });
  }

  async close(): Promise<void> {
    if (this.closed) return;
    this.#socket.close();
    await once(this.#socket, "close");
  }

  kill(): void {
    this.#socket.terminate();
  }

  #greet(): void {
    const { dialect, thin } = this.#options;
    if (dialect.named)
      this.#send((encoder) => {
        encoding.writeVarUint(encoder, NAMED_MESSAGE.auth);
        encoding.writeVarUint(encoder, 0);
        encoding.writeVarString(encoder, "bench");
        encoding.writeVarString(encoder, "4.7.0");
      });
    if (dialect.keepsDocuments && thin === undefined)
      this.#send((encoder) => {
        encoding.writeVarUint(encoder, MESSAGE.sync);
        sync.writeSyncStep1(encoder, this.doc);
      });
    if (!dialect.keepsDocuments || (thin !== undefined && !dialect.named)) this.#markSynced();
  }

  #markSynced(): void {
    this.syncedAfter ??= performance.now() - this.begun;
    this.#resolveSynced();
  }

  #encoder(): encoding.Encoder {
    const encoder = encoding.createEncoder();
    if (this.#options.dialect.named) encoding.writeVarString(encoder, this.#options.board);
    return encoder;
  }

  #send(write: (encoder: encoding.Encoder) => void): void {
    if (this.closed) return;
    const encoder = this.#encoder();
    write(encoder);
    this.#socket.send(encoding.toUint8Array(encoder));
  }

  #receive(frame: Buffer): void {
    const { named } = this.#options.dialect;
    const decoder = decoding.createDecoder(frame);
    if (named) decoding.readVarString(decoder);
    const type = decoding.readVarUint(decoder);
    if (type === MESSAGE.sync || (named && type === NAMED_MESSAGE.syncReply)) this.#receiveSync(decoder);
    else if (named && type === NAMED_MESSAGE.auth) {
      if (decoding.readVarUint(decoder) === AUTHENTICATED && this.#options.thin !== undefined)
        this.#markSynced();
    } else if (named && type === NAMED_MESSAGE.syncStatus)
      this.#options.onSafe?.({ changes: decoding.readVarUint(decoder) === 1 ? 1 : 0 });
    else if (type === MESSAGE.acknowledgement)
      this.#options.onSafe?.({ upTo: Y.decodeStateVector(decoding.readTailAsUint8Array(decoder)) });
  }

  #receiveSync(decoder: decoding.Decoder): void {
    const { thin } = this.#options;
    if (thin !== undefined) {
      const step = decoding.readVarUint(decoder);
      if (step === SYNC_STEP.update) this.#reportTicks(decoding.readVarUint8Array(decoder), thin);
      return;
    }
    const encoder = this.#encoder();
    encoding.writeVarUint(encoder, MESSAGE.sync);
    const empty = encoding.length(encoder);
    const step = sync.readSyncMessage(decoder, encoder, this.doc, this);
    if (encoding.length(encoder) > empty) this.#socket.send(encoding.toUint8Array(encoder));
    if (step === SYNC_STEP.missing) this.#markSynced();
  }

  #reportTicks(update: Uint8Array, report: (at: number) => void): void {
    for (const struct of Y.decodeUpdate(update).structs) {
      // Some servers send a change back to the one who made it.
      if (!(struct instanceof Y.Item) || struct.id.client === this.doc.clientID) continue;
      if (struct.content instanceof Y.ContentAny)
        for (const value of struct.content.arr) if (typeof value?.at === "number") report(value.at);
    }
  }
}
