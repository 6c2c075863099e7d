import type * as Y from "yjs";
import type { Id } from "#shared/board/ids.ts";
import type { BoardDocument } from "#shared/document/board-document.ts";
import type { CloseCode } from "#shared/protocol/close-codes.ts";
import type { DeviceSession } from "../access/access-policy.ts";
import type { Log } from "../log.ts";
import type { Gauges, Metrics } from "../metrics/metrics.ts";
import { createSteadyClock } from "../steady-clock.ts";
import { type Storage, StorageRefusal } from "../storage/storage.ts";
import type { RoomBounds } from "./bounds.ts";
import { Housekeeping } from "./housekeeping.ts";
import type { Author } from "./kept-document.ts";
import { Room } from "./room.ts";

export interface RegistryParts {
  readonly storage: Storage;
  readonly bounds: RoomBounds;
  /** How long (ms) an empty room stays in memory. */
  readonly idleMs: number;
  readonly log: Log;
  readonly metrics: Metrics;
  /** Server time, ms; for the rows. What lasts is measured on a clock that nobody sets. */
  readonly clock: () => number;
}

/** The document is being closed at this moment: whoever wants it should come again. */
export class DocumentFrozen extends StorageRefusal {}

/** The rooms in memory: loaded when somebody comes, let go when nobody has been there for a while. */
export class RoomRegistry {
  readonly #parts: RegistryParts & { readonly elapsed: () => number };
  readonly #housekeeping: Housekeeping;
  readonly #loading = new Map<Id, Promise<Room>>();
  readonly #rooms = new Map<Id, Room>();
  readonly #frozen = new Set<Id>();
  #evictions = 0;

  constructor(parts: RegistryParts) {
    this.#parts = { ...parts, elapsed: createSteadyClock(parts.clock) };
    this.#housekeeping = new Housekeeping(this.#parts);
  }

  /**
   * The document's room; join it before anything else is awaited, or it may be let go meanwhile.
   * Rejects with StorageRefusal when the log cannot be read, and with DocumentFrozen.
   */
  async open(document: Id): Promise<Room> {
    this.#requireThawed(document);
    const room = await this.#roomOf(document);
    this.#requireThawed(document);
    return room;
  }

  /**
   * The server's own write; see Room. Rejects with StorageRefusal (BoardFull when the board has its full size), and then
   * nobody has seen any of it.
   */
  async write<T>(document: Id, by: Author, change: (document: BoardDocument) => T): Promise<T> {
    return (await this.open(document)).write(by, change);
  }

  /** Looks at a document as it is now. Rejects with StorageRefusal. */
  async read<T>(document: Id, use: (document: BoardDocument) => T): Promise<T> {
    return (await this.open(document)).read(use);
  }

  /**
   * Stores and flushes everything received so far, sends everybody away with `code`, and keeps the document shut while
   * `run` works; then the room is let go. Rejects with StorageRefusal, with DocumentFrozen when it is frozen already,
   * and with what `run` threw; afterwards the document can be opened again.
   */
  async freeze<T>(document: Id, code: CloseCode, run: (doc: Y.Doc) => Promise<T>): Promise<T> {
    this.#requireThawed(document);
    this.#frozen.add(document);
    this.#evictions += 1;
    try {
      const room = await this.#roomOf(document);
      // Before anybody is sent away for good, the disk must have shown that it takes what they sent.
      await room.storeAll();
      room.closeAll(code);
      const doc = await room.storeAll();
      room.kept.shut();
      return await run(doc);
    } finally {
      this.#evictions += 1;
      this.#rooms.delete(document);
      this.#frozen.delete(document);
    }
  }

  /** Work that comes with time: what the disk refused is tried again, idle rooms are let go. Call about every second. */
  tick(): void {
    const now = this.#parts.elapsed();
    let quietSince = 0;
    for (const room of [...this.#rooms.values()]) {
      room.tick();
      quietSince = Math.max(quietSince, room.kept.usedAt);
      const idleSince = room.idleSince;
      if (idleSince === null || now - idleSince < this.#parts.idleMs) continue;
      if (!this.#housekeeping.foldsBeforeLettingGo(room)) this.#rooms.delete(room.document);
    }
    this.#housekeeping.tick(this.#rooms.values(), quietSince);
  }

  keepAlive(): void {
    for (const room of this.#rooms.values()) room.keepAlive();
  }

  /** Sends everybody out of one document and lets it go. */
  closeDocument(document: Id, code: CloseCode): void {
    this.#evictions += 1;
    const room = this.#rooms.get(document);
    room?.closeAll(code);
    room?.kept.shut();
    this.#rooms.delete(document);
  }

  /** Cuts a device's live connections. */
  closeDevice(device: Id, code: CloseCode): void {
    this.#closeWhere((session) => session.device === device, code);
  }

  /** Tells a device's live connections whose it is; whoever is just coming in is asked again. */
  nameDevice(device: Id, person: Pick<DeviceSession, "memberId" | "confirmed">): void {
    this.#evictions += 1;
    for (const room of this.#rooms.values()) room.nameDevice(device, person);
  }

  /** Cuts the live connections of a whole board. */
  closeBoard(board: Id, code: CloseCode): void {
    this.#closeWhere((session) => session.board === board, code);
  }

  closeAll(code: CloseCode): void {
    for (const room of this.#rooms.values()) room.closeAll(code);
  }

  /** How often somebody was sent away: who was admitted before, and has not joined yet, must be asked again. */
  get evictions(): number {
    return this.#evictions;
  }

  /** Devices of a board that are connected now. */
  devicesHere(board: Id): ReadonlySet<Id> {
    return new Set([...this.#rooms.values()].flatMap((room) => [...room.devicesOf(board)]));
  }

  get gauges(): Omit<Gauges, "storageBytes"> {
    const rooms = [...this.#rooms.values()];
    const live = rooms.filter(({ kept }) => kept.live !== null);
    return {
      boards: rooms.length,
      documents: live.length,
      documentBytes: live.reduce((sum, { kept }) => sum + kept.facts.bytes, 0),
      connections: rooms.reduce((sum, room) => sum + room.size, 0),
      storing: rooms.every(({ kept }) => kept.storing),
    };
  }

  async #roomOf(document: Id): Promise<Room> {
    const known = this.#rooms.get(document) ?? this.#loading.get(document);
    if (known !== undefined) return known;
    const loading = this.#load(document).finally(() => this.#loading.delete(document));
    this.#loading.set(document, loading);
    return loading;
  }

  async #load(document: Id): Promise<Room> {
    const onLost = (lost: Room): void => {
      if (this.#rooms.get(document) === lost) this.#rooms.delete(document);
    };
    const room = await Room.open({ ...this.#parts, document, onLost });
    this.#rooms.set(document, room);
    return room;
  }

  #closeWhere(applies: (session: DeviceSession) => boolean, code: CloseCode): void {
    this.#evictions += 1;
    for (const room of this.#rooms.values()) room.closeWhere(applies, code);
  }

  #requireThawed(document: Id): void {
    if (this.#frozen.has(document)) throw new DocumentFrozen("This document is being closed");
  }
}
