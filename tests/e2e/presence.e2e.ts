/** Other people on the board, on a board that lives in the page. */
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import type { Present } from "#client/store/presence.ts";
import { cell } from "#tests/support/app.ts";
import { LAPTOP, openPage, type PageOptions, PHONE } from "#tests/support/browser.ts";
import { LOOKS } from "#tests/support/harness/open-screen.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";
import { axeViolations, overflowing, smallTargets } from "#tests/support/page-checks.ts";
import { countRenders, rendersDuring } from "#tests/support/render-count.ts";

const t = testHarness();

const SONG = "demo-song-wa";
const [FIRST, SECOND] = ["demo-chair-gt1", "demo-chair-dr"] as const;

const open = async (options: PageOptions, query = ""): Promise<Page> => {
  const { page } = t.keep(await openPage(t.browser, { reducedMotion: true, ...options }));
  await countRenders(page);
  await page.goto(`${t.address}/?${query}#/b/demo/board`);
  await page.locator("h1").waitFor();
  return page;
};

const at = (
  member: string | null,
  device: string,
  chair: string | null,
  song: string | null = SONG,
): Present => ({
  member,
  device,
  screen: chair === null ? "room" : "part",
  song,
  chair,
});

const show = (page: Page, ...others: readonly Present[]): Promise<void> =>
  page.evaluate((present) => window.harness.others.show(present), others);

const LUCIA = at("demo-lucia", "a", SECOND);

test("people stand in their cells by their initials, and in a line with the board's tools", async () => {
  const page = await open(LAPTOP);
  await show(
    page,
    LUCIA,
    at("demo-minjae", "b", FIRST),
    at(null, "c", SECOND),
    at("demo-tomasz", "d", FIRST),
  );
  await cell(page, SONG, SECOND).getByText("LB", { exact: true }).waitFor();
  expect(await cell(page, SONG, SECOND).textContent()).toMatch(/\?/);
  expect(await cell(page, SONG, FIRST).getByText("MP", { exact: true }).count()).toBe(1);
  expect(await page.getByText("TW", { exact: true }).count(), "oneself is not shown").toBe(0);
  expect(await page.getByText(/^Here: /).textContent()).toBe("Here: LB, MP, ?");
  // Whoever cannot see the initials hears the names.
  expect(await cell(page, SONG, SECOND).ariaSnapshot()).toContain("Lucía Borrasco, somebody unnamed here");
  await page.getByText(/Here now\. .*Lucía Borrasco: .*, Drums/).waitFor({ state: "attached" });
  await show(page);
  await page.getByText(/^Here: /).waitFor({ state: "detached" });
  expect(await page.getByText("LB", { exact: true }).count()).toBe(0);
});

test("the focused cell is where this device is, and an empty-handed focus leaves it", async () => {
  const page = await open(LAPTOP);
  const own = () =>
    page.evaluate(() => {
      const { screen, song, chair } = window.harness.others.own() ?? {};
      return [screen, song, chair];
    });
  await expect.poll(own, { timeout: 15_000 }).toEqual(["board", null, null]);
  await cell(page, SONG, FIRST).focus();
  await expect.poll(own, { timeout: 15_000 }).toEqual(["board", SONG, FIRST]);
  await page.keyboard.press("Home");
  await expect.poll(own, { timeout: 15_000 }).toEqual(["board", SONG, null]);
  await page.getByLabel("Find a song").focus();
  await expect.poll(own, { timeout: 15_000 }).toEqual(["board", null, null]);
  await page.goto(`${t.address}/#/b/demo/songs/${SONG}/part/${SECOND}`);
  await expect.poll(own, { timeout: 15_000 }).toEqual(["part", SONG, SECOND]);
  await page.goto(`${t.address}/#/b/demo/songs/${SONG}`);
  await expect.poll(own, { timeout: 15_000 }).toEqual(["song", SONG, null]);
  await page.goto(`${t.address}/#/b/demo/room/${SONG}`);
  await expect.poll(own, { timeout: 15_000 }).toEqual(["room", SONG, null]);
  await page.goto(`${t.address}/#/b/demo/gigs`);
  await expect.poll(own, { timeout: 15_000 }).toEqual(["elsewhere", null, null]);
});

test("the song that is open on one's own parts is where one is", async () => {
  const page = await open(PHONE, "as=lucia&role=member");
  await page.goto(`${t.address}/?as=lucia&role=member#/b/demo/parts`);
  await page.locator("summary").filter({ hasText: "Umbrella for the Tram Inspector" }).click();
  const own = () => page.evaluate(() => window.harness.others.own());
  await expect
    .poll(own, { timeout: 15_000 })
    .toMatchObject({ screen: "parts", song: "demo-song-ut", member: "demo-lucia" });
  expect((await own())?.chair).toMatch(/^demo-chair-/);
});

test("[UI-3] somebody who walks to another part renders the two cells and the line of names, and nothing else", async () => {
  const page = await open(LAPTOP, "board=many");
  await show(page, LUCIA);
  await page.getByText("LB", { exact: true }).first().waitFor();
  const renders = await rendersDuring(page, async () => {
    await show(page, { ...LUCIA, chair: FIRST });
    await cell(page, SONG, FIRST).getByText("LB", { exact: true }).waitFor();
  });
  const { PeopleHere = 0, Initials = 0, HereLine = 0, Line = 0, ...rest } = renders;
  expect(rest).toEqual({});
  expect([PeopleHere, Initials, HereLine, Line]).toEqual([2, 1, 1, 1]);
});

test("[UI-3] a remote tick renders no name of those who are there", async () => {
  const page = await open(LAPTOP, "board=many");
  await show(page, LUCIA);
  await page.getByText("LB", { exact: true }).first().waitFor();
  const args = await page.evaluate((song) => {
    const file = window.harness.store.board().songs.get(song);
    const card = file?.cards.find(({ chairs }) => chairs.length === 1);
    return { card: card?.id, member: "demo-lucia", level: 1 };
  }, SONG);
  const renders = await rendersDuring(page, () =>
    page.evaluate((given) => window.harness.remote("markDetail", given), args),
  );
  for (const name of ["PeopleHere", "Initials", "HereLine", "Line"])
    expect(renders[name], name).toBeUndefined();
  expect(renders.PartCell ?? 0).toBeLessThanOrEqual(1);
});

test.each(LOOKS)("[UI-2] with people on it the board stays free of faults: $title", async (look) => {
  const page = await open(look);
  await show(
    page,
    LUCIA,
    at("demo-minjae", "b", FIRST),
    at(null, "c", SECOND),
    at("demo-priya", "e", SECOND),
  );
  await page.getByText(/^Here: /).waitFor();
  if (look.width === PHONE.width)
    await page.getByRole("button", { expanded: false }).filter({ hasText: "Aquarium" }).click();
  await page.getByText("LB", { exact: true }).waitFor();
  expect(await axeViolations(page)).toEqual([]);
  expect(await overflowing(page)).toEqual([]);
  if (look.width === PHONE.width) expect(await smallTargets(page, 44)).toEqual([]);
});
