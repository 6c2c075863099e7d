/** WebSocket subprotocol of this version; the only one the server ever echoes. */
export const SUBPROTOCOL = "tightrow.v1";

/** Marks the offered subprotocol that carries the device's token; never echoed. */
const TOKEN_PREFIX = "token.";

/** Path of the sync socket; the board's id follows. */
export const SYNC_PATH = "/sync/";

/** What a client offers when it opens the socket: the version, then its token. */
export const offeredSubprotocols = (token: string): string[] => [SUBPROTOCOL, TOKEN_PREFIX + token];

/** The token among the offered subprotocols; null when there is none. */
export const tokenAmong = (offered: Iterable<string>): string | null => {
  for (const name of offered) if (name.startsWith(TOKEN_PREFIX)) return name.slice(TOKEN_PREFIX.length);
  return null;
};

/** Name of the one Trusted Types policy the page may create; it makes the service worker's address. */
export const WORKER_POLICY = "tightrow-worker";
