import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { LAPTOP, openPage, type PageOptions, PHONE } from "#tests/support/browser.ts";
import { LOOKS } from "#tests/support/harness/open-screen.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";
import { axeViolations, overflowing } from "#tests/support/page-checks.ts";

const t = testHarness();

const LUCIA = "as=lucia&role=member";

const open = async (path: string, query = LUCIA, options: PageOptions = PHONE): Promise<Page> => {
  const { page } = t.keep(await openPage(t.browser, { reducedMotion: true, ...options }));
  await page.goto(`${t.address}/?${query}#/b/demo${path}`);
  await page.locator("h1").waitFor();
  return page;
};

/** Opens a song by its title; its id comes from the page, not from the seed. */
const unfold = async (page: Page, title: string): Promise<string> => {
  const row = page.locator("li[data-song]", { hasText: title });
  await row.locator("summary").first().click();
  await row.locator("section").first().waitFor();
  return (await row.getAttribute("data-song")) ?? "";
};

const takesToday = (page: Page, song: string) =>
  page.evaluate(
    (id) =>
      (window.harness.store.board().songs.get(id)?.takes ?? [])
        .filter(({ occasion }) => occasion === "r:2026-03-05")
        .map(({ feel, kind, scope, seats, slips, writers }) => ({
          feel,
          kind,
          scope: scope.of,
          seats: seats.length,
          slips: slips.length,
          writers: writers.length,
        })),
    song,
  );

const firstSong = (page: Page): Promise<string> =>
  page.evaluate(
    () => window.harness.store.board().gigs.find(({ date }) => date >= "2026-03-05")?.songs[0]?.song ?? "",
  );

const remote = (page: Page, name: string, args: unknown): Promise<void> =>
  page.evaluate(([command, given]) => window.harness.remote(command as string, given), [name, args]);

const openRows = (page: Page): Promise<readonly string[]> =>
  page
    .locator("details[open] [data-card]")
    .evaluateAll((rows) => rows.map((row) => (row as HTMLElement).dataset.card ?? ""));

