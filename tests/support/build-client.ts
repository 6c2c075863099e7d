import { rm } from "node:fs/promises";
import type { TestProject } from "vitest/node";
import { type Built, buildApp, newBuildFolder } from "./app-server.ts";

declare module "vitest" {
  interface ProvidedContext {
    /** Client and server as built for these tests. */
    readonly built: Built;
    /** Folder of the client. */
    readonly builtClient: string;
  }
}

/** Builds the product once for all browser tests, apart from the build people use and from other runs. */
export const setup = async (project: TestProject): Promise<() => Promise<void>> => {
  const folder = await newBuildFolder();
  const built = await buildApp(folder);
  project.provide("built", built);
  project.provide("builtClient", built.client);
  return () => rm(folder, { recursive: true, force: true });
};
