import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { parseBoardFile } from "#shared/exchange/board-json.ts";
import { tabTo } from "#tests/support/app.ts";
import { LAPTOP, openPage, type PageOptions, PHONE } from "#tests/support/browser.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";
import { axeViolations, borderContrasts, overflowing, smallTargets } from "#tests/support/page-checks.ts";

const t = testHarness();

const open = async (options: PageOptions, query: string, hash: string): Promise<Page> => {
  const { page } = t.keep(await openPage(t.browser, { reducedMotion: true, ...options }));
  await page.goto(`${t.address}/?${query}#${hash}`);
  await page.locator("h1").waitFor();
  return page;
};

const said = (page: Page) => page.getByRole("region", { name: "What just happened" });
const focused = (page: Page): Promise<string> =>
  page.evaluate(
    () => document.activeElement?.getAttribute("aria-label") ?? document.activeElement?.textContent ?? "",
  );
const titles = (page: Page, group: string): Promise<readonly string[]> =>
  page
    .getByRole("region", { name: group, exact: true })
    .locator("li a > span:not(.caption)")
    .evaluateAll((rows) => rows.map((row) => row.firstChild?.textContent ?? ""));

/** On a phone what just happened lies over the end of a screen, until it is read or dismissed. */
const dismissAll = async (page: Page): Promise<void> => {
  const dismiss = page.getByRole("button", { name: "Dismiss" });
  while ((await dismiss.count()) > 0) await dismiss.first().click();
};

/** Screens in states that the sweep over the whole product does not see; on a laptop those that are laid out otherwise there. */
const SCREENS: readonly (readonly [name: string, query: string, hash: string])[] = [
  ["the way in, first visit", "knows=no", "/"],
  ["the way in, bands known", "", "/"],
  ["songs", "", "/b/demo/songs"],
  ["songs, none yet", "board=empty", "/b/demo/songs"],
  ["songs, looking on", "role=guest", "/b/demo/songs"],
  ["people and chairs", "", "/b/demo/people"],
  ["people and chairs, none yet", "board=empty", "/b/demo/people"],
  ["gigs", "", "/b/demo/gigs"],
  ["gigs, none yet", "board=empty", "/b/demo/gigs"],
  ["a gig", "", "/b/demo/gigs/demo-gig-slot"],
  ["a gig that is not there", "", "/b/demo/gigs/nowhere"],
  ["settings", "", "/b/demo/settings"],
  ["settings of a member", "as=lucia&role=member", "/b/demo/settings"],
  ["a new band", "board=empty", "/b/demo/start"],
  ["who are you", "as=nobody&role=member", "/b/demo/who"],
  ["a link that expired", "", "/join/demo/expired"],
  ["people, seen by a member", "as=lucia&role=member", "/b/demo/people"],
  ["history", "", "/b/demo/history"],
  ["history, for a member", "as=lucia&role=member", "/b/demo/history"],
  ["the board as it was", "", "/b/demo/history/at/demo-2/900"],
];

const WIDE = new Set(["songs", "people and chairs", "a gig", "settings", "the board as it was"]);

describe.each([
  ["a phone", PHONE, 44, SCREENS],
  // WCAG 2.2 SC 2.5.5 asks for 44 px; a mouse aims better.
  ["a laptop", LAPTOP, 24, SCREENS.filter(([name]) => WIDE.has(name))],
] as const)("on %s", (_, size, least, screens) => {
  test.each(screens)(
    "axe-core finds nothing wrong in the dark or in the light, and nothing sticks out: %s",
    async (_name, query, hash) => {
      const page = await open({ ...size, theme: "dark" }, query, hash);
      // All at once, because a list of those still closed grows shorter while one walks along it.
      await page.evaluate(() => {
        for (const fold of document.querySelectorAll<HTMLElement>("main details:not([open]) > summary"))
          fold.click();
      });
      expect(await axeViolations(page)).toEqual([]);
      for (const colorScheme of ["light", "dark"] as const) {
        await page.emulateMedia({ colorScheme });
        const faint = [...(await borderContrasts(page))].filter(([, contrast]) => contrast < 3);
        expect(faint, colorScheme).toEqual([]);
      }
      expect(await smallTargets(page, least)).toEqual([]);
      expect(await overflowing(page)).toEqual([]);
      // Reflow (WCAG 2.2 SC 1.4.10), then the size for a music stand on top of it.
      if (size.width > 640) return;
      await page.setViewportSize({ width: 320, height: 844 });
      expect(await overflowing(page), "320 px").toEqual([]);
      await page.evaluate(() => {
        document.documentElement.dataset.size = "stand";
      });
      expect(await overflowing(page), "320 px, large").toEqual([]);
    },
  );
});

