import { resolve } from "node:path";
import { build } from "vite";
import type { TestProject } from "vitest/node";

declare module "vitest" {
  interface ProvidedContext {
    /** Folder of the client as built for these tests. */
    readonly builtClient: string;
  }
}

/** Builds the client once for all browser tests, apart from the one people use. */
export const setup = async (project: TestProject): Promise<void> => {
  const outDir = resolve("node_modules/.cache/e2e-client");
  // Vitest says "test", and Vite would build what only developers run.
  process.env.NODE_ENV = "production";
  await build({ configFile: resolve("client/vite.config.ts"), logLevel: "error", build: { outDir } });
  project.provide("builtClient", outDir);
};
