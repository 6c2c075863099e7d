import { expect, test } from "vitest";
import { enterDemo, focusedName, tabTo, untilSaid } from "#tests/support/app.ts";
import { testApp } from "#tests/support/app-test.ts";
import { PHONE } from "#tests/support/browser.ts";
import { axeViolations, smallTargets } from "#tests/support/page-checks.ts";

const t = testApp();

test("[UI-2] a grid is written by keyboard where its detail is changed, and read out under its row", async () => {
  const { page } = await t.device(
    await enterDemo(t.address, "member", "lucia"),
    "/songs/demo-song-md/part/demo-chair-dr",
    { ...PHONE, theme: "dark" },
  );
  const row = page.locator('[data-card="demo-card-md5"]');
  await row.getByRole("button", { name: /^More about/ }).click();
  await page.getByRole("menuitem", { name: "Change" }).click();
  await tabTo(page, "Drums, 1: accent");
  for (const key of ["ArrowRight", "ArrowDown", "Space", "Space", "Space"]) await page.keyboard.press(key);
  expect(await focusedName(page)).toBe("Bass, backing voice, 1 e: ghost");
  expect(await axeViolations(page)).toEqual([]);
  expect((await smallTargets(page, 44)).filter((line) => /data-step/.test(line))).toEqual([]);
  await row.getByRole("button", { name: "Save" }).click();
  await untilSaid(page, "all saved");
  await row.locator("summary").filter({ hasText: "grid" }).click();
  await row
    .getByText("Drums on 2 and, 4; accents on 1. Bass, backing voice on 2 and, 4 and; ghosts on 1 e.")
    .waitFor({ state: "attached" });
});

test("an evening's levels are added up and kept for the day, on this device", async () => {
  const { page } = await t.device(await enterDemo(t.address, "member", "lucia"), "/room/sound", PHONE);
  const add = page.getByRole("button", { name: "Add this stretch" });
  await add.click();
  await page.getByText("Give the level that a meter shows").waitFor();
  const stretch = async (level: string, minutes: string) => {
    await page.getByRole("textbox", { name: /^Level/ }).fill(level);
    await page.getByRole("textbox", { name: /^For/ }).fill(minutes);
    await add.click();
  };
  await stretch("95", "120");
  await stretch("88", "60");
  const said = page.getByText("277 % of what the guide allows in a day, as much as 89.4 dB(A)");
  await said.waitFor();
  await page.reload();
  await said.waitFor();
  expect(await axeViolations(page)).toEqual([]);
});
