import type { Locator, Page } from "playwright-core";
import { expect, test } from "vitest";
import { LAPTOP, openPage, type PageOptions, PHONE } from "#tests/support/browser.ts";
import { LOOKS } from "#tests/support/harness/open-screen.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";
import { axeViolations, overflowing, smallTargets } from "#tests/support/page-checks.ts";
import { countRenders, rendersDuring } from "#tests/support/render-count.ts";

const t = testHarness();

const open = async (options: PageOptions, query = "", path = "/board"): Promise<Page> => {
  const { page } = t.keep(await openPage(t.browser, { reducedMotion: true, ...options }));
  await countRenders(page);
  await page.goto(`${t.address}/?${query}#/b/demo${path}`);
  await page.locator("h1").waitFor();
  return page;
};

const titles = (page: Page): Promise<readonly string[]> =>
  page.locator('[role="rowheader"] a').allTextContents();

/** Song and column of the focused cell. */
const place = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const focused = document.activeElement;
    const song = focused?.closest<HTMLElement>("[data-song]")?.dataset.song ?? "";
    return `${song} ${focused?.closest<HTMLElement>("[data-column]")?.dataset.column ?? ""}`;
  });

const songsInOrder = (page: Page): Promise<readonly string[]> =>
  page
    .locator("[data-song]")
    .evaluateAll((rows) => rows.map((row) => (row as HTMLElement).dataset.song ?? ""));

const cell = (page: Page, song: string, column: string): Locator =>
  page.locator(`[data-song="${song}"] [data-column="${column}"]`);

const remote = (page: Page, name: string, args: unknown): Promise<void> =>
  page.evaluate(([command, given]) => window.harness.remote(command as string, given), [name, args]);

/** A detail of one chair alone, with its player, from the page's own board. */
const soloDetail = (page: Page): Promise<{ song: string; card: string; chair: string; member: string }> =>
  page.evaluate(() => {
    const board = window.harness.store.board();
    for (const file of board.songs.values())
      for (const card of file.cards) {
        const [chair = ""] = card.chairs;
        const holder = board.chairs.find(({ id }) => id === chair)?.holder;
        const level = file.statuses.get(card.id)?.get(holder ?? "")?.level ?? 0;
        if (card.chairs.length === 1 && card.weight === "lift" && holder && level === 0)
          return { song: file.song.id, card: card.id, chair, member: holder };
      }
    throw new Error("every detail is marked");
  });

test.each(LOOKS)("[UI-2] board, breakdown, legend and score pass the page checks: $title", async (look) => {
  const page = await open(look);
  const check = async (): Promise<void> => {
    expect(await axeViolations(page)).toEqual([]);
    expect(await overflowing(page)).toEqual([]);
    if (look.width === PHONE.width) expect(await smallTargets(page, 44)).toEqual([]);
  };
  await check();
  await page.getByRole("button", { name: /of 25 min/ }).click();
  await page.getByRole("heading", { name: /minutes are ready/ }).waitFor();
  await check();
  await page.keyboard.press("Escape");
  await page.getByRole("button", { name: "What the shapes mean" }).click();
  await page.getByText("large heads are musts").waitFor();
  await check();
  await page.keyboard.press("Escape");
  await page.goto(`${t.address}/#/b/demo/songs/demo-song-wa/score`);
  await page.getByRole("heading", { name: "What would raise it most" }).waitFor();
  await page.getByText("One clean run of the whole song").waitFor();
  const folded = page.locator("details:not([open]) > summary");
  while ((await folded.count()) > 0) await folded.first().click();
  await check();
});

test("a phone gets a list of songs, never a matrix, and a song opens into its parts", async () => {
  const page = await open(PHONE);
  expect(await page.getByRole("grid").count()).toBe(0);
  const first = page.getByRole("button", { expanded: false }).filter({ hasText: "Aquarium" });
  await first.click();
  await page.getByRole("button", { name: /Guitar 1/ }).waitFor();
  expect(await page.locator("body *").count()).toBeLessThanOrEqual(1200);
  const reason = page.getByRole("link", { name: /Not ready:.*hit on 4-and/i });
  expect(await reason.getAttribute("href")).toBe(
    "#/b/demo/songs/demo-song-wa/part/demo-chair-gt1/demo-card-wa1",
  );
});

