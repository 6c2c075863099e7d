import type { IncomingMessage } from "node:http";
import type { Duplex } from "node:stream";
import { type ServerOptions, type WebSocket, WebSocketServer } from "ws";
import { type Id, isId } from "#shared/board/ids.ts";
import { CLOSE_CODES, type CloseCode } from "#shared/protocol/close-codes.ts";
import { SUBPROTOCOL, SYNC_PATH, tokenAmong } from "#shared/protocol/version.ts";
import { type AccessPolicy, type DeviceSession, REFUSALS } from "../access/access-policy.ts";
import type { AddressOf } from "../api/client-address.ts";
import type { OriginCheck } from "../api/origin.ts";
import { type Log, whyOf } from "../log.ts";
import type { Metrics } from "../metrics/metrics.ts";
import type { FrameSocket } from "../rooms/frame-socket.ts";
import type { Room } from "../rooms/room.ts";
import { DocumentFrozen, type RoomRegistry } from "../rooms/room-registry.ts";
import { createConnectionGate, type GateBounds } from "./connection-gate.ts";

export interface SyncSocketParts {
  readonly rooms: RoomRegistry;
  readonly access: AccessPolicy;
  readonly isOriginAllowed: OriginCheck;
  readonly addressOf: AddressOf;
  readonly bounds: GateBounds & { readonly frameBytes: number };
  readonly heartbeatMs: number;
  readonly metrics: Metrics;
  readonly log: Log;
}

/** The WebSockets at the sync path, each joined to a room. */
export interface SyncSockets {
  /** Takes an upgrade request; false for a path that is not the sync path, which is then left alone. */
  upgrade(request: IncomingMessage, socket: Duplex, head: Buffer): boolean;
  /** Stops checking connections and waits until all have closed, at most `graceMs`; then cuts them. */
  close(graceMs: number): Promise<void>;
}

/** How long (ms) the other side may take to answer a close. */
const CLOSE_TIMEOUT_MS = 5000;
/** Shorter messages grow when they are deflated; ticks stay below. */
const DEFLATE_FROM_BYTES = 1024;

export const createSyncSockets = (parts: SyncSocketParts): SyncSockets => {
  // The library's types do not know `closeTimeout` yet.
  const options: ServerOptions & { readonly closeTimeout: number } = {
    noServer: true,
    // Frames up to twice the bound are read and refused with our own code; beyond, the library closes with 1009.
    maxPayload: 2 * parts.bounds.frameBytes,
    closeTimeout: CLOSE_TIMEOUT_MS,
    // One message a turn of the event loop, so that a device that sends a thousand at once does not hold up the others.
    allowSynchronousEvents: false,
    handleProtocols: (offered) => (offered.has(SUBPROTOCOL) ? SUBPROTOCOL : false),
    perMessageDeflate: {
      threshold: DEFLATE_FROM_BYTES,
      // Without a context kept per connection, a quiet connection costs no deflate memory.
      serverNoContextTakeover: true,
      clientNoContextTakeover: true,
      // A burst of joins deflates a whole board each: fast and small here, as zlib's memory stays with the process.
      zlibDeflateOptions: { level: 3, memLevel: 6 },
      concurrencyLimit: 2,
    },
  };
  const server = new WebSocketServer(options);
  const stopHeartbeat = startHeartbeat(server, parts);

  const gate = createConnectionGate(parts.bounds);

  const accept = async (request: IncomingMessage, socket: Duplex, head: Buffer): Promise<void> => {
    const leave = gate.enter(parts.addressOf(request), documentOf(request.url ?? "") ?? "");
    if (leave !== null) socket.once("close", leave);
    const verdict: Verdict = leave === null ? { ok: false, close: 4530 } : await judge(request, parts);
    server.handleUpgrade(request, socket, head, (ws) => {
      ws.on("error", (error) => parts.log.info("socket-error", { why: whyOf(error) }));
      if (verdict.ok) joinRoom(ws, verdict.room, verdict.session);
      else refuse(ws, verdict.close, parts);
    });
  };

  return {
    upgrade(request, socket, head) {
      if (!request.url?.startsWith(SYNC_PATH)) return false;
      // Until the library takes over, nobody else listens for a socket that breaks.
      const onError = (): void => void socket.destroy();
      socket.on("error", onError);
      if (!parts.isOriginAllowed(request.headers.origin, request.headers.host)) {
        socket.end("HTTP/1.1 403 Forbidden\r\nConnection: close\r\nContent-Length: 0\r\n\r\n");
        return true;
      }
      accept(request, socket, head).catch((error: unknown) => {
        parts.log.error("upgrade-failed", { why: whyOf(error) });
        socket.destroy();
      });
      return true;
    },
    async close(graceMs) {
      stopHeartbeat();
      const open = [...server.clients];
      const cut = setTimeout(() => {
        for (const ws of open) ws.terminate();
      }, graceMs);
      await Promise.all(open.map((ws) => new Promise((done) => ws.once("close", done))));
      clearTimeout(cut);
    },
  };
};

