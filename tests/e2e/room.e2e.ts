import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { openPage, PHONE } from "#tests/support/browser.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";
import { shiftsOf, watchShifts } from "#tests/support/layout-shifts.ts";

const t = testHarness();
const SONG = "demo-song-wa";

const openRoom = async (): Promise<Page> => {
  const { page } = t.keep(await openPage(t.browser, { reducedMotion: true, ...PHONE }));
  await page.goto(`${t.address}/?as=lucia&role=member#/b/demo/room/${SONG}`);
  await page.getByRole("region", { name: "My details" }).waitFor();
  return page;
};

const takes = (page: Page): Promise<readonly { readonly feel: string; readonly slips: number }[]> =>
  page.evaluate(
    (song) =>
      (window.harness.store.board().songs.get(song)?.takes ?? [])
        .filter(({ occasion }) => occasion === "r:2026-03-05")
        .map(({ feel, slips }) => ({ feel, slips: slips.length })),
    SONG,
  );

test("a song is run with keys alone: a detail flagged, the take logged, and on to the next song", async () => {
  const page = await openRoom();
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("s");
  await page.locator("[data-slip][aria-pressed=true]").waitFor();
  await page.keyboard.press("2");
  await expect.poll(() => takes(page)).toEqual([{ feel: "wobble", slips: 1 }]);
  const next = await page.locator("[data-thumb-bar] a").getAttribute("href");
  await page.keyboard.press("PageDown");
  await expect.poll(() => page.url()).toContain(next ?? "no next song");
  await page.keyboard.press("PageUp");
  await expect.poll(() => page.url()).toContain(SONG);
});

test("nothing shifts through 30 taps while others change the song", async () => {
  const page = await openRoom();
  await watchShifts(page);
  const slips = page.locator("[data-slip]");
  const count = await slips.count();
  for (let tap = 0; tap < 30; tap++) {
    await slips.nth(tap % count).evaluate((button: HTMLElement) => button.click());
    if (tap % 10 === 0)
      await page.evaluate(
        ([song, minute]) =>
          window.harness.remote("logTake", {
            song,
            occasion: "r:2026-03-05",
            kind: "run",
            at: Date.UTC(2026, 2, 5, 12) - Number(minute) * 600_000,
            seats: [],
            feel: "wobble",
          }),
        [SONG, tap] as const,
      );
  }
  expect(await shiftsOf(page)).toEqual([]);
});

test("a reload keeps the song and how far it was scrolled", async () => {
  const page = await openRoom();
  await page.evaluate(() => window.scrollTo(0, 400));
  const kept = () => page.evaluate(() => localStorage.getItem("tightrow.room.demo") ?? "");
  await expect.poll(kept).toContain('"y":400');
  await page.reload();
  await page.getByRole("region", { name: "My details" }).waitFor();
  await expect.poll(() => page.evaluate(() => window.scrollY)).toBe(400);
});

test("a slip flagged here goes with the take that somebody else logs, before or after one went on", async () => {
  const page = await openRoom();
  const log = (minutes: number): Promise<void> =>
    page.evaluate(
      ([song, at]) =>
        window.harness.remote("logTake", {
          song,
          occasion: "r:2026-03-05",
          kind: "run",
          at,
          seats: [],
          feel: "clean",
        }),
      [SONG, Date.UTC(2026, 2, 5, 12) - minutes * 60_000] as const,
    );
  const slip = page.locator("[data-slip]").first();
  await slip.click();
  await log(1);
  await page.keyboard.press("PageDown");
  await expect.poll(() => takes(page)).toEqual([{ feel: "clean", slips: 1 }]);
  await page.keyboard.press("PageUp");
  await page.locator("[data-slip][aria-pressed=false]").nth(1).click();
  await page.keyboard.press("PageDown");
  await expect.poll(() => takes(page)).toEqual([{ feel: "clean", slips: 2 }]);
  await page.evaluate((song) => {
    const { store } = window.harness;
    const [take] =
      store
        .board()
        .songs.get(song)
        ?.takes.filter(({ occasion }) => occasion === "r:2026-03-05") ?? [];
    if (take?.slips.some(({ writer }) => writer !== "harness")) throw new Error("a slip of somebody else");
  }, SONG);
});
