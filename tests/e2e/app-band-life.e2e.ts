import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { untilKept, untilSaid, untilShown } from "#tests/support/app.ts";
import { testApp, UNREACHABLE } from "#tests/support/app-test.ts";
import { LAPTOP, PHONE } from "#tests/support/browser.ts";

const t = testApp();

/** A removed device, a closed season and a code that is not known are refused, and the browser says so. */
const TURNED_AWAY = /status of 4\d\d/;

interface Started {
  readonly page: Page;
  /** `#/b/…` of the board. */
  readonly base: string;
  readonly code: string;
}

/** A band from nothing with its leader on the board; resolves with the recovery code it was shown. */
const startBand = async (name: string): Promise<Started> => {
  const { page } = await t.stranger(LAPTOP);
  await page.goto(t.address);
  await page.getByLabel("Name of your band").fill(name);
  await page.getByRole("button", { name: "Start", exact: true }).click();
  await page.getByRole("heading", { name: "Write this down" }).waitFor();
  const code = (await page.locator("main .tracking-widest").textContent()) ?? "";
  expect(code).toMatch(/^[0-9A-Z]{5}(-[0-9A-Z]{5,6}){4}$/);
  await page.getByRole("button", { name: "I have written it down" }).click();
  await page.getByRole("button", { name: /^Use Trio/ }).click();
  await page.getByRole("button", { name: "Go on" }).click();
  await page.getByLabel("Your name").fill("Ifeoma Adisalu");
  await page.getByRole("button", { name: "Go on to the songs" }).click();
  await page.getByRole("heading", { name: "What do you play?", exact: true }).waitFor();
  return { page, base: page.url().replace("/start", ""), code };
};

/** Opens a place afresh, as somebody who comes back to it. */
const at = async (page: Page, base: string, path: string): Promise<void> => {
  if (page.url() === base + path) await page.reload();
  else await page.goto(base + path);
  await untilShown(page);
};

const addSong = async (page: Page, base: string, title: string): Promise<void> => {
  await at(page, base, "/songs");
  const line = page.getByLabel("Add a song by its title");
  await line.fill(title);
  await line.press("Enter");
  await page.getByRole("link", { name: title }).waitFor();
};

/** A link for another device of the leader's own, as its address. */
const ownLink = async (page: Page, base: string): Promise<string> => {
  await at(page, base, "/people");
  await page.getByRole("button", { name: "Add another device of mine" }).click();
  await page.getByLabel("The link alone").check();
  return page.getByLabel("The link", { exact: true }).inputValue();
};

const titles = (page: Page): Promise<readonly string[]> => page.locator("main li a").allInnerTexts();

test("a device that was removed says so, keeps what it had not sent, and sends it once it is let in again", async () => {
  t.expectComplaints(UNREACHABLE);
  t.expectComplaints(TURNED_AWAY);
  const { page, base } = await startBand("Paper Lighthouse Society");
  await addSong(page, base, "Marzipan Diesel");
  const phone = await t.stranger(PHONE);
  await phone.page.goto(await ownLink(page, base));
  // Nobody picks a name: the link is for one person.
  await phone.page.waitForFunction(() => location.hash.endsWith("/board"));
  await untilSaid(phone.page, "all saved");
  await at(phone.page, base, "/songs");
  await untilKept(phone.page);
  await phone.context.setOffline(true);
  await untilSaid(phone.page, "no signal");
  await addSong(phone.page, base, "Tollbooth Cinnamon");
  await untilSaid(phone.page, "1 to send");

  await at(page, base, "/people");
  await page.getByRole("button", { name: /^More about .+Ifeoma Adisalu$/ }).click();
  await page.getByRole("menuitem", { name: "Remove it" }).click();
  await page.getByRole("dialog").getByRole("button", { name: "Remove it" }).click();
  await page.getByText(/is removed and cut off\.$/).waitFor();

  await phone.context.setOffline(false);
  await untilSaid(phone.page, "not connected, 1 kept here");
  await phone.page.getByRole("button", { name: /not connected/ }).click();
  await phone.page.getByText("A leader has removed this device from the board.").waitFor();
  await phone.page.getByRole("button", { name: "Close" }).click();
  await phone.page.getByRole("link", { name: "Tollbooth Cinnamon" }).waitFor();

  await phone.page.goto(await ownLink(page, base));
  await phone.page.waitForFunction(() => location.hash.endsWith("/board"));
  await untilSaid(phone.page, "all saved");
  await at(page, base, "/songs");
  await page.getByRole("link", { name: "Tollbooth Cinnamon" }).waitFor();
});

