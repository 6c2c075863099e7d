/*
 * A real Chromium for the browser tests: finds one, starts it with flags that keep it quiet and offline, and keeps
 * what a page complains about.
 */
import { existsSync } from "node:fs";
import { delimiter, join } from "node:path";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";

/*
 * What playwright switches off itself, as a second list would replace its own; and renderers that Chromium keeps ready for
 * pages nobody opens here, which cost a test a sixth of its time.
 */
const FEATURES_OFF = [
  "AvoidUnnecessaryBeforeUnloadCheckSync",
  "DestroyProfileOnBrowserClose",
  "HttpsUpgrades",
  "HttpsFirstBalancedModeAutoEnable",
  "MediaRouter",
  "PaintHolding",
  "ThirdPartyStoragePartitioning",
  "OptimizationHints",
  "NetworkTimeServiceQuerying",
  "PreconnectToSearch",
  "PreloadTopChromeWebUI",
  "SpareRendererForSitePerProcess",
];

const FLAGS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  `--disable-features=${FEATURES_OFF.join(",")}`,
];

const onPath = (name: string): string | undefined =>
  (process.env.PATH ?? "")
    .split(delimiter)
    .map((folder) => join(folder, name))
    .find((file) => existsSync(file));

/** The packed Chromium of the development dependencies: a headless shell that needs half the processor time of a whole one. */
const packed = async (): Promise<string> => {
  // Tells the package which system libraries to unpack with it.
  process.env.AWS_LAMBDA_JS_RUNTIME ??= "nodejs20.x";
  const { default: sparticuz } = await import("@sparticuz/chromium");
  // Its own `args` switch web security off and are never used.
  return sparticuz.executablePath();
};

const launch = (executablePath: string): Promise<Browser> =>
  chromium.launch({ executablePath, headless: true, args: FLAGS });

/** Starts a headless browser, the first that starts: TIGHTROW_CHROMIUM alone where set, the packed one, the system's. */
export const launchBrowser = async (): Promise<Browser> => {
  const named = process.env.TIGHTROW_CHROMIUM;
  if (named !== undefined) {
    if (existsSync(named)) return launch(named);
    throw new Error(`TIGHTROW_CHROMIUM names ${named}, but there is no such file.`);
  }
  const faults: unknown[] = [];
  try {
    return await launch(await packed());
  } catch (error) {
    faults.push(error);
  }
  for (const file of ["/usr/bin/chromium", onPath("chromium"), onPath("chromium-browser")])
    if (file !== undefined && existsSync(file)) {
      try {
        return await launch(file);
      } catch (error) {
        faults.push(error);
      }
    }
  throw new AggregateError(
    faults,
    "The browser tests need Chromium and none could be started. Install it with `apt-get install chromium`, " +
      "or set TIGHTROW_CHROMIUM to the path of a Chromium or Chrome.",
  );
};

export interface PageOptions {
  /** Inner size of the window in CSS px. */
  readonly width: number;
  readonly height: number;
  readonly theme?: "dark" | "light";
  /** A finger instead of an aiming pointer. */
  readonly touch?: boolean;
  readonly reducedMotion?: boolean;
  readonly forcedColors?: boolean;
  readonly moreContrast?: boolean;
}

export interface OpenPage {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Everything the page complained about: console errors and warnings, uncaught errors, blocked content. */
  readonly complaints: readonly string[];
}

/** Opens an empty page in a context of its own (own storage, own worker) and listens to its complaints. */
export const openPage = async (browser: Browser, options: PageOptions): Promise<OpenPage> => {
  const context = await browser.newContext({
    viewport: { width: options.width, height: options.height },
    colorScheme: options.theme ?? "dark",
    hasTouch: options.touch ?? false,
    isMobile: options.touch ?? false,
    reducedMotion: options.reducedMotion ? "reduce" : "no-preference",
    forcedColors: options.forcedColors ? "active" : "none",
    contrast: options.moreContrast ? "more" : "no-preference",
  });
  const complaints: string[] = [];
  const page = await context.newPage();
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") complaints.push(message.text());
  });
  page.on("pageerror", (error) => complaints.push(String(error)));
  return { page, context, complaints };
};

/** The two sizes every screen is made for. */
export const PHONE = { width: 390, height: 844, touch: true } as const;
export const LAPTOP = { width: 1440, height: 900 } as const;
