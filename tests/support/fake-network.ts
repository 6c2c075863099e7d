/**
 * The real client and the real server with a network in between that does what it is told: links are cut, held and
 * healed, frames arrive when they are delivered, and the server can be restarted or killed.
 * Time is virtual: use Vitest's fake timers for everything but `setImmediate`.
 */
import { vi } from "vitest";
import type { AccessPolicy, DeviceSession } from "#server/access/access-policy.ts";
import { REFUSALS } from "#server/access/access-policy.ts";
import { createLog } from "#server/log.ts";
import type { FrameSocket } from "#server/rooms/frame-socket.ts";
import type { Room } from "#server/rooms/room.ts";
import { DocumentFrozen, RoomRegistry } from "#server/rooms/room-registry.ts";
import { type CloseCode, closeReason } from "#shared/protocol/close-codes.ts";
import { SYNC_PATH, tokenAmong } from "#shared/protocol/version.ts";
import { type CrashingStorage, createCrashingStorage } from "./crashing-storage.ts";
import { FakeSocket, Link } from "./fake-socket.ts";
import { openAccess } from "./open-access.ts";
import { roomParts } from "./room-parts.ts";

/** How long (ms) a phone tries to open a socket through a cut network. */
const REFUSED_MS = 50;
/** More deliveries than any exchange needs. */
const ENDLESS = 20_000;
/** The server's rounds of keeping quiet connections alive, ms. */
const HEARTBEAT_MS = 20_000;

export interface FakeNetwork {
  readonly storage: CrashingStorage;
  /** The rooms of the server that runs now. */
  readonly rooms: () => RoomRegistry;
  /** True while the phone's network is cut. */
  readonly isCut: (phone: string) => boolean;
  /** The WebSocket class of one phone. */
  readonly socketFor: (phone: string) => typeof WebSocket;
  /** Breaks the phone's connection at once; new ones fail until it is healed. */
  readonly cut: (phone: string) => void;
  /** Lets frames wait without anybody noticing; what is sent arrives after healing, if the socket still stands. */
  readonly hold: (phone: string) => void;
  readonly heal: (phone: string) => void;
  /** The server closes the phone's connection with a code; what the phone has sent meanwhile is gone. */
  readonly closeWith: (phone: string, code: CloseCode) => void;
  /** Lets virtual time pass: timers fire, nothing is delivered. */
  readonly elapse: (ms: number) => void;
  /** Delivers one waiting item of a random link; false when none is deliverable. */
  readonly deliverOne: () => Promise<boolean>;
  /** Delivers all there is, replies included. */
  readonly drain: () => Promise<void>;
  /** Heals everything and waits until every phone has reconnected and nothing is on its way. */
  readonly settle: () => Promise<void>;
  /** Stops the server with 1012 and starts it again from its storage. */
  readonly restartServer: () => Promise<void>;
  /** Kills the server: what it had not flushed is gone. */
  readonly killServer: () => void;
}

export interface FakeNetworkOptions {
  readonly access?: AccessPolicy;
  /** 0 ≤ r < 1: chooses which link delivers next. */
  readonly random?: () => number;
  /** Share of frames that arrive twice. */
  readonly duplicates?: number;
}

/** Runs what is due, promises included, without letting virtual time pass. */
export const turn = (): Promise<void> => new Promise((done) => setImmediate(done));

/** Fake timers for everything a client or a room waits for. */
export const useVirtualClock = (now: number): void => {
  vi.useFakeTimers({
    now,
    toFake: ["setTimeout", "clearTimeout", "setInterval", "clearInterval", "Date", "performance"],
  });
};