describe("songs", () => {
  const SIXTY = [
    "Title;Key;Tempo;Length",
    ...Array.from(
      { length: 56 },
      (_, n) => `Invented song ${n + 1};Em;${100 + n};3:${String(n).padStart(2, "0")}`,
    ),
    "Marzipan Diesel;D;112;4:00",
    "Thirteen Umbrellas;H;0;3.45",
    ";Em;116;4:25",
    '"Open Quote;A;94;3:50',
  ].join("\n");

  test("sixty songs are pasted, problems are named by line, and what could not be read stays", async () => {
    const page = await open(LAPTOP, "", "/b/demo/songs");
    await page.getByText("Paste a list, or read one from a file").click();
    await page.getByLabel("Paste a list", { exact: true }).fill(SIXTY);
    await page
      .getByText("57 songs to add · 1 song left out, because it comes twice · 3 lines to look at")
      .waitFor();
    const preview = page.getByRole("list", { name: "What was understood" });
    const problems = await preview.locator("p.text-accent").allTextContents();
    expect(problems.map((text) => /^Line (\d+)(?:, (\w+))?:/.exec(text)?.slice(1, 3))).toEqual([
      ["58", "title"],
      ["59", "key"],
      ["59", "tempo"],
      ["59", "length"],
      ["60", "title"],
      ["61", undefined],
    ]);
    await page.getByRole("button", { name: "Go to line 60" }).click();
    expect(await page.evaluate(() => getSelection()?.toString())).toBe(";Em;116;4:25");
    await page.getByRole("button", { name: "Add 57 songs" }).click();
    await said(page).getByText("Added 57 songs").waitFor();
    expect(await page.getByLabel("Paste a list", { exact: true }).inputValue()).toBe(
      'Title;Key;Tempo;Length\n;Em;116;4:25\n"Open Quote;A;94;3:50',
    );
    expect(await titles(page, "learning")).toHaveLength(4 + 57);
    await said(page).getByRole("button", { name: "Undo" }).click();
    await said(page).getByText("Undone: Added 57 songs").waitFor();
    expect(await titles(page, "learning")).toHaveLength(4);
  });

  test("a list being corrected survives a reload", async () => {
    const page = await open(PHONE, "board=empty", "/b/demo/songs");
    await page.getByLabel("Paste a list", { exact: true }).fill("Paper Lighthouse\n;;");
    await page.reload();
    await page.locator("h1").waitFor();
    expect(await page.getByLabel("Paste a list", { exact: true }).inputValue()).toBe("Paper Lighthouse\n;;");
  });

  test("a song that comes twice is added only when somebody says so", async () => {
    const page = await open(LAPTOP, "", "/b/demo/songs");
    await page.getByText("Paste a list, or read one from a file").click();
    await page.getByLabel("Paste a list", { exact: true }).fill("Marzipan Diesel");
    expect(await page.getByRole("button", { name: "Add 0 songs" }).isDisabled()).toBe(true);
    await page.getByLabel("Keep it all the same: Marzipan Diesel").check();
    await page.getByRole("button", { name: "Add 1 song", exact: true }).click();
    await said(page).getByText("Added 1 song").waitFor();
    expect(await titles(page, "learning")).toContain("Marzipan Diesel");
  });

  test("a file is read into the list, beside what stands there", async () => {
    const page = await open(LAPTOP, "board=empty", "/b/demo/songs");
    await page.getByLabel("Paste a list", { exact: true }).fill("Paper Lighthouse");
    await page
      .getByLabel("Or take it from a file")
      .setInputFiles({ name: "songs.txt", mimeType: "text/plain", buffer: Buffer.from("Kite Insurance\n") });
    await page.getByRole("button", { name: "Add 2 songs" }).waitFor();
  });

  test("Enter adds a song and stays for the next; a name that is taken is refused in words", async () => {
    const page = await open(PHONE, "board=empty", "/b/demo/songs");
    const field = page.getByLabel("Add a song by its title");
    await field.focus();
    for (const title of ["Paper Lighthouse", "Kite Insurance", "paper lighthouse"]) {
      await page.keyboard.type(title);
      await page.keyboard.press("Enter");
    }
    await page.getByText("There is already a song called “Paper Lighthouse”.").waitFor();
    expect(await field.inputValue()).toBe("paper lighthouse");
    expect(await titles(page, "learning")).toEqual(["Kite Insurance", "Paper Lighthouse"]);
    await field.fill("x".repeat(10_000));
    await page.keyboard.press("Enter");
    await page.getByText("write at most 200 characters").waitFor();
    expect((await field.inputValue()).length).toBe(10_000);
  });

  test("a stage changes in place: the row and the focus stay until the list is sorted again", async () => {
    const page = await open(LAPTOP, "", "/b/demo/songs");
    const before = await titles(page, "in the book");
    const stage = page.getByLabel("Stage of Escalator Etiquette");
    await stage.focus();
    await stage.selectOption("learning");
    expect(await titles(page, "in the book")).toEqual(before);
    expect(await stage.evaluate((element) => element === document.activeElement)).toBe(true);
    await page.getByRole("button", { name: "Sort again" }).click();
    expect(await titles(page, "learning")).toContain("Escalator Etiquette");
    expect(await titles(page, "in the book")).not.toContain("Escalator Etiquette");
  });

  test("a removed song can be brought back by its name", async () => {
    const page = await open(LAPTOP, "", "/b/demo/songs");
    await page.getByRole("button", { name: "Take Marzipan Diesel off the board" }).click();
    await page.getByText("1 song was taken off the board").click();
    await page.getByRole("button", { name: "Bring back Marzipan Diesel" }).click();
    await said(page).getByText("Brought back: Marzipan Diesel").waitFor();
    expect(await titles(page, "in the book")).toContain("Marzipan Diesel");
  });

  test("the repertoire is saved as CSV with a header and one line per song", async () => {
    const page = await open(LAPTOP, "", "/b/demo/songs");
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save as CSV" }).click(),
    ]);
    expect(download.suggestedFilename()).toBe("six-spare-fuses-repertoire-2026-03-05.csv");
    const text = readFileSync(await download.path(), "utf8");
    expect(text).toMatch(/^\ufeffTitle,Key,Tempo,Length,Stage/);
    const lines = text.trim().split("\r\n");
    expect(lines).toHaveLength(1 + (await page.evaluate(() => window.harness.store.board().songs.size)));
  });
});

