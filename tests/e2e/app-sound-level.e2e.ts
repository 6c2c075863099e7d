import { expect, test } from "vitest";
import { enterDemo } from "#tests/support/app.ts";
import { testApp } from "#tests/support/app-test.ts";
import { PHONE } from "#tests/support/browser.ts";
import { axeViolations } from "#tests/support/page-checks.ts";

const t = testApp();

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
