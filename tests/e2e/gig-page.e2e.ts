import { expect, test } from "vitest";
import { LAPTOP, PHONE } from "#tests/support/browser.ts";
import { openScreen } from "#tests/support/harness/open-screen.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";
import { axeViolations, overflowing, smallTargets } from "#tests/support/page-checks.ts";

const t = testHarness();
const GIG = "/gigs/demo-gig-slot";
const LEADER = "as=tomasz&role=leader";

test("[UI-2] what if somebody is missing: said at once, nothing written, then made so and taken back", async () => {
  const { page } = t.keep(await openScreen(t.browser, t.address, GIG, { query: LEADER, ...PHONE }));
  const away = (): Promise<readonly string[] | undefined> =>
    page.evaluate(() => window.harness.store.board().gigs.find(({ id }) => id === "demo-gig-slot")?.away);
  expect(await away()).toEqual([]);
  await page.getByText("What if?", { exact: true }).click();
  await page.getByLabel("Without").selectOption({ label: "Lucía Borrasco" });
  await page.getByText(/^\d+ ready minutes instead of \d+/).waitFor();
  expect(await page.getByText(/^0 ready minutes instead of [1-9]/).count()).toBe(1);
  await page
    .getByText(/not ready then: .*Drums/)
    .first()
    .waitFor();
  await page.getByLabel("in the key of").fill("H");
  await page.getByRole("button", { name: "Try" }).click();
  await page.getByText(/in English names that note is B/).waitFor();
  expect(await away()).toEqual([]);
  expect(await axeViolations(page)).toEqual([]);
  expect(await overflowing(page)).toEqual([]);
  expect(await smallTargets(page, 44)).toEqual([]);
  await page.getByRole("button", { name: "Make it so" }).click();
  await expect.poll(away).toHaveLength(1);
  await page.getByText("Away: Lucía Borrasco (Drums)").waitFor();
  await page.getByRole("button", { name: "Undo" }).click();
  await expect.poll(away).toEqual([]);
});

test("[UI-2] spares, the way to the night and what is agreed stand on the gig's page", async () => {
  const { page } = t.keep(await openScreen(t.browser, t.address, GIG, { query: LEADER, ...LAPTOP }));
  await page.getByText("Spares and stale songs").click();
  await page
    .getByRole("button", { name: /^Swap .* for / })
    .first()
    .waitFor();
  await page.getByText("From today to the night").click();
  await page.getByText(/On the night it is \d+ % if nothing more happens/).waitFor();
  await page.getByRole("button", { name: "Change what is agreed" }).click();
  await page.getByLabel("Everybody there at").fill("half five");
  await page.getByRole("button", { name: "Save" }).click();
  await page.getByText("Write a time such as 17:30.").waitFor();
  await page.getByLabel("Everybody there at").fill("17:30");
  await page.getByRole("button", { name: "Save" }).click();
  await page.getByText("17:30").first().waitFor();
  expect(await axeViolations(page)).toEqual([]);
});

test.each([
  ["A4", "/gigs/demo-gig-dance"],
  ["Letter", "/gigs/demo-gig-dance"],
  ["A4", "/gigs/demo-gig-dance/load-in"],
  ["Letter", "/gigs/demo-gig-dance/load-in"],
  ["A4", "/gigs/demo-gig-slot/order"],
  ["Letter", "/gigs/demo-gig-slot/order"],
])("on %s %s takes one sheet, with nothing on it to be pressed", async (format, path) => {
  const { page } = t.keep(await openScreen(t.browser, t.address, path, { query: LEADER, ...LAPTOP }));
  await page.getByRole("heading", { level: 1 }).waitFor();
  const margin = { top: "12mm", bottom: "12mm", left: "12mm", right: "12mm" };
  const pdf = await page.pdf({ format, margin });
  expect(pdf.toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g)).toHaveLength(1);
  await page.emulateMedia({ media: "print" });
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  for (const control of ["button", "textbox", "combobox"] as const)
    expect(await page.getByRole("main").getByRole(control).count()).toBe(0);
});

