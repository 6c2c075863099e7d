import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    root: new URL("..", import.meta.url).pathname,
    environment: "node",
    // Left alone, Vitest would keep one of two cores for itself.
    maxWorkers: 2,
    // Property tests run as often as TIGHTROW_FUZZ says, so their time grows with it.
    testTimeout: 20_000 * Math.max(1, Number(process.env.TIGHTROW_FUZZ ?? 1)),
    // A second, as it is left alone, is short for a server on a busy machine.
    expect: { poll: { timeout: 10_000 } },
    include: ["tests/**/*.test.{ts,tsx}"],
    exclude: ["tests/e2e/**", "node_modules/**"],
  },
});
