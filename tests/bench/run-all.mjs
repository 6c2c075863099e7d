/**
 * `npm run bench`: readiness, live ticks against the raw floor, and the client in a browser. Writes every figure beside
 * its budget, with machine and date, to tests/bench/RESULTS.md. Run it on a quiet machine.
 */
import { spawnSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { cpus, totalmem } from "node:os";
import { setTimeout as wait } from "node:timers/promises";
import { fileURLToPath } from "node:url";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));

/** Runs one benchmark and gives the JSON lines it printed. */
const run = (file, ...args) => {
  console.log(`== ${file}`);
  const { stdout, status } = spawnSync(process.execPath, ["tests/run.mjs", `tests/bench/${file}`, ...args], {
    cwd: ROOT,
    stdio: ["ignore", "pipe", "inherit"],
    maxBuffer: 1 << 26,
  });
  const text = stdout.toString();
  process.stdout.write(text);
  if (status !== 0) throw new Error(`${file} ended with ${status}.`);
  return text
    .split("\n")
    .filter((line) => line.startsWith("{"))
    .map((line) => JSON.parse(line));
};

const ms = (value) => `${Number(value.toPrecision(3))} ms`;
const kB = (value) => `${value} kB`;
const rows = [];

/** Adds one figure; `reached` is its value against the budget, both in the budget's unit. */
const figure = (what, value, budget, write = String) => {
  const reached = value <= budget;
  rows.push(`| ${what} | ${write(value)} | ≤ ${write(budget)} | ${reached ? "yes" : "**no**"} |`);
};

/** How much (%) of all cores somebody else uses now, over two seconds. */
const othersBusy = async () => {
  const sums = () =>
    cpus().reduce(
      (sum, { times }) => {
        const all = Object.values(times).reduce((a, b) => a + b, 0);
        return { idle: sum.idle + times.idle, all: sum.all + all };
      },
      { idle: 0, all: 0 },
    );
  const before = sums();
  await wait(2000);
  const after = sums();
  return Math.round(100 * (1 - (after.idle - before.idle) / (after.all - before.all)));
};

const busyBefore = await othersBusy();
const readiness = run("readiness.ts");
const live = run("live.ts");
const browser = run("browser.ts");
const busy = Math.max(busyBefore, await othersBusy());
const page = (name) => {
  const found = browser.find((line) => line.figure === name);
  if (found === undefined) throw new Error(`No figure called ${name}.`);
  return found;
};

const [full, ...grown] = readiness;
figure(
  "readiness of 60 songs × 8 chairs × 10 details × 10,000 takes, from scratch, p50",
  full.fromScratch.p50,
  50,
  ms,
);
figure("the same after one tick, p95", full.oneTick.p95, 1, ms);
const floor = live.find(({ peer }) => peer === "floor");
const tightrow = live.find(({ peer }) => peer === "tightrow");
figure("live tick, 6 clients, 10 ticks/s, command to the other document, p99", tightrow.p99, 12, ms);

const bundle = page("phone bundle, kB gzip");
figure("phone: JavaScript until a detail can be marked, gzip", bundle.js, 120, kB);
figure("phone: CSS, gzip", bundle.css, 15, kB);
const more = Object.entries(page("other screens, kB gzip more")).filter(([name]) => name !== "figure");
const [heaviest, heaviestSize] = more.sort(([, a], [, b]) => b - a)[0];
figure(`heaviest other screen (${heaviest}), gzip, on top`, heaviestSize, 60, kB);
figure("phone: nodes with a song open", page("phone DOM with a song open").nodes, 1200);
const cold = page("cold open on slow 4G, 4x");
figure("phone: cold open on slow 4G, first paint", cold.firstPaint, 1200, ms);
figure("phone: cold open on slow 4G, first detail that can be marked", cold.firstTickable, 2500, ms);
const reopen = page("reopen offline, 4x");
figure("phone: reopen without signal, first paint", reopen.firstPaint, 300, ms);
figure("phone: reopen without signal, first detail that can be marked", reopen.firstTickable, 800, ms);
const tick = page("tick to paint, phone, 4x");
figure("phone: tick to paint, p50", tick.p50, 48, ms);
figure("phone: tick to paint, p95", tick.p95, 120, ms);
figure("phone: remote change to paint, p95", page("remote change to paint, phone, 4x").p95, 60, ms);
figure("board: remote change to paint, p95", page("remote change to paint, board, 4x").p95, 120, ms);
figure("phone: 200 changes at once", page("catch-up of 200 changes, phone, 4x").last, 100, ms);
figure("board: 200 changes at once", page("catch-up of 200 changes, board, 4x").last, 300, ms);
const quiet = page("bytes on the wire when nothing is new").bytes;
figure("bytes on the wire when nothing is new", quiet, 5000, (bytes) => `${bytes} B`);

const growth = grown.map(
  ({ songs, takes, fromScratch, oneTick }) =>
    `| ${songs} songs, ${takes.toLocaleString("en-GB")} takes | ${ms(fromScratch.p50)} / ${ms(fromScratch.p95)} | ${ms(oneTick.p95)} |`,
);
const cpu = /model name\s*: (.*)/.exec(readFileSync("/proc/cpuinfo", "utf8"))?.[1] ?? "unknown";
const version = page("browser").version;

writeFileSync(
  new URL("RESULTS.md", import.meta.url),
  `# Benchmark

Written by \`npm run bench\` on ${new Date().toISOString().slice(0, 10)}.

- Machine: ${cpus().length} cores, ${cpu}, ${(totalmem() / 2 ** 30).toFixed(0)} GiB, others used ${busy} % of them before or after${
    busy > 10 ? ": times are above what it can do" : ""
  }
- Node ${process.version}, Chromium ${version} (headless, no GPU)
- Board in the browser: 60 songs × 8 chairs × 5,000 details, 1,200 takes; a document of ${(
    page("browser").documentBytes / 1e6
  ).toFixed(1)} MB (about a tenth on the wire)
- Browser times are with a processor made four times slower. Slow 4G holds the bytes up on the wire: 1.6 Mbit/s down,
  750 kbit/s up, 150 ms round trip. A tick runs from the tap to the next paint (Event Timing, in steps of 8 ms), a
  remote change from the other device's command, through the server's disk, to the paint, 200 changes from the message
  that brings them to the paint.

| figure | now | budget | reached |
|---|---|---|---|
${rows.join("\n")}

Live ticks against the raw floor (frames passed on without documents and disk, same run): p50 ${tightrow.p50} ms
against ${floor.p50} ms, p99 ${tightrow.p99} ms against ${floor.p99} ms; ${tightrow.seen} of ${tightrow.expected} ticks
seen; server ${tightrow.serverCpuPercent} % of one core.

Readiness at other sizes (8 chairs, 10 details a part):

| size | from scratch, p50 / p95 | one tick, p95 |
|---|---|---|
| 60 songs, 10,000 takes | ${ms(full.fromScratch.p50)} / ${ms(full.fromScratch.p95)} | ${ms(full.oneTick.p95)} |
${growth.join("\n")}
`,
);
const missed = rows.filter((row) => row.includes("**no**")).length;
console.log(`${rows.length - missed} of ${rows.length} budgets reached; see tests/bench/RESULTS.md.`);
