import { expect, test } from "vitest";
import { PHONE } from "#tests/support/browser.ts";
import { openScreen } from "#tests/support/harness/open-screen.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";
import { axeViolations, overflowing, smallTargets } from "#tests/support/page-checks.ts";

const t = testHarness();

test("[UI-2] bars are taken out and put back where a section is changed, and details move along and are marked", async () => {
  const query = "as=tomasz&role=leader";
  const { page } = t.keep(
    await openScreen(t.browser, t.address, "/songs/demo-song-md", { query, ...PHONE, width: 320 }),
  );
  const places = (): Promise<readonly string[]> =>
    page.evaluate(() => {
      const file = window.harness.store.board().songs.get("demo-song-md");
      return (file?.cards ?? []).flatMap(({ id, where }) =>
        where.from?.bar === undefined && !where.lost ? [] : [`${id} ${where.from?.bar} ${where.lost ?? ""}`],
      );
    });
  const before = await places();
  await page.getByText("Form", { exact: true }).click();
  await page
    .getByRole("list", { name: /^Form, / })
    .last()
    .getByRole("button", { name: /^Outro/ })
    .click();
  await page.getByLabel("Own metre").fill("four");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByText(/is not a metre/).waitFor();
  await page.getByText("Bars within it").click();
  await page.getByLabel("At bar").fill("8");
  await page.getByText(/Taken out: 1 detail loses its bar and is marked/).waitFor();
  expect(await axeViolations(page)).toEqual([]);
  expect(await overflowing(page)).toEqual([]);
  expect(await smallTargets(page, 44)).toEqual([]);
  await page.getByRole("button", { name: "Take out from it" }).click();
  await page.getByRole("region", { name: "Details without their place" }).waitFor();
  expect(await places()).toContain("demo-card-md1 undefined true");
  await page.getByRole("button", { name: "Undo" }).click();
  await expect.poll(places).toEqual(before);
});