describe("logging a take", () => {
  test("takes two taps in the common case, and can be undone", async () => {
    const page = await open("/room");
    const song = await firstSong(page);
    await page.locator("ol a").first().tap();
    await page.getByRole("button", { name: "clean" }).tap();
    expect(await takesToday(page, song)).toEqual([
      { feel: "clean", kind: "run", scope: "whole", seats: 6, slips: 0, writers: 1 },
    ]);
    await page.getByText("logged here").waitFor();
    await page.getByLabel("What just happened").getByRole("button", { name: "Undo" }).tap();
    expect(await takesToday(page, song)).toEqual([]);
  });

  test("joins the take that another phone has just logged, and says so before the tap", async () => {
    const page = await open("/room");
    const song = await firstSong(page);
    await page.locator("ol a").first().tap();
    await remote(page, "logTake", {
      song,
      occasion: "r:2026-03-05",
      kind: "run",
      at: Date.UTC(2026, 2, 5, 12) - 60_000,
      seats: [],
      feel: "clean",
    });
    await page.getByText("Tomasz Wrzosnowicz's phone logged this take: clean. Yours joins it.").waitFor();
    await page.getByRole("button", { name: "wobble" }).tap();
    expect(await takesToday(page, song)).toEqual([
      { feel: "wobble", kind: "run", scope: "whole", seats: 6, slips: 0, writers: 2 },
    ]);
    await page.getByText("logged by Tomasz Wrzosnowicz and on this device").waitFor();
  });

  test("keeps slips and the tempo over a reload, and leaves out who is not here", async () => {
    const page = await open("/room");
    const song = await firstSong(page);
    await page.locator("ol a").first().tap();
    await page.getByText("A slip nobody can place").tap();
    await page.getByRole("radio", { name: "wreck" }).check();
    await page.locator("summary", { hasText: "Tempo" }).tap();
    await page.getByLabel("At the start (bpm)").fill("112");
    await page.getByLabel("At the end (bpm)").fill("118");
    await page.reload();
    await page.locator("h1").waitFor();
    // Who is here stands on the board, which the page of this test begins anew.
    await page.locator("summary", { hasText: "Here everybody" }).tap();
    await page.getByRole("checkbox", { name: /^Ifeoma Adisalu/ }).uncheck();
    await page.getByText("Run, whole song, everybody but Ifeoma Adisalu, today, 1 slip").waitFor();
    await page.getByText("5.4 % faster from start to end, dancers feel it").first().waitFor();
    await page.getByRole("button", { name: "stopped" }).tap();
    expect(await takesToday(page, song)).toMatchObject([{ feel: "stopped", seats: 5, slips: 1 }]);
  });

  test("says why a day ahead cannot be logged", async () => {
    const page = await open("/room");
    await page.locator("ol a").first().tap();
    await page.getByText("Day and key").tap();
    await page.getByLabel("Day", { exact: true }).fill("2026-03-09");
    await page.getByText("This day lies ahead").first().waitFor();
    expect(await page.getByRole("button", { name: "clean" }).isDisabled()).toBe(true);
  });

  test("lets a slip be flagged afterwards, and one's own take be taken out of the log", async () => {
    const page = await open("/room");
    const song = await firstSong(page);
    await page.locator("ol a").first().tap();
    await page.getByRole("button", { name: "clean" }).tap();
    await page.getByRole("button", { name: /^More about this take/ }).tap();
    await page.getByRole("menuitem", { name: "Flag a slip" }).tap();
    const sheet = page.getByRole("dialog");
    await sheet.getByText("A slip nobody can place").tap();
    await sheet.getByRole("button", { name: "Done" }).tap();
    expect(await takesToday(page, song)).toMatchObject([{ slips: 1 }]);
    await page.getByRole("button", { name: /^More about this take/ }).tap();
    await page.getByRole("menuitem", { name: "Take it out of the log" }).tap();
    expect(await takesToday(page, song)).toEqual([]);
  });

  test("is done by keyboard alone", async () => {
    const page = await open("/room", LUCIA, LAPTOP);
    const song = await firstSong(page);
    await page.getByLabel("Find a song").focus();
    await page.keyboard.press("Tab");
    await page.keyboard.press("Enter");
    await page.getByRole("button", { name: "clean" }).waitFor();
    const focused = () => page.evaluate(() => document.activeElement?.textContent);
    for (let presses = 0; presses < 60 && (await focused()) !== "clean"; presses++)
      await page.keyboard.press("Tab");
    await page.keyboard.press("Enter");
    expect(await takesToday(page, song)).toHaveLength(1);
  });

  test("puts a search beyond the gig's songs", async () => {
    const page = await open("/room");
    await page.getByLabel("Find a song").fill("velvet");
    expect(await page.locator("main ol a").allTextContents()).toEqual([
      expect.stringContaining("Velvet Bus Lane"),
    ]);
  });
});

