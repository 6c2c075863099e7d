/**
 * What is supposed about a gig and its running order, in the built client on the real server in headless Chromium: a
 * board of 60 songs × 8 chairs × 5,000 details, a night of every song in three blocks, a processor four times slower, and
 * beside it the same page at full speed and the formulas alone. `node tests/run.mjs tests/bench/gig.ts` prints one JSON
 * line per figure; times are ms.
 */
import { rm } from "node:fs/promises";
import { resolve } from "node:path";
import type { Browser, Page } from "playwright-core";
import { build } from "vite";
import * as Y from "yjs";
import type { BoardGrant } from "#shared/protocol/api.ts";
import type { Supposed } from "#shared/selectors/what-if.ts";
import { call } from "#tests/support/api-client.ts";
import { joinAs, openKnown, untilSaid } from "#tests/support/app.ts";
import { type App, buildApp, newBuildFolder, startApp } from "#tests/support/app-server.ts";
import { LAPTOP, launchBrowser, openPage } from "#tests/support/browser.ts";
import { joinOtherDevice } from "#tests/support/other-device.ts";
import { chairOf, FULL_SIZE, memberOf, seedFull, songOf } from "#tests/support/seed-full.ts";
import { DEPS, NIGHTS, planNights } from "./gig-board.ts";
import { installGigProbe, type Timed, timeToPaint, type Wanted } from "./gig-probe.ts";
import { percentile } from "./probes.ts";

const CHOICES = 12;
const STEPS = 20;
const PROPOSALS = 3;
const RATES = [4, 1] as const;

interface Bench {
  readonly app: App;
  readonly browser: Browser;
  readonly leader: BoardGrant;
  /** Ids of the nights of gig-board.ts. */
  readonly nights: readonly [every: string, spare: string];
}

const report = (figure: string, rate: number, values: object): void =>
  console.log(JSON.stringify({ figure: `${figure}, ${rate}x`, ...values }));
const spread = (values: readonly number[]): object => ({
  p50: percentile(values, 0.5),
  p95: percentile(values, 0.95),
  times: values.length,
});

const throttle = async (page: Page, rate: number): Promise<void> => {
  const session = await page.context().newCDPSession(page);
  await session.send("Emulation.setCPUThrottlingRate", { rate });
};

/** Resolves once the page has drawn what it had to and kept what it wrote. */
const settled = async (page: Page): Promise<void> => {
  await untilSaid(page, "all saved");
  await page.evaluate(() => new Promise((done) => requestIdleCallback(done, { timeout: 500 })));
};

/** A page of the leader at a path of the board, slowed once it stands there. */
const openAt = async ({ app, browser, leader }: Bench, path: string, rate: number) => {
  const known = await joinAs(app.address, leader, "leader", memberOf(0));
  const opened = await openKnown(browser, app.address, known, "/gigs", LAPTOP);
  await installGigProbe(opened.context);
  await opened.page.reload();
  await opened.go(path);
  await settled(opened.page);
  await throttle(opened.page, rate);
  return opened;
};

const nth = (count: number): readonly number[] => Array.from({ length: count }, (_, i) => i);
const first = ({ took }: Timed): number => took[0] ?? Number.NaN;

/** The whole of a choice is drawn at once: its words and how to take it back. */
const supposedAs = (count: number): Wanted => ({
  selector: `li:nth-child(${count}) > button[aria-label^="Not so: "]`,
});
const NOTHING: Wanted = { selector: 'button[aria-label^="Not so: "]', most: 0 };

