/**
 * Everything `npm test` stands for, in one run: types, lint, unit, property, network, reference and server tests,
 * the build, and the browser tests. Ends with a line "N passed, N failed"; a skipped test counts as failed.
 */
import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, rmSync } from "node:fs";

const REPORTS = "node_modules/.cache/reports";
const totals = { passed: 0, failed: 0 };

const run = (title, command, args) => {
  process.stdout.write(`\n== ${title}\n`);
  const started = Date.now();
  const { status, error } = spawnSync(command, args, { stdio: "inherit", env: process.env });
  if (error) process.stdout.write(`${error.message}\n`);
  process.stdout.write(
    `== ${title}: ${status === 0 ? "ok" : "FAILED"} (${((Date.now() - started) / 1000).toFixed(1)} s)\n`,
  );
  return status === 0;
};

const step = (title, command, args) => {
  const ok = run(title, command, args);
  totals[ok ? "passed" : "failed"] += 1;
  return ok;
};

/** Runs one Vitest configuration and adds its tests to the totals. A run without a readable report failed. */
const suite = (title, name) => {
  const report = `${REPORTS}/${name}.json`;
  rmSync(report, { force: true });
  const args = ["vitest", "run", "--config", `tests/vitest${name === "fast" ? "" : `.${name}`}.config.ts`];
  const ok = run(title, "npx", [
    ...args,
    "--reporter=default",
    "--reporter=json",
    `--outputFile.json=${report}`,
  ]);
  let counted;
  try {
    counted = JSON.parse(readFileSync(report, "utf8"));
  } catch {
    totals.failed += 1;
    return;
  }
  const skipped = counted.numPendingTests + counted.numTodoTests;
  const failed = counted.numFailedTests + skipped;
  if (skipped > 0) process.stdout.write(`${skipped} tests were skipped; that counts as failed.\n`);
  totals.passed += counted.numPassedTests;
  // A suite that broke outside its tests (an import, a hook) fails the run without a failed test.
  totals.failed += failed === 0 && !ok ? 1 : failed;
  if (counted.numPassedTests === 0) totals.failed += 1;
};

mkdirSync(REPORTS, { recursive: true });
step("Types", "npx", ["tsc", "-b"]);
step("Format, lint and import rules", "npx", ["biome", "check", "."]);
suite("Unit, property, network, reference and server tests", "fast");
if (step("Build", "npm", ["run", "--silent", "build"])) suite("Browser tests", "e2e");
process.stdout.write(`\n${totals.passed} passed, ${totals.failed} failed\n`);
process.exit(totals.failed === 0 ? 0 : 1);
