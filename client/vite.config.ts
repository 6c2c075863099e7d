import { fileURLToPath } from "node:url";
import tailwindcss from "@tailwindcss/vite";
import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";
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
    modulePreload: { polyfill: false },
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
            // What several screens share travels together: a phone far from its server pays for each request.
            {
              name: "kit",
              test: /client[\\/]ui[\\/](?!gallery)|node_modules[\\/]lucide-react[\\/]/,
              minShareCount: 2,
            },
            // The same for the model: what nearly every screen needs, in one part instead of twenty. Commands travel
            // with whoever runs them: a phone runs few.
            {
              name: "model",
              test: /shared-model[\\/](?!commands[\\/])|client[\\/](store|pieces)[\\/]|node_modules[\\/](valibot|fractional-indexing)[\\/]/,
              minShareCount: 4,
            },
          ],
        },
      },
    },
  },
});
