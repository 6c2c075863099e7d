import { defineConfig } from "vitest/config";

/** The browser tests: one after another, in a real Chromium, against the built client. */
export default defineConfig({
  test: {
    name: "e2e",
    root: new URL("..", import.meta.url).pathname,
    environment: "node",
    include: ["tests/e2e/**/*.e2e.ts"],
    globalSetup: ["tests/support/build-client.ts"],
    fileParallelism: false,
    testTimeout: 60_000,
    hookTimeout: 120_000,
  },
});
