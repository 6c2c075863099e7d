/**
 * Our server beside others, with one load for all, in one run. `node tests/run.mjs tests/bench/server/server.ts` prints
 * one JSON line per workload and peer.
 * Options: `--only A,C` some workloads; `--peers floor,tightrow` some peers; `--seconds 10` shorter ticking;
 * `--flags=--cpu-prof` Node's own options for our server.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { BOARDS } from "./boards.ts";
import { bundlePrograms } from "./bundle.ts";
import { installPeers } from "./install-peers.ts";
import { PEER_NAMES, PEERS } from "./peers.ts";

const { values } = parseArgs({
  args: process.argv.slice(2),
  options: {
    only: { type: "string", default: "A,B,C,D" },
    peers: { type: "string", default: PEER_NAMES.join(",") },
    seconds: { type: "string", default: "30" },
    flags: { type: "string", default: "" },
  },
});

const programs = await bundlePrograms();
const asked = values.peers.split(",");
const installed = installPeers();
const peers = installed.filter((name) => asked.includes(name));
for (const peer of PEER_NAMES)
  if (!installed.includes(peer)) process.stdout.write(`${JSON.stringify({ peer, missing: true })}\n`);
const scratch = mkdtempSync(join(tmpdir(), "tightrow-bench-"));
try {
  for (const [name, { build }] of Object.entries(BOARDS))
    writeFileSync(join(scratch, `${name}.bin`), build());
  for (const workload of values.only.split(",")) {
    for (const name of peers) {
      // A relay keeps nothing that could be joined or lost.
      if (!PEERS[name].dialect.keepsDocuments && (workload === "C" || workload === "D")) continue;
      const load = spawnSync(
        process.execPath,
        [join(programs, "load.js"), workload, name, scratch, values.seconds, values.flags],
        { stdio: ["ignore", "pipe", "inherit"] },
      );
      if (load.status !== 0) console.log(`${workload} failed against ${PEERS[name].title}.`);
      process.stdout.write(load.stdout);
    }
  }
} finally {
  for (const folder of [scratch, programs]) rmSync(folder, { recursive: true, force: true });
}
process.exit(0);
