/**
 * Makes the pictures of the README, from the built product with the demo band:
 * `node tests/run.mjs tests/support/take-screenshots.ts`. With a folder, it takes every screen instead, in both sizes
 * and themes, to be looked at: `… take-screenshots.ts FOLDER`.
 */
import { mkdir, rm } from "node:fs/promises";
import { join, resolve } from "node:path";
import type { Browser, Page } from "playwright-core";
import { enterDemo, type OnBoard, openKnown, untilSaid, untilShown } from "./app.ts";
import { APP_SCREENS } from "./app-screens.ts";
import { type App, buildApp, newBuildFolder, startApp } from "./app-server.ts";
import { LAPTOP, launchBrowser, type PageOptions, PHONE } from "./browser.ts";

interface Picture {
  readonly name: string;
  readonly person: string;
  readonly path: string;
  readonly size: PageOptions;
  /** Brings the screen into the state to be shown. */
  readonly pose?: (page: Page) => Promise<void>;
}

const PICTURES: readonly Picture[] = [
  { name: "board-laptop-dark", person: "tomasz", path: "/board", size: { ...LAPTOP, theme: "dark" } },
  {
    name: "parts-phone-dark",
    person: "lucia",
    path: "/parts",
    size: { ...PHONE, theme: "dark" },
    pose: async (page) => {
      const song = page.locator("summary").filter({ hasText: "Wrong Side of the Aquarium" });
      await song.click();
      await page.getByText("Last time").waitFor();
      await song.evaluate((line) => window.scrollTo(0, line.getBoundingClientRect().top + scrollY - 64));
    },
  },
  {
    name: "room-phone-dark",
    person: "lucia",
    path: "/room/demo-song-wa",
    size: { ...PHONE, theme: "dark" },
  },
  { name: "plan-laptop-dark", person: "tomasz", path: "/room/plan", size: { ...LAPTOP, theme: "dark" } },
  {
    name: "practice-phone-dark",
    person: "lucia",
    path: "/parts/practice",
    size: { ...PHONE, theme: "dark" },
  },
  {
    name: "score-laptop-light",
    person: "tomasz",
    path: "/board/score/demo-song-wa",
    size: { ...LAPTOP, theme: "light" },
  },
];

const open = async (browser: Browser, app: App, picture: Omit<Picture, "name">): Promise<OnBoard> => {
  const known = await enterDemo(app.address, "leader", picture.person);
  const device = await openKnown(browser, app.address, known, picture.path, picture.size);
  await untilSaid(device.page, "all saved");
  return device;
};

const takePictures = async (browser: Browser, app: App, folder: string): Promise<void> => {
  for (const picture of PICTURES) {
    const { page, context } = await open(browser, app, picture);
    await picture.pose?.(page);
    await page.screenshot({ path: join(folder, `${picture.name}.png`) });
    await context.close();
  }
};

const takeEverything = async (browser: Browser, app: App, folder: string): Promise<void> => {
  for (const [size, shape] of Object.entries({ phone: PHONE, laptop: LAPTOP }))
    for (const theme of ["dark", "light"] as const) {
      const { page, board, context } = await open(browser, app, {
        person: "tomasz",
        path: "/board",
        size: { ...shape, theme },
      });
      for (const screen of APP_SCREENS.filter(({ laptop }) => !laptop || size === "laptop")) {
        await page.goto(`${app.address}/#${screen.open ? "" : `/b/${board}`}${screen.path}`);
        await untilShown(page);
        await page.screenshot({ path: join(folder, `${screen.name}-${size}-${theme}.png`), fullPage: true });
      }
      await context.close();
    }
};

const [, , everything] = process.argv;
const folder = resolve(everything ?? "tests/screenshots");
await mkdir(folder, { recursive: true });
const build = await newBuildFolder();
const app = await startApp(await buildApp(build));
const browser = await launchBrowser();
try {
  await (everything === undefined ? takePictures : takeEverything)(browser, app, folder);
} finally {
  await browser.close();
  await app.close();
  await rm(build, { recursive: true, force: true });
}
process.exit(0);
