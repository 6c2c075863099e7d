/** A whole evening in the room on the whole product: five players, four devices, one of them without signal. */
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import type { Board } from "#shared/board/board.ts";
import { isPartCardId } from "#shared/board/ids.ts";
import { FEELS, type Feel } from "#shared/board/take.ts";
import { createRunner } from "#shared/commands/runner.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { dayOf, endOfDay } from "#shared/lib/calendar.ts";
import { enterDemo, joinAs, untilSaid, untilShown } from "#tests/support/app.ts";
import { testApp, UNREACHABLE } from "#tests/support/app-test.ts";
import { seeded } from "#tests/support/big-board.ts";
import { readingOf } from "#tests/support/board-reading.ts";
import { LAPTOP, PHONE } from "#tests/support/browser.ts";
import {
  type EveningDevice,
  type Hand,
  keptDocument,
  keysOn,
  openEvening,
  rowsOnStand,
  targetsOf,
  thumbOn,
} from "#tests/support/evening-device.ts";
import { type Ledger, levelsOf, openLedger, takesDue, takesOn } from "#tests/support/evening-ledger.ts";
import { joinOtherDevice } from "#tests/support/other-device.ts";
import { axeViolations, overflowing } from "#tests/support/page-checks.ts";

const t = testApp();

const ZONE = "Europe/Lisbon";
const MINUTE = 60_000;
/** The gig the evening is for has more songs than one can play in 85 minutes. */
const GIG = "demo-gig-dance";
const SONGS = 14;
const A_SONG = 6 * MINUTE;
const LATE = "demo-priya";
/** She comes before this song. */
const COMES_AT = 5;
/** In this song the drummer logs a run by mistake. */
const TAKES_BACK = 3;

interface Player {
  readonly device: EveningDevice;
  readonly member: string;
  readonly hand: Hand;
  /** Who is away, as far as this device has heard. */
  away: readonly string[];
  /** What is flagged for the take to come. */
  flagged: Set<string>;
}

const takesShown = (page: Page): Promise<readonly string[]> =>
  page.locator("[data-take]").evaluateAll((all) => all.map((one) => one.getAttribute("data-take") ?? ""));

const undo = (page: Page): Promise<void> =>
  page.locator("[data-toasts] li").last().getByRole("button", { name: "Undo" }).click();

/** Some steps up on a player's own details, some flags, some taken back at once. */
const work = async (player: Player, random: () => number, ledger: Ledger, logs: boolean): Promise<void> => {
  const { device, member, hand } = player;
  const rows = await rowsOnStand(device.page);
  for (const { card } of rows.filter(() => random() < 0.6)) {
    const shown = (await rowsOnStand(device.page)).find((one) => one.card === card)?.shown ?? 0;
    const marked = ledger.levelOf(card, member);
    const [asks, regrets] = [random() < 0.3, random() < 0.2];
    if (marked === 3 && !asks) continue;
    ledger.taps += 1;
    await hand.raise(card);
    if (marked === 3) await hand.stillTrue();
    ledger.mark(card, member, marked === 3 ? 3 : (Math.min(3, Math.min(shown, marked) + 1) as 1 | 2 | 3));
    if (!regrets || player.member === "demo-minjae") continue;
    ledger.taps += 1;
    await undo(device.page);
    ledger.unmark(card, member);
  }
  // A flag belongs to the take that the same phone logs.
  for (const { card } of rows.filter(() => logs && random() < 0.25)) {
    const flips = random() < 0.25 ? 2 : 1;
    for (let n = 0; n < flips; n++) await hand.slip(card);
    ledger.taps += flips;
    if (flips === 1) player.flagged.add(card);
  }
};

const feelOf = (random: () => number): Feel => FEELS[Math.floor(random() * random() * 3)] ?? "clean";

