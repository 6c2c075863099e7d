import { fileURLToPath } from "node:url";
import tailwindcss from "@tailwindcss/vite";
import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";
import { partFor } from "./build/first-load.ts";
import { workerPlugin } from "./build/worker-plugin.ts";

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

export default defineConfig({
  root: here("."),
  base: "/",
  plugins: [react(), tailwindcss(), workerPlugin(here("./service-worker.ts"))],
  resolve: { alias: { "lib0/logging": here("./build/plain-logging.ts") } },
  build: {
    outDir: here("../dist/client"),
    emptyOutDir: true,
    sourcemap: false,
    // Nothing inline: the content security policy forbids inline scripts, and data: addresses hide from the worker.
    assetsInlineLimit: 0,
    modulePreload: {
      polyfill: false,
      // What a screen's part imports in turn is soon kept by the worker; its list would cost every phone 2 kB at first.
      resolveDependencies: (_url, parts, { hostType }) =>
        hostType === "html" ? parts : parts.filter((part) => part.endsWith(".css")),
    },
    rolldownOptions: {
      output: {
        // What changes seldom keeps its name between versions, so an update costs a phone only what is new.
        codeSplitting: {
          groups: [
            {
              name: "react",
              test: /node_modules[\\/](react|react-dom|scheduler|wouter|regexparam|use-sync-external-store)[\\/]/,
            },
            { name: "sync", test: /node_modules[\\/](yjs|lib0|y-protocols|y-websocket|y-indexeddb)[\\/]/ },
            // A screen's own feature stays with the screen, and a phone that opens at another does without it.
            {
              name: partFor("first", [here("./main.tsx"), here("./app/my-parts-route.tsx")]),
              test: /^(?!.*client[\\/]features)/,
            },
            // What many later screens share travels together, in one part instead of thirty.
            { name: "later", test: /client[\\/]|shared-model[\\/]|node_modules[\\/]/, minShareCount: 7 },
          ],
        },
      },
    },
  },
});
