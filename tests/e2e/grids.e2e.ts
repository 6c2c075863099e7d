/** A grid written by keyboard, laid beside the recording's, read and played. */
import type { Locator, Page } from "playwright-core";
import { expect, test } from "vitest";
import { LAPTOP, PHONE } from "#tests/support/browser.ts";
import { focused, openScreen } from "#tests/support/harness/open-screen.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";
import { axeViolations, overflowing, smallTargets } from "#tests/support/page-checks.ts";

const t = testHarness();
const PICTURES = process.env.TIGHTROW_PICTURES;

const shot = async (what: Locator, name: string): Promise<void> => {
  if (PICTURES !== undefined) await what.screenshot({ path: `${PICTURES}/${name}.png` });
};
const fold = async (page: Page, name: string) => {
  const found = page.locator("details", { has: page.getByRole("heading", { name, level: 2 }) });
  if (!(await found.evaluate((element) => (element as HTMLDetailsElement).open)))
    await found.locator("summary").first().click();
  return found;
};
/** Keeps the sound outputs that the page opens. */
const listenIn = (page: Page) =>
  page.evaluate(() => {
    const opened: AudioContext[] = [];
    const Plain = window.AudioContext;
    Object.assign(window, {
      opened,
      AudioContext: class extends Plain {
        constructor(options?: AudioContextOptions) {
          super(options);
          opened.push(this);
        }
      },
    });
  });
const contexts = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() =>
    (window as unknown as { opened: readonly AudioContext[] }).opened.map(({ state }) => state),
  );
const cardNow = (page: Page) =>
  page.evaluate(() =>
    window.harness.store
      .board()
      .songs.get("demo-song-lo")
      ?.cards.find(({ id }) => id === "demo-card-lo4"),
  );

test("[UI-2] two voices are written by keyboard, the recording's beside them, and both are read and played", async () => {
  const { page } = t.keep(
    await openScreen(t.browser, t.address, "/songs/demo-song-lo", {
      ...PHONE,
      width: 320,
      theme: "dark",
      query: "as=tomasz&role=leader",
    }),
  );
  page.setDefaultTimeout(8000);
  await listenIn(page);
  const details = await fold(page, "Details");
  await details.getByRole("button", { name: /^More about: Dotted-quarter bass/ }).click();
  await page.getByRole("menuitem", { name: "Change" }).click();
  const form = page.getByRole("form", { name: /^Change: / });
  await form.getByRole("button", { name: "Write a grid" }).press("Enter");
  await form.getByRole("button", { name: "Hats, 1: rest" }).focus();
  await page.keyboard.type("x.x.");
  expect(await focused(page)).toBe("Hats, 2: rest");
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("Home");
  await page.keyboard.type("-");
  await form.getByText("Nothing sounds before 1 that could be held: it stays a rest.").waitFor();
  await page.keyboard.press("Home");
  await page.keyboard.type("X--.o");
  await page.keyboard.press("Space");
  await form
    .getByText(
      "Bass, backing voice rests. Hats on 1, 1 and. Snare rests. Kick on 2 e; accents on 1 held for 3 steps; ghosts on 2.",
    )
    .waitFor();
  await shot(form, "edit");
  expect(await overflowing(page)).toEqual([]);
  expect(await axeViolations(page)).toEqual([]);
  expect(await smallTargets(page, 44)).toEqual([]);

  // The recording's is ours with one row moved by a step; then ours gets coarser steps, and what that loses is said.
  await form.getByLabel("on the recording").check();
  await form.getByRole("button", { name: "Copy it from ours" }).click();
  await form.getByText("As on the recording, note for note.").waitFor();
  await form.getByRole("button", { name: "Kick", exact: true }).click();
  await form.getByRole("button", { name: "one step later" }).click();
  const against = form.locator("dl", { hasText: "Kick:" });
  expect(await against.textContent()).toBe("Kick: every note is early by a sixteenth.");
  await form.getByLabel("as we play it").check();
  await form.getByLabel("Steps", { exact: true }).selectOption({ label: "8, 2 a beat" });
  await form.getByText("These notes have no step any more and are left out: Kick 2 e.").waitFor();
  await form.getByRole("button", { name: "Back to 16 steps" }).click();
  await form.getByRole("button", { name: "Save" }).click();
  await form.waitFor({ state: "detached" });
  const card = await cardNow(page);
  expect(card?.grid?.rows.map(({ voice, hits }) => [voice ?? "", hits])).toEqual([
    ["", "................"],
    ["hats", "x.x............."],
    ["snare", "................"],
    ["kick", "X--.ox.........."],
  ]);
  expect(card?.recordedGrid?.rows[3]?.hits).toBe(".X--.ox.........");

  // The song's own list of grids has it, with what is different.
  const grids = await fold(page, "Grids");
  await grids.getByText("every note is early by a sixteenth").waitFor();
  await grids.getByText("Listen to it").first().click();
  await grids.getByLabel("alternately").check();
  await grids.getByRole("button", { name: "Play" }).click();
  await grids.getByText(/^(Playing ours|Counting in)\.$/).waitFor();
  expect(await contexts(page)).toEqual(["running"]);
  await grids.getByText("Numbers").first().click();
  await grids.locator("summary", { hasText: "Kick" }).click();
  await grids.getByText("0.19; on the recording 0.19.").waitFor();
  await shot(grids, "grids");
  expect(await overflowing(page)).toEqual([]);
  expect(await axeViolations(page)).toEqual([]);
  await grids.locator("summary").first().click();
  await expect.poll(() => contexts(page)).toEqual(["closed"]);
});

