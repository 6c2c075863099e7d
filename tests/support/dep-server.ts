/** The real server with the band of `gigBand` on it, and devices put straight into its tables. */
import * as Y from "yjs";
import { hashSecret, mintId, mintSecret } from "#server/access/tokens.ts";
import type { DeviceRecord } from "#server/storage/board-tables.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { readBoard } from "#shared/document/read/board-reader.ts";
import { type GigBand, gigBand } from "./gig-with-dep.ts";
import { startTestServer, type TestServer, type TestServerOptions } from "./test-server.ts";

export interface DepServer extends TestServer {
  /** A device of the band's board, a dep's for "Harbour night" unless told otherwise; answers its token. */
  readonly device: (details?: Partial<DeviceRecord>) => Promise<string>;
  /** The board as the storage holds it now. */
  readonly stored: () => Promise<ReturnType<typeof readBoard>>;
}

const BOARD = "harbour-board";

/** Makes a board with what `band` holds and a device on it. */
export const startDepServer = async (
  options: TestServerOptions = {},
  band: GigBand = gigBand(),
): Promise<DepServer> => {
  const server = await startTestServer(options);
  const { storage } = server;
  const at = Date.UTC(2031, 4, 6);
  storage.append({
    document: BOARD,
    device: "server",
    member: null,
    at,
    bytes: Y.encodeStateAsUpdate(band.ydoc),
  });
  await storage.addBoard({
    id: BOARD, name: "Six Spare Fuses", demo: false, createdAt: at, retiredAt: null, erasedAt: null,
    document: BOARD, season: 1, recoveryHash: null,
  }); // biome-ignore format: one record
  return {
    ...server,
    device: async (details = {}) => {
      const token = mintSecret();
      await storage.addDevice({
        id: mintId(), board: BOARD, role: "dep", tokenHash: hashSecret(token), memberId: "karim", createdAt: at,
        name: "", lastSeenAt: null, revokedAt: null, expiresAt: null, link: null, gig: "harbour", confirmed: true,
        ...details,
      }); // biome-ignore format: one record
      return token;
    },
    stored: async () => {
      const ydoc = new Y.Doc();
      for (const { bytes } of await storage.load(BOARD)) Y.applyUpdate(ydoc, bytes);
      return readBoard(createBoardDocument(ydoc));
    },
  };
};
