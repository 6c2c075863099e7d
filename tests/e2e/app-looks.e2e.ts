import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { enterDemo, untilShown } from "#tests/support/app.ts";
import { APP_SCREENS, type AppScreen } from "#tests/support/app-screens.ts";
import { testApp } from "#tests/support/app-test.ts";
import { LAPTOP, PHONE } from "#tests/support/browser.ts";
import { LOOKS } from "#tests/support/harness/open-screen.ts";
import { axeViolations, overflowing } from "#tests/support/page-checks.ts";

const t = testApp();

/** A link that nobody made is refused by the server, and the browser says so. */
const REFUSED_LINK = /status of 404/;

const visit = async (page: Page, board: string, { path, open }: AppScreen): Promise<void> => {
  await page.goto(`${t.address}/#${open === true ? "" : `/b/${board}`}${path}`);
  await untilShown(page);
};

describe("every screen of the product", () => {
  test.each(LOOKS)("is free of axe violations and complaints on $title", async ({ title: _, ...look }) => {
    t.expectComplaints(REFUSED_LINK);
    const { page, board } = await t.device(await enterDemo(t.address, "leader", "tomasz"), "/board", look);
    const wrong: Record<string, readonly string[]> = {};
    for (const screen of APP_SCREENS.filter(({ laptop }) => !laptop || look.width === LAPTOP.width)) {
      await visit(page, board, screen);
      const found = [...(await axeViolations(page)), ...(await overflowing(page))];
      if (found.length > 0) wrong[screen.name] = found;
    }
    expect(wrong).toEqual({});
  });

  test("fits 320 px in the size for the stand, the widest there is", async () => {
    t.expectComplaints(REFUSED_LINK);
    const narrow = { ...PHONE, width: 320, height: 640 };
    const { page, board } = await t.device(await enterDemo(t.address, "leader", "tomasz"), "/board", narrow);
    const wrong: Record<string, readonly string[]> = {};
    await page.evaluate(() => localStorage.setItem("tightrow.size", "stand"));
    await page.reload();
    await untilShown(page);
    for (const screen of APP_SCREENS.filter(({ laptop }) => !laptop)) {
      await visit(page, board, screen);
      const found = await overflowing(page);
      if (found.length > 0) wrong[screen.name] = found;
    }
    expect(wrong).toEqual({});
  });
});