describe("a band from nothing, by keyboard alone", () => {
  test("name, chairs, oneself, songs and a link, in that order", async () => {
    const page = await open(LAPTOP, "board=empty&knows=no", "/");
    await tabTo(page, "Name of your band");
    await page.keyboard.type("Paper Lighthouse Society");
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: "Write this down" }).waitFor();
    expect(await focused(page)).toBe("Write this down");
    await tabTo(page, "I have written it down");
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: "Which chairs does your band have?" }).waitFor();
    await tabTo(page, "Use Two guitars and keys");
    await page.keyboard.press("Enter");
    await tabTo(page, "Go on");
    await page.keyboard.press("Enter");
    expect(await focused(page)).toBe("Who are you, and what do you play?");
    await tabTo(page, "Your name");
    await page.keyboard.type("Ifeoma Adisalu");
    await tabTo(page, "Guitar 2");
    await page.keyboard.press("Space");
    await tabTo(page, "Lead voice");
    await page.keyboard.press("Space");
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: "What do you play?", exact: true }).waitFor();
    expect(await focused(page)).toBe("What do you play?");
    await tabTo(page, "Paste a list");
    await page.keyboard.insertText("Marzipan Diesel\nTollbooth Cinnamon\nPaper Lighthouse");
    await tabTo(page, "Add 3 songs");
    await page.keyboard.press("Enter");
    await tabTo(page, "Go on");
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: "Let the others in" }).waitFor();
    await tabTo(page, "Make the link");
    await page.keyboard.press("Enter");
    await page.getByText("The link is ready.").waitFor();
    expect(await page.getByLabel("A message, ready to paste").inputValue()).toContain("/#/join/");
    const made = await page.evaluate(() => {
      const { board, identity } = window.harness.store;
      const me = identity.author().member ?? "";
      return {
        me: board().people.get(me)?.name,
        chairs: board().chairs.map(({ name }) => name),
        mine: board().chairs.flatMap(({ name, holder }) => (holder === me ? [name] : [])),
        songs: [...board().songs.values()].map(({ song }) => song.title),
      };
    });
    expect(made).toEqual({
      me: "Ifeoma Adisalu",
      chairs: ["Guitar 1", "Guitar 2", "Bass", "Drums", "Keys", "Lead voice"],
      mine: ["Guitar 2", "Lead voice"],
      songs: ["Marzipan Diesel", "Tollbooth Cinnamon", "Paper Lighthouse"],
    });
  });
});

