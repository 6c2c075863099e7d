/** Two people on the whole product who see where the other is. */
import { expect, test } from "vitest";
import { cell, enterDemo } from "#tests/support/app.ts";
import { testApp, UNREACHABLE } from "#tests/support/app-test.ts";
import { LAPTOP, PHONE } from "#tests/support/browser.ts";

const t = testApp();

const SONG = "demo-song-ut";
const DRUMS = "demo-chair-dr";

test("who opens a part on the phone stands in its cell on the laptop, moves on, leaves, and comes back", async () => {
  t.expectComplaints(UNREACHABLE);
  const laptop = await t.device(await enterDemo(t.address, "leader", "tomasz"), "/board", LAPTOP);
  const known = await enterDemo(t.address, "member", "lucia");
  const phone = await t.device(known, `/songs/${SONG}/part/${DRUMS}`, PHONE);
  const drums = cell(laptop.page, SONG, DRUMS);
  await drums.getByText("LB", { exact: true }).waitFor();
  await laptop.page.getByText("Here: LB", { exact: true }).waitFor();
  expect(await drums.ariaSnapshot()).toContain("Lucía Borrasco here");

  await phone.go("/room");
  await drums.getByText("LB", { exact: true }).waitFor({ state: "detached" });
  await laptop.page.getByText(/Lucía Borrasco: in the room/).waitFor({ state: "attached" });

  await t.app.kill();
  await laptop.page.getByText(/^Here: /).waitFor({ state: "detached" });
  await t.app.start();
  await laptop.page.getByText("Here: LB", { exact: true }).waitFor();

  // The phone's board shows the laptop's person where the focus is.
  await cell(laptop.page, SONG, DRUMS).focus();
  await phone.go("/board");
  await phone.page.getByText("Here: TW", { exact: true }).waitFor();
  await phone.page
    .getByRole("button", { expanded: false })
    .filter({ hasText: "Umbrella for the Tram" })
    .click();
  await phone.page.getByText("TW", { exact: true }).waitFor();
  await phone.page.close();
  await laptop.page.getByText(/^Here: /).waitFor({ state: "detached" });
}, 120_000);

test("a second tab of the same person counts once, a guest sees people and is not seen", async () => {
  const laptop = await t.device(await enterDemo(t.address, "leader", "tomasz"), "/board", LAPTOP);
  const phone = await t.device(await enterDemo(t.address, "member", "minjae"), "/board", PHONE);
  const second = await phone.context.newPage();
  await second.goto(phone.page.url());
  await laptop.page.getByText("Here: MP", { exact: true }).waitFor();
  const guest = await t.device(await enterDemo(t.address, "guest", null), "/board", LAPTOP);
  await guest.page.getByText("Here: MP, TW", { exact: true }).waitFor();
  // Had the guest been shown, then before this move.
  await phone.go(`/songs/${SONG}/part/${DRUMS}`);
  await cell(laptop.page, SONG, DRUMS).getByText("MP", { exact: true }).waitFor();
  expect(await laptop.page.getByText(/^Here: /).textContent()).toBe("Here: MP");
});
