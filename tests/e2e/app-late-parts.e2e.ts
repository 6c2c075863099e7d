/** Parts of a screen that are fetched after it stands: nothing moves when they come, and nothing is lost without them. */
import type { BrowserContext, Page } from "playwright-core";
import { expect, test } from "vitest";
import { enterDemo, heading, untilSaid } from "#tests/support/app.ts";
import { testApp, UNREACHABLE } from "#tests/support/app-test.ts";
import { LAPTOP, type PageOptions, PHONE } from "#tests/support/browser.ts";

const t = testApp();

const FORM = "**/assets/add-detail-*.js";
const CALLS = "**/assets/server-api-*.js";
const FIRST = "Wrong Side of the Aquarium";

/** A visit to a drummer's own parts. The page itself asks for its parts, not the worker that keeps them. */
const partsOf = async (
  size: PageOptions,
  prepare: (context: BrowserContext) => Promise<unknown>,
): Promise<Page> => {
  const known = await enterDemo(t.address, "member", "lucia");
  const { page, context } = await t.stranger(size);
  await context.addInitScript((entry) => {
    Reflect.deleteProperty(Navigator.prototype, "serviceWorker");
    localStorage.setItem("tightrow.boards", JSON.stringify([entry]));
  }, known);
  await prepare(context);
  await page.goto(`${t.address}/#/b/${known.board}/parts`);
  await heading(page).waitFor();
  return page;
};

const unfold = async (page: Page): Promise<void> => {
  const row = page.locator("li[data-song]", { hasText: FIRST });
  await row.locator("summary").first().click();
  await row.locator("section").first().waitFor();
};

test.each([PHONE, LAPTOP])("the form for a detail moves nothing when it comes: $width px", async (size) => {
  let come = (): void => {};
  const coming = new Promise<void>((resolve) => {
    come = resolve;
  });
  const page = await partsOf(size, (context) =>
    context.route(FORM, async (route) => {
      await coming;
      await route.continue();
    }),
  );
  await unfold(page);
  const after = page.getByRole("link", { name: "The whole part" });
  const before = await after.boundingBox();
  expect(await page.getByLabel("Add a detail").count()).toBe(0);
  come();
  await page.getByLabel("Add a detail").waitFor();
  expect((await after.boundingBox())?.y).toBe(before?.y);
});

test("where the form for a detail cannot be fetched, details are marked all the same, and it comes when asked for", async () => {
  t.expectComplaints(UNREACHABLE);
  const page = await partsOf(PHONE, (context) => context.route(FORM, (route) => route.abort()));
  await unfold(page);
  const note = page.getByText("This part of Tightrow is not on this device yet.");
  await note.waitFor();
  await page.locator("details[open] [data-card] button").first().click();
  await page.getByLabel("What just happened").getByRole("button", { name: "Undo" }).waitFor();
  await page.context().unroute(FORM);
  await page.getByRole("button", { name: "Try again" }).click();
  await page.getByLabel("Add a detail").waitFor();
  expect(await note.count()).toBe(0);
});

test("where the calls to the server cannot be fetched, the board is saved all the same, and a list comes when asked for", async () => {
  t.expectComplaints(UNREACHABLE);
  const page = await partsOf(PHONE, (context) => context.route(CALLS, (route) => route.abort()));
  await untilSaid(page, "all saved");
  await page.evaluate(() => {
    location.hash = location.hash.replace("/parts", "/people");
  });
  const note = page.getByText("The server cannot be reached.", { exact: false });
  await note.first().waitFor();
  await page.context().unroute(CALLS);
  await page.getByRole("button", { name: "Try again" }).click();
  await note.waitFor({ state: "detached" });
});