// Keys as in the grid pattern of the WAI-ARIA Authoring Practices Guide, table "Data Grid Keyboard Interaction".
test("the grid is one tab stop, and arrows, Home, End and pages move within it", async () => {
  const page = await open(LAPTOP);
  const songs = await songsInOrder(page);
  const at = (row: number, column: string): string => `${songs.at(row)} ${column}`;
  await page.getByRole("button", { name: "What the shapes mean" }).focus();
  await page.keyboard.press("Tab");
  expect(await place(page)).toBe(at(0, "title"));
  const steps: readonly (readonly [string, string])[] = [
    ["ArrowUp", at(0, "title")],
    ["ArrowLeft", at(0, "title")],
    ["ArrowRight", at(0, "ready")],
    ["ArrowDown", at(1, "ready")],
    ["End", at(1, "demo-chair-vx")],
    ["ArrowRight", at(1, "demo-chair-vx")],
    ["Home", at(1, "title")],
    ["Control+End", at(-1, "demo-chair-vx")],
    ["ArrowDown", at(-1, "demo-chair-vx")],
    ["Control+Home", at(0, "title")],
  ];
  for (const [key, to] of steps) {
    await page.keyboard.press(key);
    expect(await place(page), key).toBe(to);
  }
  await page.keyboard.press("PageDown");
  const paged = songs.indexOf((await place(page)).split(" ")[0] ?? "");
  expect(paged).toBeGreaterThan(2);
  await page.keyboard.press("PageUp");
  expect(await place(page)).toBe(at(0, "title"));
  await page.keyboard.press("Tab");
  expect(await place(page)).toBe(" ");
});

test("sticky heads never hide what has the focus, in either direction", async () => {
  const page = await open({ ...LAPTOP, width: 1000 }, "board=many");
  const first = await cell(page, (await songsInOrder(page))[0] ?? "", "title").elementHandle();
  await first?.focus();
  const inSight = () =>
    page.evaluate(async () => {
      // Rows that were out of sight are laid out with the next frame.
      await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
      // The first line of a link that wraps stands for all of it.
      const box = document.activeElement?.getClientRects()[0];
      if (box === undefined) return false;
      const corners = [
        [box.left + 3, box.top + 3],
        [box.right - 3, box.bottom - 3],
      ] as const;
      return corners.every(([x, y]) => document.activeElement?.contains(document.elementFromPoint(x, y)));
    });
  for (const key of ["Control+End", "ArrowUp", "PageUp", "PageUp", "PageUp", ...Array(8).fill("ArrowUp")]) {
    await page.keyboard.press(key);
    expect(await inSight(), key).toBe(true);
  }
  for (const key of Array(9).fill("ArrowLeft")) {
    await page.keyboard.press(key);
    expect(await inSight(), key).toBe(true);
  }
});

test("Enter opens the part, Escape comes back to its cell; a number opens what is behind it", async () => {
  const page = await open(LAPTOP);
  const [song = ""] = await songsInOrder(page);
  await cell(page, song, "demo-chair-dr").focus();
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: "A part" }).waitFor();
  expect(await cell(page, song, "demo-chair-dr").getAttribute("aria-current")).toBe("true");
  await page.keyboard.press("Escape");
  await page.getByRole("heading", { name: "A part" }).waitFor({ state: "detached" });
  expect(await place(page)).toBe(`${song} demo-chair-dr`);
  await page.keyboard.press("Home");
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: "Behind the score" }).waitFor();
  await page.keyboard.press("Escape");
  await page.getByRole("heading", { name: "Behind the score" }).waitFor({ state: "detached" });
  expect(await place(page)).toBe(`${song} score`);
});

test("changes from elsewhere update cells in place and never move a row; sorting again is offered", async () => {
  const page = await open(LAPTOP);
  const before = await songsInOrder(page);
  const [worst = ""] = before;
  await remote(page, "reviseSong", { song: "demo-song-md", fields: { ending: "" } });
  await page.getByRole("button", { name: "Order has changed: sort again" }).waitFor();
  expect(await songsInOrder(page)).toEqual(before);
  expect(await cell(page, "demo-song-md", "ready").textContent()).toContain("Ending is not settled.");
  await remote(page, "addSong", { title: "Ladder to the Cellar", stage: "learning" });
  await page.getByRole("button", { name: "1 new song" }).waitFor();
  expect(await songsInOrder(page)).toEqual(before);
  await page.getByRole("button", { name: "Order has changed: sort again" }).click();
  const after = await songsInOrder(page);
  expect(after).toHaveLength(before.length + 1);
  expect(after.indexOf("demo-song-md")).toBeLessThan(before.indexOf("demo-song-md"));
  expect(after[0]).toBe(worst);
  expect(await titles(page)).toContain("Ladder to the Cellar");
  expect(await page.getByRole("button", { name: /new song|sort again/ }).count()).toBe(0);
});

