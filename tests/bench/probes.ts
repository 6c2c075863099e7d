/* What is measured from inside a page, and the machine a phone is made to be. */
import type { BrowserContext, Page } from "playwright-core";

declare global {
  interface Window {
    probe: {
      /** Messages of the page's sockets: moment (epoch ms) and bytes. */
      readonly messages: [at: number, bytes: number][];
      /** Moments (epoch ms) at which changes of the page had been painted. */
      readonly paints: number[];
      /** Moments (ms since navigation) of the first row that can be marked. */
      tickable: number;
      /** Durations (ms) from a tap to the next paint, by interaction. */
      readonly taps: Map<number, number>;
      painted: Promise<number>;
    };
  }
}

/** What the Event Timing standard adds to an entry. */
interface TapTiming {
  readonly interactionId: number;
  readonly target: Element | null;
}

/** Installs the probe in every document the context opens. */
export const installProbe = (context: BrowserContext): Promise<unknown> =>
  context.addInitScript(() => {
    const epoch = (): number => performance.timeOrigin + performance.now();
    /** Calls back when the frame being made has been painted. */
    const afterPaint = (done: () => void): void => {
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = done;
        port2.postMessage(null);
      });
    };
    window.probe = {
      messages: [],
      paints: [],
      tickable: 0,
      taps: new Map(),
      painted: Promise.resolve(0),
    };
    const { probe } = window;
    window.WebSocket = class extends WebSocket {
      constructor(address: string | URL, protocols?: string | string[]) {
        super(address, protocols);
        this.addEventListener("message", ({ data }) => probe.messages.push([epoch(), data.byteLength ?? 0]));
      }
    };
    let waiting = false;
    let opened = false;
    const look = (): void => {
      if (!waiting) {
        waiting = true;
        afterPaint(() => {
          waiting = false;
          probe.paints.push(epoch());
        });
      }
      if (probe.tickable > 0 || !location.hash.endsWith("/parts")) return;
      const summary = document.querySelector<HTMLElement>("li[data-song] summary");
      const card = document.querySelector("li[data-card] button:not(:disabled)");
      if (card !== null) {
        probe.tickable = -1;
        afterPaint(() => {
          probe.tickable = performance.now();
        });
      } else if (summary !== null && !opened) {
        opened = true;
        summary.click();
      }
    };
    new MutationObserver(look).observe(document, {
      subtree: true,
      childList: true,
      attributes: true,
      characterData: true,
    });
    new PerformanceObserver((list) => {
      // Taps on a detail only; unfolding a song is another thing.
      for (const entry of list.getEntries() as (PerformanceEntry & TapTiming)[])
        if (entry.interactionId > 0 && entry.target?.closest("li[data-card]"))
          probe.taps.set(
            entry.interactionId,
            Math.max(entry.duration, probe.taps.get(entry.interactionId) ?? 0),
          );
    }).observe({ type: "event", durationThreshold: 16, buffered: true } as PerformanceObserverInit);
  });

/** Makes the page's processor four times slower, as a cheap phone's is. */
export const makePhone = async (page: Page): Promise<void> => {
  const session = await page.context().newCDPSession(page);
  await session.send("Emulation.setCPUThrottlingRate", { rate: 4 });
};

const epochNow = (): number => performance.timeOrigin + performance.now();

/** Time (ms) from `act` on this side to the paint of the first change within `selector` in the page. */
export const untilPainted = async (page: Page, selector: string, act: () => void): Promise<number> => {
  await page.evaluate((wanted) => {
    const target = document.querySelector(wanted);
    if (target === null) throw new Error(`nothing is at ${wanted}`);
    window.probe.painted = new Promise((done) => {
      const observer = new MutationObserver(() => {
        observer.disconnect();
        requestAnimationFrame(() => {
          const { port1, port2 } = new MessageChannel();
          port1.onmessage = () => done(performance.timeOrigin + performance.now());
          port2.postMessage(null);
        });
      });
      observer.observe(target, { subtree: true, childList: true, attributes: true, characterData: true });
    });
  }, selector);
  const begun = epochNow();
  act();
  return (await page.evaluate(() => window.probe.painted)) - begun;
};

/** Resolves when nothing has been painted for a second. */
export const untilStill = (page: Page): Promise<unknown> =>
  page.waitForFunction(
    () => performance.timeOrigin + performance.now() - (window.probe.paints.at(-1) ?? 0) > 1000,
    undefined,
    { polling: 100 },
  );

export const percentile = (values: readonly number[], share: number): number => {
  const sorted = [...values].sort((a, b) => a - b);
  return Math.round(sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN);
};
