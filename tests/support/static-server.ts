import { createReadStream, existsSync, statSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { extname, join, normalize } from "node:path";
import { setSecurityHeaders } from "#server/headers.ts";

const TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".webmanifest": "application/manifest+json",
};

export interface StaticServer {
  readonly address: string;
  /** Paths asked for so far. */
  readonly asked: readonly string[];
  readonly close: () => Promise<void>;
}

/** Serves a folder on a free port with the headers of the real server; nothing else. */
export const serveFolder = async (folder: string): Promise<StaticServer> => {
  const asked: string[] = [];
  const server = createServer((request, response) => {
    const { pathname } = new URL(request.url ?? "/", "http://localhost");
    asked.push(pathname);
    const file = join(folder, normalize(pathname === "/" ? "/index.html" : pathname));
    setSecurityHeaders(response, false);
    if (!file.startsWith(folder) || !existsSync(file) || !statSync(file).isFile()) {
      response.writeHead(404).end();
      return;
    }
    response.setHeader("Content-Type", TYPES[extname(file)] ?? "application/octet-stream");
    response.setHeader(
      "Cache-Control",
      pathname.startsWith("/assets/") ? "public, max-age=31536000, immutable" : "no-cache",
    );
    createReadStream(file).pipe(response);
  });
  await new Promise<void>((done) => server.listen(0, "localhost", done));
  return {
    address: `http://localhost:${(server.address() as AddressInfo).port}`,
    asked,
    close: () =>
      new Promise((done) => {
        server.closeAllConnections();
        server.close(() => done());
      }),
  };
};
