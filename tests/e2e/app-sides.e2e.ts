import { expect, test } from "vitest";
import { enterDemo, focusedName, tabTo, untilSaid } from "#tests/support/app.ts";
import { testApp } from "#tests/support/app-test.ts";
import { PHONE } from "#tests/support/browser.ts";
import { axeViolations, overflowing } from "#tests/support/page-checks.ts";

const t = testApp();

test("[UI-2] a tone and an ending are written by keyboard on a phone, and read back under their details", async () => {
  const { page } = await t.device(
    await enterDemo(t.address, "member", "lucia"),
    "/songs/demo-song-md/part/demo-chair-dr",
    { ...PHONE, theme: "dark" },
  );
  const keys = page.keyboard;
  const add = async (form: string) => {
    await page.getByRole("menuitem", { name: form, exact: true }).press("Enter");
    expect(await focusedName(page)).toBe(form);
  };

  await page.getByRole("textbox", { name: "Add a detail" }).fill("Slap the snare back");
  await page.locator("summary").filter({ hasText: "Where, how much, for whom" }).press("Enter");
  await page.getByRole("button", { name: "Show something beside the words" }).press("Enter");
  await add("Tone");
  await tabTo(page, "Gain");
  await keys.type("6,5");
  await tabTo(page, "Volume");
  await keys.type("12");
  await page.getByRole("button", { name: "Add", exact: true }).press("Enter");
  expect(await focusedName(page)).toBe("Volume");
  await page.getByText("Give a number from 0 to 10.").waitFor();
  await keys.press("Backspace");
  await tabTo(page, "Add an effect");
  await keys.press("Enter");
  await page.getByText("Name every effect, or take the one without a name off.").waitFor();
  await page.getByRole("textbox", { name: "Effect 1" }).focus();
  await keys.type("slap echo");
  expect(await axeViolations(page)).toEqual([]);
  expect(await overflowing(page)).toEqual([]);
  await page.getByRole("button", { name: "Add", exact: true }).press("Enter");

  const row = page.locator('[data-card="demo-card-md5"]');
  await row.getByRole("button", { name: /^More about/ }).press("Enter");
  await page.getByRole("menuitem", { name: "Change" }).press("Enter");
  await row.getByRole("button", { name: "Add another beside the words" }).press("Enter");
  await add("Ending");
  await tabTo(page, "How it ends");
  await keys.type("cold");
  await tabTo(page, "Who gives the cue");
  await keys.type("Drums");
  await tabTo(page, "Last note on beat");
  await keys.type("4.5");
  await row.getByRole("button", { name: "Save" }).press("Enter");
  await untilSaid(page, "all saved");

  await page.reload();
  await page
    .locator("summary")
    .filter({ hasText: /^tone$/ })
    .press("Enter");
  await page.getByText("Gain 6.5, volume 1 of 10; slap echo on.").waitFor();
  await row.locator("summary").filter({ hasText: "grid and ending" }).press("Enter");
  await row.getByText("Cold: stops without slowing down; last note on beat 4 and; cue from Drums.").waitFor();
  expect(await axeViolations(page)).toEqual([]);
});

test("a shape is mirrored on the device of a left-handed player", async () => {
  const { page, board } = await t.device(await enterDemo(t.address, "member", "lucia"), "/settings", PHONE);
  const part = `${t.address}/#/b/${board}/songs/demo-song-lt/part/demo-chair-gt1`;
  const fingers = async (): Promise<readonly string[]> => {
    await page.goto(part);
    const row = page.locator('[data-card="demo-card-lt3"]');
    await row.locator("summary").filter({ hasText: "shape" }).press("Enter");
    await row.locator("figure").waitFor();
    const marks = await row.locator("figure text.fill-ground").all();
    const placed = await Promise.all(
      marks.map(
        async (mark) => [Number(await mark.getAttribute("x")), (await mark.textContent()) ?? ""] as const,
      ),
    );
    return placed.sort(([a], [b]) => a - b).map(([, finger]) => finger);
  };
  const left = page.getByRole("radio", { name: "Left-handed players" });
  await left.waitFor();
  expect(await fingers()).toEqual(["2", "1", "3"]);
  await page.goto(`${t.address}/#/b/${board}/settings`);
  await left.check();
  expect(await fingers()).toEqual(["3", "1", "2"]);
});
