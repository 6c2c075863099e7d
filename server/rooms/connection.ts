import { CLOSE_CODES, type CloseCode } from "#shared/protocol/close-codes.ts";
import type { DeviceSession } from "../access/access-policy.ts";
import { type Log, whyOf } from "../log.ts";
import type { ConnectionBounds, FrameSocket } from "./frame-socket.ts";
import { decodeFrame, type Frame, MalformedFrame } from "./frames.ts";
import { inspectUpdate } from "./inspect-update.ts";
import { silentPresenceFrame } from "./presence-relay.ts";
import type { Room } from "./room.ts";

/** One device in one room. Everything a foreign client sends enters here, and nothing it sends makes this throw. */
export class Connection {
  readonly session: DeviceSession;
  readonly #room: Room;
  readonly #socket: FrameSocket;
  readonly #bounds: ConnectionBounds;
  readonly #log: Log;
  #open = true;

  constructor(room: Room, socket: FrameSocket, session: DeviceSession, bounds: ConnectionBounds, log: Log) {
    this.session = session;
    this.#room = room;
    this.#socket = socket;
    this.#bounds = bounds;
    this.#log = log;
  }

  get writes(): boolean {
    return this.session.role !== "guest";
  }

  /** Takes one frame off the wire. */
  receive(bytes: Uint8Array): void {
    if (!this.#open) return;
    if (bytes.length > this.#bounds.frameBytes) {
      this.close(4413);
      return;
    }
    try {
      this.#take(decodeFrame(bytes));
    } catch (error) {
      if (error instanceof MalformedFrame) this.close(4400, whyOf(error));
      else this.#fail(error);
    }
  }

  /** Takes a text message: the protocol has none. */
  receiveText(): void {
    this.close(4400, "A text message");
  }

  /** Sends one frame, unless too much is waiting already: then this reader is closed and can catch up afresh. */
  send(frame: Uint8Array): void {
    if (!this.#open) return;
    if (this.#socket.bufferedAmount > this.#bounds.bufferedBytes) this.close(1013);
    else this.#socket.send(frame);
  }

  /** Keeps clients from taking a quiet board for a dead connection. */
  keepAlive(): void {
    this.send(silentPresenceFrame());
  }

  /** Closes from this side. `why` is for the log alone. */
  close(code: CloseCode, why?: string): void {
    if (!this.#open) return;
    const { document, device } = this.session;
    this.#log.info("connection-closed", { document, device, code, reason: CLOSE_CODES[code].name, why });
    this.left();
    this.#socket.close(code, CLOSE_CODES[code].name);
  }

  /** The socket is gone, whoever closed it. */
  left(): void {
    if (!this.#open) return;
    this.#open = false;
    this.#room.leave(this);
  }

  #take(frame: Frame): void {
    const room = this.#room;
    if (frame.kind === "state-vector") room.sendMissing(this, frame.bytes);
    else if (frame.kind === "update") this.#takeUpdate(frame.bytes);
    else if (frame.kind === "awareness") room.receivePresence(this, frame.bytes);
    else if (frame.kind === "query-awareness") room.sendPresence(this);
    else room.owe(this, frame.clients);
  }

  #takeUpdate(bytes: Uint8Array): void {
    const content = inspectUpdate(bytes);
    if (content.empty) return;
    if (this.writes) this.#room.receiveUpdate(this, bytes, content.clients);
    else this.close(4403);
  }

  #fail(error: unknown): void {
    this.#log.error("frame-failed", { document: this.session.document, why: whyOf(error) });
    this.close(1011);
  }
}
