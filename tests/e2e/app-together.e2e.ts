import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { cell, enterDemo, untilSaid, untilShown } from "#tests/support/app.ts";
import { testApp, UNREACHABLE } from "#tests/support/app-test.ts";
import { LAPTOP, PHONE } from "#tests/support/browser.ts";

const t = testApp();

const SONG = "demo-song-ut";
const DRUMS = "demo-chair-dr";
const PART = `/songs/${SONG}/part/${DRUMS}`;
const TEMPO = "168, never past 172; hold back Ch3";

/** Makes a link on the people's page and reads it. */
const makeLink = async (page: Page, kind: "Joining" | "Viewing"): Promise<string> => {
  await page.getByLabel(kind, { exact: true }).check();
  await page.getByRole("button", { name: "Make the link" }).click();
  await page.getByLabel("The link alone").check();
  return page.getByLabel("The link", { exact: true }).inputValue();
};

/** Opens a joining link on a new phone and picks a name. */
const joinByLink = async (link: string, name: string): Promise<Page> => {
  const { page } = await t.stranger(PHONE);
  await page.goto(link);
  await page.getByRole("button", { name }).click();
  await page.getByRole("button", { name: "That is me" }).click();
  await page.getByRole("heading", { name: "My parts" }).waitFor();
  return page;
};

const boardOf = (page: Page): string => /#\/b\/([^/]+)/.exec(page.url())?.[1] ?? "";
const goTo = async (page: Page, path: string): Promise<void> => {
  await page.goto(`${t.address}/#/b/${boardOf(page)}${path}`);
  await untilShown(page);
};

test("two phones join by the leader's link; a tick on one shows on the other and on the laptop's board", async () => {
  const leader = await t.stranger(LAPTOP);
  await leader.page.goto(t.address);
  await leader.page.getByRole("button", { name: "Open the demo band" }).click();
  await leader.page.getByRole("grid").waitFor();
  await goTo(leader.page, "/people");
  const link = await makeLink(leader.page, "Joining");
  const lucia = await joinByLink(link, "Lucía Borrasco");
  expect(lucia.url(), "the secret has left the address").not.toContain("join");
  const minjae = await joinByLink(link, "Min-jae Pardal");
  await goTo(leader.page, "/board");
  const drums = cell(leader.page, SONG, DRUMS).getByRole("img");
  const before = await drums.getAttribute("aria-label");
  await goTo(minjae, PART);
  await goTo(lucia, "/parts");
  await lucia.locator("summary").filter({ hasText: "Umbrella for the Tram Inspector" }).click();
  await lucia.getByRole("button", { name: `${TEMPO}': practised` }).click();
  await untilSaid(lucia, "all saved");
  await minjae.getByRole("button", { name: `${TEMPO}' (Lucía Borrasco): locked in` }).waitFor();
  await expect.poll(() => drums.getAttribute("aria-label")).not.toBe(before);
  await lucia.getByRole("button", { name: "Undo" }).click();
  await minjae.getByRole("button", { name: `${TEMPO}' (Lucía Borrasco): practised` }).waitFor();
  await expect.poll(() => drums.getAttribute("aria-label")).toBe(before);
});

test("one run logged on two phones, one of them without signal, is one take", async () => {
  t.expectComplaints(UNREACHABLE);
  const drummer = await t.device(await enterDemo(t.address, "member", "lucia"), `/room/${SONG}`, PHONE);
  const bassist = await t.device(await enterDemo(t.address, "member", "minjae"), `/room/${SONG}`, PHONE);
  const laptop = await t.device(await enterDemo(t.address, "leader", "tomasz"), `/songs/${SONG}`, LAPTOP);
  await bassist.context.setOffline(true);
  await drummer.page.getByRole("button", { name: "wobble" }).click();
  await bassist.page.getByRole("button", { name: "clean" }).click();
  await untilSaid(bassist.page, "1 to send");
  await untilSaid(drummer.page, "all saved");
  await bassist.context.setOffline(false);
  await untilSaid(bassist.page, "all saved");
  for (const { page } of [drummer, bassist])
    await page.getByRole("region", { name: "Today's log" }).getByText("and on this device").waitFor();
  const takes = (page: Page): Promise<readonly (string | undefined)[]> =>
    page
      .locator("[data-take]")
      .evaluateAll((lines) => lines.map((line) => (line as HTMLElement).dataset.take));
  const [take, ...others] = await takes(drummer.page);
  expect(others).toEqual([]);
  expect(await takes(bassist.page)).toEqual([take]);
  // A take's id begins with its day: the laptop's log of the song has one of this evening, too.
  const evening = take?.split("/")[0] ?? "no take";
  const ofEvening = async () => (await takes(laptop.page)).filter((id) => id?.startsWith(evening));
  await expect.poll(ofEvening).toEqual([take]);
});

test("a viewing link shows the whole board and offers nothing to change", async () => {
  const leader = await t.device(await enterDemo(t.address, "leader", "tomasz"), "/people", LAPTOP);
  const link = await makeLink(leader.page, "Viewing");
  const { page } = await t.stranger(PHONE);
  await page.goto(link);
  await page.getByRole("heading", { name: "25-minute slot" }).waitFor();
  await goTo(page, PART);
  const status = page.getByRole("button", { name: `${TEMPO}'` });
  expect(await status.isDisabled()).toBe(true);
  expect(await page.getByLabel("Add a detail").count()).toBe(0);
  await goTo(page, `/room/${SONG}`);
  await page.getByText("You are looking on").waitFor();
  expect(await page.getByRole("button", { name: "clean" }).count()).toBe(0);
  await goTo(page, `/songs/${SONG}`);
  expect(await page.getByRole("button", { name: /Change/ }).count()).toBe(0);
  await goTo(page, "/people");
  expect(await page.locator("main").getByRole("button").count()).toBe(0);
});
