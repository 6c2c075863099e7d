/** A dep's way through the whole product: seated, let in by a link, without signal, asked and answered. */
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import type { OnBoard } from "#tests/support/app.ts";
import {
  enterDemo,
  focusedName,
  heading,
  tabTo,
  untilKept,
  untilSaid,
  untilShown,
} from "#tests/support/app.ts";
import { testApp, UNREACHABLE } from "#tests/support/app-test.ts";
import { LAPTOP, type OpenPage, type PageOptions, PHONE } from "#tests/support/browser.ts";
import { LOOKS } from "#tests/support/harness/open-screen.ts";
import { axeViolations, borderContrasts, overflowing, smallTargets } from "#tests/support/page-checks.ts";

const t = testApp();

/** Each test brings a leader and a dep, on a machine that may be busy. */
const PATIENCE = { timeout: 180_000 };
const DEP = "Karim Belhossat";
const BASS = "Bass, backing voice that night";

/** The leader seats the dep on bass at the gig ahead and makes their link. */
const makeLink = async (): Promise<{ readonly leader: OnBoard; readonly link: string }> => {
  const leader = await t.device(
    await enterDemo(t.address, "leader", "tomasz"),
    "/gigs/demo-gig-slot",
    LAPTOP,
  );
  const { page } = leader;
  await page.getByLabel(BASS).selectOption({ label: `${DEP} (dep)` });
  await untilSaid(page, "all saved");
  await page.getByRole("button", { name: `Link for ${DEP}` }).click();
  await page.getByRole("img", { name: /Opens the link into/ }).waitFor();
  await page.getByRole("radio", { name: "The link alone" }).check();
  return { leader, link: await page.getByLabel("The link", { exact: true }).inputValue() };
};

const openAsDep = async (link: string, options: PageOptions = PHONE): Promise<OpenPage> => {
  const dep = await t.stranger(options);
  await dep.page.goto(link);
  await dep.page.getByText(`${DEP}, you sit in on`).waitFor();
  return dep;
};

const gotIt = (page: Page) => page.getByRole("button", { name: /^Got it: / });

test(
  "[DEP-1] [SYNC-3] a dep opens one gig on a phone, answers without signal, and reads the band's answer",
  PATIENCE,
  async () => {
    t.expectComplaints(UNREACHABLE);
    const { leader, link } = await makeLink();
    const { page, context } = await openAsDep(link);
    await untilSaid(page, "all saved");
    expect(await heading(page).textContent()).not.toBe("");
    expect(await page.getByRole("navigation", { name: "Places" }).count()).toBe(0);
    await untilKept(page);

    await context.setOffline(true);
    await gotIt(page).first().click();
    await page
      .getByRole("button", { name: /^Ask about: / })
      .first()
      .click();
    await page.getByLabel("What do you want to know?").fill("Is that before the drums come back?");
    await page.getByRole("button", { name: "Send the question" }).click();
    await untilSaid(page, "on this phone, 2 to send");
    await page.reload();
    await untilShown(page);
    await untilSaid(page, "on this phone, 2 to send");
    expect(await gotIt(page).first().getAttribute("aria-pressed")).toBe("true");
    await page.getByText("Is that before the drums come back?").waitFor();

    await context.setOffline(false);
    await untilSaid(page, "all saved");
    await page.getByText("saved, no answer yet").waitFor();

    const board = leader.page;
    await leader.go("/board");
    await board.getByRole("link", { name: "1 question" }).click();
    await untilShown(board);
    await board.getByText("Karim Belhossat asks").waitFor();
    await board.getByRole("button", { name: "Answer" }).click();
    await board.getByLabel("Your answer").fill("No, with them.");
    await board.getByRole("button", { name: "Save", exact: true }).click();
    await untilSaid(board, "all saved");

    await page.locator("header").getByRole("button", { name: "all saved" }).click();
    await page.getByText("No, with them.").waitFor();
    await page.getByText("Tomasz Wrzosnowicz").waitFor();
    await page.goto(`${t.address}/#/b/${leader.board}/songs`);
    await page.getByText(`${DEP}, you sit in on`).waitFor();
  },
);

test("a question stands at its detail on the song page, and is answered there too", PATIENCE, async () => {
  const { leader, link } = await makeLink();
  const { page } = await openAsDep(link);
  const ask = page.getByRole("button", { name: /^Ask about: / }).first();
  const about = ((await ask.getAttribute("aria-label")) ?? "").replace("Ask about: ", "");
  await ask.click();
  await page.getByLabel("What do you want to know?").fill("How loud is that?");
  await page.getByRole("button", { name: "Send the question" }).click();
  await untilSaid(page, "all saved");
  const song = await page.locator("[data-song]").first().getAttribute("data-song");
  await leader.go(`/songs/${song}`);
  const asked = leader.page
    .getByRole("list", { name: `Questions about: ${about}` })
    .getByRole("listitem")
    .filter({ hasText: "How loud is that?" });
  await asked.waitFor();
  await asked.getByRole("button", { name: "Answer" }).click();
  await leader.page.getByLabel("Your answer").fill("As loud as the kick.");
  await asked.getByRole("button", { name: "Save", exact: true }).click();
  await asked.getByText("As loud as the kick.").waitFor();
});

