import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { enterDemo, focusedName, tabTo, untilSaid } from "#tests/support/app.ts";
import { testApp } from "#tests/support/app-test.ts";
import { LAPTOP, PHONE } from "#tests/support/browser.ts";
import { axeViolations } from "#tests/support/page-checks.ts";

const t = testApp();

const SONG = "/songs/demo-song-ut";
const cellNamed = (page: Page, name: string) => page.getByRole("gridcell", { name, exact: true });
const openFold = async (page: Page): Promise<void> => {
  await page.locator("summary").filter({ hasText: "Who plays when" }).click();
  await page.getByRole("grid", { name: "Who plays when" }).waitFor();
};

test("[UI-2] who plays when is painted by keyboard, and what is asked about it follows", async () => {
  const { page } = await t.device(await enterDemo(t.address, "member", "lucia"), SONG, {
    ...PHONE,
    theme: "dark",
  });
  await openFold(page);
  await page.getByText("Ch1 comes in hardly bigger than V1.").waitFor();
  await tabTo(page, "Guitar 1, Intro");
  await page.keyboard.press("ArrowDown");
  expect(await focusedName(page)).toBe("Guitar 1, V1: plays full");
  await page.keyboard.press("l");
  await page.keyboard.press("Shift+ArrowRight");
  await cellNamed(page, "Guitar 2, V1: plays lightly").waitFor();
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Delete");
  await cellNamed(page, "Bass, backing voice, V1: plays, as recorded").waitFor();
  expect(await page.getByText("Ch1 comes in hardly bigger than V1.").count()).toBe(0);
  await page.getByRole("button", { name: /^Not here: Ch2 comes in/ }).click();
  await page.getByRole("button", { name: "Show the dismissed hint again" }).waitFor();
  await page.keyboard.press("Escape");
  await cellNamed(page, "Lead voice, Intro: rests, as recorded").focus();
  await page.keyboard.press("Enter");
  await page.getByRole("button", { name: "Add this entry" }).click();
  await cellNamed(page, "Lead voice, Intro: waits until bar 5, then plays").waitFor();
  await untilSaid(page, "all saved");
  expect(await axeViolations(page)).toEqual([]);
});

test("a finger paints along a row while a level is chosen, and without one a tap goes on to the next", async () => {
  const { page } = await t.device(await enterDemo(t.address, "member", "lucia"), SONG, PHONE);
  await openFold(page);
  await cellNamed(page, "Drums, Toast: plays lightly, as recorded").tap();
  await cellNamed(page, "Drums, Toast: plays").waitFor();
  await page.getByRole("radio", { name: "Full" }).check();
  const [first, last] = await Promise.all(
    ["Guitar 1, Stop: rests, as recorded", "Bass, backing voice, Stop: rests, as recorded"].map((name) =>
      cellNamed(page, name).boundingBox(),
    ),
  );
  if (!first || !last) throw new Error("The cells are not on the screen.");
  const before = await page.evaluate(() => scrollY);
  const touch = await page.context().newCDPSession(page);
  const at = (x: number, y: number) => [{ x, y }];
  const y = first.y + first.height / 2;
  await touch.send("Input.dispatchTouchEvent", { type: "touchStart", touchPoints: at(first.x + 8, y) });
  for (let x = first.x + 8; x < last.x + 8; x += 10)
    await touch.send("Input.dispatchTouchEvent", { type: "touchMove", touchPoints: at(x, y + 4) });
  await touch.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] });
  await cellNamed(page, "Bass, backing voice, Stop: plays full").waitFor();
  for (const name of ["Guitar 1", "Guitar 2"]) await cellNamed(page, `${name}, Stop: plays full`).waitFor();
  await cellNamed(page, "Drums, Stop: rests, as recorded").waitFor();
  expect(await page.evaluate(() => scrollY)).toBe(before);
  await page.getByText("3 cells: plays full").waitFor();
});

test("a guest reads who plays when, and what the band does otherwise than the record, but paints nothing", async () => {
  const { page } = await t.device(await enterDemo(t.address, "guest", null), SONG, LAPTOP);
  const grid = page.getByRole("grid", { name: "Who plays when" });
  await grid.waitFor();
  expect(await grid.getAttribute("aria-readonly")).toBe("true");
  expect(await page.getByRole("radio", { name: "Full" }).count()).toBe(0);
  const toast = cellNamed(page, "Guitar 1, Toast: plays lightly, as recorded");
  await toast.click();
  await page.keyboard.press("f");
  await page.getByRole("radio", { name: "Difference" }).check();
  await page.getByText("Drums in V1 and V2: on the record it plays; we play full.").waitFor();
  await cellNamed(page, "Drums, V1: plays full, otherwise than the record").waitFor();
  expect(await toast.count()).toBe(1);
  expect(await axeViolations(page)).toEqual([]);
});
