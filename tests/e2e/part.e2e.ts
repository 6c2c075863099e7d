import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { type PageOptions, PHONE } from "#tests/support/browser.ts";
import { focused, LOOKS, openScreen } from "#tests/support/harness/open-screen.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";
import { axeViolations, overflowing, smallTargets } from "#tests/support/page-checks.ts";

const t = testHarness();

const SONG = "demo-song-md";
const ENDING = "demo-card-md1";

const openPart = async (
  options: Partial<PageOptions> & { readonly query?: string; readonly chair?: string } = {},
): Promise<Page> => {
  const { chair = "gt1", ...rest } = options;
  return t.keep(await openScreen(t.browser, t.address, `/songs/${SONG}/part/demo-chair-${chair}`, rest)).page;
};

/** Level the board holds for a person on a detail. */
const levelOf = (page: Page, card: string, member: string) =>
  page.evaluate(
    ([song, id, who]) =>
      window.harness.store
        .board()
        .songs.get(song ?? "")
        ?.statuses.get(id ?? "")
        ?.get(who ?? "")?.level,
    [SONG, card, member],
  );
const cardWith = (page: Page, text: string) =>
  page.evaluate(
    ([song, words]) =>
      window.harness.store
        .board()
        .songs.get(song ?? "")
        ?.cards.find((card) => card.text === words),
    [SONG, text],
  );
const row = (page: Page, text: string) => page.locator("[data-card]").filter({ hasText: text });
const change = async (page: Page, text: string): Promise<void> => {
  await page.getByRole("button", { name: `More about: ${text}` }).click();
  await page.getByRole("menuitem", { name: "Change" }).click();
};

describe("[UI-2] a part to look at", () => {
  test.each(LOOKS)("axe-core finds nothing wrong: $title", async ({ title: _, ...look }) => {
    const page = await openPart(look);
    expect(await axeViolations(page)).toEqual([]);
    expect(await overflowing(page)).toEqual([]);
  });

  test.each(LOOKS)(
    "nor while a detail is changed and one is added: $title",
    async ({ title: _, ...look }) => {
      const page = await openPart(look);
      await change(page, "Riff three times, all choke on 4-and");
      await page.getByLabel("What to do").fill("Riff twice, all choke on 4-and");
      await page.getByText("Where, how much, for whom").click();
      await page.getByText("Who plays it, and whether").click();
      expect(await axeViolations(page)).toEqual([]);
      expect(await overflowing(page)).toEqual([]);
    },
  );

  test("everything to press is large enough for a thumb", async () => {
    const page = await openPart(PHONE);
    expect(await smallTargets(page, 44)).toEqual([]);
  });

  test("at 320 px nothing sticks out", async () => {
    const page = await openPart({ ...PHONE, width: 320 });
    await page.getByText("Where, how much, for whom").click();
    expect(await overflowing(page)).toEqual([]);
  });
});

describe("[UI-2] by keyboard alone", () => {
  test("a detail is added, marked up to locked in, asked about and left", async () => {
    const page = await openPart();
    const line = page.getByLabel("Add a detail");
    for (let stops = 0; !(await line.evaluate((field) => field === document.activeElement)); stops++) {
      expect(stops, "the line to add a detail is reached by Tab").toBeLessThan(60);
      await page.keyboard.press("Tab");
    }
    await page.keyboard.type("Volume down a hair for verse 3");
    await page.keyboard.press("Enter");
    await row(page, "Volume down a hair for verse 3").waitFor();
    expect(await line.evaluate((field) => field === document.activeElement)).toBe(true);
    expect(await line.inputValue()).toBe("");
    const card = await cardWith(page, "Volume down a hair for verse 3");
    expect(card).toMatchObject({ chairs: ["demo-chair-gt1"], weight: "lift", createdBy: "demo-tomasz" });

    const status = row(page, "Volume down a hair for verse 3").getByRole("button", { name: /not started/ });
    for (let stops = 0; !(await focused(page)).endsWith("not started"); stops++) {
      expect(stops, "its status is reached by Shift+Tab").toBeLessThan(20);
      await page.keyboard.press("Shift+Tab");
    }
    expect(await status.count()).toBe(1);
    for (const level of [1, 2, 3]) {
      await page.keyboard.press("Enter");
      expect(await levelOf(page, card?.id ?? "", "demo-tomasz")).toBe(level);
    }
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: "Still locked in?" }).waitFor();
    await page.keyboard.press("Escape");
    expect(await levelOf(page, card?.id ?? "", "demo-tomasz")).toBe(3);
    expect(await focused(page)).toContain("locked in");
    await page.keyboard.press("Enter");
    await page.getByRole("button", { name: "Step back to practised" }).press("Enter");
    expect(await levelOf(page, card?.id ?? "", "demo-tomasz")).toBe(2);
  });

  test("Escape leaves a changed detail as it was and gives the focus back", async () => {
    const page = await openPart();
    await change(page, "Riff three times, all choke on 4-and");
    await page.keyboard.type("something else");
    await page.keyboard.press("Escape");
    expect(await focused(page)).toBe("More about: Riff three times, all choke on 4-and");
  });
});

