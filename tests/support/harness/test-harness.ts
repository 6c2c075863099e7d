import type { Browser } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, inject } from "vitest";
import { launchBrowser, type OpenPage } from "#tests/support/browser.ts";
import { type StaticServer, serveFolder } from "#tests/support/static-server.ts";

/** The harness for one file of browser tests: one server, one browser, one page at a time. */
export interface TestHarness {
  readonly browser: Browser;
  readonly address: string;
  /** Takes a page that was opened: it is closed after the test, and what it complained of fails the test. */
  readonly keep: (opened: OpenPage) => OpenPage;
  /** The page that is open. Throws when there is none. */
  readonly opened: OpenPage;
}

/**
 * Call it once at the top of a file. `serve` starts what the pages come from; the harness unless given. Its addresses:
 * `/?board=demo&as=tomasz#/b/demo/songs`; see harness.tsx for what the query says.
 */
export const testHarness = (
  serve = (): Promise<StaticServer> => serveFolder(inject("builtHarness")),
): TestHarness => {
  let browser: Browser | undefined;
  let server: StaticServer | undefined;
  let opened: OpenPage | undefined;
  beforeAll(async () => {
    server = await serve();
    browser = await launchBrowser();
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });
  afterEach(async () => {
    const complaints = opened?.complaints ?? [];
    await opened?.context.close();
    opened = undefined;
    expect(complaints).toEqual([]);
  });
  const there = <T>(value: T | undefined, what: string): T => {
    if (value === undefined) throw new Error(`There is no ${what} yet.`);
    return value;
  };
  return {
    get browser() {
      return there(browser, "browser");
    },
    get address() {
      return there(server, "server").address;
    },
    get opened() {
      return there(opened, "page");
    },
    keep: (page) => {
      opened = page;
      return page;
    },
  };
};