test("the call sheet says when, where, who plays and what, and how ready nothing is", async () => {
  const path = "/gigs/demo-gig-dance";
  const { page } = t.keep(await openScreen(t.browser, t.address, path, { query: LEADER, ...LAPTOP }));
  await page.getByRole("heading", { level: 1 }).waitFor();
  await page.emulateMedia({ media: "print" });
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  const sheet = page.locator("[data-call-sheet]");
  const text = (await sheet.textContent()) ?? "";
  const gig = await page.evaluate(() => {
    const board = window.harness.store.board();
    const one = board.gigs.find(({ id }) => id === "demo-gig-dance");
    return {
      said: [one?.call, one?.start, one?.place, one?.dress, one?.contact],
      titles: one?.songs.map(({ song }) => board.songs.get(song)?.song.title),
      chairs: board.chairs.map(({ name }) => name),
    };
  });
  for (const word of [...gig.said, ...(gig.titles ?? []), ...gig.chairs]) expect(text).toContain(word);
  expect(await sheet.getByRole("row").count()).toBe(gig.titles?.length);
  expect(text).not.toMatch(/ready|practised|locked in|%/);
});

test("[KEY-1] a tired voice: the songs too high, who pays for what helps, a key asked for and played that night only", async () => {
  const { page } = t.keep(
    await openScreen(t.browser, t.address, GIG, { query: "as=priya&role=member", ...PHONE }),
  );
  await page.getByRole("heading", { level: 1 }).waitFor();
  expect(await page.getByText("Tonight's top").count()).toBe(0);
  await page.evaluate(() => window.harness.remote("reviseGig", { gig: "demo-gig-slot", date: "2026-03-05" }));
  await page.getByText("Tonight's top").click();
  await page.getByLabel("Your highest note tonight").fill("A4");
  await page.getByText(/^\d+ of your songs lie above it\.$/).waitFor();
  await page
    .getByText(/ follow one another\.$/)
    .first()
    .waitFor();
  const diesel = page.getByRole("list", { name: "For tonight only: Marzipan Diesel" });
  await diesel
    .getByText(/Everybody else: the new key/)
    .first()
    .waitFor();
  expect(await overflowing(page)).toEqual([]);
  expect(await smallTargets(page, 44)).toEqual([]);
  expect(await axeViolations(page)).toEqual([]);
  await diesel.getByRole("button", { name: "Ask for C tonight" }).click();
  const asked = page.getByRole("region", { name: "Keys asked for that night" });
  await asked.getByText("Marzipan Diesel in C, not D: Priya Sundarvane asks for it.").waitFor();
  expect(await asked.getByRole("button").count()).toBe(0);
  // Nothing but the key has left the device.
  const written = await page.evaluate(() => JSON.stringify(window.harness.store.board().gigs));
  expect(written).not.toContain("A4");
  await diesel.getByRole("button", { name: "Take it back" }).click();
  await asked.waitFor({ state: "detached" });
});

test("the leader plays a song in the key that was asked for, or leaves it", async () => {
  const { page } = t.keep(await openScreen(t.browser, t.address, GIG, { query: LEADER, ...LAPTOP }));
  const ask = (key: string) =>
    page.evaluate(
      (name) => window.harness.remote("askForKey", { gig: "demo-gig-slot", song: "demo-song-md", key: name }),
      key,
    );
  const night = () =>
    page.evaluate(() => {
      const gig = window.harness.store.board().gigs.find(({ id }) => id === "demo-gig-slot");
      return [gig?.songs.find(({ song }) => song === "demo-song-md")?.key, gig?.keysAsked.size];
    });
  await ask("C");
  const asked = page.getByRole("region", { name: "Keys asked for that night" });
  await asked.getByRole("button", { name: "Leave it in D" }).click();
  await expect.poll(night).toEqual([null, 0]);
  await ask("C");
  await asked.getByRole("button", { name: "Play it in C" }).click();
  await expect.poll(night).toEqual(["C", 0]);
});
