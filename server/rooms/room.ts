import * as Y from "yjs";
import type { Id } from "#shared/board/ids.ts";
import { type BoardDocument, createBoardDocument } from "#shared/document/board-document.ts";
import type { CloseCode } from "#shared/protocol/close-codes.ts";
import type { DeviceSession } from "../access/access-policy.ts";
import { type Log, whyOf } from "../log.ts";
import { type Storage, StorageRefusal } from "../storage/storage.ts";
import { Connection } from "./connection.ts";
import type { ConnectionBounds, FrameSocket } from "./frame-socket.ts";
import { acknowledgementFrame, missingFrame, orMalformed, stateVectorFrame, updateFrame } from "./frames.ts";
import { PresenceRelay } from "./presence-relay.ts";

export interface RoomParts {
  readonly document: Id;
  readonly doc: Y.Doc;
  readonly storage: Storage;
  readonly bounds: ConnectionBounds;
  readonly log: Log;
  readonly clock: () => number;
  /** Called when the document in memory can no longer be trusted; the next visitor needs a fresh room. */
  readonly onCondemned: (room: Room) => void;
}

interface Change {
  readonly update: Uint8Array;
  readonly by: Connection;
}

/** Whom the log names for what the server writes itself. */
export interface Author {
  readonly device: Id;
  readonly member: Id | null;
}

/**
 * One board in memory and the devices that are in it.
 * Governing rule: write the row → pass it on → sync the disk → acknowledge. What the disk refused waits in the backlog,
 * unseen and unacknowledged, and goes first when the disk takes rows again.
 */
export class Room {
  readonly document: Id;
  readonly #parts: RoomParts;
  readonly #doc: Y.Doc;
  /** One for the life of the room, so that what was read from it can be kept. */
  readonly #board: BoardDocument;
  readonly #connections = new Set<Connection>();
  readonly #presence: PresenceRelay;
  /** Changes that are in the document but not yet in the log. */
  readonly #backlog: Change[] = [];
  /** Clients that each connection waits to hear about. */
  #owed = new Map<Connection, Set<number>>();
  #settling = false;
  /** What the server's own write has changed so far; null while none runs. */
  #own: Uint8Array[] | null = null;
  /** Own writes that wait for the disk. */
  #ownWaiting = 0;
  #storing = true;
  #leftAt: number;