describe("people and chairs", () => {
  test("a chair moves by Alt and an arrow, the focus stays on its control, and the move is said", async () => {
    const page = await open(LAPTOP, "", "/b/demo/people");
    await page.getByLabel("Who holds Drums").focus();
    await page.keyboard.press("Alt+ArrowUp");
    await page.getByText("Drums is now number 3 of 6.").waitFor({ state: "attached" });
    expect(await page.getByLabel("Who holds Drums").evaluate((e) => e === document.activeElement)).toBe(true);
    const up = page.getByRole("button", { name: "Move Drums up" });
    await up.focus();
    await page.keyboard.press("Enter");
    await page.keyboard.press("Enter");
    expect(await up.evaluate((element) => element === document.activeElement)).toBe(true);
    const order = await page.evaluate(() => window.harness.store.board().chairs.map(({ name }) => name));
    expect(order.slice(0, 3)).toEqual(["Drums", "Guitar 1", "Guitar 2"]);
  });

  test("names that are taken are refused in words, and what was typed stays", async () => {
    const page = await open(PHONE, "", "/b/demo/people");
    await page.getByRole("button", { name: "Add somebody" }).click();
    await page.getByLabel("Name", { exact: true }).fill("lucia borrasco");
    await page.getByRole("dialog").getByRole("button", { name: "Add", exact: true }).click();
    await page.getByText("There is somebody called Lucía Borrasco already.").waitFor();
    await page.getByLabel("Name", { exact: true }).fill("Lucía B.");
    await page.getByRole("dialog").getByLabel("Drums").check();
    await page.getByRole("dialog").getByRole("button", { name: "Add", exact: true }).click();
    await said(page).getByText("Added Lucía B.").waitFor();
    expect(await page.getByLabel("Who holds Drums").locator("option:checked").textContent()).toBe("Lucía B.");
    await said(page).getByRole("button", { name: "Undo" }).click();
    expect(await page.getByLabel("Who holds Drums").locator("option:checked").textContent()).toBe(
      "Lucía Borrasco",
    );
  });

  test("somebody takes over a chair on their own page, in one change that is undone at once", async () => {
    const page = await open(LAPTOP, "", "/b/demo/people");
    await page.getByRole("button", { name: "Change Karim Belhossat" }).click();
    const dialog = page.getByRole("dialog");
    await dialog.getByLabel("Bass, backing voice").check();
    await dialog.getByLabel("Name", { exact: true }).fill("Karim B.");
    await dialog.getByRole("button", { name: "Save" }).click();
    expect(
      await page.getByLabel("Who holds Bass, backing voice").locator("option:checked").textContent(),
    ).toBe("Karim B. (dep)");
    await said(page).getByRole("button", { name: "Undo" }).click();
    expect(
      await page.getByLabel("Who holds Bass, backing voice").locator("option:checked").textContent(),
    ).toBe("Min-jae Pardal");
    await page.getByRole("button", { name: "Change Karim Belhossat" }).waitFor();
  });

  test("a device changes hands", async () => {
    const page = await open(PHONE, "as=lucia&role=member", "/b/demo/people");
    await page.getByText("This device is Lucía Borrasco’s.").waitFor();
    await page.getByRole("button", { name: "It is somebody else’s" }).click();
    await page.getByLabel("Whose device is it?").selectOption("Anneli Kuusvirre");
    await page.getByText("This device is Anneli Kuusvirre’s.").waitFor();
    await said(page).getByRole("button", { name: "Undo" }).click();
    await page.getByText("This device is Lucía Borrasco’s.").waitFor();
  });

  test("a link is shown as a message, alone and as a code; without a clipboard it is selected", async () => {
    const page = await open(LAPTOP, "", "/b/demo/people");
    await page.getByLabel("Viewing").check();
    await page.getByText("sees the whole board and changes nothing").waitFor();
    await page.getByRole("button", { name: "Make the link" }).click();
    const message = page.getByLabel("A message, ready to paste");
    expect(await message.inputValue()).toMatch(
      /Six Spare Fuses:\nhttp.+\/#\/join\/demo\/\S+\n.+until 4 April\.$/,
    );
    await page.evaluate(() => Object.defineProperty(navigator, "clipboard", { value: undefined }));
    await page.getByRole("button", { name: "Copy" }).click();
    await page.getByText("Selected: copy it with your device's own copy command.").waitFor();
    expect(await page.evaluate(() => getSelection()?.toString())).toBe(await message.inputValue());
    await page.getByLabel("As a code to scan").check();
    await page.getByRole("img", { name: "Opens the link into Six Spare Fuses" }).locator("path").waitFor();
    await page.getByText("Links made so far: 5").click();
    await page.getByRole("button", { name: "Withdraw: Viewing link" }).click();
    await page.getByRole("button", { name: "Withdraw it" }).click();
    await said(page).getByText("The link is withdrawn.").waitFor();
  });

  test("whoever looks on is offered nothing to change", async () => {
    const page = await open(LAPTOP, "role=guest&as=nobody", "/b/demo/people");
    expect(await page.locator("main").getByRole("button").count()).toBe(0);
  });
});

