/** Three notes of a melody, the keys that suit the singer, and the one that is ruled; and what a voice can do tonight. */
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { LAPTOP, PHONE } from "#tests/support/browser.ts";
import { openScreen } from "#tests/support/harness/open-screen.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";
import { axeViolations, overflowing, smallTargets } from "#tests/support/page-checks.ts";

const t = testHarness();
const PICTURES = process.env.TIGHTROW_PICTURES;

const shot = async (page: Page, name: string): Promise<void> => {
  if (PICTURES !== undefined) await page.screenshot({ path: `${PICTURES}/${name}.png`, fullPage: true });
};

/** The fold of the keys, unfolded. */
const unfold = async (page: Page) => {
  const fold = page.locator("details", {
    has: page.getByRole("heading", { name: "Key for the singer", level: 2 }),
  });
  if (!(await fold.evaluate((element) => (element as HTMLDetailsElement).open)))
    await fold.locator("summary").first().click();
  await fold.getByLabel("Who sings").waitFor();
  return fold;
};

test("[UI-2] three notes are typed, keys ranked and opened, and one is ruled", async () => {
  const { page } = t.keep(
    await openScreen(t.browser, t.address, "/songs/demo-song-lt", {
      ...PHONE,
      width: 320,
      theme: "dark",
      query: "as=tomasz&role=leader",
    }),
  );
  page.setDefaultTimeout(8000);
  const fold = await unfold(page);
  await fold.getByText("Priya Sundarvane sings F3 to D5, comfortably G3 to B4.").waitFor();
  await fold.getByRole("button", { name: "Write down the melody's notes" }).click();
  const form = fold.getByRole("form", { name: "Change: the melody's notes" });
  await form.getByRole("textbox", { name: "Lowest note" }).fill("H3");
  // The middle one is pressed with keys alone: it is the one whose field was left last.
  await form.getByRole("textbox", { name: "Where it mostly lies" }).focus();
  await form.getByRole("button", { name: "C4", exact: true }).focus();
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("ArrowLeft");
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("Enter");
  await form.getByRole("textbox", { name: "Highest note" }).fill("E4");
  await form.getByRole("button", { name: "Save" }).click();
  await form.getByText("“H3” is not a note.").or(form.getByText('"H3" is not a note.')).waitFor();
  expect(await form.getByRole("textbox", { name: "Where it mostly lies" }).inputValue()).toBe("C3");
  await form.getByRole("textbox", { name: "Lowest note" }).fill("D3");
  await form.getByRole("button", { name: "Save" }).click();
  await form
    .getByText("The usual note lies between the lowest and the highest. Put the three in order.")
    .waitFor();
  await form.getByRole("textbox", { name: "Where it mostly lies" }).fill("A3");
  await shot(page, "form-phone");
  expect(await overflowing(page)).toEqual([]);
  expect(await axeViolations(page)).toEqual([]);
  expect(await smallTargets(page, 44)).toEqual([]);
  await form.getByRole("button", { name: "Save" }).click();
  await fold.getByText("The melody goes D3 to E4, mostly around A3, in G.").waitFor();

  const keys = fold.getByRole("list", { name: "Keys, the best first" });
  expect(await keys.getByRole("listitem").count()).toBeGreaterThanOrEqual(5);
  const row = keys
    .locator("> li")
    .filter({ hasNotText: "our key ·" })
    .filter({ hasText: "above our key" })
    .first();
  const before = await page.evaluate(() => window.harness.store.board().songs.get("demo-song-lt")?.song.key);
  await row.locator("summary").click();
  await row.getByText("Where it lies", { exact: true }).waitFor();
  await row.getByText(/^By its range alone the song lies/).waitFor();
  await row.getByRole("button", { name: /^Rule this key/ }).click();
  await row.getByLabel("Why").fill("It sits where she likes to sing");
  await shot(page, "ranked-phone");
  expect(await axeViolations(page)).toEqual([]);
  expect(await overflowing(page)).toEqual([]);
  await row.getByRole("button", { name: "Save" }).click();
  await page
    .getByText(/Our key/)
    .first()
    .waitFor();
  const ruled = await page.evaluate(() => {
    const file = window.harness.store.board().songs.get("demo-song-lt");
    return { key: file?.song.key, last: file?.rulings.at(-1), melody: file?.song.melody };
  });
  expect(ruled.key).not.toBe(before);
  expect(ruled.last).toMatchObject({
    about: "key",
    text: ruled.key,
    why: "It sits where she likes to sing",
  });
  expect(ruled.melody).toEqual({ key: "G", low: 50, typical: 57, high: 64 });
});

