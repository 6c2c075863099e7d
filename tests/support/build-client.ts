import { rm } from "node:fs/promises";
import { join } from "node:path";
import type { TestProject } from "vitest/node";
import { type Built, buildApp, newBuildFolder } from "./app-server.ts";
import { launchBrowser } from "./browser.ts";
import { buildHarness } from "./harness/build-harness.ts";

declare module "vitest" {
  interface ProvidedContext {
    /** Client and server as built for these tests. */
    readonly built: Built;
    /** Folder of the client. */
    readonly builtClient: string;
    /** Folder of the harness: single screens on a board that lives in the page. */
    readonly builtHarness: string;
  }
}

/** Builds the product once for all browser tests, apart from the build people use and from other runs. */
export const setup = async (project: TestProject): Promise<() => Promise<void>> => {
  // The first start unpacks the browser, which two files at once must not do; and says early when there is none.
  await (await launchBrowser()).close();
  const folder = await newBuildFolder();
  const built = await buildApp(folder);
  const harness = join(folder, "harness");
  await buildHarness(harness);
  project.provide("built", built);
  project.provide("builtClient", built.client);
  project.provide("builtHarness", harness);
  return () => rm(folder, { recursive: true, force: true });
};
