/**
 * The built client on the real server in headless Chromium, with a processor four times slower: a board of 60 songs ×
 * 8 chairs × 5,000 details. `node tests/run.mjs tests/bench/browser.ts` prints one JSON line per figure; times are ms.
 */
import { rm } from "node:fs/promises";
import type { Browser, Page } from "playwright-core";
import * as Y from "yjs";
import type { KnownBoard } from "#client/sync/device.ts";
import type { Level } from "#shared/board/status.ts";
import { markDetail } from "#shared/commands/mark-detail.ts";
import type { BoardGrant } from "#shared/protocol/api.ts";
import { call } from "#tests/support/api-client.ts";
import { joinAs, untilSaid, untilShown } from "#tests/support/app.ts";
import { type App, buildApp, newBuildFolder, startApp } from "#tests/support/app-server.ts";
import { LAPTOP, launchBrowser, openPage, PHONE } from "#tests/support/browser.ts";
import { weightOf } from "#tests/support/bundle-sizes.ts";
import { joinOtherDevice, type OtherDevice } from "#tests/support/other-device.ts";
import { cardOf, chairOf, FULL_SIZE, memberOf, seedFull, songOf } from "#tests/support/seed-full.ts";
import { openWireMeter, SLOW_4G, type WireMeter } from "#tests/support/wire-meter.ts";
import { installProbe, makePhone, percentile, untilPainted, untilStill } from "./probes.ts";

/** The player whose phone it is: chair 3, drums. */
const CHAIR = 3;
const ME = memberOf(CHAIR);
const CHANGES = 40;
const CATCH_UP = 200;

const report = (figure: string, values: object): void => console.log(JSON.stringify({ figure, ...values }));

interface Bench {
  readonly app: App;
  readonly meter: WireMeter;
  readonly browser: Browser;
  readonly client: string;
  readonly leader: BoardGrant;
  readonly other: OtherDevice;
}

/** Details of the player's own part, in one song. */
const cardsOf = (song: number, chair: number): readonly number[] => {
  const parts = FULL_SIZE.songs * FULL_SIZE.chairs;
  const cards: number[] = [];
  for (let n = song * FULL_SIZE.chairs + chair; n < FULL_SIZE.cards; n += parts) cards.push(n);
  return cards;
};

const openDevice = async (
  { browser, meter, leader }: Bench,
  size: typeof PHONE | typeof LAPTOP,
  path: string,
  setUp: (page: Page) => Promise<void>,
) => {
  const known: KnownBoard = await joinAs(meter.address, leader, "leader", ME);
  const opened = await openPage(browser, { ...size, reducedMotion: true });
  await opened.context.addInitScript((entry) => {
    if (localStorage.getItem("tightrow.boards") === null)
      localStorage.setItem("tightrow.boards", JSON.stringify([entry]));
  }, known);
  await installProbe(opened.context);
  await setUp(opened.page);
  await opened.page.goto(`${meter.address}/#/b/${leader.board}${path}`);
  return opened;
};

const firstPaint = (page: Page): Promise<number> =>
  page.evaluate(() => Math.round(performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? 0));
const tickable = async (page: Page): Promise<number> => {
  await page.waitForFunction(() => window.probe.tickable > 0, undefined, { polling: 50, timeout: 120_000 });
  return page.evaluate(() => Math.round(window.probe.tickable));
};

const measureSizes = ({ client }: Bench): void => {
  const phone = weightOf(client, "my-parts-route");
  report("phone bundle, kB gzip", { js: phone.js, css: phone.css, files: phone.files.length });
  const more = Object.fromEntries(
    ["board-route", "score-route", "song-route", "part-route", "songs-screen", "gigs-screen", "gig-route"]
      .concat(["people-screen", "settings-screen", "start-route", "room-route"])
      .map((screen) => [screen, weightOf(client, screen, phone.files).js]),
  );
  report("other screens, kB gzip more", more);
};

