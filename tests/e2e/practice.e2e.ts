import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { PHONE } from "#tests/support/browser.ts";
import { openScreen } from "#tests/support/harness/open-screen.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";

const t = testHarness();

/** The drummer's solo takes of the day on the board, and their status on a detail. */
const soloTakes = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() =>
    [...window.harness.store.board().songs.values()]
      .flatMap(({ takes }) => takes)
      .filter(({ occasion }) => occasion === "s:demo-lucia:2026-03-05")
      .map(({ kind, feel, seats }) => `${kind} ${feel} ${seats.map(({ chair }) => chair).join()}`),
  );
/** Resolves at a page that says it. */
const until = (page: Page, words: RegExp | string) => page.getByText(words).first().waitFor();

test("twenty minutes: three details, a click by the space bar, one press each, and what came of it", async () => {
  const query = "as=lucia&role=member";
  const { page } = t.keep(
    await openScreen(t.browser, t.address, "/parts", { query, ...PHONE, reducedMotion: false }),
  );
  page.setDefaultTimeout(10_000);
  await page.getByRole("link", { name: "Practise: 20 minutes" }).click();
  await page.locator("[data-card]").nth(2).waitFor();
  expect(await page.locator("[data-card]").count()).toBe(3);
  await page.getByRole("link", { name: "Begin" }).click();

  const start = page.getByRole("button", { name: "Start" });
  await start.waitFor();
  const tempo = Number(await page.locator("output").textContent());
  await page.keyboard.press("Space");
  await page.getByRole("button", { name: "Stop" }).waitFor();
  await until(page, /bar 1/);
  await page.waitForFunction(() => document.querySelectorAll("[data-beat-bar] [data-heard]").length === 1);
  await page.keyboard.press("ArrowRight");
  await expect.poll(() => page.locator("output").textContent()).toBe(String(tempo + 2));
  // A finger on a button leaves the space bar to the click.
  await page.getByRole("button", { name: "2 bpm slower" }).tap();
  await expect.poll(() => page.locator("output").textContent()).toBe(String(tempo));
  await page.waitForFunction(() => document.activeElement === document.body);
  await page.keyboard.press("Space");
  await start.waitFor();
  expect(await page.locator("output").textContent()).toBe(String(tempo));
  expect(await page.locator("[data-heard]").count()).toBe(0);

  await page.getByRole("button", { name: "Practised" }).click();
  await until(page, "Practice · 2 of 3");
  expect(await soloTakes(page)).toEqual(["solo clean demo-chair-dr"]);
  await page.getByRole("button", { name: "Undo" }).click();
  await expect.poll(() => soloTakes(page)).toEqual([]);
  await page.getByRole("button", { name: "Still shaky" }).click();
  await until(page, "Practice · 1 of 3");
  await page.getByRole("button", { name: "Practised" }).click();
  await until(page, "Practice · 3 of 3");
  await page.getByRole("button", { name: "Practised" }).click();
  await until(page, "Practised: two, still shaky: one.");
});

test("tapping along is read in percent; the bar that pulses is small, and stands still with reduced motion", async () => {
  const query = "as=tomasz&role=leader";
  const path = "/parts/practice/demo-song-md/demo-card-md1";
  const { page } = t.keep(
    await openScreen(t.browser, t.address, path, { query, ...PHONE, reducedMotion: true }),
  );
  page.setDefaultTimeout(10_000);
  await page.getByText("Tap along: how steady am I?").click();
  await page.getByRole("button", { name: "Start" }).click();
  await until(page, /bar 1/);
  // Taps with the moments of somebody who plays 3 % faster than the click.
  await page.evaluate(() => {
    const pad = [...document.querySelectorAll("button")].find((one) =>
      one.textContent?.includes("Tap along"),
    );
    const bpm = Number(document.querySelector("output")?.textContent);
    const begin = performance.now() - 3000;
    for (let beat = 0; beat < 5; beat++) {
      const tap = new PointerEvent("pointerdown", { bubbles: true, isPrimary: true, button: 0 });
      Object.defineProperty(tap, "timeStamp", { value: begin + (beat * 60_000) / (bpm * 1.03) });
      pad?.dispatchEvent(tap);
    }
  });
  await until(page, /^3\.0 % faster, /);
  expect(await page.locator("[data-heard]").count()).toBe(0);
  // WCAG 2.3.1: what flashes stays under a quarter of 341 × 256 px.
  const box = await page.locator("[data-beat-bar]").boundingBox();
  expect((box?.width ?? 0) * (box?.height ?? 0)).toBeGreaterThan(0);
  expect((box?.width ?? 0) * (box?.height ?? 0)).toBeLessThan((341 * 256) / 4);
});
