import { CLOSE_CODES, type CloseCode } from "#shared/protocol/close-codes.ts";
import type { DeviceSession } from "../access/access-policy.ts";
import { type Log, whyOf } from "../log.ts";
import type { Metrics } from "../metrics/metrics.ts";
import type { RoomBounds } from "./bounds.ts";
import type { FrameSocket } from "./frame-socket.ts";
import { decodeFrame, type Frame, MalformedFrame } from "./frames.ts";
import { inspectUpdate } from "./inspect-update.ts";
import { Meter } from "./meter.ts";
import { silentPresenceFrame } from "./presence-relay.ts";
import type { Room } from "./room.ts";

export interface ConnectionParts {
  readonly bounds: RoomBounds;
  readonly log: Log;
  readonly metrics: Metrics;
  /** Time that only moves on, ms. */
  readonly elapsed: () => number;
}

/** One device in one room. Everything a foreign client sends enters here, and nothing it sends makes this throw. */
export class Connection {
  #session: DeviceSession;
  /** What it has used of what it may. */
  readonly meter: Meter;
  readonly #room: Room;
  readonly #socket: FrameSocket;
  readonly #parts: ConnectionParts;
  /** Bytes of the longest reply it asked for, which may wait on top: a large board takes a slow device long to read. */
  #reply = 0;
  #open = true;
  #sentAway = false;

  constructor(room: Room, socket: FrameSocket, session: DeviceSession, parts: ConnectionParts) {
    this.#session = session;
    this.meter = new Meter(parts.bounds, parts.elapsed);
    this.#room = room;
    this.#socket = socket;
    this.#parts = parts;
  }

  /** True once the server has closed it; what it had sent before counts for nothing then. */
  get sentAway(): boolean {
    return this.#sentAway;
  }

  get session(): DeviceSession {
    return this.#session;
  }

  /** Takes in whose device this is now: what it sends from here on is stored under that name. */
  name(person: Pick<DeviceSession, "memberId" | "confirmed">): void {
    this.#session = { ...this.#session, ...person };
  }

  get writes(): boolean {
    return this.session.role !== "guest";
  }

  /** Takes one frame off the wire. */
  receive(bytes: Uint8Array): void {
    if (!this.#open) return;
    const { bounds, metrics } = this.#parts;
    metrics.framesIn.add();
    metrics.bytesIn.add(bytes.length);
    if (bytes.length > bounds.frameBytes) this.close(4413);
    else if (this.meter.frames.take(1) && this.afford(bytes.length)) this.#read(bytes);
    else this.close(4529);
  }

  /** Takes a text message: the protocol has none. */
  receiveText(): void {
    this.close(4400, "A text message");
  }

  /** Sends one frame, unless too much is waiting already: then this reader is closed and can catch up afresh. */
  send(frame: Uint8Array): void {
    if (!this.#open) return;
    if (this.#socket.bufferedAmount > this.#parts.bounds.bufferedBytes + this.#reply) this.close(1013);
    else this.#socket.send(frame);
  }

  /** Counts work that costs as much as receiving so many bytes; false when that was too much, and it is closed. */
  afford(bytes: number): boolean {
    if (this.meter.bytes.take(bytes) && this.#room.spend(this, bytes)) return true;
    this.close(4529);
    return false;
  }

  /** Counts a reply that it asked for, at what making it costs; false when that was too much, and it is closed. */
  affordReply(bytes: number, cost: number): boolean {
    this.#reply = Math.max(this.#reply, bytes);
    return this.afford(cost);
  }

  /** Keeps clients from taking a quiet board for a dead connection. */
  keepAlive(): void {
    this.send(silentPresenceFrame());
  }

  /** Closes from this side. `why` is for the log alone. */
  close(code: CloseCode, why?: string): void {
    if (!this.#open) return;
    const { document, device } = this.session;
    const { log, metrics } = this.#parts;
    log.info("connection-closed", { document, device, code, reason: CLOSE_CODES[code].name, why });
    metrics.closes.add(1, String(code));
    this.#sentAway = true;
    this.left();
    this.#socket.close(code, CLOSE_CODES[code].name);
  }

  /** Something went wrong here that is not this device's doing. */
  fail(error: unknown): void {
    this.#parts.log.error("frame-failed", { document: this.session.document, why: whyOf(error) });
    this.close(1011);
  }

  /** The socket is gone, whoever closed it. */
  left(): void {
    if (!this.#open) return;
    this.#open = false;
    this.#room.leave(this);
  }

  #read(bytes: Uint8Array): void {
    try {
      this.#take(decodeFrame(bytes));
    } catch (error) {
      if (error instanceof MalformedFrame) this.close(4400, whyOf(error));
      else this.fail(error);
    }
  }

  #take(frame: Frame): void {
    if (frame.kind === "update") this.#takeUpdate(frame.bytes);
    else if (frame.kind === "awareness") {
      // What is left out here is soon said again: where somebody is a moment later counts.
      if (this.meter.presence.take(1)) this.#room.receivePresence(this, frame.bytes);
    } else if (this.meter.questions.take(1)) this.#answer(frame);
    else this.close(4529);
  }

  #answer(question: Exclude<Frame, { readonly kind: "update" | "awareness" }>): void {
    const room = this.#room;
    if (question.kind === "state-vector") room.sendMissing(this, question.bytes);
    else if (question.kind === "query-awareness") room.sendPresence(this);
    else room.owe(this, question.clients);
  }

  #takeUpdate(bytes: Uint8Array): void {
    const content = inspectUpdate(bytes);
    if (content.empty) return;
    if (this.writes) this.#room.receiveUpdate(this, bytes, content.clients);
    else this.close(4403);
  }
}