const measureColdOpen = async (bench: Bench): Promise<void> => {
  const runs: { paint: number; tick: number; bytes: number }[] = [];
  for (let run = 0; run < 3; run++) {
    bench.meter.slow(SLOW_4G);
    bench.meter.reset();
    const { page, context } = await openDevice(bench, PHONE, "/parts", makePhone);
    const tick = await tickable(page);
    runs.push({ paint: await firstPaint(page), tick, bytes: bench.meter.bytes() });
    bench.meter.slow(null);
    await context.close();
  }
  report("cold open on slow 4G, 4x", {
    firstPaint: percentile(
      runs.map(({ paint }) => paint),
      0.5,
    ),
    firstTickable: percentile(
      runs.map(({ tick }) => tick),
      0.5,
    ),
    runs,
  });
};

const measureReopen = async (bench: Bench): Promise<void> => {
  const { page, context } = await openDevice(bench, PHONE, "/parts", async () => {});
  await page.evaluate(async () => (await navigator.serviceWorker.ready).active?.state);
  await untilSaid(page, "all saved");
  await tickable(page);
  await untilStill(page);

  bench.meter.reset();
  await page.reload();
  await untilShown(page);
  await untilSaid(page, "all saved");
  await untilStill(page);
  report("bytes on the wire when nothing is new", { bytes: bench.meter.bytes() });

  await makePhone(page);
  await context.setOffline(true);
  const runs: { paint: number; tick: number }[] = [];
  for (let run = 0; run < 5; run++) {
    await page.reload();
    const tick = await tickable(page);
    runs.push({ paint: await firstPaint(page), tick });
  }
  report("reopen offline, 4x", {
    firstPaint: percentile(
      runs.map(({ paint }) => paint),
      0.5,
    ),
    firstTickable: percentile(
      runs.map(({ tick }) => tick),
      0.5,
    ),
    runs,
  });
  await context.close();
};

/** Marks a detail of a player from another device with a level it does not have. */
const markAway = ({ other }: Bench, card: number, song: number): void => {
  const now = other.board().songs.get(songOf(song))?.statuses.get(cardOf(card))?.get(ME)?.level;
  other.run(markDetail, { card: cardOf(card), member: ME, level: now === 1 ? 2 : 1 });
};

const measurePhone = async (bench: Bench): Promise<void> => {
  const { page, context } = await openDevice(bench, PHONE, "/parts", async () => {});
  await tickable(page);
  await untilSaid(page, "all saved");
  await untilStill(page);
  report("phone DOM with a song open", {
    nodes: await page.evaluate(() => document.querySelectorAll("body *").length),
  });
  await makePhone(page);

  const open = page
    .locator("li[data-song]")
    .filter({ has: page.locator("details[open]") })
    .first();
  const song = Number((await open.getAttribute("data-song"))?.replace("song-", ""));
  const inSight = new Set(
    await open
      .locator("li[data-card]")
      .evaluateAll((rows) => rows.map((row) => row.getAttribute("data-card"))),
  );
  const shown = cardsOf(song, CHAIR).filter((n) => inSight.has(cardOf(n)));
  const remote: number[] = [];
  for (let round = 0; remote.length < CHANGES; round++) {
    const n = shown[round % shown.length] ?? 0;
    remote.push(await untilPainted(page, `li[data-card="${cardOf(n)}"]`, () => markAway(bench, n, song)));
  }
  report("remote change to paint, phone, 4x", {
    p50: percentile(remote, 0.5),
    p95: percentile(remote, 0.95),
    changes: remote.length,
  });

  await page.evaluate(() => window.probe.taps.clear());
  let taps = 0;
  for (const at of [0, 1, 2, 3, 4, 5, 6, 7]) {
    if (at > 0) await page.locator("li[data-song] summary").nth(at).click();
    const buttons = page.locator("li[data-card]").getByRole("button", { name: /(not started|noticed)$/ });
    for (let more = Math.min(5, await buttons.count()); more > 0; more--) {
      await buttons.first().tap();
      taps += 1;
    }
  }
  const durations = await page.evaluate(() => [...window.probe.taps.values()]);
  report("tick to paint, phone, 4x", {
    p50: percentile(durations, 0.5),
    p95: percentile(durations, 0.95),
    taps,
  });
  await measureCatchUp(bench, page, "phone");
  await context.close();
};