describe("my parts", () => {
  test("a tick advances a detail, leaves its row where it is, and can be undone", async () => {
    const page = await open("/parts");
    await unfold(page, "Wrong Side of the Aquarium");
    const rows = await openRows(page);
    const button = page.locator("details[open] [data-card] button").first();
    // The middle of the window, where no tap needs to scroll.
    await button.evaluate((element) => element.scrollIntoView({ block: "center" }));
    const top = (await button.boundingBox())?.y;
    expect(await button.textContent()).toContain("practised");
    await button.tap();
    expect(await button.textContent()).toContain("practised");
    expect((await button.boundingBox())?.y).toBe(top);
    expect(await openRows(page)).toEqual(rows);
    await page.getByText("Waits for a run together", { exact: false }).first().waitFor();
    await page.getByLabel("What just happened").getByRole("button", { name: "Undo" }).tap();
    await page.getByText("Waits for a run together", { exact: false }).first().waitFor({ state: "detached" });
  });

  test("a detail is added in one line, and locked in it stays in sight until the next visit", async () => {
    const page = await open("/parts");
    await unfold(page, "Wrong Side of the Aquarium");
    await page.getByLabel("Add a detail").fill("Sticks down before the break");
    await page.keyboard.press("Enter");
    const row = page.locator("details[open] [data-card]", { hasText: "Sticks down before the break" });
    for (const word of ["noticed", "practised", "locked in"]) {
      await row.getByRole("button").tap();
      await row.getByRole("button", { name: word }).waitFor();
    }
    const before = await openRows(page);
    const fold = page.locator("details[open] details summary", { hasText: "Locked in" });
    expect(await fold.textContent()).toContain("Locked in (3)");
    await page.getByRole("link", { name: "Room", exact: true }).tap();
    await page.getByRole("heading", { name: "Room" }).waitFor();
    await page.getByRole("link", { name: "My parts" }).tap();
    expect(await fold.textContent()).toContain("Locked in (4)");
    expect(await openRows(page)).toHaveLength(before.length - 1);
  });

  test("what others add waits at the end of the list, and is news at the next visit", async () => {
    const page = await open("/parts");
    const song = await unfold(page, "Wrong Side of the Aquarium");
    const rows = await openRows(page);
    const chair = await page.evaluate(
      () => window.harness.store.board().chairs.find(({ holder }) => holder === "demo-lucia")?.id ?? "",
    );
    await remote(page, "addDetail", {
      song,
      text: "Hats tight in the break",
      chairs: [chair],
      weight: "must",
    });
    await page.getByRole("button", { name: "1 new detail", exact: true }).waitFor();
    expect(await openRows(page)).toEqual(rows);
    await page.getByRole("link", { name: "Room", exact: true }).tap();
    await page.getByRole("heading", { name: "Room" }).waitFor();
    await page.getByRole("link", { name: "My parts" }).tap();
    await page.getByRole("button", { name: "1 new detail since you looked" }).tap();
    await page.locator("[data-card]", { hasText: "Hats tight in the break" }).getByText("new").waitFor();
    await page.getByRole("button", { name: "1 new detail since you looked" }).waitFor({ state: "detached" });
  });

  test("the three most worth doing open at their detail", async () => {
    const page = await open("/parts", "as=anneli&role=member");
    const line = page.getByLabel("Most worth doing").getByRole("button").first();
    await line.tap();
    await page.locator("details[open] [data-card]").first().waitFor();
    const card = await page.evaluate(
      () => document.activeElement?.closest<HTMLElement>("[data-card]")?.dataset.card ?? "",
    );
    expect(await openRows(page)).toContain(card);
  });

  test("60 songs with one of them open stay within 1,200 nodes", async () => {
    const page = await open("/parts", "board=many&as=lucia&role=member");
    expect(await page.locator("li[data-song]").count()).toBeGreaterThan(55);
    await page.locator("li[data-song]", { hasText: "3 open" }).first().locator("summary").click();
    await page.locator("details[open] [data-card]").first().waitFor();
    expect(await page.evaluate(() => document.querySelectorAll("*").length)).toBeLessThanOrEqual(1200);
  });

  test("somebody unknown is asked who they are; a leader may look at anybody's list", async () => {
    const page = await open("/parts", "as=nobody");
    await page.getByRole("heading", { name: "Who are you?" }).waitFor();
    await page.getByLabel("Look at somebody's parts").selectOption("demo-priya");
    await page.getByRole("heading", { name: "Parts of Priya Sundarvane" }).waitFor();
    await page.locator("li[data-song]").first().waitFor();
  });

  test("a member is not offered other people's lists, and a new band is told what to do", async () => {
    const page = await open("/parts");
    expect(await page.getByLabel("Look at somebody's parts").count()).toBe(0);
    await t.opened.context.close();
    const empty = await open("/parts", "board=empty");
    await empty.getByRole("link", { name: "Pick your name" }).waitFor();
  });
});

