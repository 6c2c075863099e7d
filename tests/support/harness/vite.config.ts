import { fileURLToPath } from "node:url";
import tailwindcss from "@tailwindcss/vite";
import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/** `npx vite --config tests/support/harness/vite.config.ts` opens every screen without the app. */
export default defineConfig({
  root: here("."),
  cacheDir: here("../../../node_modules/.cache/harness-vite"),
  publicDir: here("../../../client/public"),
  plugins: [react(), tailwindcss()],
  build: {
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    // Tests that count renders tell components apart by name. In one piece, because a request costs a page more than bytes.
    rolldownOptions: { output: { keepNames: true, codeSplitting: false } },
  },
  server: { fs: { allow: [here("../../..")] } },
});