/** Cuts the page off, lets 200 marks happen elsewhere, and times from the message that brings them to the last paint. */
const measureCatchUp = async (bench: Bench, page: Page, where: string): Promise<void> => {
  await untilSaid(page, "all saved");
  await page.context().setOffline(true);
  await untilSaid(page, "no signal");
  for (let n = 0; n < CATCH_UP; n++) {
    const card = (n * 37) % FULL_SIZE.cards;
    const chair = card % FULL_SIZE.chairs;
    bench.other.run(markDetail, {
      card: cardOf(card),
      member: memberOf(chair),
      level: ((n * 7) % 4) as Level,
    });
  }
  await bench.other.saved();
  await untilStill(page);
  await page.evaluate(() => {
    window.probe.messages.length = 0;
    window.probe.paints.length = 0;
  });
  await page.context().setOffline(false);
  await page.waitForFunction(() => window.probe.messages.some(([, bytes]) => bytes > 2000), undefined, {
    polling: 50,
  });
  await untilStill(page);
  const took = await page.evaluate(() => {
    const [arrived = 0] = window.probe.messages.find(([, bytes]) => bytes > 2000) ?? [];
    const after = window.probe.paints.filter((at) => at > arrived);
    return { first: Math.round((after[0] ?? 0) - arrived), last: Math.round((after.at(-1) ?? 0) - arrived) };
  });
  report(`catch-up of ${CATCH_UP} changes, ${where}, 4x`, took);
};

const measureBoard = async (bench: Bench): Promise<void> => {
  const { page, context } = await openDevice(bench, LAPTOP, "/board", async () => {});
  await untilShown(page);
  await page.getByRole("grid").waitFor();
  await untilSaid(page, "all saved");
  await untilStill(page);
  await makePhone(page);
  report("board DOM", { nodes: await page.evaluate(() => document.querySelectorAll("body *").length) });
  const remote: number[] = [];
  for (let round = 0; round < CHANGES; round++) {
    const song = (round * 7) % FULL_SIZE.songs;
    const [must = 0] = cardsOf(song, CHAIR);
    const cell = `[data-song="${songOf(song)}"] [data-column="${chairOf(CHAIR)}"]`;
    remote.push(await untilPainted(page, cell, () => markAway(bench, must, song)));
  }
  report("remote change to paint, board, 4x", {
    p50: percentile(remote, 0.5),
    p95: percentile(remote, 0.95),
    changes: remote.length,
  });
  await measureCatchUp(bench, page, "board");
  await context.close();
};

const folder = await newBuildFolder();
const client = await buildApp(folder);
const app = await startApp(client, { TIGHTROW_DEMO: "off" });
const meter = await openWireMeter(Number(new URL(app.address).port));
const browser = await launchBrowser();
try {
  const leader = (
    await call<BoardGrant>(app.address, "POST /api/boards", { body: { name: "Six Spare Fuses" } })
  ).body;
  const other = await joinOtherDevice(app.address, leader, memberOf(0));
  const seed = new Y.Doc();
  seedFull(seed, Date.now());
  Y.applyUpdate(other.ydoc, Y.encodeStateAsUpdate(seed));
  const bench: Bench = { app, meter, browser, client: client.client, leader, other };
  report("browser", { version: browser.version(), documentBytes: Y.encodeStateAsUpdate(other.ydoc).length });
  measureSizes(bench);
  await measureColdOpen(bench);
  await measureReopen(bench);
  await measurePhone(bench);
  await measureBoard(bench);
  other.close();
} finally {
  await browser.close();
  meter.close();
  await app.close();
  await rm(folder, { recursive: true, force: true });
}
process.exit(0);
