import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { LAPTOP, PHONE } from "#tests/support/browser.ts";
import { openScreen } from "#tests/support/harness/open-screen.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";
import { axeViolations, overflowing, smallTargets } from "#tests/support/page-checks.ts";
import { inventedSong } from "#tests/support/score/invented-song.ts";
import { midiOf } from "#tests/support/score/write-midi.ts";

const t = testHarness();
const TITLE = "Paper Lantern";

const choose = (page: Page, name: string, bytes: Uint8Array) =>
  page
    .getByLabel(/^Choose a file/)
    .setInputFiles({ name, mimeType: "application/octet-stream", buffer: Buffer.from(bytes) });

const onBoard = (page: Page) =>
  page.evaluate((title) => {
    const file = [...window.harness.store.board().songs.values()].find(({ song }) => song.title === title);
    return file === undefined
      ? null
      : {
          key: file.song.key,
          tempo: file.song.tempo,
          form: file.sections.map(({ name, bars }) => `${name} ${bars}`),
          textures: file.textures.size,
          details: file.cards.map(({ text }) => text),
        };
  }, TITLE);

test("[UI-2] a MIDI file becomes a song with its form, who plays when and its grooves, and one undo takes it back", async () => {
  const { page } = t.keep(
    await openScreen(t.browser, t.address, "/songs", { query: "as=tomasz", ...PHONE, theme: "dark" }),
  );
  await page.getByRole("link", { name: "Bring in a song" }).click();
  await choose(page, "lantern.mid", midiOf(inventedSong()));
  await page.getByText("96 beats a minute · D · 4/4 · 1:00").waitFor();
  await page.getByText("Intro 4 · Verse 8 · Chorus 8 · Verse (2) 4: from the marks in the file").waitFor();
  expect(await page.getByLabel("Chair of Bass").locator("option:checked").textContent()).toBe(
    "Bass, backing voice",
  );
  expect(await axeViolations(page)).toEqual([]);
  expect(await overflowing(page)).toEqual([]);
  expect(await smallTargets(page, 44)).toEqual([]);
  await page.getByText("Groove in Verse (2)").click();
  await page.getByRole("button", { name: "Bring in this song" }).click();
  await page.getByRole("heading", { level: 1, name: TITLE }).waitFor();
  expect(await onBoard(page)).toEqual({
    key: "D",
    tempo: 96,
    form: ["Intro 4", "Verse 8", "Chorus 8", "Verse (2) 4"],
    textures: 16,
    details: ["Bass pattern all through", "Cymbals by section; crashes: Chorus 2", "Groove in Verse, Chorus"],
  });
  await page.getByRole("button", { name: "Undo" }).click();
  await expect.poll(() => onBoard(page)).toBeNull();
});

test("[IN-1] a broken file gets a sentence, and what was found in the file before can be chosen again", async () => {
  const { page } = t.keep(
    await openScreen(t.browser, t.address, "/songs/import", { query: "as=tomasz", ...LAPTOP }),
  );
  const songs = () => page.evaluate(() => window.harness.store.board().songs.size);
  const before = await songs();
  const file = midiOf(inventedSong());
  await choose(page, "broken.mid", file.slice(0, 500));
  await page.getByText("“broken.mid” was not brought in.").waitFor();
  await page.getByText(/^The file is damaged: it ends in the middle of track/).waitFor();
  expect(await axeViolations(page)).toEqual([]);
  await choose(page, "lantern.mid", file);
  await page.getByLabel("Title of the song").fill("");
  await page.getByRole("button", { name: "Bring in this song" }).click();
  await page.getByText("Write the song's title first.").waitFor();
  expect(await songs()).toBe(before);
});

test("[UI-2] a section's own metre, tempo and key are shown before, and stay away when they are not wanted", async () => {
  const { page } = t.keep(
    await openScreen(t.browser, t.address, "/songs/import", { query: "as=tomasz", ...PHONE, width: 320 }),
  );
  const changing = inventedSong({
    tempos: [
      { at: 0, quarters: 96 },
      { at: 48, quarters: 104 },
      { at: 80, quarters: 96 },
      { at: 92, quarters: 70 },
    ],
    keys: [
      { at: 0, signature: 2 },
      { at: 48, signature: 4 },
      { at: 80, signature: 2 },
    ],
  });
  await choose(page, "lantern.mid", midiOf(changing));
  await page.getByText("Chorus 8 (104 beats a minute, to E) · Verse (2) 4 (to D)").waitFor();
  await page.getByText("Verse (2): its tempo moves from 70 to 96.").waitFor();
  expect(await axeViolations(page)).toEqual([]);
  expect(await overflowing(page)).toEqual([]);
  await page.getByRole("checkbox", { name: /^Tempo, key and metre/ }).click();
  await page.getByText("Intro 4 · Verse 8 · Chorus 8 · Verse (2) 4: from the marks in the file").waitFor();
  await page.getByRole("checkbox", { name: /^Tempo, key and metre/ }).click();
  await page.getByRole("button", { name: "Bring in this song" }).click();
  await page.getByRole("heading", { level: 1, name: TITLE }).waitFor();
  const sections = await page.evaluate((title) => {
    const file = [...window.harness.store.board().songs.values()].find(({ song }) => song.title === title);
    return file?.sections.map(({ name, tempo, key }) => [name, tempo, key]);
  }, TITLE);
  expect(sections).toEqual([
    ["Intro", null, ""],
    ["Verse", null, ""],
    ["Chorus", 104, "E"],
    ["Verse (2)", null, "D"],
  ]);
});
