import { expect, test } from "vitest";
import { PHONE } from "#tests/support/browser.ts";
import { openScreen } from "#tests/support/harness/open-screen.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";
import { axeViolations, overflowing, smallTargets } from "#tests/support/page-checks.ts";

const t = testHarness();

test("[UI-2] after the gig each song gets its take by one tap, a flag becomes a slip, and the rest is clean", async () => {
  const query = "as=tomasz&role=leader";
  const { page } = t.keep(await openScreen(t.browser, t.address, "/gigs/demo-gig-slot", { query, ...PHONE }));
  await page.evaluate(() =>
    localStorage.setItem(
      "tightrow.gig-flags.demo.demo-gig-slot",
      JSON.stringify([{ song: "demo-song-md", at: Date.UTC(2026, 2, 5, 20) }]),
    ),
  );
  expect(await page.getByRole("link", { name: "Debrief" }).count()).toBe(0);
  await page.getByRole("button", { name: "Change day, place or minutes" }).click();
  await page.getByLabel("Day").fill("2026-03-05");
  await page.getByRole("dialog").getByRole("button", { name: "Save" }).click();
  const takes = (): Promise<readonly string[]> =>
    page.evaluate(
      (occasion) =>
        [...window.harness.store.board().songs.values()].flatMap(({ song, takes }) =>
          takes
            .filter((take) => take.occasion === occasion)
            .map(({ feel, slips }) => `${song.id.replace("demo-song-", "")} ${feel} ${slips.length}`),
        ),
      "g:demo-gig-slot",
    );
  await page.getByRole("link", { name: "Debrief" }).click();
  await page.getByRole("heading", { name: "Debrief" }).waitFor();
  await page.getByText("Say first how it went").waitFor();
  const row = page.locator('[data-song="demo-song-md"]');
  await row.getByRole("radio", { name: "wobble" }).check();
  await page.getByLabel("It was a slip on").selectOption({ index: 1 });
  await page.getByRole("region", { name: "Flagged on stage" }).waitFor({ state: "detached" });
  expect(await takes()).toEqual(["md wobble 1"]);
  await page.getByRole("button", { name: "The other 5 clean" }).click();
  await expect.poll(takes).toHaveLength(6);
  expect(await axeViolations(page)).toEqual([]);
  expect(await overflowing(page)).toEqual([]);
  expect(await smallTargets(page, 44)).toEqual([]);
  await page.getByRole("button", { name: "Undo" }).last().click();
  await expect.poll(takes).toEqual(["md wobble 1"]);
});
