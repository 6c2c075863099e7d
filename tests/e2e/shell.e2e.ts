import { cp, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect, inject, test } from "vitest";
import { LAPTOP, launchBrowser, type OpenPage, openPage, PHONE } from "#tests/support/browser.ts";
import { axeViolations, overflowing, smallTargets } from "#tests/support/page-checks.ts";
import { type StaticServer, serveFolder } from "#tests/support/static-server.ts";

const BOARD = "board00000000001";

let browser: Browser;
let folder: string;
let server: StaticServer;
let opened: OpenPage | undefined;

beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser?.close());

// Each test has a copy of the built client of its own, so that it may publish a new version.
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "tightrow-shell-"));
  await cp(inject("builtClient"), folder, { recursive: true });
  server = await serveFolder(folder);
});
afterEach(async () => {
  await opened?.context.close();
  opened = undefined;
  await server.close();
  await rm(folder, { recursive: true, force: true });
});

const open = async (hash: string, size: typeof PHONE | typeof LAPTOP = LAPTOP): Promise<Page> => {
  opened = await openPage(browser, { ...size, reducedMotion: true });
  await opened.page.goto(`${server.address}/${hash}`);
  await opened.page.getByRole("heading", { level: 1 }).waitFor();
  return opened.page;
};

/** As on a phone over plain http, where the property does not exist. */
const withoutWorker = (page: Page) =>
  page.addInitScript(() => {
    Reflect.deleteProperty(Navigator.prototype, "serviceWorker");
  });

const kept = (page: Page) => page.evaluate(() => navigator.serviceWorker.ready.then(() => true));

const controlled = (page: Page) => page.waitForFunction(() => navigator.serviceWorker.controller !== null);

/** Puts a newer client in place: a changed file, and a worker that says so. */
const publish = async (): Promise<void> => {
  const page = join(folder, "index.html");
  const worker = join(folder, "sw.js");
  const html = await readFile(page, "utf8");
  await writeFile(page, html.replace("<body>", '<body data-version="newer">'));
  const code = await readFile(worker, "utf8");
  await writeFile(worker, code.replace(/tightrow-shell-/, "tightrow-shell-newer-"));
  await server.reload();
};

const version = (page: Page) => page.evaluate(() => document.body.dataset.version ?? "first");

test("the first visit keeps every file of the client, by the one trusted policy and without a complaint", async () => {
  const page = await open("#/gallery");
  await kept(page);
  await controlled(page);
  const addresses = await page.evaluate(async () => {
    const names = await caches.keys();
    const keys = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()));
    return keys.flat().map((request) => new URL(request.url).pathname);
  });
  const asked = [...new Set(server.asked)].filter((path) => path !== "/sw.js");
  expect(addresses).toEqual(expect.arrayContaining(asked));
  expect(addresses).toContain("/");
  expect(opened?.complaints).toEqual([]);
});

test("after one visit the client opens without a server, on a screen it had not shown before", async () => {
  const page = await open("#/");
  await kept(page);
  await controlled(page);
  await server.close();
  await page.reload();
  await page.getByRole("heading", { level: 1 }).waitFor();
  await page.goto(`${server.address}/#/gallery`);
  await page.getByRole("heading", { name: "The kit" }).waitFor();
  server = await serveFolder(folder);
});

test("a newer version waits, is said with the next screen one goes to, and replaces the one on it when taken", async () => {
  const page = await open("#/gallery");
  await kept(page);
  await controlled(page);
  await publish();
  const note = page.getByText("A newer Tightrow is ready.");
  await page.evaluate(async () => (await navigator.serviceWorker.ready).update());
  await page.waitForFunction(() =>
    navigator.serviceWorker.ready.then(({ waiting }) => waiting?.state === "installed"),
  );
  expect(await note.count()).toBe(0);
  await page.reload();
  await page.getByRole("heading", { name: "The kit" }).waitFor();
  expect(await version(page)).toBe("first");
  // The part that says it is fetched last, so it may come only after the first screen one goes to.
  await expect
    .poll(async () => {
      await page.evaluate(() => {
        location.hash = location.hash === "#/" ? "#/gallery" : "#/";
      });
      await page.getByRole("heading", { level: 1 }).waitFor();
      return note.count();
    })
    .toBe(1);
  await page.getByRole("button", { name: "Use it now" }).click();
  await page.waitForFunction(() => document.body.dataset.version === "newer");
  await page.getByRole("heading", { level: 1 }).waitFor();
  expect(await note.count()).toBe(0);
});

