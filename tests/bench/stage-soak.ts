/**
 * Two hours on stage, without a signal and with keys alone: `node tests/run.mjs tests/bench/stage-soak.ts [minutes]`.
 * The page's clock is stepped, so it takes a few minutes. Prints a JSON line every ten simulated minutes and a verdict:
 * nothing moved, and memory and nodes ended where they were once the page was warm.
 */
import { resolve } from "node:path";
import type { CDPSession, Page } from "playwright-core";
import { seeded } from "#shared/lib/seeded.ts";
import { launchBrowser, openPage, PHONE } from "#tests/support/browser.ts";
import { buildHarness } from "#tests/support/harness/build-harness.ts";
import { watchShifts } from "#tests/support/layout-shifts.ts";
import { serveFolder } from "#tests/support/static-server.ts";

const GIG = "demo-gig-dance";
const KEYS_A_MINUTE = 20;
const SAMPLE_MINUTES = 10;
const WARM_UP_MINUTES = 20;
/** How far above their level after warming up they may end. */
const SLACK = { heapMb: 1.5, nodes: 200, listeners: 20 };
const KEYS = ["PageDown", "PageDown", "PageDown", " ", "ArrowRight", "PageUp", "f", "p"] as const;

interface Sample {
  readonly minute: number;
  readonly presses: number;
  readonly changes: number;
  readonly heapMb: number;
  readonly nodes: number;
  readonly listeners: number;
  readonly shifts: number;
}

const minutes = Number(process.argv[2] ?? 120);
const random = seeded(7);
const pick = <T>(of: readonly T[]): T => of[Math.floor(random() * of.length)] as T;

const changeByLeader = (page: Page, minute: number): Promise<void> =>
  page.evaluate(
    ([gig, at]) => {
      const { store, remote } = window.harness;
      const songs = store.board().gigs.find(({ id }) => id === gig)?.songs ?? [];
      const song = songs[Number(at) % songs.length]?.song;
      if (Number(at) % 2 === 0) remote("moveInGig", { gig, song, index: (Number(at) * 7) % songs.length });
      else remote("tuneForGig", { gig, song, tempo: 80 + (Number(at) % 60) });
    },
    [GIG, minute] as const,
  );

// The page's clock and its frames are stepped, so nothing is waited for in the page.
const shiftsSoFar = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => (window as unknown as { readonly shifts: readonly string[] }).shifts);

const measure = async (cdp: CDPSession): Promise<Pick<Sample, "heapMb" | "nodes" | "listeners">> => {
  await cdp.send("HeapProfiler.collectGarbage");
  const { metrics } = await cdp.send("Performance.getMetrics");
  const of = (name: string): number => metrics.find((metric) => metric.name === name)?.value ?? Number.NaN;
  return {
    heapMb: Math.round(of("JSHeapUsedSize") / 10_000) / 100,
    nodes: of("Nodes"),
    listeners: of("JSEventListeners"),
  };
};

const folder = resolve("node_modules/.cache/stage-soak");
await buildHarness(folder);
const server = await serveFolder(folder);
const browser = await launchBrowser();
const { page, context, complaints } = await openPage(browser, PHONE);
const samples: Sample[] = [];
try {
  await page.clock.install();
  await page.goto(`${server.address}/?as=lucia&role=member#/b/demo/gigs/${GIG}/stand`);
  await page.getByRole("heading", { name: "Ready" }).waitFor();
  await context.setOffline(true);
  await watchShifts(page);
  const cdp = await context.newCDPSession(page);
  await cdp.send("Performance.enable");
  let presses = 0;
  let changes = 0;
  for (let minute = 1; minute <= minutes; minute++) {
    for (let press = 0; press < KEYS_A_MINUTE; press++) {
      await page.keyboard.press(pick(KEYS));
      presses += 1;
      await page.clock.fastForward(60_000 / KEYS_A_MINUTE);
    }
    if (minute % 5 === 0) {
      await changeByLeader(page, minute);
      changes += 1;
    }
    if (minute % 15 === 0) await page.keyboard.press("t");
    // Past the last song the night begins again, so that songs change all the time.
    if (await page.getByRole("heading", { name: "That was the last song" }).isVisible())
      for (let back = 0; back < 30; back++) await page.keyboard.press("PageUp");
    if (minute % SAMPLE_MINUTES !== 0) continue;
    const shifts = (await shiftsSoFar(page)).length;
    const sample = { minute, presses, changes, ...(await measure(cdp)), shifts };
    samples.push(sample);
    console.log(JSON.stringify(sample));
  }
  const shifted = await shiftsSoFar(page);
  // What finds nothing must be able to find something.
  await page.evaluate(() => {
    const stand = document.querySelector<HTMLElement>(".stand");
    if (stand !== null) stand.style.top = "60px";
  });
  const deadline = performance.now() + 5_000;
  while ((await shiftsSoFar(page)).length === shifted.length)
    if (performance.now() > deadline) throw new Error("A planted shift was not seen.");
  const warm = samples.find(({ minute }) => minute >= WARM_UP_MINUTES) ?? samples[0];
  const last = samples.at(-1);
  if (warm === undefined || last === undefined) throw new Error(`Give at least ${SAMPLE_MINUTES} minutes.`);
  const grown = {
    heapMb: Math.round((last.heapMb - warm.heapMb) * 100) / 100,
    nodes: last.nodes - warm.nodes,
    listeners: last.listeners - warm.listeners,
  };
  const passed =
    shifted.length === 0 &&
    complaints.length === 0 &&
    grown.heapMb <= SLACK.heapMb &&
    grown.nodes <= SLACK.nodes &&
    grown.listeners <= SLACK.listeners;
  console.log(JSON.stringify({ passed, grown, shifted: [...new Set(shifted)].slice(0, 5), complaints }));
  process.exitCode = passed ? 0 : 1;
} finally {
  await browser.close();
  await server.close();
}
