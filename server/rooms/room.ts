import * as Y from "yjs";
import type { Id } from "#shared/board/ids.ts";
import type { BoardDocument } from "#shared/document/board-document.ts";
import { migrate } from "#shared/document/migrations/migrate.ts";
import type { CloseCode } from "#shared/protocol/close-codes.ts";
import type { DeviceSession } from "../access/access-policy.ts";
import { type Log, whyOf } from "../log.ts";
import type { Metrics } from "../metrics/metrics.ts";
import { type Storage, StorageRefusal } from "../storage/storage.ts";
import type { RoomBounds } from "./bounds.ts";
import { Connection } from "./connection.ts";
import type { FrameSocket } from "./frame-socket.ts";
import { missingFrame, orMalformed, stateVectorFrame, updateFrame } from "./frames.ts";
import { Gap } from "./gap.ts";
import { type Author, type Change, KeptDocument } from "./kept-document.ts";
import type { LiveDocument } from "./live-document.ts";
import { Owed } from "./owed.ts";
import { PresenceRelay } from "./presence-relay.ts";
import { TokenBucket } from "./token-bucket.ts";

export interface RoomParts {
  readonly document: Id;
  readonly storage: Storage;
  readonly bounds: RoomBounds;
  readonly log: Log;
  readonly metrics: Metrics;
  /** Server time, ms. */
  readonly clock: () => number;
  /** Time that only moves on, ms. */
  readonly elapsed: () => number;
  /** Called when the document can be read no more; the next visitor needs a fresh room. */
  readonly onLost: (room: Room) => void;
}

/** Sending rows as they are stored takes less than an eighth of the time that writing a document out does. */
const ROWS_SHARE = 8;

/** The board has reached the size this server allows. */
export class BoardFull extends StorageRefusal {}

/** Whom the log names for what comes from nobody's device. */
export const SERVER: Author = { device: "server", member: null };

/**
 * One document and the devices that are in it.
 * Governing rule: write the row → pass it on → sync the disk → acknowledge. What the disk refused waits in the backlog,
 * unseen and unacknowledged, and goes first when the disk takes rows again.
 */
export class Room {
  readonly document: Id;
  readonly kept: KeptDocument;
  readonly #parts: RoomParts;
  readonly #connections = new Set<Connection>();
  readonly #presence: PresenceRelay;
  readonly #owed: Owed;
  readonly #gap: Gap;
  readonly #frames: TokenBucket;
  readonly #bytes: TokenBucket;
  /** Own writes that wait for the disk. */
  #writing = 0;
  #leftAt: number;

  private constructor(parts: RoomParts, kept: KeptDocument) {
    const { bounds, elapsed } = parts;
    this.document = parts.document;
    this.kept = kept;
    this.#parts = parts;
    this.#presence = new PresenceRelay(bounds.presenceBytes);
    this.#owed = new Owed(kept, parts.metrics);
    this.#gap = new Gap(bounds.gapBytes, bounds.gapSeconds * 1000);
    this.#frames = new TokenBucket(bounds.boardFramesPerSecond, elapsed);
    this.#bytes = new TokenBucket(bounds.boardBytesPerSecond, elapsed);
    this.#leftAt = elapsed();
  }

  /** Reads the log and brings an older document to this release's shape. Rejects with StorageRefusal. */
  static async open(parts: RoomParts): Promise<Room> {
    const { document, storage, log, metrics, clock, elapsed } = parts;
    const found: { room: Room | null } = { room: null };
    const kept = await KeptDocument.open({
      document,
      storage,
      log,
      metrics,
      clock,
      elapsed,
      onStored: ({ update, from }) => found.room?.passOn(updateFrame(update), from),
      onLost: () => found.room?.lose(),
    });
    const room = new Room(parts, kept);
    found.room = room;
    // A board that cannot be written is still read as it is: the reader knows one shape back.
    await room.migrate().catch((error: unknown) => log.warn("not-migrated", { document, why: whyOf(error) }));
    return room;
  }

  get size(): number {
    return this.#connections.size;
  }

  /** Moment (ms) since which nobody is here and nothing is left to do; null while the room is needed. */
  get idleSince(): number | null {
    const needed = this.size > 0 || this.kept.busy || this.#owed.settling || this.#writing > 0;
    return needed ? null : this.#leftAt;
  }