test("where a page may have no service worker, the client says nothing and goes on", async () => {
  opened = await openPage(browser, LAPTOP);
  const { page } = opened;
  await withoutWorker(page);
  await page.goto(`${server.address}/#/gallery`);
  await page.getByRole("heading", { name: "The kit" }).waitFor();
  expect(await page.evaluate(() => "serviceWorker" in navigator)).toBe(false);
  expect(opened.complaints).toEqual([]);
});

test("the secret of a join link never reaches the server", async () => {
  await open("#/join/board-1/secret-that-stays-here");
  expect(server.asked.join("\n")).not.toContain("secret");
});

test("going to another screen brings the focus to its heading, and names the window", async () => {
  const page = await open("#/gallery");
  expect(await page.title()).toBe("The kit · Tightrow");
  await page.getByRole("link", { name: "Tightrow" }).click();
  await page.waitForFunction(() => document.activeElement?.tagName === "H1");
  const heading = await page.evaluate(() => document.activeElement?.textContent);
  expect(await page.title()).toBe(`${heading} · Tightrow`);
  expect(heading).not.toBe("The kit");
});

test("the first thing the keyboard reaches leads past the navigation", async () => {
  const page = await open("#/gallery");
  await page.keyboard.press("Tab");
  const skip = page.getByRole("button", { name: "Skip to the content" });
  expect(await skip.evaluate((button) => button === document.activeElement)).toBe(true);
  await page.keyboard.press("Enter");
  expect(await page.evaluate(() => document.activeElement?.tagName)).toBe("MAIN");
});

test("an address that leads nowhere says so and offers a way out", async () => {
  const page = await open("#/no-such-place");
  await page.getByRole("link", { name: "Go to the start" }).click();
  await page.waitForFunction(() => location.hash === "#/");
});

test("a screen that could not be loaded says what is safe, and loads when tried again", async () => {
  opened = await openPage(browser, LAPTOP);
  const { page } = opened;
  await withoutWorker(page);
  await page.goto(`${server.address}/#/`);
  await page.getByRole("heading", { level: 1 }).waitFor();
  await page.context().route("**/assets/gallery-*.js", (route) => route.abort());
  await page.evaluate(() => {
    location.hash = "#/gallery";
  });
  await page.getByText("Everything you marked is kept on this device.").waitFor();
  await page.context().unroute("**/assets/gallery-*.js");
  await page.getByRole("button", { name: "Try again" }).click();
  await page.getByRole("heading", { name: "The kit" }).waitFor();
});

test.each([320, 390])("the five places fit a phone %i px wide, in reach of a thumb", async (width) => {
  opened = await openPage(browser, { ...PHONE, width });
  const { page } = opened;
  await page.addInitScript((board) => {
    const known = {
      board,
      token: "t",
      role: "member",
      memberId: null,
      name: "Six Spare Fuses",
      lastOpened: 0,
    };
    localStorage.setItem("tightrow.boards", JSON.stringify([known]));
  }, BOARD);
  await page.goto(`${server.address}/#/b/${BOARD}/songs`);
  await page.getByRole("navigation", { name: "Places" }).waitFor();
  const places = page.getByRole("navigation", { name: "Places" }).getByRole("link");
  expect(await places.allTextContents()).toEqual(["Board", "My parts", "Room", "Songs", "Gigs"]);
  const boxes = await places.evaluateAll((links) => links.map((link) => link.getBoundingClientRect().top));
  for (const top of boxes) expect(top).toBeGreaterThan(PHONE.height / 2);
  expect(await overflowing(page)).toEqual([]);
  expect(await smallTargets(page, 44)).toEqual([]);
  expect(await axeViolations(page)).toEqual([]);
});

test("something stands on the page before any script has run", async () => {
  opened = await openPage(browser, PHONE);
  const { page } = opened;
  await page.route("**/*.js", (route) => route.abort());
  await page.goto(`${server.address}/`);
  await page.getByText("Opening the board").waitFor();
  const ground = await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  expect(ground).toBe("rgb(21, 18, 14)");
});