type Verdict =
  | { readonly ok: true; readonly room: Room; readonly session: DeviceSession }
  | { readonly ok: false; readonly close: CloseCode };

/** A browser cannot see why an upgrade failed, so refusals let the socket open and close it with their code. */
const judge = async (request: IncomingMessage, { access, rooms, log }: SyncSocketParts): Promise<Verdict> => {
  const offered = (request.headers["sec-websocket-protocol"] ?? "").split(",").map((name) => name.trim());
  if (!offered.includes(SUBPROTOCOL)) return { ok: false, close: 4426 };
  const document = documentOf(request.url ?? "");
  if (document === null) return { ok: false, close: 4404 };
  try {
    for (;;) {
      const { evictions } = rooms;
      const admission = await access.admit(tokenAmong(offered), document);
      if (!admission.ok) return { ok: false, close: REFUSALS[admission.refusal].close };
      const { session } = admission;
      if (session.role === "dep") return { ok: false, close: 4416 };
      const room = await rooms.open(document);
      // Whoever was sent away meanwhile may have been this device.
      if (rooms.evictions === evictions) return { ok: true, session, room };
    }
  } catch (error) {
    if (error instanceof DocumentFrozen) return { ok: false, close: 1012 };
    log.error("board-not-opened", { document, why: whyOf(error) });
    return { ok: false, close: 1011 };
  }
};

const documentOf = (url: string): Id | null => {
  const segment = url.slice(SYNC_PATH.length).split("?", 1)[0] ?? "";
  try {
    const document = decodeURIComponent(segment);
    return isId(document) ? document : null;
  } catch {
    return null;
  }
};

const refuse = (ws: WebSocket, code: CloseCode, { log, metrics }: SyncSocketParts): void => {
  log.info("connection-refused", { code, reason: CLOSE_CODES[code].name });
  metrics.closes.add(1, String(code));
  ws.close(code, CLOSE_CODES[code].name);
};

const joinRoom = (ws: WebSocket, room: Room, session: DeviceSession): void => {
  const socket: FrameSocket = {
    get bufferedAmount() {
      return ws.bufferedAmount;
    },
    send: (frame) => ws.send(frame),
    close: (code, reason) => ws.close(code, reason),
  };
  const connection = room.join(socket, session);
  ws.on("message", (data: Buffer, isBinary) =>
    isBinary ? connection.receive(data) : connection.receiveText(),
  );
  ws.on("close", () => connection.left());
};

/** Cuts connections that did not answer since the last round, and keeps the quiet ones alive. */
const startHeartbeat = (server: WebSocketServer, { rooms, heartbeatMs }: SyncSocketParts): (() => void) => {
  /** Asked in the last round, and has not answered yet. */
  const silent = new WeakSet<WebSocket>();
  const listening = new WeakSet<WebSocket>();
  const timer = setInterval(() => {
    for (const ws of server.clients) {
      if (silent.has(ws)) {
        ws.terminate();
        continue;
      }
      if (!listening.has(ws)) ws.on("pong", () => silent.delete(ws));
      listening.add(ws);
      silent.add(ws);
      ws.ping();
    }
    rooms.keepAlive();
  }, heartbeatMs);
  timer.unref();
  return () => clearInterval(timer);
};