const SCREENS: readonly (readonly [string, (page: Page) => Promise<unknown>])[] = [
  ["/parts", (page) => unfold(page, "Wrong Side of the Aquarium")],
  ["/room", async () => {}],
  [
    "/room",
    async (page) => {
      await page.locator("ol a").first().click();
      await page.getByText("A slip nobody can place").click();
      await page.locator("summary", { hasText: "Tempo" }).click();
      await page.locator("summary", { hasText: "Kind" }).click();
      await page.getByText("Day and key").click();
      await page.getByRole("button", { name: "clean" }).click();
      await page.getByText("logged here").waitFor();
      // At the end of the page nothing lies half under the bar.
      await page.evaluate(() => window.scrollTo(0, document.body.scrollHeight));
    },
  ],
];

const looks = LOOKS.flatMap((look) =>
  SCREENS.map(([path, act], i) => ({ path, act, look, title: `${path} (${i}), ${look.title}` })),
);

test.each(looks)("axe-core finds nothing wrong: $title", async ({ path, act, look }) => {
  const page = await open(path, LUCIA, look);
  await act(page);
  expect(await axeViolations(page)).toEqual([]);
});

/** Controls of the screen that are lower than `least` px, and texts smaller than `type` px. */
const tooSmall = (page: Page, least: number, type: number): Promise<readonly string[]> =>
  page.evaluate(
    ([edge, size]) => {
      const main = document.querySelector("main .in-room");
      const controls = main?.querySelectorAll<HTMLElement>("button, summary, select, input, a[href]") ?? [];
      const low = [...controls].flatMap((control) => {
        const pressed = control.matches('[type="checkbox"], [type="radio"]')
          ? (control.closest("label") ?? control)
          : control;
        const inSentence = getComputedStyle(control).display === "inline";
        const { height } = pressed.getBoundingClientRect();
        return !control.checkVisibility() || inSentence || height >= (edge ?? 0)
          ? []
          : [`${control.tagName} ${control.textContent?.trim()}: ${height}`];
      });
      const texts = [...(main?.querySelectorAll<HTMLElement>("*") ?? [])].filter((element) =>
        [...element.childNodes].some((node) => node.nodeType === 3 && node.textContent?.trim()),
      );
      const small = texts
        .filter(
          (text) =>
            text.checkVisibility() && Number.parseFloat(getComputedStyle(text).fontSize) < (size ?? 0),
        )
        .map((text) => `${text.tagName} ${text.textContent}: ${getComputedStyle(text).fontSize}`);
      return [...low, ...small];
    },
    [least, type],
  );

test.each(SCREENS)("%s: controls are at least 56 px high and text at least 18 px", async (path, act) => {
  for (const size of [PHONE, LAPTOP]) {
    const page = await open(path, LUCIA, size);
    await act(page);
    expect(await tooSmall(page, 56, 18)).toEqual([]);
    if (size === PHONE) await t.opened.context.close();
  }
});

test.each(SCREENS)("%s fits 320 px, text twice as large, and the size for the stand", async (path, act) => {
  const page = await open(path, LUCIA, { ...PHONE, width: 320, height: 640 });
  await act(page);
  expect(await overflowing(page)).toEqual([]);
  await page.setViewportSize({ width: 390, height: 844 });
  await page.evaluate(() => document.documentElement.style.setProperty("font-size", "200%"));
  expect(await overflowing(page)).toEqual([]);
  await page.evaluate(() => {
    document.documentElement.style.removeProperty("font-size");
    document.documentElement.dataset.size = "stand";
  });
  expect(await overflowing(page)).toEqual([]);
});

test("the results lie in the lower half of a phone, within the thumb's reach", async () => {
  const page = await open("/room");
  await page.locator("ol a").first().tap();
  const box = await page.getByRole("button", { name: "clean" }).boundingBox();
  expect(box?.y ?? 0).toBeGreaterThan(PHONE.height / 2);
  expect((box?.y ?? 0) + (box?.height ?? 0)).toBeLessThan(PHONE.height - 64);
});