  constructor(parts: RoomParts) {
    this.document = parts.document;
    this.#parts = parts;
    this.#doc = parts.doc;
    this.#board = createBoardDocument(parts.doc);
    this.#presence = new PresenceRelay(parts.bounds.presenceBytes);
    this.#leftAt = parts.clock();
    this.#doc.on("update", (update: Uint8Array, by: unknown) => {
      if (this.#own !== null) this.#own.push(update);
      else if (by instanceof Connection) this.#backlog.push({ update, by });
    });
  }

  get size(): number {
    return this.#connections.size;
  }

  /** False while the storage refuses this board's changes. */
  get storing(): boolean {
    return this.#storing;
  }

  /** Moment (ms) since which nobody is here and nothing is left to do; null while the room is needed. */
  get idleSince(): number | null {
    const needed = this.size > 0 || this.#backlog.length > 0 || this.#settling || this.#ownWaiting > 0;
    return needed ? null : this.#leftAt;
  }

  /** Lets a device in. A reader is not asked for what it has: it could only be refused. */
  join(socket: FrameSocket, session: DeviceSession): Connection {
    const { bounds, log } = this.#parts;
    const connection = new Connection(this, socket, session, bounds, log);
    this.#connections.add(connection);
    log.info("connection-joined", { document: this.document, device: session.device, role: session.role });
    if (connection.writes) connection.send(stateVectorFrame(Y.encodeStateVector(this.#doc)));
    this.sendPresence(connection);
    return connection;
  }

  leave(connection: Connection): void {
    if (!this.#connections.delete(connection)) return;
    this.#owed.delete(connection);
    this.#leftAt = this.#parts.clock();
    const gone = this.#presence.leave(connection);
    if (gone !== null) this.#passOn(gone, connection);
  }

  /** Answers a client's state vector with what it lacks. Throws MalformedFrame. */
  sendMissing(to: Connection, stateVector: Uint8Array): void {
    // Read on its own first: what fails afterwards is not the client's fault.
    orMalformed(() => Y.decodeStateVector(stateVector));
    to.send(missingFrame(Y.encodeStateAsUpdate(this.#doc, stateVector)));
  }

  /** Takes an update that was inspected before; `clients` are those whose changes it carries. */
  receiveUpdate(from: Connection, update: Uint8Array, clients: Iterable<number>): void {
    // While the disk refuses, the document must not run further ahead of the log.
    const stored = this.writeBacklog() && this.#apply(from, update) && this.writeBacklog();
    if (stored) this.owe(from, clients);
    else from.close(4507);
  }

  /** Tells the connection, after the next flush, how far these clients' changes are on the disk. */
  owe(to: Connection, clients: Iterable<number>): void {
    const owed = this.#owed.get(to) ?? new Set();
    for (const client of clients) owed.add(client);
    this.#owed.set(to, owed);
    if (!this.#settling) void this.#settle();
  }

  /** Devices that are here from this board. */
  *devicesOf(board: Id): Iterable<Id> {
    for (const { session } of this.#connections) if (session.board === board) yield session.device;
  }

  /**
   * The server's own write: stored and on the disk before anybody sees it. Rejects with StorageRefusal when it is not,
   * and with what `change` threw; then nobody has seen any of it.
   */
  async write<T>({ device, member }: Author, change: (document: BoardDocument) => T): Promise<T> {
    if (!this.writeBacklog()) throw new StorageRefusal("Earlier changes of this board wait for the disk");
    const { value, updates } = this.#changeOwn(change);
    this.#ownWaiting += 1;
    try {
      const { storage, clock } = this.#parts;
      try {
        for (const bytes of updates)
          storage.append({ document: this.document, device, member, at: clock(), bytes });
      } catch (error) {
        this.#condemn(null, error, 4507);
        throw error;
      }
      if (!(await this.#flush())) {
        // It is in the log all the same: whoever comes back reads it there, like everybody else.
        this.closeAll(4507);
        throw new StorageRefusal("The disk did not take the change");
      }
    } finally {
      this.#ownWaiting -= 1;
      this.#leftAt = this.#parts.clock();
    }
    for (const bytes of updates) this.#passOn(updateFrame(bytes), null);
    return value;
  }

  /** Looks at the document as it is now. */
  read<T>(use: (document: BoardDocument) => T): T {
    return use(this.#board);
  }

  /** Stores and flushes everything received so far, and answers the document. Rejects with StorageRefusal. */
  async storeAll(): Promise<Y.Doc> {
    if (!this.writeBacklog() || !(await this.#flush()))
      throw new StorageRefusal("What was received could not be stored");
    return this.#doc;
  }

  receivePresence(from: Connection, update: Uint8Array): void {
    const frame = this.#presence.receive(from, update);
    if (frame !== null) this.#passOn(frame, from);
  }

  sendPresence(to: Connection): void {
    const frame = this.#presence.everybody();
    if (frame !== null) to.send(frame);
  }

  /** Appends what waits to the log and passes it on; false while the storage refuses. */
  writeBacklog(): boolean {
    const { storage, clock, log } = this.#parts;
    for (let change = this.#backlog[0]; change !== undefined; change = this.#backlog[0]) {
      const { device, memberId } = change.by.session;
      try {
        storage.append({
          document: this.document,
          device,
          member: memberId,
          at: clock(),
          bytes: change.update,
        });
      } catch (error) {
        if (this.#storing) log.error("not-stored", { document: this.document, why: whyOf(error) });
        this.#storing = false;
        return false;
      }
      this.#storing = true;
      this.#backlog.shift();
      this.#passOn(updateFrame(change.update), change.by);
    }
    return true;
  }

  keepAlive(): void {
    for (const connection of this.#connections) connection.keepAlive();
  }

  closeAll(code: CloseCode): void {
    for (const connection of [...this.#connections]) connection.close(code);
  }

  /** Sends away whoever came in with a session like this. */
  closeWhere(applies: (session: DeviceSession) => boolean, code: CloseCode): void {
    for (const connection of [...this.#connections]) if (applies(connection.session)) connection.close(code);
  }

  /** A change that fails half-way has still changed the document, so that is read anew from the log. */
  #changeOwn<T>(change: (document: BoardDocument) => T): { value: T; updates: readonly Uint8Array[] } {
    const updates: Uint8Array[] = [];
    this.#own = updates;
    try {
      return { value: this.#doc.transact(() => change(this.#board)), updates };
    } catch (error) {
      this.#own = null;
      this.#condemn(null, error);
      throw error;
    } finally {
      this.#own = null;
    }
  }

  /** False when the update broke the document; then everybody was sent out. */
  #apply(from: Connection, update: Uint8Array): boolean {
    // With earlier changes still waiting for theirs, one of those may be what fails now.
    const blame = this.#doc.store.pendingStructs === null ? from : null;
    try {
      Y.applyUpdate(this.#doc, update, from);
      return true;
    } catch (error) {
      this.#condemn(blame, error);
      return false;
    }
  }

  #passOn(frame: Uint8Array, except: Connection | null): void {
    for (const connection of [...this.#connections]) if (connection !== except) connection.send(frame);
  }

  /** Flushes for all who wait, as often as somebody has begun to wait meanwhile. */
  async #settle(): Promise<void> {
    this.#settling = true;
    while (this.#owed.size > 0) {
      const owed = this.#owed;
      this.#owed = new Map();
      // Clocks are read before the flush begins: later rows may miss it.
      const frames = [...owed].map(([to, clients]) => [to, this.#acknowledgement(clients)] as const);
      const durable = this.writeBacklog() && (await this.#flush());
      for (const [to, frame] of frames) {
        if (durable) to.send(frame);
        else to.close(4507);
      }
    }
    this.#settling = false;
  }

  async #flush(): Promise<boolean> {
    try {
      await this.#parts.storage.flush();
      this.#storing = true;
      return true;
    } catch (error) {
      this.#parts.log.error("not-flushed", { document: this.document, why: whyOf(error) });
      this.#storing = false;
      return false;
    }
  }

  #acknowledgement(clients: Iterable<number>): Uint8Array {
    const clocks = new Map<number, number>();
    for (const client of clients) clocks.set(client, Y.getState(this.#doc.store, client));
    return acknowledgementFrame(Y.encodeStateVector(clocks));
  }

  /**
   * Some updates can be read whole and still break the document, such as a change placed in something that is no
   * container: only the log can be trusted then. `blame` is sent away for good.
   */
  #condemn(blame: Connection | null, error: unknown, code: CloseCode = 1011): void {
    const { log, onCondemned } = this.#parts;
    const device = blame?.session.device;
    log.error("room-condemned", { document: this.document, device, why: whyOf(error) });
    onCondemned(this);
    blame?.close(4400);
    this.closeAll(code);
  }
}
