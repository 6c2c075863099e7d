/** The servers that are measured side by side. */
import { join, resolve } from "node:path";
import { type Dialect, FLOOR, NAMED, PLAIN, TIGHTROW } from "./dialects.ts";

export const PEER_NAMES = ["floor", "stock", "hocuspocus", "tightrow"] as const;
export type PeerName = (typeof PEER_NAMES)[number];

export interface Peer {
  /** As tables call it. */
  readonly title: string;
  readonly dialect: Dialect;
  /** True for a program of others, which is installed when it is asked for. */
  readonly foreign: boolean;
  /** Path, given the folder of our bundled programs. It finds its port in PORT, its folder in DATA and what `env` adds. */
  readonly program: (bundled: string) => string;
  readonly env?: (data: string) => Readonly<Record<string, string>>;
}

/** Where a peer of others is installed, below the project's own packages. */
export const installedIn = (name: PeerName): string => resolve("node_modules/.cache/bench-peers", name);

export const PEERS: Readonly<Record<PeerName, Peer>> = {
  floor: {
    title: "raw floor",
    dialect: FLOOR,
    foreign: false,
    program: (bundled) => join(bundled, "serve-floor.js"),
  },
  stock: {
    title: "@y/websocket-server 0.1.1 + y-leveldb",
    dialect: PLAIN,
    foreign: true,
    program: () => join(installedIn("stock"), "node_modules/@y/websocket-server/src/server.js"),
    env: (data) => ({ HOST: "127.0.0.1", YPERSISTENCE: data }),
  },
  hocuspocus: {
    title: "Hocuspocus 4.7 + SQLite",
    dialect: NAMED,
    foreign: true,
    program: () => join(installedIn("hocuspocus"), "server.mjs"),
  },
  tightrow: {
    title: "Tightrow",
    dialect: TIGHTROW,
    foreign: false,
    program: (bundled) => join(bundled, "serve-tightrow.js"),
  },
};
