import type { Page } from "playwright-core";
import { expect, inject, test } from "vitest";
import { LAPTOP, openPage, type PageOptions, PHONE } from "#tests/support/browser.ts";
import { contrast } from "#tests/support/contrast.ts";
import { LOOKS } from "#tests/support/harness/open-screen.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";
import { axeViolations, borderContrasts, overflowing, smallTargets } from "#tests/support/page-checks.ts";
import { serveFolder } from "#tests/support/static-server.ts";

const t = testHarness(() => serveFolder(inject("builtClient")));

const openGallery = async (options: PageOptions): Promise<Page> => {
  const { page } = t.keep(await openPage(t.browser, { reducedMotion: true, ...options }));
  await page.goto(`${t.address}/#/gallery`);
  await page.getByRole("heading", { name: "The kit" }).waitFor();
  await page.locator('svg[shape-rendering="crispEdges"] path').waitFor({ state: "attached" });
  return page;
};

const said = (page: Page) => page.locator('[data-gallery="said"]').textContent();
const focused = (page: Page) =>
  page.evaluate(
    () => document.activeElement?.getAttribute("aria-label") ?? document.activeElement?.textContent,
  );

test.each(LOOKS)("axe-core finds nothing wrong: $title", async ({ title: _, ...look }) => {
  const page = await openGallery(look);
  expect(await axeViolations(page)).toEqual([]);
});

test.each(LOOKS)(
  "axe-core finds nothing wrong in an open sheet and an open dialog: $title",
  async ({ title: _, ...look }) => {
    const page = await openGallery(look);
    await page.getByRole("button", { name: "Open a part" }).click();
    expect(await axeViolations(page)).toEqual([]);
    await page.keyboard.press("Escape");
    await page.getByRole("button", { name: "Add a chair" }).click();
    expect(await axeViolations(page)).toEqual([]);
  },
);

test.each(["dark", "light"] as const)(
  "borders of controls stand out at 3:1 as painted: %s",
  async (theme) => {
    const page = await openGallery({ ...LAPTOP, theme });
    const borders = await borderContrasts(page);
    expect(borders.size).toBeGreaterThan(15);
    for (const [control, ratio] of borders) expect(ratio, control).toBeGreaterThanOrEqual(3);
  },
);

test("controls are at least 44 px in both directions under a finger", async () => {
  const page = await openGallery(PHONE);
  expect(await smallTargets(page, 44)).toEqual([]);
  await page.getByRole("button", { name: "Menu of a song" }).click();
  expect(await smallTargets(page, 44)).toEqual([]);
});

test("a thumb has at least 8 px between the statuses of two rows", async () => {
  const page = await openGallery(PHONE);
  const boxes = await page
    .getByRole("button", { name: /^(Two bars|Out until|Third above)/ })
    .evaluateAll((buttons) => buttons.map((button) => button.getBoundingClientRect().toJSON()));
  expect(boxes).toHaveLength(6);
  for (const [row, box] of boxes.entries()) {
    const above = boxes[row - 1];
    if (above) expect(box.top - above.bottom).toBeGreaterThanOrEqual(8);
  }
});

test("statuses in room size are at least 56 px high, and in plain size 48 px under a finger", async () => {
  const page = await openGallery(PHONE);
  const heights = await page
    .getByRole("button", { name: /^Third above/ })
    .evaluateAll((buttons) => buttons.map((button) => button.getBoundingClientRect().height));
  expect(heights).toEqual([48, 56]);
});

test.each([320, 390, 1440])("nothing sticks out of a window %i px wide", async (width) => {
  const page = await openGallery({ width, height: 800 });
  expect(await overflowing(page)).toEqual([]);
});

test("text twice as large still fits a phone", async () => {
  const page = await openGallery(PHONE);
  await page.evaluate(() => document.documentElement.style.setProperty("font-size", "200%"));
  expect(await overflowing(page)).toEqual([]);
});

test("a dialog takes the focus, keeps it, and gives it back on Escape", async () => {
  const page = await openGallery(LAPTOP);
  const opener = page.getByRole("button", { name: "Ask something" });
  await opener.focus();
  await page.keyboard.press("Enter");
  const dialog = page.getByRole("dialog", { name: "Still true?" });
  await dialog.waitFor();
  expect(await focused(page)).toBe("Still true?");
  await page.keyboard.press("Tab");
  expect(await focused(page)).toBe("Still true");
  await page.keyboard.press("Escape");
  await dialog.waitFor({ state: "detached" });
  expect(await opener.evaluate((button) => button === document.activeElement)).toBe(true);
});

