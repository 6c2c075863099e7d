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

const openForm = async (width: number) => {
  const query = "as=tomasz&role=leader";
  const { page } = t.keep(
    await openScreen(t.browser, t.address, "/songs/demo-song-md", { query, ...PHONE, width }),
  );
  await page.getByText("Form", { exact: true }).click();
  const sections = () =>
    page.evaluate(() =>
      (window.harness.store.board().songs.get("demo-song-md")?.sections ?? []).map(
        ({ name, bars, metre, tempo }) => ({ name, bars, metre, tempo }),
      ),
    );
  return { page, sections };
};

test("[UI-2] a section is cut under a name that is free, and joined again once what is lost was said", async () => {
  const { page, sections } = await openForm(320);
  const before = await sections();
  const outro = before.at(-1);
  expect(outro?.name).toBe("Outro");
  await page.getByRole("button", { name: /^Change: Outro/ }).click();
  await page.getByText("Bars within it").click();
  await page.getByLabel("At bar").fill("5");
  await page.getByText(/^Cut before bar 5: 1 detail moves along\./).waitFor();
  const name = page.getByLabel("Name of the second half");
  expect(await name.inputValue()).toBe("Outro (2)");
  await name.fill(" ");
  await page.getByRole("button", { name: "Cut before it" }).click();
  await page.getByText("Give the second half a name.").waitFor();
  await name.fill("Tag");
  expect(await axeViolations(page)).toEqual([]);
  expect(await overflowing(page)).toEqual([]);
  expect(await smallTargets(page, 44)).toEqual([]);
  await page.getByRole("button", { name: "Cut before it" }).click();
  await expect
    .poll(async () => (await sections()).slice(-2).map((one) => one.name))
    .toEqual(["Outro", "Tag"]);

  await page.getByRole("button", { name: /^Change: Tag/ }).click();
  await page.getByLabel("Own metre").fill("6/8");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByRole("button", { name: /^Change: Outro/ }).click();
  await page.getByText("Bars within it").click();
  await page.getByText(/^Join with Tag: Outro is in .* and Tag in 6\/8: a section has one metre/).waitFor();
  expect(await page.getByRole("button", { name: "Join with Tag" }).count()).toBe(0);
  expect(await axeViolations(page)).toEqual([]);
  await page.getByRole("button", { name: "Leave it as it was" }).click();

  await page.getByRole("button", { name: /^Change: Tag/ }).click();
  await page.getByLabel("Own metre").fill("");
  await page.getByLabel("Own tempo").fill("77");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByRole("button", { name: /^Change: Outro/ }).click();
  await page.getByText("Bars within it").click();
  await page.getByText(/1 detail moves along\. The tempo of Tag, 77, is lost/).waitFor();
  await page.getByRole("button", { name: "Join with Tag" }).click();
  await expect.poll(sections).toEqual(before);
});

test("[UI-2] before a section goes, what hangs on it is told, and leaving it changes nothing", async () => {
  const { page, sections } = await openForm(390);
  const before = await sections();
  await page.getByRole("button", { name: "Take out: Outro" }).click();
  const asked = page.getByRole("dialog", { name: "Take Outro out of the form?" });
  await asked.getByText(/details? lose[s]? (its|their) section and (is|are) marked/).waitFor();
  expect(await axeViolations(page)).toEqual([]);
  await asked.getByRole("button", { name: "Leave it" }).click();
  expect(await sections()).toEqual(before);
  await page.getByRole("button", { name: "Take out: Outro" }).click();
  await asked.getByRole("button", { name: "Take it out" }).click();
  await expect.poll(sections).toEqual(before.slice(0, -1));
  await page.getByRole("region", { name: "Details without their place" }).waitFor();
  await page.getByRole("button", { name: "Undo" }).click();
  await expect.poll(sections).toEqual(before);
});
