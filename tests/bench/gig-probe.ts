/** Timing in the page from an event to the paint of what comes of it, and the gaps between frames meanwhile. */
import type { BrowserContext, Page } from "playwright-core";

/** What must stand on the page; all that is given. */
export interface Wanted {
  readonly selector: string;
  /** The first element found says this. */
  readonly says?: string;
  /** The first element found does not say this. */
  readonly saysNot?: string;
  /** How many are found at most. */
  readonly most?: number;
}

/** How long it took (ms) until each wanted thing was painted, and the longest waits of the page before each. */
export interface Timed {
  readonly took: readonly number[];
  /** Longest time between two frames up to each painted thing, from the one before. */
  readonly gaps: readonly number[];
  readonly longestTask: number;
}

declare global {
  interface Window {
    gigProbe: {
      readonly watch: (event: string, wanted: readonly Wanted[]) => void;
      result: Promise<Timed>;
    };
  }
}

/** Installs the probe in every document the context opens. */
export const installGigProbe = (context: BrowserContext): Promise<unknown> =>
  context.addInitScript(() => {
    const afterPaint = (done: () => void): void => {
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = done;
        port2.postMessage(null);
      });
    };
    const stands = ({ selector, says, saysNot, most }: Wanted): boolean => {
      const found = document.querySelectorAll(selector);
      const text = found[0]?.textContent ?? "";
      if (most !== undefined && found.length > most) return false;
      if (says !== undefined && !text.includes(says)) return false;
      if (saysNot !== undefined && text.includes(saysNot)) return false;
      return most !== undefined || found.length > 0;
    };
    const watch = (event: string, wanted: readonly Wanted[]): Promise<Timed> =>
      new Promise((done) => {
        let begun = 0;
        let frame = 0;
        let gap = 0;
        let longestTask = 0;
        let waiting = false;
        const [took, gaps]: [number[], number[]] = [[], []];
        const tasks = new PerformanceObserver((list) => {
          for (const { duration } of list.getEntries()) longestTask = Math.max(longestTask, duration);
        });
        const tick = (at: number): void => {
          if (took.length === wanted.length) return;
          gap = Math.max(gap, at - frame);
          frame = at;
          requestAnimationFrame(tick);
        };
        const look = (): void => {
          const next = wanted[took.length];
          if (begun === 0 || waiting || next === undefined || !stands(next)) return;
          waiting = true;
          afterPaint(() => {
            const now = performance.now();
            waiting = false;
            gaps.push(Math.max(gap, now - frame));
            [frame, gap] = [now, 0];
            took.push(now - begun);
            if (took.length < wanted.length) return look();
            changes.disconnect();
            // Long tasks are told a little later.
            setTimeout(() => {
              tasks.disconnect();
              done({ took, gaps, longestTask });
            }, 60);
          });
        };
        const changes = new MutationObserver(look);
        addEventListener(
          event,
          ({ timeStamp }) => {
            begun = timeStamp;
            frame = performance.now();
            tasks.observe({ type: "longtask" });
            changes.observe(document, {
              subtree: true,
              childList: true,
              attributes: true,
              characterData: true,
            });
            requestAnimationFrame(tick);
          },
          { capture: true, once: true },
        );
      });
    window.gigProbe = {
      watch: (event, wanted) => {
        window.gigProbe.result = watch(event, wanted);
      },
      result: new Promise(() => {}),
    };
  });

/** Times from the next `event` in the page, which `act` causes, to the paint of each wanted thing in turn. */
export const timeToPaint = async (
  page: Page,
  event: string,
  wanted: readonly Wanted[],
  act: () => Promise<unknown>,
): Promise<Timed> => {
  await page.evaluate(([on, what]) => window.gigProbe.watch(on, what), [event, wanted] as const);
  await act();
  return page.evaluate(() => window.gigProbe.result);
};