test("a whole evening on four devices: every tap is there, on every one of them, and nothing moved", async () => {
  t.expectComplaints(UNREACHABLE);
  const day = dayOf(Date.now(), ZONE);
  /** Half past seven, whatever the hour of the test. */
  const start = endOfDay(day, ZONE) - 4.5 * 60 * MINUTE;
  const random = seeded(7);
  const leaderKnown = await enterDemo(t.address, "leader", "tomasz");
  const reader = await joinOtherDevice(
    t.address,
    await joinAs(t.address, leaderKnown, "member", "demo-ifeoma"),
    "demo-ifeoma",
  );
  const seat = async (person: string, hand: (page: Page) => Hand): Promise<Player> => {
    const isLeader = person === "tomasz";
    const known = isLeader ? leaderKnown : await joinAs(t.address, leaderKnown, "member", `demo-${person}`);
    const opened = await t.stranger(isLeader ? LAPTOP : PHONE);
    const device = await openEvening(opened, known, { person, address: t.address, start });
    return { device, member: `demo-${person}`, hand: hand(device.page), away: [], flagged: new Set() };
  };
  const [leader, drums, bass, keys] = await Promise.all([
    seat("tomasz", thumbOn),
    seat("lucia", thumbOn),
    seat("minjae", keysOn),
    seat("anneli", thumbOn),
  ]);
  const all = [leader, drums, bass, keys];
  const online = [leader, drums, bass];
  const before: Board = reader.board();
  const ledger = openLedger(before);
  const allMoved: string[] = [];
  const songs = (before.gigs.find(({ id }) => id === GIG)?.songs ?? [])
    .slice(0, SONGS)
    .map(({ song }) => song);
  expect(songs).toHaveLength(SONGS);

  // The leader says who is not here yet, how long the room is booked, and for which gig.
  await leader.device.page.getByRole("button", { name: "Start the rehearsal" }).click();
  const sheet = leader.device.page.getByRole("dialog");
  await sheet.getByLabel("Priya Sundarvane").uncheck();
  await sheet.getByRole("textbox", { name: "Booked (min)" }).fill("120");
  await sheet.getByLabel("For which gig").selectOption(GIG);
  await sheet.getByRole("button", { name: "Start now" }).click();
  for (const player of all) {
    if (player !== leader)
      await player.device.page.getByRole("button", { name: "The rehearsal has begun" }).click();
    await player.device.page.getByRole("region", { name: "The rehearsal" }).waitFor();
    await player.device.page.getByText("everybody but Priya Sundarvane").first().waitFor();
    player.away = [LATE];
  }
  await untilSaid(keys.device.page, "all saved");
  await keys.device.context.setOffline(true);

  /** Everybody with a signal has this take in sight; on the drummer's phone, left alone meanwhile, nothing moved. */
  const untilSeen = async (take: string): Promise<void> => {
    await Promise.all(
      online.map(({ device }) => device.page.locator(`[data-take="${take}"]`).waitFor({ state: "attached" })),
    );
  };
  const log = async (player: Player, run: Ledger["runs"][number], feel: Feel): Promise<void> => {
    await player.hand.log(feel);
    ledger.taps += 1;
    run.logs.push({ person: player.member, feel, slips: [...player.flagged], away: player.away });
    player.flagged = new Set();
  };

  for (const [i, song] of songs.entries()) {
    const opens = start + i * A_SONG;
    await Promise.all(all.map(({ device }) => device.setClock(opens)));
    if (i === COMES_AT) {
      const { page } = leader.device;
      const fold = page.locator("summary").filter({ hasText: /^Here/ });
      await fold.click();
      await page.getByLabel("Priya Sundarvane").check();
      await fold.click();
      for (const player of online) {
        await player.device.page
          .locator("summary")
          .filter({ hasText: /^Here everybody$/ })
          .waitFor();
        player.away = [];
      }
    }
    for (const player of all) {
      const { page } = player.device;
      if (i === 0) await page.locator(`main ol a[href$="/room/${song}"]`).first().click();
      else await player.hand.next();
      await page.waitForURL(`**/room/${song}`);
    }
    for (const no of random() < 0.4 ? [1, 2] : [1]) {
      const at = opens + (no === 1 ? 1.75 : 5.25) * MINUTE;
      const run = { song, no, from: at, to: at + 2 * MINUTE, logs: [] };
      ledger.runs.push(run);
      await Promise.all(all.map(({ device }, n) => device.setClock(at + n * 8_000)));
      const [leaderLogs, drumsLog, keysLog] = [random() < 0.5, random() < 0.4, random() < 0.8];
      await work(drums, random, ledger, drumsLog);
      if (i === TAKES_BACK && no === 1) {
        await drums.hand.log("stopped");
        await untilSeen(`r:${day}/${song}/1`);
        await undo(drums.device.page);
        await leader.device.page.locator(`[data-take="r:${day}/${song}/1"]`).waitFor({ state: "detached" });
        ledger.taps += 2;
        drums.flagged = new Set();
      }
      const stood = await targetsOf(drums.device.page);
      await work(bass, random, ledger, true);
      await work(leader, random, ledger, leaderLogs);
      await log(bass, run, feelOf(random));
      await untilSeen(`r:${day}/${song}/${no}`);
      if (leaderLogs) {
        await log(leader, run, feelOf(random));
        await leader.device.page
          .locator(`[data-take="r:${day}/${song}/${no}"]`)
          .getByText("and on this device")
          .waitFor();
      }
      const stands = await targetsOf(drums.device.page);
      const moved = Object.keys(stood).filter((name) => stands[name] !== stood[name]);
      allMoved.push(...moved.map((name) => `${song}, ${name}: ${stood[name]} → ${stands[name]}`));
      if (drumsLog) {
        await drums.device.page.locator("#what-it-logs").filter({ hasText: "Yours joins it" }).waitFor();
        await log(drums, run, feelOf(random));
      }
      // Without a signal nobody can tell that somebody else logged a first run that this phone did not.
      const first = ledger.runs.find((other) => other.song === song && other.no === 1);
      const fits =
        i !== TAKES_BACK && (no === 1 || first?.logs.some(({ person }) => person === keys.member) === true);
      await work(keys, random, ledger, keysLog && fits);
      if (keysLog && fits) await log(keys, run, feelOf(random));
    }
  }
  const ends = start + 85 * MINUTE;
  await Promise.all(all.map(({ device }) => device.setClock(ends)));
  expect(allMoved).toEqual([]);
  for (const { device } of [drums, bass]) {
    const { unasked, asked } = await device.shifts();
    expect(unasked, `${device.person}: ${asked} more right after a tap or a key`).toEqual([]);
  }
  await leader.device.page.getByRole("link", { name: "All songs" }).click();
  await leader.device.page.getByRole("button", { name: "End the rehearsal" }).click();

  // The phone without a signal comes back.
  await untilSaid(keys.device.page, /\d+ to send/);
  await keys.device.context.setOffline(false);
  for (const { device } of all) await untilSaid(device.page, "all saved");
  const due = takesDue(before, day, ledger.runs);
  await expect
    .poll(() => takesOn(reader.board(), day).map(({ at: _, ...take }) => take), { timeout: 5_000 })
    .toEqual(due);
  const board = reader.board();
  const played = takesOn(board, day);

  // Every tap is there, and nothing else.
  const levels = levelsOf(board);
  const expected = new Map([...levelsOf(before), ...ledger.marks]);
  const differing = [...new Set([...levels.keys(), ...expected.keys()])].filter(
    (key) => (levels.get(key) ?? 0) !== (expected.get(key) ?? 0),
  );
  expect(differing).toEqual([]);
  expect(ledger.taps).toBeGreaterThan(150);
  expect(ledger.marks.size).toBeGreaterThan(40);
  for (const [n, { from, to }] of ledger.runs.entries()) {
    expect(played[n]?.at).toBeGreaterThanOrEqual(from);
    expect(played[n]?.at).toBeLessThan(to);
  }

  // All four devices keep the same board and show the same evening.
  for (const { device } of all) {
    await expect.poll(() => takesShown(device.page)).toEqual(due.map(({ id }) => id));
    const kept = createRunner(createBoardDocument(await keptDocument(device.page))).board();
    expect(readingOf(kept), device.person).toEqual(readingOf(board));
  }

  await tellsTonight(leader.device.page, board, ledger, played, start);
  await fitsAStand(drums.device.page, songs[2] ?? "");
  reader.close();
}, 180_000);

