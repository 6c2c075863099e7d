import type { Id } from "#shared/board/ids.ts";
import type { CloseCode } from "#shared/protocol/close-codes.ts";
import type { Log } from "../log.ts";
import type { Storage } from "../storage/storage.ts";
import type { ConnectionBounds } from "./frame-socket.ts";
import { replay } from "./replay.ts";
import { Room } from "./room.ts";

export interface RegistryParts {
  readonly storage: Storage;
  readonly bounds: ConnectionBounds;
  /** How long (ms) an empty room stays in memory. */
  readonly idleMs: number;
  readonly log: Log;
  readonly clock: () => number;
}

/** The rooms in memory: loaded when somebody comes, let go when nobody has been there for a while. */
export class RoomRegistry {
  readonly #parts: RegistryParts;
  readonly #loading = new Map<Id, Promise<Room>>();
  readonly #rooms = new Map<Id, Room>();

  constructor(parts: RegistryParts) {
    this.#parts = parts;
  }

  /**
   * The document's room; join it before anything else is awaited, or it may be let go meanwhile.
   * Rejects with StorageRefusal when the log cannot be read.
   */
  async open(document: Id): Promise<Room> {
    const known = this.#rooms.get(document) ?? this.#loading.get(document);
    if (known !== undefined) return known;
    const loading = this.#load(document).finally(() => this.#loading.delete(document));
    this.#loading.set(document, loading);
    return loading;
  }

  /** Work that comes with time: what the disk refused is tried again, idle rooms are let go. Call about every second. */
  tick(): void {
    const now = this.#parts.clock();
    for (const room of [...this.#rooms.values()]) {
      room.writeBacklog();
      const idleSince = room.idleSince;
      if (idleSince !== null && now - idleSince >= this.#parts.idleMs) this.#rooms.delete(room.document);
    }
  }

  keepAlive(): void {
    for (const room of this.#rooms.values()) room.keepAlive();
  }

  /** Sends everybody out of one document and lets it go. */
  closeDocument(document: Id, code: CloseCode): void {
    this.#rooms.get(document)?.closeAll(code);
    this.#rooms.delete(document);
  }

  closeAll(code: CloseCode): void {
    for (const room of this.#rooms.values()) room.closeAll(code);
  }

  get health(): { readonly boards: number; readonly connections: number; readonly storing: boolean } {
    const rooms = [...this.#rooms.values()];
    return {
      boards: rooms.length,
      connections: rooms.reduce((sum, room) => sum + room.size, 0),
      storing: rooms.every((room) => room.storing),
    };
  }

  async #load(document: Id): Promise<Room> {
    const { storage, bounds, log, clock } = this.#parts;
    const doc = replay(await storage.load(document), log);
    const onCondemned = (condemned: Room): void => {
      if (this.#rooms.get(document) === condemned) this.#rooms.delete(document);
    };
    const room = new Room({ document, doc, storage, bounds, log, clock, onCondemned });
    this.#rooms.set(document, room);
    return room;
  }
}
