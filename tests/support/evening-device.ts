/* A device in the room for a whole evening: its clock is told, and what moves on its screen is watched. */
import type { BrowserContext, Page } from "playwright-core";
import * as Y from "yjs";
import type { KnownBoard } from "#client/sync/device.ts";
import { LEVEL_WORDS, type Level } from "#shared/board/status.ts";
import type { Feel } from "#shared/board/take.ts";
import { untilShown } from "#tests/support/app.ts";
import type { OpenPage } from "#tests/support/browser.ts";

export interface EveningDevice {
  readonly person: string;
  readonly page: Page;
  readonly context: BrowserContext;
  /** Sets what the device takes for the time (ms); timers and what lasts stay real. */
  readonly setClock: (moment: number) => Promise<void>;
  readonly clock: () => Promise<number>;
  /** What moved without a tap or key shortly before, in words; and how often something moved after one. */
  readonly shifts: () => Promise<{ readonly unasked: readonly string[]; readonly asked: number }>;
}

interface Watched {
  setClock: (moment: number) => void;
  unasked: string[];
  asked: number;
}

/** Runs in the page before anything else. */
const PREPARE = (start: number): void => {
  const Real = Date;
  let ahead = start - Real.now();
  const moment = (): number => Real.now() + ahead;
  const watched: Watched = {
    setClock: (next) => {
      ahead = next - Real.now();
    },
    unasked: [],
    asked: 0,
  };
  window.Date = new Proxy(Real, {
    construct: (target, args, self) => Reflect.construct(target, args.length === 0 ? [moment()] : args, self),
    get: (target, key) => (key === "now" ? moment : Reflect.get(target, key)),
  });
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) {
      const { hadRecentInput, sources } = entry as unknown as {
        readonly hadRecentInput: boolean;
        readonly sources: readonly {
          readonly node: Node | null;
          readonly previousRect: DOMRect;
          readonly currentRect: DOMRect;
        }[];
      };
      if (hadRecentInput) watched.asked += 1;
      else
        for (const { node, previousRect: a, currentRect: b } of sources)
          watched.unasked.push(
            `${location.hash} ${a.x},${a.y} → ${b.x},${b.y} ${node instanceof Element ? node.outerHTML.slice(0, 160) : (node?.textContent ?? "gone")}`,
          );
    }
  }).observe({ type: "layout-shift", buffered: true });
  Object.assign(window, { watched });
};

/** Lets a device into the room, where it stays: the one page load it has. */
export const openEvening = async (
  opened: OpenPage,
  known: KnownBoard,
  { person, address, start }: { readonly person: string; readonly address: string; readonly start: number },
): Promise<EveningDevice> => {
  const { page, context } = opened;
  await context.addInitScript(PREPARE, start);
  await context.addInitScript((entry) => {
    localStorage.setItem("tightrow.boards", JSON.stringify([entry]));
  }, known);
  await page.goto(`${address}/#/b/${known.board}/room`);
  await untilShown(page);
  const read = <T>(of: (watched: Watched) => T): Promise<T> =>
    page.evaluate(`(${of})(window.watched)`) as Promise<T>;
  return {
    person,
    page,
    context,
    setClock: (moment) =>
      page.evaluate((to) => (window as unknown as { watched: Watched }).watched.setClock(to), moment),
    clock: () => page.evaluate(() => Date.now()),
    shifts: () => read(({ unasked, asked }) => ({ unasked, asked })),
  };
};

export interface RowOnStand {
  readonly card: string;
  /** What counts, as the button says. */
  readonly shown: Level;
}

/** The player's own details of the open song, in the order they stand. */
export const rowsOnStand = async (page: Page): Promise<readonly RowOnStand[]> => {
  const rows = await page.locator("main [data-card]").evaluateAll((all) =>
    all.map((row) => ({
      card: row.getAttribute("data-card") ?? "",
      text: row.querySelector("[data-room-stop] button")?.textContent ?? "",
    })),
  );
  return rows.map(({ card, text }) => {
    const shown = LEVEL_WORDS.findIndex((word) => text.endsWith(word));
    if (shown < 0) throw new Error(`A status without a word: ${text}`);
    return { card, shown: shown as Level };
  });
};

