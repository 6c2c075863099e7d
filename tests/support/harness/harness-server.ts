import { mkdtempSync, rmSync } from "node:fs";
import { resolve } from "node:path";
import { build } from "vite";
import { type StaticServer, serveFolder } from "../static-server.ts";

/**
 * Builds the harness as the product is built and serves it with the product's headers.
 * Addresses: `/?board=demo&as=tomasz#/b/demo/songs`; see harness.tsx for what the query says.
 */
export const serveHarness = async (): Promise<StaticServer> => {
  const outDir = mkdtempSync(resolve("node_modules/.cache/harness-"));
  await build({
    configFile: resolve("tests/support/harness/vite.config.ts"),
    logLevel: "error",
    build: { outDir, emptyOutDir: true },
  });
  const server = await serveFolder(outDir);
  return {
    ...server,
    close: async () => {
      await server.close();
      rmSync(outDir, { recursive: true, force: true });
    },
  };
};
