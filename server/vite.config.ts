import { defineConfig } from "vite";

/** Bundles our own sources for Node; packages stay outside and are loaded from node_modules, native ones included. */
export default defineConfig({
  root: new URL("..", import.meta.url).pathname,
  publicDir: false,
  build: {
    ssr: "server/main.ts",
    outDir: "dist/server",
    emptyOutDir: true,
    target: "node20",
    minify: false,
    sourcemap: true,
  },
});