export const createFakeNetwork = (options: FakeNetworkOptions = {}): FakeNetwork => {
  const { access = openAccess, random = () => 0, duplicates = 0 } = options;
  const storage = createCrashingStorage();
  const log = createLog("silent", () => {}, Date.now);
  const links = new Set<Link>();
  const away = new Set<string>();
  const phones = new Set<string>();
  let rooms = newRooms();
  let sinceHeartbeat = 0;

  function newRooms(): RoomRegistry {
    return new RoomRegistry({ storage, ...roomParts({ log, clock: Date.now }) });
  }

  /** As the real sockets do: whoever was sent away while a device was let in may have been this one. */
  const judge = async (
    registry: RoomRegistry,
    token: string | null,
    document: string,
  ): Promise<
    | { readonly ok: true; readonly session: DeviceSession; readonly room: Room }
    | { readonly ok: false; readonly close: CloseCode }
  > => {
    try {
      for (;;) {
        const { evictions } = registry;
        const admission = await access.admit(token, document);
        if (!admission.ok) return { ok: false, close: REFUSALS[admission.refusal].close };
        const room = await registry.open(document);
        if (registry.evictions === evictions) return { ok: true, session: admission.session, room };
      }
    } catch (error) {
      if (error instanceof DocumentFrozen) return { ok: false, close: 1012 };
      throw error;
    }
  };

  const admit = async (link: Link): Promise<void> => {
    const registry = rooms;
    const board = decodeURIComponent(new URL(link.url).pathname.slice(SYNC_PATH.length));
    const verdict = await judge(registry, tokenAmong(link.protocols), board);
    if (link.client === null) return;
    // The server died or was restarted while it let this one in.
    if (registry !== rooms) return link.break();
    link.toClient.push({ kind: "open" });
    if (!verdict.ok) return closeTo(link, verdict.close);
    const socket: FrameSocket = {
      bufferedAmount: 0,
      send: (bytes) => void link.toClient.push({ kind: "frame", bytes: bytes.slice() }),
      close: (code) => closeTo(link, code),
    };
    const connection = verdict.room.join(socket, verdict.session);
    link.server = { receive: (bytes) => connection.receive(bytes), left: () => connection.left() };
  };

  const socketFor = (phone: string): typeof WebSocket => {
    phones.add(phone);
    class PhoneSocket extends FakeSocket {
      constructor(url: string, protocols: readonly string[] = []) {
        super();
        if (away.has(phone)) {
          setTimeout(() => this.arrive({ kind: "close", code: 1006, reason: "" }), REFUSED_MS);
          return;
        }
        this.link = new Link(phone, url, protocols, this);
        links.add(this.link);
        void admit(this.link);
      }
    }
    return PhoneSocket as unknown as typeof WebSocket;
  };

  const of = (phone: string): Link[] => [...links].filter((link) => link.owner === phone);
  const copies = (): number => (random() < duplicates ? 2 : 1);

  const deliverOne = async (): Promise<boolean> => {
    await turn();
    for (const link of links) if (link.isOver) links.delete(link);
    const ways = [...links]
      .filter((link) => !link.held)
      .flatMap((link) => [
        ...(link.toServer.length > 0 && link.server !== null ? [() => link.deliverToServer(copies())] : []),
        ...(link.toClient.length > 0 ? [() => link.deliverToClient(copies())] : []),
      ]);
    const way = ways[Math.floor(random() * ways.length)];
    way?.();
    return way !== undefined;
  };
  const drain = async (): Promise<void> => {
    for (let n = 0; (await deliverOne()) || storage.busy; n++)
      if (n > ENDLESS) throw new Error("Client and server talk without end");
  };
  const elapse = (ms: number): void => {
    for (let left = ms; left > 0; ) {
      const step = Math.min(left, HEARTBEAT_MS - sinceHeartbeat);
      vi.advanceTimersByTime(step);
      left -= step;
      sinceHeartbeat += step;
      if (sinceHeartbeat < HEARTBEAT_MS) continue;
      sinceHeartbeat = 0;
      rooms.keepAlive();
      rooms.tick();
    }
  };
  const heal = (phone: string): void => {
    away.delete(phone);
    for (const link of of(phone)) link.held = false;
  };
  const settle = async (): Promise<void> => {
    for (const phone of phones) heal(phone);
    await drain();
    // Longer than the longest wait between two attempts, and than the watchdog over silent sockets.
    for (let round = 0; round < 5; round++) {
      elapse(12_000);
      await drain();
    }
  };
  const breakAll = (): void => {
    for (const link of [...links]) link.break();
    links.clear();
  };

  return {
    storage,
    rooms: () => rooms,
    isCut: (phone) => away.has(phone),
    socketFor,
    cut: (phone) => {
      away.add(phone);
      for (const link of of(phone)) {
        link.break();
        links.delete(link);
      }
    },
    hold: (phone) => {
      for (const link of of(phone)) link.held = true;
    },
    heal,
    closeWith: (phone, code) => {
      for (const link of of(phone)) {
        link.server?.left();
        closeTo(link, code);
      }
    },
    elapse,
    deliverOne,
    drain,
    settle,
    restartServer: async () => {
      const stopping = rooms;
      rooms = newRooms();
      stopping.closeAll(1012);
      await storage.flush();
    },
    killServer: () => {
      storage.crash();
      rooms = newRooms();
      breakAll();
    },
  };
};

const closeTo = (link: Link, code: CloseCode): void => {
  link.toClient.push({ kind: "close", code, reason: closeReason(code)?.name ?? "" });
  link.toServer.length = 0;
  link.server = null;
};
