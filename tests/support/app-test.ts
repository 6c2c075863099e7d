/* The whole product for one file of browser tests: one server, one browser, and devices that come and go. */
import type { Browser } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, inject } from "vitest";
import type { KnownBoard } from "#client/sync/device.ts";
import { type OnBoard, openKnown } from "#tests/support/app.ts";
import { type App, startApp } from "#tests/support/app-server.ts";
import { launchBrowser, type OpenPage, openPage, type PageOptions } from "#tests/support/browser.ts";

export interface AppTest {
  readonly app: App;
  readonly address: string;
  /** A device that knows a board already, at a path within it. */
  readonly device: (known: KnownBoard, path: string, options: PageOptions) => Promise<OnBoard>;
  /** A device that has never been here. */
  readonly stranger: (options: PageOptions) => Promise<OpenPage>;
  /** Complaints that belong to what the test does, such as a lost connection. Every other one fails the test. */
  readonly expectComplaints: (pattern: RegExp) => void;
}

/** What a page says when it cannot reach its server. */
export const UNREACHABLE = /net::ERR_|WebSocket connection to/;

/** How long (ms) a page may take for one step before the test says which; the machine may be busy. */
const PATIENCE = 20_000;

/** Call it once at the top of a file. */
export const testApp = (): AppTest => {
  let app: App | undefined;
  let browser: Browser | undefined;
  let opened: OpenPage[] = [];
  let expected: RegExp[] = [];
  const running = (): { app: App; browser: Browser } => {
    if (app === undefined || browser === undefined)
      throw new Error("The server is started before the tests.");
    return { app, browser };
  };
  beforeAll(async () => {
    app = await startApp(inject("built"));
    browser = await launchBrowser();
  });
  afterAll(async () => {
    await browser?.close();
    await app?.close();
  });
  afterEach(async () => {
    const complaints = opened.flatMap((device) => device.complaints);
    const unexpected = complaints.filter((text) => !expected.some((pattern) => pattern.test(text)));
    await Promise.all(opened.map(({ context }) => context.close()));
    opened = [];
    expected = [];
    expect(unexpected).toEqual([]);
  });
  const keep = <T extends OpenPage>(device: T): T => {
    device.page.setDefaultTimeout(PATIENCE);
    opened.push(device);
    return device;
  };
  return {
    get app() {
      return running().app;
    },
    get address() {
      return running().app.address;
    },
    device: async (known, path, options) =>
      keep(await openKnown(running().browser, running().app.address, known, path, options)),
    stranger: async (options) => keep(await openPage(running().browser, { reducedMotion: true, ...options })),
    expectComplaints: (pattern) => void expected.push(pattern),
  };
};
