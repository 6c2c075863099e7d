import { expect, test } from "vitest";
import { enterDemo, tabTo, untilSaid } from "#tests/support/app.ts";
import { testApp } from "#tests/support/app-test.ts";
import { PHONE } from "#tests/support/browser.ts";
import { axeViolations, overflowing } from "#tests/support/page-checks.ts";

const t = testApp();

test("[UI-2] a tone and an ending are written by keyboard on a phone, and read back under their detail", async () => {
  const { page } = await t.device(
    await enterDemo(t.address, "member", "lucia"),
    "/songs/demo-song-md/part/demo-chair-dr",
    { ...PHONE, theme: "dark" },
  );
  const row = page.locator('[data-card="demo-card-md5"]');
  const keys = page.keyboard;
  const add = async (form: string) => {
    await tabTo(page, "Add another beside the words");
    await keys.press("Enter");
    await page.getByRole("menuitem", { name: form, exact: true }).press("Enter");
  };
  await row.getByRole("button", { name: /^More about/ }).press("Enter");
  await page.getByRole("menuitem", { name: "Change" }).press("Enter");
  await row.getByRole("textbox", { name: "What to do" }).waitFor();

  await add("Tone");
  await tabTo(page, "Gain");
  await keys.type("6,5");
  await tabTo(page, "Volume");
  await keys.type("12");
  await row.getByText("Give a number from 0 to 10.").waitFor();
  await keys.press("Backspace");
  await keys.press("Backspace");
  await keys.type("7");
  await tabTo(page, "Pickup");
  await keys.type("bridge");
  await tabTo(page, "Add an effect");
  await keys.press("Enter");
  await row.getByText("Name every effect, or take the one without a name off.").waitFor();
  await row.getByRole("textbox", { name: "Effect 1" }).focus();
  await keys.type("slap echo");

  await add("Ending");
  await tabTo(page, "How it ends");
  await keys.type("cold");
  await tabTo(page, "Who gives the cue");
  await keys.type("Drums");
  await tabTo(page, "Last note on beat");
  await keys.type("4.5");
  expect(await axeViolations(page)).toEqual([]);
  expect(await overflowing(page)).toEqual([]);

  await row.getByRole("button", { name: "Save" }).press("Enter");
  await untilSaid(page, "all saved");
  await page.reload();
  await row.locator("summary").filter({ hasText: "grid, tone and ending" }).press("Enter");
  await row.getByText("Gain 6.5, volume 7 of 10; bridge pickup; slap echo on.").waitFor();
  await row.getByText("Cold: stops without slowing down; last note on beat 4 and; cue from Drums.").waitFor();
  expect(await axeViolations(page)).toEqual([]);
});