const goTo = async (page: Page, path: string): Promise<void> => {
  await page.evaluate((to) => {
    location.hash = location.hash.replace(/(\/b\/[^/]+).*/, `$1${to}`);
  }, path);
  await untilShown(page);
};

/** “Tonight” names the minutes of every song and what everybody moved. */
const tellsTonight = async (
  page: Page,
  board: Board,
  ledger: Ledger,
  played: readonly { readonly id: string; readonly at: number }[],
  start: number,
): Promise<void> => {
  await goTo(page, "/room/evening/tonight");
  const minutes = new Map<string, number>();
  let last = board.rehearsals.find(({ startedAt }) => startedAt !== null)?.startedAt ?? Number.NaN;
  expect(Math.abs(last - start)).toBeLessThan(2 * MINUTE);
  for (const { id, at } of played) {
    const song = id.split("/")[1] ?? "";
    minutes.set(song, (minutes.get(song) ?? 0) + (at - last) / MINUTE);
    last = at;
  }
  for (const [song, spent] of minutes)
    await page
      .getByRole("listitem")
      .filter({ has: page.locator(`a[href$="/songs/${song}"]`) })
      .filter({ hasText: `${Math.round(spent)} min` })
      .first()
      .waitFor();
  for (const [person, name] of [
    ["demo-tomasz", "You"],
    ["demo-lucia", "Lucía Borrasco"],
    ["demo-minjae", "Min-jae Pardal"],
    ["demo-anneli", "Anneli Kuusvirre"],
  ] as const) {
    const locked = [...ledger.marks].flatMap(([key, level]) => {
      const [card = "", member] = key.split("/");
      return member === person && level === 3 ? [card] : [];
    });
    const lines = await page
      .getByRole("region", { name, exact: true })
      .locator("h3:text-is('Locked in') + ul > li")
      .allTextContents();
    const due = locked.map((card) => {
      for (const { song, cards } of board.songs.values()) {
        if (isPartCardId(card) && card.startsWith(`part:${song.id}:`))
          return `${song.title}, the part itself`;
        const found = cards.find(({ id }) => id === card);
        if (found !== undefined) return `${song.title}, ${found.text.slice(0, 20)}`;
      }
      return card;
    });
    expect(lines.length, name).toBe(due.length);
    for (const line of due) {
      const [title = "", words = ""] = line.split(", ");
      expect(
        lines.some((one) => one.includes(title) && one.includes(words)),
        line,
      ).toBe(true);
    }
  }
};

