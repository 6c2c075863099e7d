import type { ServerResponse } from "node:http";
import { fileURLToPath } from "node:url";
import type { Plugin, ViteDevServer } from "vite";
import type { DevServer } from "./dev-server.ts";

const ENTRY = fileURLToPath(new URL("./dev-server.ts", import.meta.url));

/**
 * Mounts the sync server and the API into Vite's development server, so that one process and one port serve both. The
 * server's sources are loaded through Vite; changing them takes a restart, changing the client does not.
 */
export const tightrowDevServer = (): Plugin => ({
  name: "tightrow-dev-server",
  apply: "serve",
  async configureServer(vite) {
    // Tests build on the same configuration without a port to mount anything on.
    if (vite.httpServer === null) return;
    const { createDevServer } = (await vite.ssrLoadModule(ENTRY)) as typeof import("./dev-server.ts");
    mount(vite, await createDevServer(process.env));
  },
});

const mount = (vite: ViteDevServer, { app, greet, close }: DevServer): void => {
  const { httpServer } = vite;
  if (httpServer === null) return;
  vite.middlewares.use((request, response: ServerResponse, next) => {
    app.api(request, response).then((mine) => (mine ? undefined : next()), next);
  });
  httpServer.on("upgrade", (request, socket, head) => app.upgrade(request, socket, head));
  httpServer.once("listening", () => {
    const address = httpServer.address();
    if (address === null || typeof address !== "object") return;
    void greet(address.address, address.port).then((text) => console.info(text));
  });
  httpServer.once("close", () => void close());
};
