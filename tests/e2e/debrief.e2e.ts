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
  // A result that is corrected keeps the slip that was named in it.
  await row.getByRole("radio", { name: "stopped" }).check();
  await expect.poll(takes).toEqual(["md stopped 1"]);

  const gig = () =>
    page.evaluate(() => {
      const one = window.harness.store.board().gigs.find(({ id }) => id === "demo-gig-slot");
      return { note: one?.note, told: [...(one?.told ?? [])] };
    });
  const called = page.locator("ol > li[data-song]");
  const ids = await called.evaluateAll((rows) => rows.map((one) => one.getAttribute("data-song")));
  const out = ids.find((id) => id !== "demo-song-md") ?? "";
  await page.locator(`[data-song="${out}"]`).getByRole("radio", { name: "left out" }).check();
  await page.getByText(/^Called and left out: /).waitFor();
  await row.getByLabel(/^The floor at/).selectOption("floor emptied");
  await expect
    .poll(async () => (await gig()).told)
    .toEqual(
      expect.arrayContaining([
        [out, { leftOut: true, floorDid: "" }],
        ["demo-song-md", { leftOut: false, floorDid: "emptied" }],
      ]),
    );

  // What was left out is not logged with the rest.
  await page.getByRole("button", { name: "The other 4 clean" }).click();
  await expect.poll(takes).toHaveLength(5);
  expect((await takes()).join()).not.toContain(out.replace("demo-song-", ""));
  await page.getByText("6 of 6 logged").waitFor();
  expect(await axeViolations(page)).toEqual([]);
  expect(await overflowing(page)).toEqual([]);
  expect(await smallTargets(page, 44)).toEqual([]);
  await page.getByRole("button", { name: "Undo" }).last().click();
  await expect.poll(takes).toEqual(["md stopped 1"]);

  // It was played after all: one tap says so, and one more song that nobody had called.
  await page.locator(`[data-song="${out}"]`).getByRole("radio", { name: "clean" }).check();
  await expect.poll(async () => (await gig()).told.some(([song]) => song === out)).toBe(false);
  await page.getByLabel("Played though not called").selectOption({ index: 1 });
  await page.getByText("2 of 7 logged").waitFor();
  await called.last().getByRole("radio", { name: "wobble" }).check();
  await page.getByText(/^Played though not called: /).waitFor();
  expect(await takes()).toHaveLength(3);

  await page.getByRole("button", { name: "Write a note" }).click();
  await page.getByLabel("What to remember").fill("The host wants us back in June.");
  await page.getByRole("form", { name: "Note of the night" }).getByRole("button", { name: "Save" }).click();
  await expect.poll(async () => (await gig()).note).toBe("The host wants us back in June.");

  await page.getByText("As text, to copy").click();
  expect((await page.getByLabel("Titles, one a line").inputValue()).split("\n")).toHaveLength(3);
});

test("a result that another device logged stays as it is, and the screen says where it is corrected", async () => {
  const query = "as=tomasz&role=leader";
  const { page } = t.keep(
    await openScreen(t.browser, t.address, "/gigs/demo-gig-cellar/debrief", { query, ...PHONE }),
  );
  const takes = () =>
    page.evaluate(() =>
      [...window.harness.store.board().songs.values()].flatMap(({ takes }) =>
        takes
          .filter(({ occasion }) => occasion === "g:demo-gig-cellar")
          .map(({ id, feel, slips }) => ({ id, feel, slips: slips.length })),
      ),
    );
  const row = page.locator("ol > li[data-song]", { has: page.getByRole("radio", { checked: true }) }).first();
  await row.waitFor();
  const before = await takes();
  const other = row.getByRole("radio", { checked: false });
  await other.first().click();
  await page.getByText(/^Another device logged /).waitFor();
  expect(await takes()).toEqual(before);
  expect(await row.getByRole("radio", { checked: true }).count()).toBe(1);
});

test("who had said that they could not come counts again once it is said that they were there", async () => {
  const query = "as=tomasz&role=leader";
  const { page } = t.keep(await openScreen(t.browser, t.address, "/gigs/demo-gig-slot", { query, ...PHONE }));
  await page.evaluate(() => {
    window.harness.remote("reviseGig", { gig: "demo-gig-slot", date: "2026-03-05" });
    window.harness.remote("sayAway", { person: "demo-lucia", from: "2026-03-04", to: "2026-03-06" });
  });
  await page.getByRole("link", { name: "Debrief" }).click();
  await page.getByText("Away that day: Lucía Borrasco. Nothing is logged for them.").waitFor();
  const row = page.locator('[data-song="demo-song-md"]');
  const seated = () =>
    page.evaluate(() =>
      window.harness.store
        .board()
        .songs.get("demo-song-md")
        ?.takes.findLast(({ occasion }) => occasion === "g:demo-gig-slot")
        ?.seats.some(({ member }) => member === "demo-lucia"),
    );
  await row.getByRole("radio", { name: "wobble" }).check();
  await expect.poll(seated).toBe(false);
  await page.getByRole("button", { name: "Was there after all" }).click();
  await page.getByText("Away that day").waitFor({ state: "detached" });
  expect(await axeViolations(page)).toEqual([]);
  expect(await smallTargets(page, 44)).toEqual([]);
  await row.getByRole("radio", { name: "clean" }).check();
  await expect.poll(seated).toBe(true);
  // The days beside that one stand.
  const days = await page.evaluate(() =>
    window.harness.store
      .board()
      .aways.filter(({ person }) => person === "demo-lucia")
      .map(({ from, to }) => [from, to]),
  );
  expect(days).toEqual([
    ["2026-03-04", "2026-03-04"],
    ["2026-03-06", "2026-03-06"],
  ]);
});