/** One song and “Tonight” on two small phones, in the size for a music stand and at twice the size. */
const fitsAStand = async (page: Page, song: string): Promise<void> => {
  const faults: string[] = [];
  const devtools = await page.context().newCDPSession(page);
  for (const path of [`/room/${song}`, "/room/evening/tonight"]) {
    await goTo(page, path);
    for (const size of ["stand", "200%"] as const)
      for (const viewport of [
        { width: 390, height: 844 },
        { width: 360, height: 640 },
      ]) {
        await page.setViewportSize(viewport);
        // As somebody sets it in the browser: all of the page is measured by it.
        await devtools.send("Page.setFontSizes", { fontSizes: { standard: size === "200%" ? 32 : 16 } });
        await page.evaluate((to) => {
          if (to === "stand") document.documentElement.dataset.size = to;
          else delete document.documentElement.dataset.size;
          window.scrollTo(0, 0);
        }, size);
        const at = `${path} ${viewport.width}×${viewport.height} ${size}`;
        faults.push(...(await overflowing(page)).map((what) => `${at} overflows: ${what}`));
        const results = await page.locator("[data-thumb-bar] button").evaluateAll((buttons) =>
          buttons.map((button) => {
            const { top, bottom } = button.getBoundingClientRect();
            return { top: top / innerHeight, bottom: bottom / innerHeight };
          }),
        );
        for (const { top, bottom } of results)
          if (top < 0.5 || bottom > 1) faults.push(`${at}: a result stands from ${top} to ${bottom}`);
      }
    faults.push(...(await axeViolations(page)));
  }
  expect(faults).toEqual([]);
};