test("[UI-3] one remote tick renders one cell, its row's heads and its column's head, and nothing else", async () => {
  const page = await open(LAPTOP, "board=many");
  // By title, a tick cannot change the order, so there is no news of it either.
  await page.getByLabel("Order").selectOption("title");
  const { song, card, chair, member } = await soloDetail(page);
  await cell(page, song, chair).waitFor();
  const renders = await rendersDuring(page, () => remote(page, "markDetail", { card, member, level: 2 }));
  const { PartCell, TitleCell, ReadyCell = 0, ScoreCell = 0, ColumnHead = 0, ...rest } = renders;
  expect(PartCell).toBe(1);
  expect(TitleCell).toBeUndefined();
  expect(ReadyCell).toBeLessThanOrEqual(1);
  expect(ScoreCell).toBeLessThanOrEqual(1);
  // A player on several chairs has a head over each of them.
  const heads = await page.evaluate(
    (id) => window.harness.store.board().chairs.filter(({ holder }) => holder === id).length,
    member,
  );
  expect(ColumnHead).toBeLessThanOrEqual(heads);
  const within = ["PartBar", "HeadsBar", "Heads", "ScoreFigure"];
  expect(Object.keys(rest).filter((name) => !within.includes(name))).toEqual([]);
  for (const times of Object.values(rest)) expect(times).toBeLessThanOrEqual(1);
});

test("[UI-3] painting who plays when renders nothing of the board, and one cell where it is painted", async () => {
  const page = await open(LAPTOP);
  await cell(page, "demo-song-ut", "demo-chair-gt1").waitFor();
  const painted = (presence: string) => ({
    song: "demo-song-ut",
    source: "ours",
    cells: [
      { section: "demo-form-ut", chair: "demo-chair-gt1", changes: [{ bar: 1, pass: null, presence }] },
    ],
  });
  expect(await rendersDuring(page, () => remote(page, "paintTexture", painted("light")))).toEqual({});
  await page.evaluate(() => {
    location.hash = "#/b/demo/songs/demo-song-ut";
  });
  const light = page.getByRole("gridcell", { name: "Guitar 1, Intro: plays lightly" });
  await light.waitFor();
  const { TextureCellItself } = await rendersDuring(page, () =>
    remote(page, "paintTexture", painted("full")),
  );
  expect(await light.count()).toBe(0);
  expect(TextureCellItself).toBe(1);
});

test("sixty songs by eight chairs stay light", async () => {
  const page = await open(LAPTOP, "board=many");
  expect(await page.locator("[data-song]").count()).toBeGreaterThanOrEqual(56);
  expect(await page.locator("body *").count()).toBeLessThanOrEqual(5500);
});

test("order and filters are kept on the device, a search is not", async () => {
  const page = await open(LAPTOP);
  await page.getByLabel("Order").selectOption("title");
  await page.getByRole("button", { name: "This gig" }).click();
  await page.getByLabel("Find a song").fill("diesel");
  expect(await titles(page)).toEqual(["Marzipan Diesel"]);
  await page.reload();
  await page.locator("h1").waitFor();
  const kept = await titles(page);
  expect(kept).toHaveLength(6);
  expect([...kept].sort()).toEqual(kept);
  await page.getByLabel("Find a song").fill("no such song");
  await page.getByRole("button", { name: "Show all songs" }).click();
  expect((await titles(page)).length).toBeGreaterThan(20);
});

test("own state stands over a member's own column only, over every column for the leader", async () => {
  const states = (page: Page): Promise<number> =>
    page.getByRole("columnheader").filter({ hasText: "own state today" }).count();
  expect(await states(await open(LAPTOP, "as=tomasz&role=leader"))).toBe(6);
  await t.opened.context.close();
  expect(await states(await open(LAPTOP, "as=lucia&role=member"))).toBe(1);
  await t.opened.context.close();
  expect(await states(await open(LAPTOP, "as=nobody&role=guest"))).toBe(0);
});

test("the leader lets a gate pass with a reason and asks it again; a member cannot", async () => {
  const page = await open(LAPTOP, "", "/songs/demo-song-wa/score");
  await page.getByRole("button", { name: "Waive: No slip left open" }).click();
  await page.getByRole("button", { name: "Waive for this gig" }).click();
  await page.getByText("Say why it may pass").waitFor();
  await page.getByLabel("Why it may pass").fill("Guitar 2 drops out there");
  await page.getByRole("button", { name: "Waive for this gig" }).click();
  await page.getByText("Waived by Tomasz Wrzosnowicz: Guitar 2 drops out there").waitFor();
  await page.getByRole("button", { name: "Take back: No slip left open" }).click();
  await page.getByRole("button", { name: "Waive: No slip left open" }).waitFor();
  await t.opened.context.close();
  const member = await open(LAPTOP, "as=lucia&role=member", "/songs/demo-song-wa/score");
  await member.getByRole("heading", { name: /No slip left open/ }).waitFor();
  expect(await member.getByRole("button", { name: /Waive/ }).count()).toBe(0);
});

test("an empty board teaches the first step", async () => {
  const page = await open(LAPTOP, "board=empty");
  const link = page.getByRole("link", { name: "Set up chairs and people" });
  expect(await link.getAttribute("href")).toBe("#/b/demo/people");
  expect(await axeViolations(page)).toEqual([]);
});