test("a dialog with a field starts in the field", async () => {
  const page = await openGallery(LAPTOP);
  await page.getByRole("button", { name: "Add a chair" }).click();
  await page.keyboard.type("Cowbell");
  expect(await page.getByLabel("Name of the chair").inputValue()).toBe("Cowbell");
});

test("on a laptop the page stays usable beside a sheet, and Escape closes it", async () => {
  const page = await openGallery(LAPTOP);
  const opener = page.getByRole("button", { name: "Open a part" });
  await opener.focus();
  await page.keyboard.press("Enter");
  expect(await focused(page)).toBe("Keys");
  await page.getByLabel("Title", { exact: true }).fill("Second Tram Home");
  await page.getByRole("button", { name: "Close", exact: true }).focus();
  await page.keyboard.press("Escape");
  await page.getByRole("dialog").waitFor({ state: "detached" });
  expect(await opener.evaluate((button) => button === document.activeElement)).toBe(true);
});

test("an undo stays within reach while a sheet covers the phone", async () => {
  const page = await openGallery(PHONE);
  await page.getByRole("button", { name: "Open a part" }).click();
  await page.getByRole("button", { name: "Add a detail" }).last().click();
  await page.getByRole("button", { name: "Undo" }).click();
  await page.getByRole("button", { name: "Close", exact: true }).click();
  expect(await said(page)).toContain("not added");
});

test("a menu is worked by arrows, Home, End and first letters, skips what is unavailable, and gives the focus back", async () => {
  const page = await openGallery(LAPTOP);
  const opener = page.getByRole("button", { name: "Menu of a song" });
  await opener.focus();
  await page.keyboard.press("ArrowDown");
  await page.getByRole("menuitem", { name: "Move up" }).waitFor();
  expect(await focused(page)).toBe("Move up");
  await page.keyboard.press("ArrowDown");
  expect(await focused(page)).toBe("Print");
  await page.keyboard.press("End");
  expect(await focused(page)).toBe("Remove");
  await page.keyboard.press("ArrowUp");
  expect(await focused(page)).toBe("To the gallery");
  await page.keyboard.press("p");
  expect(await focused(page)).toBe("Print");
  await page.keyboard.press("Enter");
  expect(await said(page)).toContain("printed");
  expect(await opener.evaluate((button) => button === document.activeElement)).toBe(true);
  await page.keyboard.press("Enter");
  await page.locator('[role="menuitem"]:focus', { hasText: "Move up" }).waitFor();
  await page.keyboard.press("Escape");
  await page.getByRole("menuitem", { name: "Move up" }).waitFor({ state: "hidden" });
});

test("a choice is one tab stop, and arrows move it", async () => {
  const page = await openGallery(LAPTOP);
  await page.getByRole("radio", { name: "Worst first" }).focus();
  await page.keyboard.press("ArrowRight");
  expect(await page.getByRole("radio", { name: "As in the set" }).isChecked()).toBe(true);
  await page.keyboard.press("Tab");
  expect(
    await page.getByRole("radio", { name: "By title" }).evaluate((it) => it === document.activeElement),
  ).toBe(false);
});

test("an undo stays open for 10 seconds, and longer under the pointer", async () => {
  const page = await openGallery(LAPTOP);
  await page.clock.install();
  await page.clock.pauseAt(Date.now() + 1000);
  const undo = page.getByRole("button", { name: "Undo" });
  const mark = page.getByRole("button", { name: "Mark a detail" });
  await mark.click();
  await page.clock.fastForward(9_900);
  expect(await undo.isVisible()).toBe(true);
  await page.clock.fastForward(200);
  await undo.waitFor({ state: "detached" });
  await mark.click();
  await undo.hover();
  await page.clock.fastForward(60_000);
  await undo.click();
  expect(await said(page)).toContain("taken back");
});

test("a number that cannot be read stays in the field and is explained", async () => {
  const page = await openGallery(LAPTOP);
  const tempo = page.getByLabel("Tempo (bpm)", { exact: true });
  await tempo.fill("fast");
  expect(await tempo.getAttribute("aria-invalid")).toBe("true");
  await page.getByText("Give a whole number from 20 to 400.").waitFor();
  await page.getByRole("button", { name: "More: Tempo" }).click();
  expect(await tempo.inputValue()).toBe("119");
});

