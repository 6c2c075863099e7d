import { expect, inject, test } from "vitest";
import { cell, enterDemo, untilSaid, untilShown } from "#tests/support/app.ts";
import { testApp } from "#tests/support/app-test.ts";
import { LAPTOP, PHONE } from "#tests/support/browser.ts";
import { weightOf } from "#tests/support/bundle-sizes.ts";

const t = testApp();

/*
 * Sizes and counts only: times belong to the benchmark. The phone's budget is 120 kB of JavaScript; React and Yjs alone
 * weigh 97. Until it is reached, this holds the line where it stands.
 */
const PHONE_JS = 160;
const PHONE_CSS = 15;
const SCREEN_JS = 60;

test("a phone loads no more than it did before a detail can be marked", () => {
  const { client } = inject("built");
  const phone = weightOf(client, "my-parts-route");
  expect(phone.js).toBeLessThanOrEqual(PHONE_JS);
  expect(phone.css).toBeLessThanOrEqual(PHONE_CSS);
  expect(phone.files.length).toBeGreaterThan(5);
  for (const screen of ["board-route", "room-route", "song-route", "gig-route", "settings-route"])
    expect(weightOf(client, screen, phone.files).js, screen).toBeLessThanOrEqual(SCREEN_JS);
});

test("one tick on a phone changes the cell, its row's heads and its column's head on the laptop, nothing else", async () => {
  const phone = await t.device(
    await enterDemo(t.address, "member", "lucia"),
    "/songs/demo-song-ut/part/demo-chair-dr",
    PHONE,
  );
  const { page } = await t.device(await enterDemo(t.address, "leader", "tomasz"), "/board", LAPTOP);
  const drums = cell(page, "demo-song-ut", "demo-chair-dr").getByRole("img");
  const before = await drums.getAttribute("aria-label");
  await untilSaid(page, "all saved");
  await untilShown(page);
  await page.evaluate(() => {
    const changed = new Set<string>();
    Object.assign(window, { changed });
    new MutationObserver((records) => {
      for (const { target } of records) {
        const element = target instanceof Element ? target : target.parentElement;
        const row = element?.closest<HTMLElement>("[data-song]")?.dataset.song;
        const column = element?.closest<HTMLElement>("[data-column]")?.dataset.column;
        const head = element?.closest('[role="columnheader"]')?.getAttribute("aria-colindex");
        const whole = element?.closest("h1")?.parentElement ? "gig" : (element?.className ?? "");
        changed.add(row ? `${row} ${column ?? "row"}` : head ? `column ${head}` : `other ${whole}`);
      }
    }).observe(document.body, { subtree: true, childList: true, characterData: true, attributes: true });
  });
  await phone.page.getByRole("button", { name: "hold back Ch3': practised" }).click();
  await untilSaid(phone.page, "all saved");
  await expect.poll(() => drums.getAttribute("aria-label")).not.toBe(before);
  const changed = await page.evaluate(() => [...(window as unknown as { changed: Set<string> }).changed]);
  const column = await cell(page, "demo-song-ut", "demo-chair-dr").getAttribute("aria-colindex");
  const allowed = new Set([
    "demo-song-ut demo-chair-dr",
    "demo-song-ut ready",
    "demo-song-ut score",
    "demo-song-ut row",
    `column ${column}`,
  ]);
  expect(changed).toContain("demo-song-ut demo-chair-dr");
  expect(changed.filter((place) => !allowed.has(place))).toEqual([]);
});
