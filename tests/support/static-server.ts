import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { loadStaticFiles } from "#server/static/static-files.ts";

export interface StaticServer {
  readonly address: string;
  /** Paths asked for so far. */
  readonly asked: readonly string[];
  /** Reads the folder anew, as a server started after an update would. */
  readonly reload: () => Promise<void>;
  readonly close: () => Promise<void>;
}

/** Serves a folder on a free port as the real server serves the client, and nothing else. */
export const serveFolder = async (folder: string): Promise<StaticServer> => {
  const asked: string[] = [];
  let files = await loadStaticFiles(folder, false);
  const server = createServer((request, response) => {
    asked.push(request.url ?? "");
    void files(request, response);
  });
  await new Promise<void>((done) => server.listen(0, "localhost", done));
  return {
    address: `http://localhost:${(server.address() as AddressInfo).port}`,
    asked,
    reload: async () => {
      files = await loadStaticFiles(folder, false);
    },
    close: () =>
      new Promise((done) => {
        server.closeAllConnections();
        server.close(() => done());
      }),
  };
};
