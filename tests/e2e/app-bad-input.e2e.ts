import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { enterDemo, untilSaid, untilShown } from "#tests/support/app.ts";
import { testApp } from "#tests/support/app-test.ts";
import { LAPTOP, PHONE } from "#tests/support/browser.ts";

const t = testApp();

const leader = () => enterDemo(t.address, "leader", "tomasz");

/** Titles of all songs, after a reload: what is really on the board. */
const titlesAfterReload = async (page: Page): Promise<readonly string[]> => {
  await untilSaid(page, "all saved");
  await page.reload();
  await untilShown(page);
  return page.locator("main li a").allTextContents();
};

test("songs: a broken list, a title of 10,000 characters and a name that is taken are refused in words", async () => {
  const { page } = await t.device(await leader(), "/songs", LAPTOP);
  const before = await titlesAfterReload(page);
  const list = 'Title;Key;Tempo;Length\nKite Insurance;H;0;3.45\n"Open Quote;A;94;3:50';
  await page.getByText("Paste a list, or read one from a file").click();
  await page.getByLabel("Paste a list", { exact: true }).fill(list);
  for (const problem of ["Line 2, key:", "Line 2, tempo:", "Line 3:"])
    await page.getByText(problem).first().waitFor();
  const title = page.getByLabel("Add a song by its title");
  await title.fill("x".repeat(10_000));
  await page.keyboard.press("Enter");
  await page.getByText("at most 200 characters").waitFor();
  expect((await title.inputValue()).length).toBe(10_000);
  await title.fill("marzipan diesel");
  await page.keyboard.press("Enter");
  await page.getByText("There is already a song called “Marzipan Diesel”.").waitFor();
  expect(await titlesAfterReload(page)).toEqual(before);
  await page.getByText("Paste a list, or read one from a file").click();
  expect(await page.getByLabel("Paste a list", { exact: true }).inputValue()).toBe(list);
});

test("a song without sections is told so; negative bars and tempo 0 are refused and stay in the field", async () => {
  const { page, go } = await t.device(await leader(), "/songs", LAPTOP);
  await page.getByLabel("Add a song by its title").fill("Ladder to the Cellar");
  await page.keyboard.press("Enter");
  await page.getByRole("link", { name: "Ladder to the Cellar" }).click();
  await page.getByRole("heading", { name: "Ladder to the Cellar" }).waitFor();
  await page.getByText("not written yet").waitFor();
  await page
    .getByRole("link", { name: /Form.* (is|are) not settled/ })
    .first()
    .waitFor();
  const sections = page.getByLabel("Add sections");
  await sections.fill("Intro 8, V1 -16");
  await page.keyboard.press("Enter");
  await page.getByText("bars are a whole number from 1 to 999").waitFor();
  expect(await sections.inputValue()).toBe("Intro 8, V1 -16");
  await page.getByRole("button", { name: "Change: Tempo" }).click();
  await page.getByLabel("Tempo", { exact: true }).fill("0");
  await page.keyboard.press("Enter");
  await page.getByText("A tempo of 0 cannot be counted.").waitFor();
  await untilSaid(page, "all saved");
  await go("/board");
  await page.getByRole("grid").getByText("Ladder to the Cellar").waitFor();
});

test("a take dated in the future is refused before the tap, in words, and nothing is logged", async () => {
  const { page } = await t.device(await enterDemo(t.address, "member", "lucia"), "/room/demo-song-md", PHONE);
  await page.locator("summary").filter({ hasText: "Day and key" }).click();
  await page.getByLabel("Day", { exact: true }).fill("2999-01-01");
  await page.getByRole("alert").first().waitFor();
  expect(await page.getByRole("button", { name: "clean" }).isDisabled()).toBe(true);
  expect(await page.locator("[data-take]").count()).toBe(0);
});

test("people: two of one name are refused, and what was typed stays", async () => {
  const { page } = await t.device(await leader(), "/people", PHONE);
  await page.getByRole("button", { name: "Add somebody" }).click();
  const dialog = page.getByRole("dialog");
  await dialog.getByLabel("Name", { exact: true }).fill("Lucia Borrasco");
  await dialog.getByRole("button", { name: "Add", exact: true }).click();
  await page.getByText("There is somebody called Lucía Borrasco already.").waitFor();
  expect(await dialog.getByLabel("Name", { exact: true }).inputValue()).toBe("Lucia Borrasco");
});

test("a broken file and one of a newer version say where the fault is and leave every board alone", async () => {
  const { page, board } = await t.device(await leader(), "/settings", LAPTOP);
  const pick = (text: string) =>
    page
      .getByLabel("Start a new board from a saved file")
      .setInputFiles({ name: "board.json", mimeType: "application/json", buffer: Buffer.from(text) });
  await pick('{\n  "format": "tightrow board",\n  "version": 1,\n  "maps": {,}\n}');
  await page.getByText(/line 4, column 12/).waitFor();
  await pick('{"format":"tightrow board","version":99,"maps":{}}');
  await page.getByText(/newer Tightrow \(version 99/).waitFor();
  await pick("Title,Key\nMarzipan Diesel,D");
  await page.getByText("“board.json” was not imported.").waitFor();
  await page.getByText("No board was changed.").waitFor();
  await page.goto(t.address);
  await untilShown(page);
  expect(await page.locator(`a[href*="/b/"]`).count()).toBe(1);
  expect(await page.locator(`a[href*="${board}"]`).count()).toBe(1);
});
