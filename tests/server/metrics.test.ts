import { expect, test } from "vitest";
import { createMetricRegistry } from "#server/metrics/registry.ts";
import { createBoard } from "#tests/support/boards.ts";
import { connectStock } from "#tests/support/stock-client.ts";
import { startTestServer } from "#tests/support/test-server.ts";

// The format: https://prometheus.io/docs/instrumenting/exposition_formats/, text format 0.0.4.

test("a counter, a gauge and a histogram are written as the format wants them", () => {
  const registry = createMetricRegistry();
  const closes = registry.counter("closes_total", "Connections closed.", "code");
  registry.gauge("boards", "Boards.", () => 3);
  const flush = registry.histogram("flush_seconds", "One flush.", [0.1, 1]);
  closes.add(1, "4529");
  closes.add(2, 'a "quoted" \\ line\n');
  for (const seconds of [0.05, 0.1, 0.5, 7]) flush.observe(seconds);
  expect(registry.render()).toBe(
    [
      "# HELP closes_total Connections closed.",
      "# TYPE closes_total counter",
      'closes_total{code="4529"} 1',
      'closes_total{code="a \\"quoted\\" \\\\ line\\n"} 2',
      "# HELP boards Boards.",
      "# TYPE boards gauge",
      "boards 3",
      "# HELP flush_seconds One flush.",
      "# TYPE flush_seconds histogram",
      'flush_seconds_bucket{le="0.1"} 2',
      'flush_seconds_bucket{le="1"} 3',
      'flush_seconds_bucket{le="+Inf"} 4',
      "flush_seconds_sum 7.65",
      "flush_seconds_count 4",
      "",
    ].join("\n"),
  );
});

/** Value of a sample line; NaN when it is not there. */
const sample = (page: string, name: string): number =>
  Number(
    page
      .split("\n")
      .find((line) => line.startsWith(`${name} `))
      ?.split(" ")[1] ?? Number.NaN,
  );

test("[SRV-10] what happened on the server is on the page, and no board is", async () => {
  const server = await startTestServer();
  const leader = await createBoard(server.origin, "Six Spare Fuses");
  const phone = connectStock(server.syncUrl, leader.board, leader.token);
  await phone.synced;
  phone.set("intro", "noticed");
  await phone.saved();
  await fetch(`${server.origin}/api/nothing-here`);
  const answer = await fetch(`${server.origin}/metrics`);
  const page = await answer.text();
  expect(answer.headers.get("content-type")).toBe("text/plain; version=0.0.4; charset=utf-8");
  expect(answer.headers.get("x-content-type-options")).toBe("nosniff");
  for (const [name, value] of [
    ["tightrow_boards", 1],
    ["tightrow_connections", 1],
    ["tightrow_documents_in_memory", 1],
    ["tightrow_rows_total", 1],
    ["tightrow_acknowledgement_seconds_count", 1],
    ["tightrow_storing", 1],
    ['tightrow_refusals_total{reason="not-found"}', 1],
  ] as const)
    expect([name, sample(page, name)]).toEqual([name, value]);
  expect(sample(page, "tightrow_flush_seconds_count")).toBeGreaterThan(0);
  expect(sample(page, "tightrow_document_bytes")).toBeGreaterThan(0);
  expect(sample(page, "process_resident_memory_bytes")).toBeGreaterThan(1_000_000);
  for (const secret of [leader.board, leader.token, "Six Spare Fuses"]) expect(page).not.toContain(secret);
});

test("[SRV-10] only this machine and the holder of the token read the page", async () => {
  const server = await startTestServer({ settings: { metricsToken: "open-sesame" } });
  const status = async (headers: Record<string, string>): Promise<number> =>
    (await fetch(`${server.origin}/metrics`, { headers })).status;
  expect(await status({})).toBe(200);
  const elsewhere = { "X-Forwarded-For": "203.0.113.9" };
  expect(await status(elsewhere)).toBe(404);
  expect(await status({ ...elsewhere, Authorization: "Bearer open-says-me" })).toBe(404);
  expect(await status({ ...elsewhere, Authorization: "Bearer open-sesame" })).toBe(200);
});

test("[SRV-10] without a token nothing opens the page from elsewhere", async () => {
  const server = await startTestServer();
  const headers = { Forwarded: "for=203.0.113.9", Authorization: "Bearer x" };
  expect((await fetch(`${server.origin}/metrics`, { headers })).status).toBe(404);
});