describe("marking", () => {
  test("is undone in the toast", async () => {
    const page = await openPart();
    await row(page, "Riff three times")
      .getByRole("button", { name: /locked in/ })
      .click();
    await page.getByRole("button", { name: "Step back to practised" }).click();
    expect(await levelOf(page, ENDING, "demo-tomasz")).toBe(2);
    await page.getByRole("button", { name: "Undo" }).click();
    expect(await levelOf(page, ENDING, "demo-tomasz")).toBe(3);
  });

  test("somebody else's is refused to a member, with the reason beside it", async () => {
    const page = await openPart({ query: "as=lucia&role=member" });
    const button = row(page, "Riff three times").getByRole("button", { name: /locked in/ });
    expect(await button.isDisabled()).toBe(true);
    await page.getByText("Only Tomasz Wrzosnowicz or the leader marks this.").first().waitFor();
  });

  test("a guest reads and changes nothing", async () => {
    const page = await openPart({ query: "role=guest" });
    expect(await page.getByLabel("Add a detail").count()).toBe(0);
    await page
      .getByRole("button", { name: /^More about/ })
      .first()
      .click();
    expect(await page.getByRole("menuitem").allTextContents()).toEqual(["Who said what, and when"]);
  });
});

describe("changing a detail", () => {
  test("with 'learn it again' counts as noticed and says since when", async () => {
    const page = await openPart();
    await change(page, "Riff three times, all choke on 4-and");
    await page.getByLabel("What to do").fill("Riff twice, all choke on 4-and");
    await page.getByRole("radio", { name: "Learn it again" }).check();
    await page.getByRole("button", { name: "Save", exact: true }).click();
    const changed = row(page, "Riff twice");
    await changed.getByText("Changed on 5 March: learn it again.").waitFor();
    expect(await changed.getByRole("button", { name: /noticed/ }).count()).toBe(1);
    await page.getByRole("button", { name: "Undo" }).click();
    await row(page, "Riff three times")
      .getByRole("button", { name: /locked in/ })
      .waitFor();
  });

  test("at a place the song does not have keeps what was typed and says what there is", async () => {
    const page = await openPart();
    await page.getByLabel("Add a detail").fill("roll it back");
    await page.getByText("Where, how much, for whom").click();
    await page.getByLabel("Where", { exact: true }).fill("Solo 2");
    await page.keyboard.press("Enter");
    await page.getByText(/"Solo 2" is not a place in this song. Its sections are Intro, V1/).waitFor();
    expect(await page.getByLabel("Add a detail").inputValue()).toBe("roll it back");
    await page.getByLabel("Where", { exact: true }).fill("Solo b9");
    await page.keyboard.press("Enter");
    await row(page, "roll it back").getByText("Solo b9").waitFor();
  });

  test("off the board and back", async () => {
    const page = await openPart();
    await page.getByRole("button", { name: "More about: Riff three times, all choke on 4-and" }).click();
    await page.getByRole("menuitem", { name: "Take off the board" }).click();
    await expect.poll(() => row(page, "Riff three times").getByRole("button").count()).toBe(0);
    await page.getByRole("button", { name: "Undo" }).click();
    await row(page, "Riff three times")
      .getByRole("button", { name: /locked in/ })
      .waitFor();
  });
});

describe("while others are at it", () => {
  test("a new must moves nothing until it is asked for", async () => {
    const page = await openPart();
    const first = row(page, "Riff three times");
    const before = await first.boundingBox();
    await page.evaluate((song) => {
      window.harness.remote("addDetail", {
        song,
        text: "Cut the feedback before the count",
        chairs: ["demo-chair-gt1"],
        weight: "must",
        where: {},
      });
    }, SONG);
    await page.getByRole("button", { name: "1 new detail" }).waitFor();
    expect(await first.boundingBox()).toEqual(before);
    expect(await row(page, "Cut the feedback").count()).toBe(0);
    await page.getByRole("button", { name: "1 new detail" }).click();
    await row(page, "Cut the feedback before the count").waitFor();
  });

  test("a detail somebody took off stays as a line that says so", async () => {
    const page = await openPart();
    await page.evaluate((id) => window.harness.remote("removeDetail", { id }), ENDING);
    await page.getByText("Taken off the board: Riff three times, all choke on 4-and").waitFor();
  });

  test("two wordings stand side by side with who and when; keeping one settles it", async () => {
    const page = await openPart();
    await page.evaluate(() => window.harness.remote.cutOff());
    await change(page, "Riff three times, all choke on 4-and");
    await page.getByLabel("What to do").fill("Riff three times, choke on 4");
    await page.getByRole("button", { name: "Save", exact: true }).click();
    await page.evaluate(
      (card) => window.harness.remote("rewordDetail", { card, field: "text", text: "Riff twice, choke" }),
      ENDING,
    );
    const settle = page.getByRole("region", { name: "Wordings to settle" });
    await settle.getByText("Riff twice, choke").waitFor();
    expect(await settle.getByText(/Tomasz Wrzosnowicz, 5 March, on this device/).count()).toBe(1);
    expect(await settle.getByText(/Tomasz Wrzosnowicz, 5 March, on another device/).count()).toBe(1);
    expect(await axeViolations(page)).toEqual([]);
    await settle
      .getByRole("listitem")
      .filter({ hasText: "Riff twice, choke" })
      .getByRole("button", { name: "Keep this one" })
      .click();
    await expect.poll(() => settle.count()).toBe(0);
    expect((await cardWith(page, "Riff twice, choke"))?.versions.text).toHaveLength(1);
  });
});

describe("casting", () => {
  test("a part arranged out is tacet and comes back with its details", async () => {
    const page = await openPart();
    await page.getByText("Who plays it, and whether").click();
    await page.getByRole("radio", { name: "tacet" }).check();
    await page.getByText("has nothing to play in this song").waitFor();
    await page.getByRole("radio", { name: "plays", exact: true }).check();
    await row(page, "Riff three times").waitFor();
  });
});
