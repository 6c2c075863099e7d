/** The server's clock is set a year forward and back, as by a machine that wakes without a battery. */
import { expect, test } from "vitest";
import { createRateBound } from "#server/api/rate-bound.ts";
import { createSteadyClock } from "#server/steady-clock.ts";
import { call } from "#tests/support/api-client.ts";
import { createBoard, createLink, joinAs, refusal } from "#tests/support/boards.ts";
import { connectStock } from "#tests/support/stock-client.ts";
import { startTestServer } from "#tests/support/test-server.ts";

const MINUTE = 60_000;
const YEAR = 365 * 24 * 60 * MINUTE;

test("time that is measured moves on with the clock and never back", () => {
  let now = 5 * YEAR;
  const steady = createSteadyClock(() => now);
  expect(steady()).toBe(5 * YEAR);
  now += MINUTE;
  expect(steady()).toBe(5 * YEAR + MINUTE);
  now -= YEAR;
  expect(steady()).toBe(5 * YEAR + MINUTE);
  now += 1;
  expect(steady()).toBe(5 * YEAR + MINUTE + 1);
});

test("[SRV-3] nobody's minute lasts a year when the clock is set back, and a flood stays bounded", () => {
  let now = 5 * YEAR;
  const mayTry = createRateBound(3, () => now);
  const tries = (n: number): readonly boolean[] => Array.from({ length: n }, () => mayTry("192.0.2.1"));
  expect(tries(4)).toEqual([true, true, true, false]);
  now -= YEAR;
  expect(tries(1), "setting it back opens nothing").toEqual([false]);
  now += MINUTE;
  expect(tries(4)).toEqual([true, true, true, false]);
  now += YEAR;
  expect(tries(4)).toEqual([true, true, true, false]);
});

test("[SRV-2] [SYNC-1] devices go on through a clock set a year back and forth, and what had ended has ended again", async () => {
  const server = await startTestServer();
  const { origin, syncUrl } = server;
  const leader = await createBoard(origin);
  const [anneli, priya] = [await joinAs(origin, leader, "member"), await joinAs(origin, leader, "member")];
  const soon = Date.UTC(2031, 4, 7);
  const { secret } = await createLink(origin, leader, "member", { expiresAt: soon });
  const [left, right] = [anneli, priya].map(({ token }) => connectStock(syncUrl, leader.document, token));
  if (left === undefined || right === undefined) throw new Error("No devices");
  await Promise.all([left.synced, right.synced]);
  const steps = [YEAR, -YEAR, -YEAR, YEAR, 2 * 24 * 60 * MINUTE];
  for (const [n, step] of steps.entries()) {
    server.advance(step);
    left.set("intro", `left ${n}`);
    await right.sees("intro", `left ${n}`);
    right.set("ending", `right ${n}`);
    await left.sees("ending", `right ${n}`);
    await Promise.all([left.saved(), right.saved()]);
    expect((await call(origin, "GET /api/session", { bearer: anneli.token })).status).toBe(200);
    expect((await call(origin, "GET /api/devices", { bearer: leader.token })).status).toBe(200);
  }
  expect(await refusal(origin, "POST /api/join", { bearer: secret })).toMatchObject({
    status: 410,
    error: "link-expired",
  });
});