test("[UI-2] a melody is given by the time of each note, and a line that cannot be read gets a sentence", async () => {
  const { page } = t.keep(
    await openScreen(t.browser, t.address, "/songs/demo-song-wa", {
      ...LAPTOP,
      theme: "light",
      query: "as=minjae&role=member",
    }),
  );
  page.setDefaultTimeout(8000);
  const fold = await unfold(page);
  await fold.getByRole("button", { name: "Change the melody's notes" }).click();
  const form = fold.getByRole("form", { name: "Change: the melody's notes" });
  await form.getByRole("radio", { name: "The time of each note" }).check();
  const times = form.getByRole("textbox", { name: "A note and how long it is sung, one a line" });
  await times.fill("A3 12\nF#4 forty");
  await form.getByRole("button", { name: "Save" }).click();
  await form.getByText("“F#4 forty” is no note with its time.").waitFor();
  expect(await times.inputValue()).toBe("A3 12\nF#4 forty");
  await times.fill("A3 12\nF#4 40\n73 2.5");
  await form.getByRole("button", { name: "Save" }).click();
  await fold
    .getByText(/^The melody goes A3 to C♯5, mostly around .*, by the time each note is sung\.$/)
    .waitFor();
  const row = fold.getByRole("list", { name: "Keys, the best first" }).locator("> li").first();
  await row.locator("summary").click();
  await row.getByText("Far from the recording", { exact: true }).waitFor();
  if ((await row.getByText("It is the key the song stands in.").count()) === 0)
    await row.getByText("The leader can rule it here.").waitFor();
  await shot(page, "ranked-laptop");
  expect(await axeViolations(page)).toEqual([]);
  expect(await overflowing(page)).toEqual([]);
});

test("[KEY-1] a lower top stays with its singer, and a range that is out of order gets a sentence", async () => {
  const { page } = t.keep(
    await openScreen(t.browser, t.address, "/songs/demo-song-md", {
      ...PHONE,
      query: "as=priya&role=member",
    }),
  );
  page.setDefaultTimeout(8000);
  const fold = await unfold(page);
  const written = await page.evaluate(() => JSON.stringify([...window.harness.store.board().songs.values()]));
  await fold.getByLabel("Your highest note tonight").fill("A4");
  await fold.getByText("The top note B4 lies 2 semitones above tonight's top, A4.").waitFor();
  await fold.getByText("Play it 2 semitones lower, in C.").waitFor();
  await fold.getByText("Play another song instead.").waitFor();
  await shot(page, "tonight-phone");
  expect(await axeViolations(page)).toEqual([]);
  expect(await page.evaluate(() => JSON.stringify([...window.harness.store.board().songs.values()]))).toBe(
    written,
  );

  // On the night of a gig a key can be sent, and only that goes to the band.
  await page.evaluate(() => window.harness.remote("reviseGig", { gig: "demo-gig-slot", date: "2026-03-05" }));
  const night = () =>
    page.evaluate(() => {
      const { gigs } = window.harness.store.board();
      const gig = gigs.find(({ id }) => id === "demo-gig-slot");
      return gig?.songs.find(({ song }) => song === "demo-song-md")?.key;
    });
  expect(await night()).toBeNull();
  await fold.getByText("Your other songs tonight that lie above it:").waitFor();
  const remedy = fold.getByRole("list", { name: "For tonight only: Marzipan Diesel" }).getByRole("listitem");
  await remedy
    .filter({ hasText: "in C." })
    .getByText(/Guitars: .* · Everybody else: the new key/)
    .waitFor();
  await fold.getByRole("button", { name: "Ask for C tonight" }).click();
  await fold.getByText("Asked for; the leader has not answered yet.").waitFor();
  expect(await night()).toBeNull();
  const asked = () =>
    page.evaluate(() => [
      ...(window.harness.store.board().gigs.find(({ id }) => id === "demo-gig-slot")?.keysAsked ?? []),
    ]);
  expect(await asked()).toEqual([["demo-song-md", { key: "C", by: "demo-priya" }]]);
  // The leader takes it on another device.
  await page.evaluate(() =>
    window.harness.remote("tuneForGig", { gig: "demo-gig-slot", song: "demo-song-md", key: "C" }),
  );
  await fold.getByText("It fits tonight as it is.").waitFor();
  expect(await night()).toBe("C");
  expect(await asked()).toEqual([]);
  await fold.getByText("The band has C for tonight.").waitFor();
  await page.evaluate(() =>
    window.harness.remote("tuneForGig", { gig: "demo-gig-slot", song: "demo-song-md", key: null }),
  );
  await fold.getByText("Play it 2 semitones lower, in C.").waitFor();

  await fold.getByRole("button", { name: "Change what they can sing" }).click();
  const form = fold.getByRole("form", { name: /^Change: what Priya/ });
  await form.getByLabel("Highest comfortable note").fill("E3");
  await form.getByRole("button", { name: "Save" }).click();
  await form
    .getByText("The comfortable top lies above the comfortable bottom. Put the two in order.")
    .waitFor();
  expect(await form.getByLabel("Highest comfortable note").inputValue()).toBe("E3");
});