const measureWhatIf = async (bench: Bench, rate: number): Promise<void> => {
  const [every, spare] = bench.nights;
  const { page, context } = await openAt(bench, `/gigs/${every}`, rate);
  const unfold = () => page.getByText("What if?", { exact: true }).click();
  const choose = async (label: string, option: string, count = 1): Promise<number> =>
    first(
      await timeToPaint(page, "change", [supposedAs(count)], () =>
        page.getByLabel(label, { exact: true }).selectOption({ label: option }),
      ),
    );
  const nothing = () =>
    timeToPaint(page, "click", [NOTHING], () =>
      page.getByRole("button", { name: "Suppose nothing" }).click(),
    );
  await unfold();
  const without: number[] = [];
  const seat: number[] = [];
  // There are more choices than line-ups that are remembered, so none is known from before.
  for (const n of nth(CHOICES + 1)) {
    const chair = n % FULL_SIZE.chairs;
    without.push(await choose("Without", `Player ${chair + 1}`));
    await page.getByLabel("On the chair", { exact: true }).selectOption(chairOf(chair));
    seat.push(await choose("sits", `${DEPS[n % DEPS.length]} (dep)`, 2));
    await nothing();
  }
  const key: number[] = [];
  for (const n of nth(CHOICES)) {
    await page.getByLabel("Tonight", { exact: true }).selectOption(songOf(n * 4));
    await page.getByLabel("in the key of", { exact: true }).fill("F#");
    const submit = () => page.getByRole("button", { name: "Try", exact: true }).click();
    key.push(first(await timeToPaint(page, "submit", [supposedAs(1)], submit)));
    await nothing();
  }
  await page.goto(`${bench.app.address}/#/b/${bench.leader.board}/gigs/${spare}`);
  await page.getByRole("heading", { name: NIGHTS[1].name }).waitFor();
  await unfold();
  const swap: number[] = [];
  for (const n of nth(CHOICES)) {
    await page.getByLabel("Instead of", { exact: true }).selectOption(songOf(n * 3));
    const into = page.getByLabel("play", { exact: true });
    const choice = songOf(NIGHTS[1].songs + (n % 10));
    swap.push(first(await timeToPaint(page, "change", [supposedAs(1)], () => into.selectOption(choice))));
    await nothing();
  }
  report("what-if, the first choice of all", rate, { took: Math.round(without[0] ?? Number.NaN) });
  report("what-if: without somebody", rate, spread(without.slice(1)));
  report("what-if: a dep on the chair", rate, spread(seat.slice(1)));
  report("what-if: another key", rate, spread(key));
  report("what-if: another song", rate, spread(swap));
  await context.close();
};

const SEARCHING = "A first answer";
const ANSWERS: readonly Wanted[] = [
  { selector: '[aria-label="Another order"] li[data-song]' },
  { selector: '[aria-label="Another order"] [role="status"]', saysNot: SEARCHING },
];

const measureProposal = async (bench: Bench, rate: number, night: 0 | 1): Promise<void> => {
  const runs: Timed[] = [];
  for (const _ of nth(PROPOSALS)) {
    const { page, context } = await openAt(bench, `/gigs/${bench.nights[night]}/order`, rate);
    const propose = () => page.getByRole("button", { name: "Propose a better order" }).click();
    runs.push(await timeToPaint(page, "click", ANSWERS, propose));
    await context.close();
  }
  const mid = (of: (run: Timed) => number | undefined): number =>
    percentile(
      runs.map((run) => of(run) ?? Number.NaN),
      0.5,
    );
  report(`proposal for ${NIGHTS[night].songs} called, in blocks of ${NIGHTS[night].blocks[0]}`, rate, {
    first: mid(({ took }) => took[0]),
    searched: mid(({ took }) => took[1]),
    gapToFirst: mid(({ gaps }) => gaps[0]),
    gapInSearch: mid(({ gaps }) => gaps[1]),
    longestTask: mid(({ longestTask }) => longestTask),
    runs: runs.map(({ took: [begun = 0, searched = 0] }) => ({
      first: Math.round(begun),
      searched: Math.round(searched),
    })),
  });
};

