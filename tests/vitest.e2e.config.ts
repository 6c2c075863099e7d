import { defineConfig } from "vitest/config";

/** The browser tests, in a real Chromium against the built client. A page mostly waits, so two files share two cores. */
export default defineConfig({
  test: {
    name: "e2e",
    root: new URL("..", import.meta.url).pathname,
    environment: "node",
    include: ["tests/e2e/**/*.e2e.ts"],
    globalSetup: ["tests/support/build-client.ts"],
    maxWorkers: 2,
    testTimeout: 60_000,
    // A second, as it is left alone, is short for a page on a busy machine.
    expect: { poll: { timeout: 15_000 } },
    hookTimeout: 120_000,
  },
});
