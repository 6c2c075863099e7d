/** Files that leave the board, downloaded and read by somebody else's readers: ical.js, midi-file, saxes. */
import { readFileSync } from "node:fs";
import ICAL from "ical.js";
import { parseMidi } from "midi-file";
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { LAPTOP, openPage, type PageOptions, PHONE } from "#tests/support/browser.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";
import { faultsIn, readXml } from "#tests/support/musicxml-rules.ts";

const t = testHarness();

const open = async (options: PageOptions, query: string, hash: string): Promise<Page> => {
  const { page } = t.keep(await openPage(t.browser, { reducedMotion: true, ...options }));
  await page.goto(`${t.address}/?${query}#${hash}`);
  await page.locator("h1").waitFor();
  return page;
};

/** Presses a button and answers the file that comes of it. */
const download = async (page: Page, button: string | RegExp) => {
  const [file] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: button, exact: true }).first().click(),
  ]);
  return { name: file.suggestedFilename(), bytes: readFileSync(await file.path()) };
};

test("a song's grids are saved as MIDI and as MusicXML", async () => {
  const page = await open(LAPTOP, "", "/b/demo/songs/demo-song-md");
  const midi = await download(page, "Save grids as MIDI");
  expect(midi.name).toBe("marzipan-diesel-grids-2026-03-05.mid");
  const { header, tracks } = parseMidi(midi.bytes);
  expect([header.format, header.numTracks]).toEqual([1, 3]);
  const drums = tracks[2]?.filter((event) => event.type === "noteOn") ?? [];
  expect(drums.length).toBeGreaterThan(0);
  await page.getByText("The MIDI file is among your downloads.").waitFor();
  const score = await download(page, "Save grids as MusicXML");
  expect(score.name).toBe("marzipan-diesel-grids-2026-03-05.musicxml");
  expect(faultsIn(readXml(score.bytes.toString("utf8")))).toEqual([]);
});

test("who may only look takes the dates ahead along, all of them, one evening or one gig", async () => {
  const page = await open(PHONE, "role=guest&as=nobody", "/b/demo/gigs");
  const read = (bytes: Buffer) =>
    new ICAL.Component(ICAL.parse(bytes.toString("utf8")))
      .getAllSubcomponents("vevent")
      .map((event) => new ICAL.Event(event));
  const dates = await download(page, "Calendar file");
  expect(dates.name).toBe("six-spare-fuses-dates-2026-03-05.ics");
  const ahead = await page.evaluate(() => {
    const { gigs, rehearsals } = window.harness.store.board();
    return [...gigs.map(({ date }) => date), ...rehearsals.map(({ day }) => day)].filter(
      (day) => day >= "2026-03-05",
    );
  });
  const events = read(dates.bytes);
  expect(events.map(({ startDate }) => startDate.toString().slice(0, 10))).toEqual(ahead);
  const evening = await download(page, /^Calendar file of the rehearsal/);
  const [rehearsal] = read(evening.bytes);
  expect(events.map(({ uid }) => uid)).toContain(rehearsal?.uid);
  await page.locator("main ul a").first().click();
  await page.getByRole("heading", { name: "Line-up" }).waitFor();
  const gig = read((await download(page, "Calendar file")).bytes);
  expect(gig.map(({ uid }) => uid)).toEqual([events[0]?.uid]);
});
