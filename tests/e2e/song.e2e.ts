import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { type PageOptions, PHONE } from "#tests/support/browser.ts";
import { focused, LOOKS, openScreen } from "#tests/support/harness/open-screen.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";
import { axeViolations, overflowing, smallTargets } from "#tests/support/page-checks.ts";

const t = testHarness();

const openSong = async (
  options: Partial<PageOptions> & { readonly query?: string; readonly path?: string } = {},
): Promise<Page> => {
  const { path = "/songs/demo-song-lo", ...rest } = options;
  return t.keep(await openScreen(t.browser, t.address, path, rest)).page;
};

/** Unfolds every section of the song on a phone; on a laptop they are open. */
const unfoldAll = async (page: Page): Promise<void> => {
  for (const name of ["Form", "Details", "Log", "Who plays", "Rulings", "Title and style"]) {
    const fold = page.locator("details", { has: page.getByRole("heading", { name, exact: true, level: 2 }) });
    if (!(await fold.evaluate((element) => (element as HTMLDetailsElement).open)))
      await fold.locator("summary").first().click();
  }
};
const songOf = (page: Page) =>
  page.evaluate(() => window.harness.store.board().songs.get("demo-song-lo")?.song);
const formOf = (page: Page) =>
  page.evaluate(() =>
    (window.harness.store.board().songs.get("demo-song-lo")?.sections ?? []).map(
      ({ name, bars }) => `${name} ${bars}`,
    ),
  );
const save = (page: Page, form: string) =>
  page
    .getByRole("form", { name: `Change: ${form}` })
    .getByRole("button", { name: "Save" })
    .click();

describe("[UI-2] a song to look at", () => {
  test.each(LOOKS)("axe-core finds nothing wrong: $title", async ({ title: _, ...look }) => {
    const page = await openSong(look);
    await unfoldAll(page);
    expect(await axeViolations(page)).toEqual([]);
    expect(await overflowing(page)).toEqual([]);
  });

  test.each(LOOKS)("nor while its tempo and a section are changed: $title", async ({ title: _, ...look }) => {
    const page = await openSong(look);
    await unfoldAll(page);
    await page.getByRole("button", { name: "Change: Tempo" }).click();
    await page.getByLabel("Tempo", { exact: true }).fill("80");
    await page.getByLabel("Write this down as a ruling").check();
    await page.getByRole("button", { name: "Change: Intro 4 bars" }).click();
    await page.getByLabel("Bars", { exact: true }).fill("8");
    expect(await axeViolations(page)).toEqual([]);
    expect(await overflowing(page)).toEqual([]);
  });

  test("everything to press is large enough for a thumb", async () => {
    const page = await openSong(PHONE);
    await unfoldAll(page);
    expect(await smallTargets(page, 44)).toEqual([]);
  });

  test("at 320 px nothing sticks out", async () => {
    const page = await openSong({ ...PHONE, width: 320 });
    await unfoldAll(page);
    expect(await overflowing(page)).toEqual([]);
  });

  test("the reason why it is not ready opens what it names", async () => {
    const page = await openSong();
    const reason = page.getByRole("link", { name: /is only noticed by Min-jae Pardal/ });
    expect(await reason.getAttribute("href")).toMatch(/\/part\/demo-chair-bs\/demo-card-lo1$/);
  });

  test("opened at a take, points it out in the unfolded log", async () => {
    const take = "r:2026-03-04/demo-song-lo/1";
    const page = await openSong({ ...PHONE, path: `/songs/demo-song-lo/take/${encodeURIComponent(take)}` });
    const line = page.locator(`[data-take="${take}"]`);
    await line.getByText("Wed 4 March").waitFor();
    expect(await line.isVisible()).toBe(true);
  });

  test.each([
    ["md", 2],
    ["lo", 1],
    ["wa", 2],
    ["ut", 2],
    ["tc", 1],
    ["lt", 1],
  ])("%s prints on as many sheets as its drawings need: %i", async (code, pages) => {
    const page = await openSong({ path: `/songs/demo-song-${code}` });
    const pdf = await page.pdf({
      format: "A4",
      margin: { top: "12mm", bottom: "12mm", left: "12mm", right: "12mm" },
    });
    expect(pdf.toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g)).toHaveLength(pages);
  });
});

describe("what everybody plays by", () => {
  test.each([
    ["Tempo", "0", "A tempo of 0 cannot be counted."],
    ["Our key", "H", "in English names that note is B"],
    ["Metre", "four", "is not a metre"],
    ["Length", "3.45", "Did you mean 3:45?"],
    ["Capo", "-2", "A capo sits on a fret from 1 to 12"],
  ])("%s %s is refused in words and stays in the field", async (entry, typed, words) => {
    const page = await openSong();
    const before = await songOf(page);
    await page.getByRole("button", { name: `Change: ${entry}` }).click();
    const field = page.getByLabel(entry, { exact: true });
    await field.fill(typed);
    await page.keyboard.press("Enter");
    await page.getByText(words).waitFor();
    expect(await field.inputValue()).toBe(typed);
    expect(await songOf(page)).toEqual(before);
  });

  test("a key is ruled with its reason: before, after, from where, by whom", async () => {
    const page = await openSong();
    await page.getByRole("button", { name: "Change: Our key" }).click();
    await page.getByLabel("Our key", { exact: true }).fill("b flat");
    await page.getByRole("radio", { name: "Learn it again" }).check();
    await page.getByLabel("Write this down as a ruling").check();
    await page.getByLabel("Why").fill("the lift sits too high");
    await save(page, "Our key");
    expect(await focused(page)).toBe("Change: Our key");
    const song = await songOf(page);
    expect(song?.key).toBe("Bb");
    expect(song?.since.key).toBe(Date.UTC(2026, 2, 5, 12));
    const ruling = page.getByRole("listitem").filter({ hasText: "because the lift sits too high" });
    expect(await ruling.textContent()).toMatch(
      /Key · ours · decided by Tomasz Wrzosnowicz, 5 March.*C.*→.*Bb/,
    );
    await page.getByRole("button", { name: "Undo" }).click();
    expect((await songOf(page))?.key).toBe("C");
    expect(await ruling.count()).toBe(0);
  });

  test("a tempo is tapped", async () => {
    const page = await openSong();
    await page.getByRole("button", { name: "Change: Tempo" }).click();
    const pad = page.getByRole("button", { name: /Tap the beat/ });
    // The pad reads the event's own clock, so the beats come as events with their times.
    await pad.evaluate((element) => {
      for (const at of [1000, 1600, 2200, 2800, 3400]) {
        const press = new KeyboardEvent("keydown", { key: " ", bubbles: true });
        Object.defineProperty(press, "timeStamp", { value: at });
        element.dispatchEvent(press);
      }
    });
    await expect.poll(() => page.getByLabel("Tempo", { exact: true }).inputValue()).toBe("100");
  });
});

