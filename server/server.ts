import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import type { CloseCode } from "#shared/protocol/close-codes.ts";
import { createTightrowApp, isOverTls, type ServerParts, type StartLinks } from "./app.ts";
import { whyOf } from "./log.ts";
import { loadStaticFiles } from "./static/static-files.ts";

export type { ServerParts } from "./app.ts";

/** A whole server: sync, API and the built client, on one port. */
export interface TightrowServer {
  /** Rejects with the system's error, e.g. code EADDRINUSE. */
  listen(port: number, host: string): Promise<void>;
  /** Where it listens; null before `listen` and after `close`. */
  readonly address: { readonly host: string; readonly port: number } | null;
  /** Joining links of the demo board; null when there is no demo. */
  startLinks(): Promise<StartLinks | null>;
  /** Sends everybody away, waits until all they sent is on the disk, and stops. Closes with 1012 unless told otherwise. */
  close(code?: CloseCode): Promise<void>;
}

/** How long (ms) a client may take to send a request's head and the whole request. */
const HEAD_TIMEOUT_MS = 15_000;
const REQUEST_TIMEOUT_MS = 30_000;

/** `parts.settings.client` names the folder of the built client. */
export const createTightrowServer = (parts: ServerParts): TightrowServer => {
  const { settings, log } = parts;
  const app = createTightrowApp(parts);
  const files = loadStaticFiles(settings.client, isOverTls(settings));
  // A folder that cannot be read is reported by the requests for it.
  files.catch((error: unknown) => log.error("client-not-read", { why: whyOf(error) }));

  const http = createServer({ headersTimeout: HEAD_TIMEOUT_MS, requestTimeout: REQUEST_TIMEOUT_MS });
  http.on("request", (request, response) => {
    const answered = app.api(request, response).then(async (mine) => {
      if (!mine) await (await files)(request, response);
    });
    answered.catch((error: unknown) => {
      log.error("request-failed", { method: request.method, why: whyOf(error) });
      response.destroy();
    });
  });
  http.on("upgrade", (request, socket, head) => {
    if (!app.upgrade(request, socket, head)) socket.destroy();
  });

  return {
    listen: (port, host) =>
      new Promise((resolve, reject) => {
        http.once("error", reject);
        http.listen(port, host, () => {
          http.removeListener("error", reject);
          resolve();
        });
      }),
    get address() {
      const bound: AddressInfo | string | null = http.address();
      return bound === null || typeof bound === "string" ? null : { host: bound.address, port: bound.port };
    },
    startLinks: app.startLinks,
    async close(code = 1012) {
      const stopped = new Promise<void>((resolve) => http.close(() => resolve()));
      await app.close(code);
      http.closeAllConnections();
      await stopped;
    },
  };
};
