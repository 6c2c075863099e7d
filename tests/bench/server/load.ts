/**
 * Runs one workload against one peer and prints its figures as a JSON line:
 * `load.js <workload> <peer> <scratch folder with the boards> <seconds> <Node's options for our server>`.
 */
import { mkdirSync, readFileSync, rmSync } from "node:fs";
import { join as joinPath } from "node:path";
import { startPeer } from "./child-server.ts";
import { crash } from "./crash.ts";
import { fleet } from "./fleet.ts";
import { join } from "./join.ts";
import { live } from "./live.ts";
import { PEERS, type PeerName } from "./peers.ts";
import type { WorkloadRun } from "./workload.ts";

const WORKLOADS = { A: live, B: fleet, C: join, D: crash };

const [, , workload = "", name = "", scratch = "", seconds = "", ours = ""] = process.argv;
const peer = PEERS[name as PeerName];
const data = joinPath(scratch, `${workload}-${name}`);
const flags = name === "tightrow" ? ours.split(" ").filter((flag) => flag !== "") : [];
const run: WorkloadRun = {
  peer,
  start: () => {
    mkdirSync(data, { recursive: true });
    return startPeer({ peer, bundled: import.meta.dirname, data, flags });
  },
  reset: async () => rmSync(data, { recursive: true, force: true }),
  boardOf: (board) => new Uint8Array(readFileSync(joinPath(scratch, `${board}.bin`))),
  seconds: Number(seconds),
};
const figures = await WORKLOADS[workload as keyof typeof WORKLOADS](run);
process.stdout.write(`${JSON.stringify({ workload, peer: name, ...figures })}\n`);
process.exit(0);