test("tapping works by pointer and by space bar", async () => {
  const page = await openGallery(LAPTOP);
  const pad = page.getByRole("button", { name: "Tap the beat" });
  await pad.click();
  await page.keyboard.press("Space");
  expect(await pad.textContent()).toContain("2 taps");
});

test("folded parts are open on paper", async () => {
  const page = await openGallery(LAPTOP);
  const openFolds = () => page.locator("details[open]").count();
  expect(await openFolds()).toBe(1);
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  expect(await openFolds()).toBe(2);
  await page.evaluate(() => window.dispatchEvent(new Event("afterprint")));
  expect(await openFolds()).toBe(1);
});

test("a chosen theme holds against the device's, and after a reload", async () => {
  const page = await openGallery({ ...LAPTOP, theme: "light" });
  const ground = () => page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  const light = await ground();
  await page.getByRole("radio", { name: "Dark" }).check();
  const dark = await ground();
  expect(dark).not.toBe(light);
  await page.reload();
  await page.getByRole("heading", { name: "The kit" }).waitFor();
  expect(await ground()).toBe(dark);
  await page.emulateMedia({ media: "print" });
  expect(await ground()).toBe("rgb(255, 255, 255)");
});

/** The glyph as an ideal laser printer would print it: each pixel black or white, as a string of 0 and 1. */
const monochrome = async (page: Page, name: string): Promise<string> => {
  const glyph = page.locator(`[data-gallery="glyphs"] svg[width="16"][aria-label="${name}"]`);
  const png = (await glyph.screenshot()).toString("base64");
  return page.evaluate(async (data) => {
    const image = new Image();
    image.src = `data:image/png;base64,${data}`;
    await image.decode();
    const canvas = new OffscreenCanvas(16, 16);
    const brush = canvas.getContext("2d");
    if (!brush) throw new Error("no canvas");
    brush.drawImage(image, 0, 0, 16, 16);
    const { data: bytes } = brush.getImageData(0, 0, 16, 16);
    const grey = (at: number) => ((bytes[at] ?? 0) + (bytes[at + 1] ?? 0) + (bytes[at + 2] ?? 0)) / 3;
    return Array.from({ length: 256 }, (_, pixel) => (grey(pixel * 4) < 128 ? "1" : "0")).join("");
  }, png);
};

test("all twelve statuses are told apart at 16 px in black and white", async () => {
  const page = await openGallery(LAPTOP);
  await page.emulateMedia({ media: "print" });
  const names = ["not started", "noticed", "practised", "locked in"].flatMap((word) => [
    word,
    `${word}, slipped`,
    `${word}, waiting for a partner`,
  ]);
  const printed = new Map<string, string>();
  for (const name of names) printed.set(name, await monochrome(page, name));
  for (const [name, pixels] of printed) {
    for (const [other, others] of printed) {
      if (name >= other) continue;
      const apart = [...pixels].filter((pixel, at) => pixel !== others[at]).length;
      // Common practice, no published source: 8 of 256 pixels is a stem, or a third of a head.
      expect(apart, `${name} / ${other}`).toBeGreaterThanOrEqual(8);
    }
  }
});

test("a filled button keeps its words readable when colours are forced", async () => {
  const page = await openGallery({ ...LAPTOP, forcedColors: true });
  const style = await page.getByRole("button", { name: "Clean" }).evaluate((button) => {
    const { forcedColorAdjust, color, backgroundColor } = getComputedStyle(button);
    return { forcedColorAdjust, color, backgroundColor };
  });
  // "preserve-parent-color" and "auto" would put a plate of the ground's colour behind words of the same colour.
  expect(style.forcedColorAdjust).toBe("none");
  expect(contrast(style.color, style.backgroundColor)).toBeGreaterThanOrEqual(7);
});

test("statuses and controls are drawn in the reader's own colours when colours are forced", async () => {
  const page = await openGallery({ ...LAPTOP, forcedColors: true });
  const [ink, text] = await page.evaluate(() => {
    const svg = document.querySelector('[data-gallery="glyphs"] svg');
    const probe = document.createElement("span");
    probe.style.color = "CanvasText";
    document.body.append(probe);
    return [svg ? getComputedStyle(svg).stroke : "", getComputedStyle(probe).color];
  });
  expect(ink).toBe(text);
});
