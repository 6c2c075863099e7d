import { type AddressInfo, connect, createServer, type Socket } from "node:net";

/** How a network holds bytes up. */
export interface Line {
  /** From one end to the other and back, ms; a connection costs one of them before its first byte. */
  readonly roundTrip: number;
  /** Bytes per second, shared by all connections. */
  readonly down: number;
  readonly up: number;
}

/** "Slow 4G" as web performance tools define it on the wire: 1.6 Mbit/s down, 750 kbit/s up, 150 ms round trip. */
export const SLOW_4G: Line = { roundTrip: 150, down: 1_600_000 / 8, up: 750_000 / 8 };

/** Passes every byte on to a local port and counts it: what a phone pays for, headers and sockets included. */
export interface WireMeter {
  /** `http://localhost:port` of the way through the meter. */
  readonly address: string;
  /** Bytes in both directions since the last `reset`. */
  readonly bytes: () => number;
  readonly reset: () => void;
  /** Holds bytes up from now on as a line does; null = not at all. */
  readonly slow: (line: Line | null) => void;
  readonly close: () => void;
}

/** One direction of a line: bytes leave in order, no faster than it carries. */
const createLane = () => {
  let free = 0;
  return {
    /** Waits (ms) until `bytes` handed over now have arrived. */
    arrival: (bytes: number, perSecond: number, delay: number): number => {
      const now = performance.now();
      free = Math.max(free, now) + (bytes / perSecond) * 1000;
      return free - now + delay;
    },
  };
};

/** Opens a meter before the server on `port` of this machine. */
export const openWireMeter = async (port: number): Promise<WireMeter> => {
  let bytes = 0;
  let line: Line | null = null;
  const lanes = { down: createLane(), up: createLane() };
  const sockets = new Set<Socket>();
  const pass = (from: Socket, to: Socket, way: "down" | "up"): void => {
    sockets.add(from);
    let first = true;
    from.on("data", (chunk: Buffer) => {
      bytes += chunk.length;
      if (line === null) return void to.write(chunk);
      const shake = first && way === "up" ? line.roundTrip : 0;
      first = false;
      const wait = lanes[way].arrival(chunk.length, line[way], line.roundTrip / 2 + shake);
      setTimeout(() => to.write(chunk), wait);
    });
    from.on("close", () => {
      sockets.delete(from);
      to.destroy();
    });
    from.on("error", () => to.destroy());
  };
  const server = createServer((here) => {
    const there = connect(port, "localhost");
    here.setNoDelay(true);
    there.setNoDelay(true);
    pass(here, there, "up");
    pass(there, here, "down");
  });
  await new Promise<void>((done) => server.listen(0, "localhost", done));
  return {
    address: `http://localhost:${(server.address() as AddressInfo).port}`,
    bytes: () => bytes,
    reset: () => {
      bytes = 0;
    },
    slow: (chosen) => {
      line = chosen;
    },
    close: () => {
      for (const socket of sockets) socket.destroy();
      server.close();
    },
  };
};