describe("gigs", () => {
  test("a gig is planned on a past day, with a quiet word, and called off with a way back", async () => {
    const page = await open(PHONE, "", "/b/demo/gigs");
    await page.getByRole("button", { name: "Plan a gig" }).click();
    const dialog = page.getByRole("dialog");
    await dialog.getByRole("button", { name: "Plan it" }).click();
    await dialog.getByText("Give it a name, such as the place or the occasion.").waitFor();
    await dialog.getByText("Give the day.").waitFor();
    await dialog.getByLabel("Name").fill("Boat House");
    await dialog.getByLabel("Day").fill("2026-03-01");
    await dialog.getByText("That day has passed.").waitFor();
    await dialog.getByRole("button", { name: "Plan it" }).click();
    await page.getByRole("heading", { name: "Boat House" }).waitFor();
    await page.getByText("Sun 1 March, 4 days ago").waitFor();
    await dismissAll(page);
    await page.getByRole("button", { name: "Call it off" }).click();
    await page.getByRole("dialog").getByRole("button", { name: "Call it off" }).click();
    await page.getByRole("heading", { name: "Gigs" }).waitFor();
    await dismissAll(page);
    await page.getByText("1 gig was called off").click();
    await page.getByRole("button", { name: "Bring back Boat House" }).waitFor();
  });

  test("songs are called, moved and dropped; the sum of minutes follows", async () => {
    const page = await open(LAPTOP, "", "/b/demo/gigs/demo-gig-slot");
    await page.getByText("25:23 with the gaps, 0:23 over the 25 minutes.").waitFor();
    const order = () =>
      page.evaluate(
        () =>
          window.harness.store
            .board()
            .gigs.find(({ id }) => id === "demo-gig-slot")
            ?.songs.map(({ song }) => song) ?? [],
      );
    const before = await order();
    await page.getByRole("button", { name: "Move Tollbooth Cinnamon up" }).focus();
    await page.keyboard.press("Alt+ArrowDown");
    await page.getByText("Tollbooth Cinnamon is now number 3 of 6.").waitFor({ state: "attached" });
    expect((await order()).slice(0, 3)).toEqual([before[0], before[2], before[1]]);
    expect(await focused(page)).toBe("Move Tollbooth Cinnamon up");
    await page.getByRole("button", { name: "Call songs" }).click();
    await page.getByLabel("Search the repertoire").fill("pigeon");
    await page.getByLabel(/Pigeon on the Payroll/).check();
    await page.getByRole("button", { name: "Call 1 song" }).click();
    await page.getByText("29:52 with the gaps, 4:52 over the 25 minutes.").waitFor();
    await page.getByRole("button", { name: "Drop Pigeon on the Payroll from this gig" }).click();
    await page.getByText("25:23 with the gaps").waitFor();
    await said(page).getByRole("button", { name: "Undo" }).last().click();
    await page.getByText("29:52 with the gaps").waitFor();
  });

  test("the key of the night asks for a run in it, and the reason opens in one tap", async () => {
    const page = await open(PHONE, "", "/b/demo/gigs/demo-gig-slot");
    await page.getByText("ready: 3 of 6 songs").waitFor();
    await page.getByRole("button", { name: "Arrange, tune, drop" }).click();
    await page.getByRole("button", { name: "Key, tempo and tuning of Marzipan Diesel that night" }).click();
    await page.getByLabel("Key", { exact: true }).fill("H");
    await page.getByRole("button", { name: "Save" }).click();
    await page.getByText("in English names that note is B").waitFor();
    await page.getByLabel("Key", { exact: true }).fill("c");
    await page.getByLabel("Tuning", { exact: true }).fill("half step down");
    await page.getByRole("button", { name: "Save" }).click();
    await page.getByText(/^C that night · .*half step down that night/).waitFor();
    await page.getByText("ready: 2 of 6 songs").waitFor();
    const reason = page.getByRole("link", { name: /was in D; the gig is in C\./ });
    expect(await reason.getAttribute("href")).toMatch(/^#\/b\/demo\/songs\/demo-song-md\/take\//);
  });

  test("an empty chair and a dep change what is ready, and the list says where nobody plays", async () => {
    const page = await open(LAPTOP, "", "/b/demo/gigs/demo-gig-slot");
    await page.getByLabel("Drums that night").selectOption("nobody");
    await page.getByText(/nobody on it in \d songs/).waitFor();
    await page.getByText("ready: 0 of 6 songs").waitFor();
    await page.getByLabel("Drums that night").selectOption("usual: Lucía Borrasco");
    await page.getByText("ready: 3 of 6 songs").waitFor();
    await page.getByLabel("Bass, backing voice that night").selectOption("Karim Belhossat (dep)");
    await page.getByText("1 chair differs").waitFor();
  });
});

describe("settings", () => {
  test("light and text size are chosen on this device and kept over a reload", async () => {
    const page = await open({ ...PHONE, theme: "dark" }, "", "/b/demo/settings");
    await page.getByLabel("Light", { exact: true }).check();
    await page.getByLabel("Large, for a music stand").check();
    const root = () => page.evaluate(() => ({ ...document.documentElement.dataset }));
    expect(await root()).toEqual({ theme: "light", size: "stand" });
    expect(await page.evaluate(() => localStorage.getItem("tightrow.theme"))).toBe("light");
    await page.getByLabel("As usual").check();
    expect(await root()).toEqual({ theme: "light" });
  });

  test("a number behind the scores is changed, explained and put back", async () => {
    const page = await open(LAPTOP, "", "/b/demo/settings");
    await page.getByText("On the night", { exact: true }).click();
    const gap = page.getByLabel("Seconds between two songs (s)");
    await gap.fill("45");
    await page.getByRole("button", { name: "Use 45 s" }).click();
    await page.getByText("1 of your own").waitFor();
    expect(await page.evaluate(() => window.harness.store.board().band.settings.gapSeconds)).toBe(45);
    await page.getByRole("button", { name: "Back to 20 s" }).click();
    expect(await page.evaluate(() => window.harness.store.stored.get("settings", "gapSeconds"))).toBe(null);
  });

  test("members read the numbers and change none", async () => {
    const page = await open(PHONE, "as=lucia&role=member", "/b/demo/settings");
    await page.getByText("What a slip costs").click();
    await page.getByText("About eight points on a detail that sat.").waitFor();
    expect(await page.getByLabel("Weight of a slip").count()).toBe(0);
    expect(await page.getByLabel("Time zone").count()).toBe(0);
  });

  test("an unknown time zone is refused in words before anything is written", async () => {
    const page = await open(LAPTOP, "", "/b/demo/settings");
    await page.getByLabel("Time zone").fill("Moon/Base");
    await page.getByText("Give a zone such as Europe/Lisbon.").waitFor();
    await page.getByRole("button", { name: "Save", exact: true }).click();
    expect(await page.evaluate(() => window.harness.store.board().band.timeZone)).toBe("Europe/Lisbon");
  });

  test("the board is saved whole, and the file starts a new board", async () => {
    const page = await open(LAPTOP, "", "/b/demo/settings");
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save the whole board as JSON" }).click(),
    ]);
    const path = await download.path();
    const file = parseBoardFile(readFileSync(path, "utf8"));
    if (!file.ok) throw new Error(file.error);
    const songs = await page.evaluate(() => [...window.harness.store.stored.entries("songs")]);
    expect(Object.fromEntries(file.value.maps.get("songs") ?? [])).toEqual(Object.fromEntries(songs));
    await page.getByLabel("Start a new board from a saved file").setInputFiles(path);
    await page.getByText("It becomes a new board with you as its leader.").waitFor();
    await page.getByRole("button", { name: "Start the new board" }).click();
    await page.getByText("This is its recovery code, shown this once.").waitFor();
    await page.getByRole("button", { name: "I have written it down" }).click();
    await page.waitForFunction(() => location.hash === "#/b/empty/board");
  });

  test("a broken file is refused with the place of the fault", async () => {
    const page = await open(PHONE, "", "/b/demo/settings");
    const pick = (text: string) =>
      page
        .getByLabel("Start a new board from a saved file")
        .setInputFiles({ name: "board.json", mimeType: "application/json", buffer: Buffer.from(text) });
    await pick('{\n  "format": "tightrow board",\n  "version": 1,\n  "maps": {,}\n}');
    await page.getByText("“board.json” was not imported.").waitFor();
    await page.getByText(/line 4, column 12/).waitFor();
    await pick('{"format":"tightrow board","version":99,"maps":{}}');
    await page.getByText(/newer Tightrow \(version 99/).waitFor();
    await page.getByText("No board was changed.").waitFor();
  });

  test("one's own changes are listed and can be taken back", async () => {
    const page = await open(LAPTOP, "", "/b/demo/settings");
    await page.getByLabel("Usual tuning").fill("a half step down");
    await page.getByRole("button", { name: "Save", exact: true }).click();
    await page.getByText("Your own changes on this visit: 1").click();
    await page.getByRole("button", { name: "Undo: Changed the band's entries" }).click();
    expect(await page.getByLabel("Usual tuning").inputValue()).toBe("standard");
  });

  test("leaving a board asks first and says what leading means", async () => {
    const page = await open(PHONE, "", "/b/demo/settings");
    await page.getByRole("button", { name: "Remove this board from this device" }).click();
    await page.getByText("make a leading link first").waitFor();
    await page.getByRole("button", { name: "Remove it" }).click();
    await page.getByRole("heading", { name: "Which songs are ready, for whom, and why" }).waitFor();
    expect(await page.getByText("On this device", { exact: true }).count()).toBe(0);
  });
});