const measureSteps = async (bench: Bench, rate: number): Promise<void> => {
  const { page, context } = await openAt(bench, `/gigs/${bench.nights[0]}/order`, rate);
  const rows = page.locator("main li[data-song]");
  const order = (): Promise<readonly (string | null)[]> =>
    rows.evaluateAll((all) => all.map((row) => row.getAttribute("data-song")));
  /** The song stands at a place of its block, counted from 1. */
  const standsAt = (song: string, place: number): Wanted => ({
    selector: `main ol > li[data-song="${song}"]:nth-child(${place})`,
  });
  const [song] = await order();
  if (song === null || song === undefined) throw new Error("There is no order to step in.");
  await page.locator(`main li[data-song="${song}"]`).getByRole("link").focus();
  const steps: number[] = [];
  // Down its block and up again; the first step is one like the others.
  for (const n of nth(STEPS)) {
    const half = STEPS / 2;
    const [keys, place] = n < half ? ["Alt+ArrowDown", n + 2] : ["Alt+ArrowUp", STEPS - n];
    const press = () => page.keyboard.press(String(keys));
    steps.push(first(await timeToPaint(page, "keydown", [standsAt(song, Number(place))], press)));
    await settled(page);
  }
  report("stepping a song, key to paint", rate, spread(steps));

  const moves: number[] = [];
  const drops: number[] = [];
  for (const _ of nth(CHOICES)) {
    await rows.first().scrollIntoViewIfNeeded();
    const [top] = await order();
    const handle = await rows.first().locator(".touch-none").boundingBox();
    if (handle === null || !top) throw new Error("The first row has no handle.");
    const [x, y] = [handle.x + handle.width / 2, handle.y + handle.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (const row of [1, 2, 3]) {
      const box = await rows.nth(row).boundingBox();
      if (box === null) throw new Error("There is no row to drag to.");
      const over = { selector: `main ol > li.border-t-4:nth-child(${row + 1})` };
      const move = () => page.mouse.move(x, box.y + box.height * 0.4);
      moves.push(first(await timeToPaint(page, "pointermove", [over], move)));
    }
    // Before the fourth row is the third place once the song's own row is gone.
    drops.push(first(await timeToPaint(page, "pointerup", [standsAt(top, 3)], () => page.mouse.up())));
    await settled(page);
  }
  report("dragging a song, move to paint", rate, spread(moves));
  report("dropping a song, to paint", rate, spread(drops));
  await context.close();
};

/** The formulas of this file's screens as one script. */
const bundleFormulas = async (): Promise<string> => {
  const built = await build({
    configFile: false,
    logLevel: "error",
    build: {
      write: false,
      lib: { entry: resolve("tests/bench/gig-formula.ts"), formats: ["iife"], name: "formulas" },
    },
  });
  const [output] = Array.isArray(built) ? built : [built];
  if (output === undefined || !("output" in output)) throw new Error("Nothing was bundled.");
  return output.output.map((part) => ("code" in part ? part.code : "")).join("\n");
};

const measureFormulas = async (
  bench: Bench,
  script: string,
  board: Uint8Array,
  rate: number,
): Promise<void> => {
  const { page, context } = await openPage(bench.browser, LAPTOP);
  await page.addScriptTag({ content: script });
  await page.evaluate((bytes) => {
    window.formulas = window.openFormulas(bytes);
  }, Buffer.from(board).toString("base64"));
  await throttle(page, rate);
  const [every] = bench.nights;
  const whatIf = (supposed: Supposed): Promise<number> =>
    page.evaluate(([gig, one]) => window.formulas.whatIf(gig, [one]), [every, supposed] as const);
  const without: number[] = [];
  for (const n of nth(CHOICES + 1))
    without.push(await whatIf({ of: "without", person: memberOf(n % FULL_SIZE.chairs) }));
  const key: number[] = [];
  for (const n of nth(CHOICES)) key.push(await whatIf({ of: "key", song: songOf(n * 4), key: "F#" }));
  report("formula of what-if, the first choice", rate, { took: Math.round(without[0] ?? Number.NaN) });
  report("formula of what-if: without somebody", rate, spread(without.slice(1)));
  report("formula of what-if: another key", rate, spread(key));
  for (const [n, night] of bench.nights.entries()) {
    const order = await page.evaluate((gig) => window.formulas.order(gig), night);
    const whole = Object.fromEntries(Object.entries(order).map(([name, value]) => [name, Math.round(value)]));
    report(`formula of a proposal for ${NIGHTS[n]?.songs} called`, rate, whole);
  }
  await context.close();
};

const folder = await newBuildFolder();
const app = await startApp(await buildApp(folder), { TIGHTROW_DEMO: "off" });
const browser = await launchBrowser();
try {
  const script = await bundleFormulas();
  const body = { name: "Six Spare Fuses" };
  const leader = (await call<BoardGrant>(app.address, "POST /api/boards", { body })).body;
  const other = await joinOtherDevice(app.address, leader, memberOf(0));
  const seed = new Y.Doc();
  seedFull(seed, Date.now());
  Y.applyUpdate(other.ydoc, Y.encodeStateAsUpdate(seed));
  const [every = "", spare = ""] = planNights(other);
  await other.saved();
  const bytes = Y.encodeStateAsUpdate(other.ydoc);
  other.close();
  const bench: Bench = { app, browser, leader, nights: [every, spare] };
  console.log(JSON.stringify({ figure: "browser", version: browser.version(), documentBytes: bytes.length }));
  for (const rate of RATES) {
    await measureFormulas(bench, script, bytes, rate);
    await measureWhatIf(bench, rate);
    await measureProposal(bench, rate, 0);
    await measureProposal(bench, rate, 1);
    await measureSteps(bench, rate);
  }
} finally {
  await browser.close();
  await app.close();
  await rm(folder, { recursive: true, force: true });
}
process.exit(0);