test("[UI-2] the demo band's grids on a laptop, by place", async () => {
  const { page } = t.keep(
    await openScreen(t.browser, t.address, "/songs/demo-song-md", { ...LAPTOP, theme: "light" }),
  );
  page.setDefaultTimeout(8000);
  const grids = await fold(page, "Grids");
  const lines = grids.locator('dl[aria-label="Against the recording"]');
  expect(await lines.textContent()).toBe(
    "Kick: 3 and is late by an eighth.Bass, backing voice: 4 e is late by a sixteenth; 4 e is shorter by a sixteenth.",
  );
  await shot(grids, "laptop");
});

test("[UI-2] the step that is heard is marked in its picture, one at a time, and another tempo does not begin anew", async () => {
  const { page } = t.keep(
    await openScreen(t.browser, t.address, "/songs/demo-song-md", {
      ...PHONE,
      theme: "dark",
      reducedMotion: false,
    }),
  );
  page.setDefaultTimeout(8000);
  const grids = await fold(page, "Grids");
  await grids.getByText("Listen to it").first().click();
  await grids.getByRole("button", { name: "click" }).click();
  // Every step that was marked, and the most marks at once.
  await page.evaluate(() => {
    const seen: string[] = [];
    const most = { marks: 0 };
    Object.assign(window, { seen, most });
    const look = (): void => {
      const marks = [...document.querySelectorAll("[data-sounding]")];
      most.marks = Math.max(most.marks, marks.length);
      const step = marks[0]?.getAttribute("data-sounding");
      if (step && step !== seen.at(-1)) seen.push(step);
      requestAnimationFrame(look);
    };
    look();
  });
  const seen = () => page.evaluate(() => (window as unknown as { seen: readonly string[] }).seen.map(Number));
  await grids.getByRole("button", { name: "Play" }).click();
  await expect.poll(async () => (await seen()).length).toBeGreaterThan(4);
  await grids.getByRole("button", { name: "5 bpm slower" }).click();
  const before = await seen();
  await expect.poll(async () => (await seen()).length).toBeGreaterThan(before.length + 2);
  await shot(grids, "sounding");
  expect(await axeViolations(page)).toEqual([]);
  await grids.getByRole("button", { name: "Stop" }).click();
  await expect.poll(() => page.locator("[data-sounding]").count()).toBe(0);
  expect(await page.evaluate(() => (window as unknown as { most: { marks: number } }).most.marks)).toBe(1);
  // It went on: to a first step one comes from the end of the bar only.
  const steps = await seen();
  for (const [i, step] of steps.entries()) if (i > 0 && step === 0) expect(steps[i - 1]).toBeGreaterThan(8);

  await page.emulateMedia({ reducedMotion: "reduce" });
  await grids.getByRole("button", { name: "Play" }).click();
  await grids.getByText("Playing ours.").waitFor();
  await page.waitForTimeout(500);
  expect(await page.locator("[data-sounding]").count()).toBe(0);
});
