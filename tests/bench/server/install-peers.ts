/** Programs of others are no dependencies of the project: they are installed only where they are to be measured. */
import { spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, readFileSync, rmSync } from "node:fs";
import { join, resolve } from "node:path";
import { installedIn, PEER_NAMES, PEERS, type PeerName } from "./peers.ts";

const KEPT = resolve("tests/bench/peers");
const LOCK = "package-lock.json";
const MARK = "installed.json";

/** The peers that can be measured: ours, and those of others that are installed or could be now. */
export const installPeers = (): readonly PeerName[] =>
  PEER_NAMES.filter((name) => !PEERS[name].foreign || install(name));

const install = (name: PeerName): boolean => {
  const folder = installedIn(name);
  const kept = join(KEPT, name);
  const lock = readFileSync(join(kept, LOCK), "utf8");
  const mark = join(folder, MARK);
  mkdirSync(folder, { recursive: true });
  const upToDate = existsSync(mark) && readFileSync(mark, "utf8") === lock;
  if (!upToDate) rmSync(mark, { force: true });
  cpSync(kept, folder, { recursive: true });
  if (upToDate) return true;
  console.log(`Installing ${PEERS[name].title} …`);
  const { status } = spawnSync("npm", ["ci", "--no-audit", "--no-fund", "--loglevel=error"], {
    cwd: folder,
    stdio: ["ignore", "ignore", "inherit"],
  });
  if (status !== 0) {
    console.log(`${PEERS[name].title} could not be installed; it is left out.`);
    return false;
  }
  cpSync(join(kept, LOCK), mark);
  return true;
};