test("only musts, the way to a song, and a question about a song, by keyboard alone", PATIENCE, async () => {
  const { link } = await makeLink();
  const { page } = await openAsDep(link, LAPTOP);
  const all = await gotIt(page).count();
  await tabTo(page, "Only musts");
  await page.keyboard.press("Enter");
  expect(await gotIt(page).count()).toBeLessThan(all);
  const second = (await page.locator("[data-song]").nth(1).textContent()) ?? "";
  await tabTo(page, second.replace(" ", ""));
  await page.keyboard.press("Enter");
  expect(await focusedName(page)).toBe(second);
  await tabTo(page, "Ask about this song");
  await page.keyboard.press("Enter");
  await page.keyboard.type("Who counts in?");
  await page.keyboard.press("Escape");
  expect(await focusedName(page)).toMatch(/^Ask about this song/);
  await page.keyboard.press("Enter");
  await page.keyboard.type("Who counts in?");
  await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  await page.getByText("Who counts in?").waitFor();
  expect(await focusedName(page)).toMatch(/^Ask about this song/);
});

test("prints one song a page, legible from a music stand", PATIENCE, async () => {
  const { link } = await makeLink();
  const { page } = await openAsDep(link);
  const songs = await page.locator("[data-song]").count();
  await page.getByRole("button", { name: "Only musts" }).click();
  await page.emulateMedia({ media: "print" });
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  const sizes = await page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>("main article *")]
      .filter((element) => [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE))
      .filter((element) => element.checkVisibility())
      .map((element) => Number.parseFloat(getComputedStyle(element).fontSize)),
  );
  // 23 pt at 96 px to 72 pt.
  expect(Math.min(...sizes)).toBeGreaterThanOrEqual((23 * 96) / 72 - 0.1);
  const pdf = (await page.pdf({ format: "A4" })).toString("latin1");
  // One page more for the night itself: when to be there, what to wear, whom to ring.
  expect(pdf.match(/\/Type\s*\/Page\b/g)?.length).toBe(songs + 1);
});

test("fits 320 px, as usual and in the size for the stand", PATIENCE, async () => {
  const { link } = await makeLink();
  const { page } = await openAsDep(link, { ...PHONE, width: 320, height: 640 });
  await page
    .getByRole("button", { name: /^Ask about: / })
    .first()
    .click();
  expect(await overflowing(page)).toEqual([]);
  await page.evaluate(() => localStorage.setItem("tightrow.size", "stand"));
  await page.reload();
  await untilShown(page);
  expect(await overflowing(page)).toEqual([]);
});

test.each(LOOKS)(
  "[UI-1] [UI-2] a dep's gig is free of axe violations on $title",
  PATIENCE,
  async ({ title: _, ...look }) => {
    const { leader, link } = await makeLink();
    const { page } = await openAsDep(link, look);
    await untilSaid(page, "all saved");
    await gotIt(page).nth(1).click();
    await page
      .getByRole("button", { name: /^Ask about: / })
      .first()
      .click();
    expect([...(await axeViolations(page)), ...(await overflowing(page))]).toEqual([]);
    for (const [name, contrast] of await borderContrasts(page))
      expect(contrast, name).toBeGreaterThanOrEqual(3);
    if (look.width === PHONE.width) expect(await smallTargets(page, 44)).toEqual([]);
    await page.getByLabel("What do you want to know?").fill("Which octave?");
    await page.getByRole("button", { name: "Send the question" }).click();
    await untilSaid(page, "all saved");
    await leader.go("/questions");
    await leader.page.getByText("Which octave?").first().waitFor();
    expect([...(await axeViolations(leader.page)), ...(await overflowing(leader.page))]).toEqual([]);
  },
);

test(
  "once the link is withdrawn with its devices the gig leaves the phone, with a sentence",
  PATIENCE,
  async () => {
    t.expectComplaints(/status of 401/);
    const { leader, link } = await makeLink();
    const { page } = await openAsDep(link);
    await untilSaid(page, "all saved");
    await leader.go("/people");
    await leader.page.evaluate(async () => {
      const [known] = JSON.parse(localStorage.getItem("tightrow.boards") ?? "[]");
      const headers = { authorization: `Bearer ${known.token}` };
      const { devices } = await (await fetch("/api/devices", { headers })).json();
      for (const { id, role } of devices)
        if (role === "dep") await fetch(`/api/devices/${id}`, { method: "DELETE", headers });
    });
    await page.reload();
    await page.getByText("A leader has removed this device from the board.").waitFor();
    expect(await page.locator("[data-song]").count()).toBe(0);
    expect(await page.evaluate(() => JSON.stringify(localStorage))).not.toContain("running");
  },
);
