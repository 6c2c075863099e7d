import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { untilSaid, untilShown } from "#tests/support/app.ts";
import { testApp, UNREACHABLE } from "#tests/support/app-test.ts";
import { LAPTOP, PHONE } from "#tests/support/browser.ts";

const t = testApp();

const startBand = async (page: Page, name: string): Promise<void> => {
  await page.goto(t.address);
  await page.getByLabel("Name of your band").fill(name);
  await page.getByRole("button", { name: "Start", exact: true }).click();
  await page.getByRole("button", { name: "I have written it down" }).click();
  await page.getByRole("heading", { name: "Which chairs does your band have?" }).waitFor();
};

test("a new band: chairs, songs and a link; the second phone joins by it and the others see who came", async () => {
  const { page } = await t.stranger(LAPTOP);
  await startBand(page, "Paper Lighthouse Society");
  await page.getByRole("heading", { name: "Paper Lighthouse Society" }).waitFor();
  await page.getByRole("button", { name: /^Use Trio/ }).click();
  await page.getByRole("button", { name: "Go on" }).click();
  await page.getByLabel("Your name").fill("Ifeoma Adisalu");
  await page.getByLabel("Guitar").check();
  await page.getByRole("button", { name: "Go on to the songs" }).click();
  await page.getByLabel("Paste a list", { exact: true }).fill("Marzipan Diesel\nTollbooth Cinnamon");
  await page.getByRole("button", { name: "Add 2 songs" }).click();
  await page.getByRole("button", { name: "Go on" }).click();
  await page.getByRole("button", { name: "Make the link" }).click();
  const link = /http\S+/.exec(await page.getByLabel("A message, ready to paste").inputValue())?.[0] ?? "";
  await page.getByRole("button", { name: "Go to the board" }).click();
  await page.getByRole("grid").waitFor();
  await untilSaid(page, "all saved");

  const phone = await t.stranger(PHONE);
  await phone.page.goto(link);
  await phone.page.getByRole("heading", { name: "Who are you?" }).waitFor();
  expect(phone.page.url()).not.toContain(link.split("/").at(-1) ?? "?");
  await phone.page.getByLabel("Your name").fill("Min-jae Pardal");
  await phone.page.getByLabel("Bass").check();
  await phone.page.getByRole("button", { name: "Add me" }).click();
  await phone.page.getByRole("heading", { name: "My parts" }).waitFor();
  await page.goto(page.url().replace("/board", "/people"));
  await untilShown(page);
  await expect
    .poll(() => page.getByLabel("Who holds Bass").locator("option:checked").textContent())
    .toBe("Min-jae Pardal");

  // The link opened again on the same phone is the same person.
  await phone.page.goto(t.address);
  await phone.page.goto(link);
  await phone.page.waitForFunction(() => location.hash.endsWith("/board"));
  await phone.page.goto(t.address);
  await phone.page.getByRole("link", { name: "Paper Lighthouse Society" }).waitFor();
});

test("a saved board becomes a new one that holds the same, also for the next device", async () => {
  const { page } = await t.stranger(LAPTOP);
  await page.goto(t.address);
  await page.getByRole("button", { name: "Open the demo band" }).click();
  await page.getByRole("grid").waitFor();
  const demo = page.url();
  await page.goto(demo.replace("/board", "/settings"));
  const save = async () => {
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save the whole board as JSON" }).click(),
    ]);
    return download.path();
  };
  const file = await save();
  await page.getByLabel("Start a new board from a saved file").setInputFiles(file);
  await page.getByRole("button", { name: "Start the new board" }).click();
  await page.getByRole("button", { name: "I have written it down" }).click();
  await page.waitForFunction((before) => location.href !== before && location.hash.endsWith("/board"), demo);
  await page.getByRole("grid").waitFor();
  expect(page.url()).not.toBe(demo);
  await page.goto(page.url().replace("/board", "/settings"));
  expect(readFileSync(await save(), "utf8")).toBe(readFileSync(file, "utf8"));

  await page.goto(page.url().replace("/settings", "/people"));
  await page.getByLabel("Viewing").check();
  await page.getByRole("button", { name: "Make the link" }).click();
  await page.getByLabel("The link alone").check();
  const other = await t.stranger(PHONE);
  await other.page.goto(await page.getByLabel("The link", { exact: true }).inputValue());
  await other.page.getByRole("heading", { name: "25-minute slot" }).waitFor();
});

test("a link without a server waits on the page and is used once the server is back", async () => {
  t.expectComplaints(UNREACHABLE);
  const leader = await t.stranger(LAPTOP);
  await startBand(leader.page, "Kite Insurance");
  await leader.page.goto(leader.page.url().replace("/start", "/people"));
  await leader.page.getByRole("button", { name: "Make the link" }).click();
  await leader.page.getByLabel("The link alone").check();
  const link = await leader.page.getByLabel("The link", { exact: true }).inputValue();
  const { page, context } = await t.stranger(PHONE);
  await page.goto(t.address);
  await page.getByRole("heading", { level: 1 }).waitFor();
  // What a link needs is fetched ahead, once the page is idle.
  await page.waitForFunction(() =>
    ["/join-route-", "/server-api-"].every((part) =>
      performance.getEntriesByType("resource").some(({ name }) => name.includes(part)),
    ),
  );
  await page.waitForLoadState("networkidle");
  await context.setOffline(true);
  await page.evaluate((hash) => {
    location.hash = hash;
  }, new URL(link).hash);
  await page.getByText("Your link is kept on this page").waitFor();
  expect(await page.evaluate(() => location.hash)).toBe("#/join");
  await context.setOffline(false);
  await page.getByRole("heading", { name: "Who are you?" }).waitFor();
});
