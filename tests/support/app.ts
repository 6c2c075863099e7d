/* People and their devices on the whole product (app-server.ts), as tests, screenshots and benchmarks need them. */
import type { Browser, Locator, Page } from "playwright-core";
import type { KnownBoard } from "#client/sync/device.ts";
import { knownFromGrant } from "#client/sync/joining.ts";
import type { BoardGrant, NewLink, Role } from "#shared/protocol/api.ts";
import { call } from "#tests/support/api-client.ts";
import { type OpenPage, openPage, type PageOptions } from "#tests/support/browser.ts";

/** Lets a device into the demo band, as the named person (their code in the demo data) unless null. */
export const enterDemo = async (address: string, role: Role, person: string | null): Promise<KnownBoard> => {
  const leader = (await call<BoardGrant>(address, "POST /api/demo")).body;
  return joinAs(address, leader, role, person === null ? null : `demo-${person}`);
};

/** Lets another device onto a board, by a link made for it. */
export const joinAs = async (
  address: string,
  leader: Pick<BoardGrant, "token">,
  role: Role,
  memberId: string | null,
): Promise<KnownBoard> => {
  const link = (await call<NewLink>(address, "POST /api/links", { bearer: leader.token, body: { role } }))
    .body;
  const grant = (await call<BoardGrant>(address, "POST /api/join", { bearer: link.secret })).body;
  if (memberId !== null)
    await call(address, "POST /api/session/member", { bearer: grant.token, body: { memberId } });
  return { ...knownFromGrant(grant, 0), memberId };
};

/** A device that is on a board. */
export interface OnBoard extends OpenPage {
  readonly board: string;
  /** Goes to a path within the board and waits for its heading. */
  readonly go: (path: string) => Promise<void>;
}

/** Opens a page on a device that knows the board already, at a path within it. */
export const openKnown = async (
  browser: Browser,
  address: string,
  known: KnownBoard,
  path: string,
  options: PageOptions,
): Promise<OnBoard> => {
  const opened = await openPage(browser, { reducedMotion: true, ...options });
  await opened.context.addInitScript((entry) => {
    if (localStorage.getItem("tightrow.boards") === null)
      localStorage.setItem("tightrow.boards", JSON.stringify([entry]));
  }, known);
  const { page } = opened;
  const go = async (to: string): Promise<void> => {
    await page.goto(`${address}/#/b/${known.board}${to}`);
    await untilShown(page);
  };
  await go(path);
  return { ...opened, board: known.board, go };
};

/** Resolves once the screen of the present address stands there, with its board. */
export const untilShown = async (page: Page): Promise<void> => {
  // A new address is drawn within two frames; until then the screen before it stands there.
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
  await page.waitForFunction(() => {
    const title = document.querySelector("main h1");
    const coming = [...document.querySelectorAll("main p")].some((p) => p.textContent === "One moment");
    return title?.checkVisibility() === true && title.textContent !== "The board is on its way" && !coming;
  });
};

/** Resolves once the service worker answers for this page: from then on it opens without a signal. */
export const untilKept = async (page: Page): Promise<void> => {
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");
};

export const heading = (page: Page): Locator => page.getByRole("heading", { level: 1 });

/** The line at the top that says what is saved. */
export const saveLine = (page: Page): Locator =>
  page.getByRole("button", { name: /saved|to send|signal|device|refused|connected/ }).first();

/** Resolves once the page says it with the line at the top. */
export const untilSaid = (page: Page, words: string | RegExp): Promise<void> =>
  page.locator("header").getByText(words).waitFor();

/** A cell of the board on a laptop. */
export const cell = (page: Page, song: string, column: string): Locator =>
  page.locator(`[data-song="${song}"] [data-column="${column}"]`);

/** Name of what has the focus: its label, else its text. */
export const focusedName = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const at = document.activeElement;
    const labels =
      at instanceof HTMLInputElement || at instanceof HTMLTextAreaElement || at instanceof HTMLSelectElement
        ? at.labels
        : null;
    return (at?.getAttribute("aria-label") ?? labels?.[0]?.textContent ?? at?.textContent ?? "").trim();
  });

/** Presses Tab until something whose name begins so has the focus. */
export const tabTo = async (page: Page, name: string, most = 80): Promise<void> => {
  for (let steps = 0; steps < most; steps++) {
    await page.keyboard.press("Tab");
    if ((await focusedName(page)).startsWith(name)) return;
  }
  throw new Error(`${most} times Tab never reach “${name}”`);
};