  /** Lets a device in. A reader is not asked for what it has: it could only be refused. */
  join(socket: FrameSocket, session: DeviceSession): Connection {
    const { bounds, log, elapsed, metrics } = this.#parts;
    const connection = new Connection(this, socket, session, { bounds, log, elapsed, metrics });
    this.#connections.add(connection);
    log.info("connection-joined", { document: this.document, device: session.device, role: session.role });
    if (connection.writes)
      this.kept.whenKnown(({ stateVector }) => connection.send(stateVectorFrame(stateVector())));
    this.sendPresence(connection);
    return connection;
  }

  leave(connection: Connection): void {
    if (!this.#connections.delete(connection)) return;
    this.#owed.forget(connection);
    this.#gap.leave(connection);
    this.#leftAt = this.#parts.elapsed();
    const gone = this.#presence.leave(connection);
    if (gone !== null) this.passOn(gone, connection);
  }

  /** Devices that are here from this board. */
  *devicesOf(board: Id): Iterable<Id> {
    for (const { session } of this.#connections) if (session.board === board) yield session.device;
  }

  /**
   * Counts what a connection's frame costs; false when the connection must stop. When the board as a whole gets too
   * much, whoever has sent the most is sent away.
   */
  spend(from: Connection, bytes: number): boolean {
    if (this.#frames.take(1) && this.#bytes.take(bytes)) return true;
    const [most = from] = [...this.#connections].sort((a, b) => a.meter.left - b.meter.left);
    if (most !== from) most.close(4529);
    return most !== from;
  }

  /** Answers a client's state vector with what it lacks. Throws MalformedFrame. */
  sendMissing(to: Connection, stateVector: Uint8Array): void {
    // Read on its own first: what fails afterwards is not the client's fault.
    const heads = orMalformed(() => Y.decodeStateVector(stateVector));
    this.kept.touch();
    if (heads.size > 0)
      this.kept.use(
        (live) => this.#sendAffordable(to, live.missingFor(stateVector)),
        (error) => to.fail(error),
      );
    else {
      const { bytes } = this.kept.facts;
      const cost = this.kept.isServedFromRows ? bytes / ROWS_SHARE : bytes;
      if (to.affordReply(bytes, cost)) this.kept.sendWhole((frame) => to.send(frame));
    }
  }

  /** Takes an update that was inspected before; `clients` are those whose changes it carries. */
  receiveUpdate(from: Connection, update: Uint8Array, clients: Iterable<number>): void {
    const arrived = performance.now();
    this.kept.touch();
    this.kept.use(
      (live) => {
        if (from.sentAway) return;
        // While the disk refuses, the document must not run further ahead of the log.
        if (this.kept.facts.bytes + update.length > this.#parts.bounds.boardBytes) from.close(4414);
        else if (this.kept.writeBacklog() && this.#apply(live, from, update) && this.kept.writeBacklog())
          this.owe(from, clients, arrived);
        else from.close(4507);
      },
      (error) => from.fail(error),
    );
  }

  /** Tells the connection, after the next flush, how far these clients' changes are on the disk. */
  owe(to: Connection, clients: Iterable<number>, arrived: number | null = null): void {
    this.#owed.add(to, clients, arrived);
  }

  /**
   * The server's own write: stored and on the disk before anybody sees it. Rejects with StorageRefusal when it is not,
   * and with what `change` threw; then nobody has seen any of it.
   */
  async write<T>(by: Author, change: (board: BoardDocument) => T): Promise<T> {
    this.#writing += 1;
    if (by.device !== SERVER.device) this.kept.touch();
    try {
      const { value, updates } = await this.kept.ask((live) => this.#writeOwn(live, by, change));
      if (!(await this.kept.flush())) {
        // It is in the log all the same: whoever comes back reads it there, like everybody else.
        this.closeAll(4507);
        throw new StorageRefusal("The disk did not take the change");
      }
      for (const bytes of updates) this.passOn(updateFrame(bytes), null);
      return value;
    } finally {
      this.#writing -= 1;
      // Housekeeping is no visit.
      if (by.device !== SERVER.device) this.#leftAt = this.#parts.elapsed();
    }
  }

  /** Looks at the document as it is now. Rejects with StorageRefusal. */
  async read<T>(use: (board: BoardDocument) => T): Promise<T> {
    this.kept.touch();
    return this.kept.ask((live) => use(live.board));
  }

  /** Stores and flushes everything received so far, and answers the document. Rejects with StorageRefusal. */
  async storeAll(): Promise<Y.Doc> {
    const doc = await this.kept.ask((live) => live.doc);
    if (!this.kept.writeBacklog() || !(await this.kept.flush()))
      throw new StorageRefusal("What was received could not be stored");
    return doc;
  }

  /** Brings a document that is in memory to this release's shape. An empty one has none yet. */
  async migrate(): Promise<void> {
    if (this.kept.live?.current === false) await this.write(SERVER, migrate);
  }

  /**
   * Puts a snapshot before the stored rows; false when there was nothing to fold. What older devices wrote meanwhile is
   * brought to this release's shape first. Rejects with StorageRefusal.
   */
  async fold(): Promise<boolean> {
    await this.kept.ask(() => undefined);
    await this.migrate();
    return this.kept.fold();
  }

  /** Passes on where a device is. Who only looks on is not shown to others. */
  receivePresence(from: Connection, update: Uint8Array): void {
    if (!from.writes) return;
    const frame = this.#presence.receive(from, update);
    if (frame !== null) this.passOn(frame, from);
  }

  sendPresence(to: Connection): void {
    const frame = this.#presence.everybody();
    if (frame !== null) to.send(frame);
  }

  /** Work that comes with time. */
  tick(): void {
    this.kept.tick();
    const { live } = this.kept;
    if (live === null) return;
    const overdue = this.#gap.overdue(live, this.#parts.elapsed());
    for (const connection of overdue) connection.close(4422);
  }

  keepAlive(): void {
    for (const connection of this.#connections) connection.keepAlive();
  }

  closeAll(code: CloseCode): void {
    this.closeWhere(() => true, code);
  }

  /** Sends away whoever came in with a session like this. */
  closeWhere(applies: (session: DeviceSession) => boolean, code: CloseCode): void {
    for (const connection of [...this.#connections]) if (applies(connection.session)) connection.close(code);
  }

  nameDevice(device: Id, person: Pick<DeviceSession, "memberId" | "confirmed">): void {
    for (const connection of this.#connections)
      if (connection.session.device === device) connection.name(person);
  }

  passOn(frame: Uint8Array, except: Connection | null): void {
    for (const connection of [...this.#connections]) if (connection !== except) connection.send(frame);
  }

  lose(): void {
    this.#parts.onLost(this);
    this.closeAll(1011);
  }

  /** What a device lacks costs as much to write out as it is long. */
  #sendAffordable(to: Connection, missing: Uint8Array): void {
    if (to.affordReply(missing.length, missing.length)) to.send(missingFrame(missing));
  }

  /** False when the update broke the document, and its sender has been sent away. */
  #apply(live: LiveDocument, from: Connection, update: Uint8Array): boolean {
    const waited = live.gapBytes;
    // Whatever waits is looked at again with every change, so it costs again.
    if (waited > 0 && !from.afford(waited)) return false;
    const { device, memberId: member } = from.session;
    try {
      const changes = live.apply(update);
      this.kept.note(changes.map((bytes): Change => ({ update: bytes, by: { device, member }, from })));
    } catch (error) {
      this.#mend(from, waited > 0, error);
      return false;
    }
    this.#gap.note(live, waited, from, this.#parts.elapsed());
    for (const connection of this.#gap.overdue(live, this.#parts.elapsed())) connection.close(4422);
    return true;
  }

  #writeOwn<T>(live: LiveDocument, by: Author, change: (board: BoardDocument) => T) {
    const { kept } = this;
    if (!kept.writeBacklog()) throw new StorageRefusal("Earlier changes of this board wait for the disk");
    if (by.device !== SERVER.device && kept.facts.bytes >= this.#parts.bounds.boardBytes)
      throw new BoardFull("This board has reached the size this server allows");
    try {
      const done = live.change(change);
      for (const update of done.updates) kept.append({ update, by });
      return done;
    } catch (error) {
      // The document holds what the log does not.
      kept.reload();
      throw error;
    }
  }

  /**
   * Some updates can be read whole and still break the document, such as a change placed in something that is no
   * container: it is read from the log again. With earlier changes still waiting, one of those may be what failed.
   */
  #mend(from: Connection, waited: boolean, error: unknown): void {
    const { device } = from.session;
    this.#parts.log.error("document-broken", { document: this.document, device, why: whyOf(error) });
    this.kept.reload();
    for (const connection of waited ? [...this.#gap.by] : []) connection.close(1011);
    from.close(waited ? 1011 : 4400);
  }
}