/** How somebody works the room: with a thumb, or with keys alone. */
export interface Hand {
  readonly raise: (card: string) => Promise<void>;
  /** Flags a slip for the take to come, or takes the flag away. */
  readonly slip: (card: string) => Promise<void>;
  readonly log: (feel: Feel) => Promise<void>;
  readonly next: () => Promise<void>;
  /** Answers the question whether a detail is still locked in with yes. */
  readonly stillTrue: () => Promise<void>;
}

const row = (card: string): string => `main [data-card="${card}"]`;

export const thumbOn = (page: Page): Hand => ({
  raise: (card) => page.locator(`${row(card)} [data-room-stop] button`).click(),
  slip: (card) => page.locator(`${row(card)} [data-slip]`).click(),
  log: (feel) => page.locator("[data-thumb-bar]").getByRole("button", { name: feel, exact: true }).click(),
  next: () => page.locator("[data-thumb-bar] a").click(),
  stillTrue: () => page.locator("dialog [data-first-focus]").click(),
});

const FEEL_KEYS = { clean: "1", wobble: "2", stopped: "3" } as const;

export const keysOn = (page: Page): Hand => {
  const focused = (): Promise<string | null | undefined> =>
    page.evaluate(() => document.activeElement?.closest("[data-card]")?.getAttribute("data-card"));
  const to = async (card: string): Promise<void> => {
    const { at, goal } = await page.evaluate((wanted) => {
      const all = [...document.querySelectorAll("main [data-card]")].map((one) =>
        one.getAttribute("data-card"),
      );
      const here = document.activeElement?.closest("[data-card]")?.getAttribute("data-card");
      return { at: here === undefined ? -1 : all.indexOf(here ?? ""), goal: all.indexOf(wanted) };
    }, card);
    const key = goal > at ? "ArrowDown" : "ArrowUp";
    for (let presses = Math.abs(goal - at); presses > 0; presses--) await page.keyboard.press(key);
    const found = await focused();
    if (found !== card) throw new Error(`The keys lead to ${found} and not to ${card}`);
  };
  return {
    raise: async (card) => {
      await to(card);
      await page.keyboard.press("Enter");
    },
    slip: async (card) => {
      await to(card);
      await page.keyboard.press("s");
    },
    log: (feel) => page.keyboard.press(FEEL_KEYS[feel]),
    next: () => page.keyboard.press("ArrowRight"),
    stillTrue: async () => {
      await page.locator("dialog [data-first-focus]:focus").waitFor();
      await page.keyboard.press("Enter");
    },
  };
};

/** Where everything one can press stands, by its name. What lies in a fold is left out. */
export const targetsOf = (page: Page): Promise<Readonly<Record<string, string>>> =>
  page.evaluate(() => {
    const where: Record<string, string> = {};
    const all = document.querySelectorAll<HTMLElement>("main :is(button, a[href], summary, input)");
    [...all].forEach((target, i) => {
      if (!target.checkVisibility()) return;
      const { x, y, width, height } = target.getBoundingClientRect();
      const row = target.closest("[data-card]")?.getAttribute("data-card") ?? "";
      const isStatus = target.closest("[data-room-stop]") !== null && row !== "";
      const name = isStatus ? "status" : (target.textContent ?? "").trim();
      // A fold says in its line what holds inside, which may change.
      where[`${i} ${row} ${target.tagName === "SUMMARY" ? "fold" : name}`] = [x, y, width, height].join(" ");
    });
    return where;
  });

/** The document as this device has it on its own disk. */
export const keptDocument = async (page: Page): Promise<Y.Doc> => {
  const rows = await page.evaluate(async () => {
    const asked = <T>(request: IDBRequest<T>): Promise<T> =>
      new Promise((done, failed) => {
        request.onsuccess = () => done(request.result);
        request.onerror = () => failed(request.error);
      });
    const found: number[][] = [];
    for (const { name = "" } of await indexedDB.databases()) {
      const db = await asked(indexedDB.open(name));
      if (db.objectStoreNames.contains("updates"))
        for (const row of await asked(db.transaction("updates").objectStore("updates").getAll()))
          found.push([...(row as Uint8Array)]);
      db.close();
    }
    return found;
  });
  const ydoc = new Y.Doc();
  for (const bytes of rows) Y.applyUpdate(ydoc, Uint8Array.from(bytes));
  return ydoc;
};
