import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { cell, enterDemo, focusedName, tabTo, untilSaid, untilShown } from "#tests/support/app.ts";
import { testApp } from "#tests/support/app-test.ts";
import { LAPTOP } from "#tests/support/browser.ts";

const t = testApp();

const SONGS = Array.from({ length: 60 }, (_, n) => `Invented song number ${n + 1}`);

const press = async (page: Page, ...keys: readonly string[]): Promise<void> => {
  for (const key of keys) await page.keyboard.press(key);
};

/** Goes back from where the focus is, until something whose name ends so has it. */
const tabBackTo = async (page: Page, ending: string): Promise<void> => {
  for (let steps = 0; steps < 40; steps++) {
    await press(page, "Shift+Tab");
    if ((await focusedName(page)).endsWith(ending)) return;
  }
  throw new Error(`Shift+Tab never reaches “…${ending}”`);
};

test("a band from nothing by keyboard alone: chairs, oneself, sixty songs pasted, the board", async () => {
  const { page } = await t.stranger(LAPTOP);
  await page.goto(t.address);
  await untilShown(page);
  await tabTo(page, "Name of your band");
  await page.keyboard.type("Paper Lighthouse Society");
  await press(page, "Enter");
  await page.getByRole("heading", { name: "Write this down" }).waitFor();
  await tabTo(page, "I have written it down");
  await press(page, "Enter");
  await page.getByRole("heading", { name: "Which chairs does your band have?" }).waitFor();
  await tabTo(page, "Use Two guitars and keys");
  await press(page, "Enter");
  await tabTo(page, "Go on");
  await press(page, "Enter");
  await page.getByRole("heading", { name: "Who are you, and what do you play?" }).waitFor();
  await tabTo(page, "Your name");
  await page.keyboard.type("Ifeoma Adisalu");
  await tabTo(page, "Guitar 2");
  await press(page, "Space", "Enter");
  await page.getByRole("heading", { name: "What do you play?", exact: true }).waitFor();
  await tabTo(page, "Paste a list");
  await page.keyboard.insertText(SONGS.join("\n"));
  await page.getByRole("button", { name: "Add 60 songs" }).waitFor();
  await tabTo(page, "Add 60 songs");
  await press(page, "Enter");
  await page.getByText("60 songs on the board.").waitFor();
  await tabTo(page, "Go on");
  await press(page, "Enter");
  await tabTo(page, "Go to the board");
  await press(page, "Enter");
  await page.getByRole("grid").waitFor();
  expect(await page.locator("[data-song]").count()).toBe(60);
  await untilSaid(page, "all saved");
});

test("from a cell into its part and back: a detail is added, marked and taken back by keyboard alone", async () => {
  const { page } = await t.device(await enterDemo(t.address, "leader", "tomasz"), "/board", LAPTOP);
  await page.getByRole("grid").waitFor();
  const song = (await page.locator("[data-song]").first().getAttribute("data-song")) ?? "";
  await tabTo(page, "Wrong Side of the Aquarium");
  await press(page, "ArrowRight", "ArrowRight", "ArrowRight");
  const there = cell(page, song, "demo-chair-gt1");
  expect(await there.evaluate((element) => element === document.activeElement)).toBe(true);
  await press(page, "Enter");
  await page.getByRole("dialog").getByRole("heading", { name: "Wrong Side of the Aquarium" }).waitFor();
  await tabTo(page, "Add a detail");
  await page.keyboard.type("Volume down a hair for verse 3");
  await press(page, "Enter");
  const status = page.getByRole("dialog").getByRole("button", { name: /Volume down a hair for verse 3'?: / });
  await status.waitFor();
  await tabBackTo(page, "not started");
  await press(page, "Enter");
  await expect.poll(() => status.textContent()).toContain("noticed");
  // The first one takes back the detail itself, the second its mark.
  await tabTo(page, "Undo");
  await tabTo(page, "Undo");
  await press(page, "Enter");
  await expect.poll(() => status.textContent()).toContain("not started");
  await status.focus();
  await press(page, "Escape");
  await page.getByRole("dialog").waitFor({ state: "detached" });
  await expect.poll(() => there.evaluate((element) => element === document.activeElement)).toBe(true);
  await untilSaid(page, "all saved");
});