describe("the form", () => {
  test("takes several sections typed at once, and gives them back", async () => {
    const page = await openSong();
    const before = await formOf(page);
    await page.getByLabel("Add sections").fill("Vamp 8, Tag 2");
    await page.keyboard.press("Enter");
    await expect.poll(() => formOf(page)).toEqual([...before, "Vamp 8", "Tag 2"]);
    await page.getByRole("button", { name: "Undo" }).click();
    await expect.poll(() => formOf(page)).toEqual(before);
  });

  test("says which part has bars nobody can play and loses nothing", async () => {
    const page = await openSong();
    const before = await formOf(page);
    await page.getByLabel("Add sections").fill("Vamp 8, Tag -4");
    await page.keyboard.press("Enter");
    await page.getByText("Part 2, “Tag -4”: bars are a whole number from 1 to 999.").waitFor();
    expect(await page.getByLabel("Add sections").inputValue()).toBe("Vamp 8, Tag -4");
    expect(await formOf(page)).toEqual(before);
    await page.getByRole("button", { name: "Change: Intro 4 bars" }).click();
    await page.getByLabel("Bars", { exact: true }).fill("0");
    await page.keyboard.press("Enter");
    await page.getByText("Bars are a whole number from 1 to 999.", { exact: true }).waitFor();
    expect(await formOf(page)).toEqual(before);
  });

  test("is moved by Alt and an arrow, and the focus goes along", async () => {
    const page = await openSong();
    const [first, second, ...rest] = await formOf(page);
    await page.getByRole("button", { name: "Change: Intro 4 bars" }).focus();
    await page.keyboard.press("Alt+ArrowDown");
    expect(await formOf(page)).toEqual([second, first, ...rest]);
    expect(await focused(page)).toBe("Change: Intro 4 bars");
    await page.keyboard.press("Alt+ArrowUp");
    expect(await formOf(page)).toEqual([first, second, ...rest]);
    expect(await focused(page)).toBe("Change: Intro 4 bars");
  });

  test("of the length check follows the bars", async () => {
    const page = await openSong();
    await page.getByRole("button", { name: "Change: Ending 4 bars" }).click();
    await page.getByLabel("Bars", { exact: true }).fill("44");
    await page.keyboard.press("Enter");
    await page.getByText("120 bars at 76 make 6:19; written is 4:13.").waitFor();
  });
});

describe("details of the whole song", () => {
  test("a spotted one waits, is placed in two taps and then counts", async () => {
    const page = await openSong();
    await page.getByLabel("Add a detail you spotted").fill("Tambourine from the second chorus");
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: /Spotted, waiting for a chair/ }).waitFor();
    await page.getByRole("button", { name: "More about: Tambourine from the second chorus" }).click();
    await page.getByRole("menuitem", { name: "Place on Drums" }).click();
    await expect.poll(() => page.getByRole("heading", { name: /Spotted/ }).count()).toBe(0);
    const chairs = await page.evaluate(
      () =>
        window.harness.store
          .board()
          .songs.get("demo-song-lo")
          ?.cards.find(({ text }) => text.startsWith("Tambourine"))?.chairs,
    );
    expect(chairs).toEqual(["demo-chair-dr"]);
  });
});

describe("the log", () => {
  test("takes back one's own take only", async () => {
    const page = await openSong();
    expect(await page.getByRole("button", { name: "Withdraw" }).count()).toBe(0);
    await page.evaluate(() => {
      const { store } = window.harness;
      const take = {
        song: "demo-song-lo",
        occasion: "r:2026-03-05",
        kind: "run",
        at: store.now(),
        seats: [],
        feel: "clean",
      };
      window.harness.remote("logTake", take);
    });
    await page.getByText("Thu 5 March").waitFor();
    expect(await page.getByRole("button", { name: "Withdraw" }).count()).toBe(0);
  });
});

describe("taking a song off the board", () => {
  test("asks first, keeps everything and brings it back", async () => {
    const page = await openSong();
    await page.getByRole("button", { name: "Take the song off the board" }).click();
    await page.getByRole("button", { name: "Take it off" }).click();
    await page.getByRole("heading", { name: "This song was taken off the board" }).waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await page.getByRole("button", { name: "Bring it back" }).click();
    await page.getByRole("heading", { name: "Lamplighter's Overdraft" }).waitFor();
    await page.getByText("Unaccompanied last line; keys give D first").first().waitFor();
  });
});