describe("the way in", () => {
  test("a message with a link in it is enough", async () => {
    const page = await open(PHONE, "knows=no&as=nobody&role=member", "/");
    const field = page.getByLabel("Paste the link, or the message it came in");
    await field.fill("see you on Wednesday");
    await page.getByRole("button", { name: "Open", exact: true }).click();
    await page.getByText("There is no link into a board in this.").waitFor();
    await field.fill(`Hello!\n${t.address}/#/join/demo/secret.\nSee you`);
    await page.getByRole("button", { name: "Open", exact: true }).click();
    await page.getByRole("heading", { name: "Who are you?" }).waitFor();
  });

  test("a member picks their name, keeps their chairs, and lands on their own parts", async () => {
    const page = await open(PHONE, "knows=no&as=nobody&role=member", "/join/demo/secret");
    await page.getByRole("button", { name: /Lucía Borrasco/ }).click();
    expect(await page.getByLabel("Drums").isChecked()).toBe(true);
    await page.getByRole("button", { name: "That is me" }).click();
    await page.waitForFunction(() => location.hash === "#/b/demo/parts");
    expect(await page.evaluate(() => window.harness.store.identity.author().member)).toBe("demo-lucia");
  });

  test("somebody the board does not know adds their name and a chair", async () => {
    const page = await open(PHONE, "knows=no&as=nobody&role=member", "/b/demo/who");
    await page.getByRole("button", { name: "Add me" }).click();
    await page.getByText("Write your name.").waitFor();
    await page.getByLabel("Your name").fill("Priya Sundarvane");
    await page.getByRole("button", { name: "Add me" }).click();
    await page.getByText("There is already a person called “Priya Sundarvane”.").waitFor();
    await page.getByLabel("Your name").fill("Priya S.");
    await page.getByRole("button", { name: "Add me" }).click();
    await page.waitForFunction(() => location.hash === "#/b/demo/parts");
  });

  test("a guest goes straight to the board; a refused link says why and leads out", async () => {
    const page = await open(PHONE, "knows=no&role=guest&as=nobody", "/join/demo/guest");
    await page.waitForFunction(() => location.hash === "#/b/demo/board");
    await page.goto(`${t.address}/?knows=no#/join/demo/expired`);
    await page.getByText("This link has expired. Ask the band's leader for a new one.").waitFor();
    await page.getByRole("link", { name: "Go to the start" }).click();
    await page.getByRole("heading", { name: "Which songs are ready, for whom, and why" }).waitFor();
  });

  test("without a signal the link waits on the page, and waiting can be stopped", async () => {
    const page = await open(PHONE, "knows=no", "/join/demo/offline");
    await page.getByText("Your link is kept on this page.").waitFor();
    await page.getByRole("button", { name: "Stop waiting" }).click();
    await page.getByText("The server cannot be reached. Check the connection.").waitFor();
    await page.getByRole("button", { name: "Try again" }).click();
    await page.getByText("Your link is kept on this page.").waitFor();
  });
});