test("whoever lost every device leads again by the recovery code, and removes the lost one", async () => {
  t.expectComplaints(TURNED_AWAY);
  const { page, base, code } = await startBand("Kite Insurance");
  await addSong(page, base, "Marzipan Diesel");
  await untilSaid(page, "all saved");
  const found = await t.stranger(PHONE);
  const enter = async (typed: string) => {
    await found.page.getByLabel("Recovery code").fill(typed);
    await found.page.getByRole("button", { name: "Lead again" }).click();
  };
  await found.page.goto(t.address);
  await found.page.getByText("I lead a band and lost every device").click();
  await enter(code.replaceAll("-", " ").toLowerCase());
  await found.page.getByText("You lead again on this device.").waitFor();
  const next = (await found.page.locator("main .tracking-widest").textContent()) ?? "";
  expect(next).not.toBe(code);
  await found.page.getByRole("button", { name: "I have written it down" }).click();
  await untilSaid(found.page, "all saved");
  await at(found.page, base, "/songs");
  expect((await titles(found.page)).join()).toContain("Marzipan Diesel");
  await at(found.page, base, "/people");
  await found.page.getByRole("button", { name: /^More about .+Ifeoma Adisalu$/ }).click();
  await found.page.getByRole("menuitem", { name: "Remove it" }).click();
  await found.page.getByRole("dialog").getByRole("button", { name: "Remove it" }).click();
  await untilSaid(page, "not connected");

  // The code that was used is void.
  await found.page.goto(t.address);
  await found.page.getByText("I lead a band and lost every device").click();
  await enter(code);
  await found.page.getByText("This recovery code is not known.").waitFor();
});

test("a song that was taken off comes back from the history, and the whole board goes back to a moment", async () => {
  const { page, base } = await startBand("Velvet Gravel");
  await addSong(page, base, "Marzipan Diesel");
  await addSong(page, base, "Tollbooth Cinnamon");
  await untilSaid(page, "all saved");
  const phone = await t.stranger(PHONE);
  await phone.page.goto(await ownLink(page, base));
  await phone.page.waitForFunction(() => location.hash.endsWith("/board"));
  await at(phone.page, base, "/songs");
  await phone.page.getByRole("button", { name: "Take Marzipan Diesel off the board" }).click();
  await untilSaid(phone.page, "all saved");

  await at(page, base, "/history");
  await page.getByRole("button", { name: /took the song ‘Marzipan Diesel’ off the board/ }).click();
  await page.getByText("1 song comes back").waitFor();
  await page.getByRole("button", { name: "Put this back" }).click();
  await page.getByText(/^Put back:/).waitFor();
  await untilSaid(page, "all saved");
  await at(page, base, "/songs");
  await page.getByRole("link", { name: "Marzipan Diesel" }).waitFor();

  await at(page, base, "/history");
  await page.getByRole("button", { name: /added the song ‘Tollbooth Cinnamon’/ }).click();
  await page.getByRole("link", { name: "The board just before this" }).click();
  await page.locator("main summary", { hasText: "Marzipan Diesel" }).waitFor();
  expect(await page.locator("main summary").count()).toBe(1);
  await page.getByRole("button", { name: "Restore the whole board to this moment" }).click();
  await page.getByText("1 song goes off the board").waitFor();
  await page.getByRole("button", { name: "Restore it" }).click();
  await page.getByText(/^The board is back at/).waitFor();
  await untilSaid(page, "all saved");
  await at(page, base, "/songs");
  expect((await titles(page)).join()).not.toContain("Tollbooth Cinnamon");
  const restored = page.getByRole("listitem").filter({ hasText: "The board is back at" });
  await restored.getByRole("button", { name: "Undo" }).click();
  // The list holds still until it is asked to sort.
  await page.getByRole("button", { name: "Sort again" }).click();
  await page.getByRole("link", { name: "Tollbooth Cinnamon" }).waitFor();
});

test("a season is closed with a phone offline: it catches up by itself, with what it had not sent", async () => {
  t.expectComplaints(UNREACHABLE);
  t.expectComplaints(TURNED_AWAY);
  const { page, base } = await startBand("Copper Orchard");
  await addSong(page, base, "Marzipan Diesel");
  const phone = await t.stranger(PHONE);
  await phone.page.goto(await ownLink(page, base));
  await phone.page.waitForFunction(() => location.hash.endsWith("/board"));
  await at(phone.page, base, "/songs");
  await phone.page.getByRole("link", { name: "Marzipan Diesel" }).waitFor();
  await untilSaid(phone.page, "all saved");
  await untilKept(phone.page);
  await phone.context.setOffline(true);
  await untilSaid(phone.page, "no signal");
  await addSong(phone.page, base, "Tollbooth Cinnamon");

  await at(page, base, "/settings");
  await page.getByRole("button", { name: "Close the season" }).click();
  await page.getByRole("button", { name: "Close it" }).click();
  await page.getByText(/^Season 2 is open\. The board went from/).waitFor();
  await untilSaid(page, "all saved");

  await phone.context.setOffline(false);
  await untilSaid(phone.page, "all saved");
  await at(page, base, "/songs");
  await page.getByRole("link", { name: "Tollbooth Cinnamon" }).waitFor();
  await page.getByRole("link", { name: "Marzipan Diesel" }).waitFor();

  // The season before is read, and nothing of it put back.
  await at(page, base, "/history");
  await page.getByLabel("Season").selectOption("season 1");
  await page.getByRole("button", { name: /added the song ‘Marzipan Diesel’/ }).click();
  await page.getByText("This season is closed: it can be read, and nothing of it put back.").waitFor();
});
