/**
 * The first number of every frame on the wire.
 * 0 to 3 are those of y-protocols and y-websocket; 120 and up are ours, far away from numbers they may add.
 *
 *     sync             [varuint 0][varuint step][varuint length][bytes]
 *     awareness        [varuint 1][varuint length][awareness update]
 *     queryAwareness   [varuint 3]
 *     acknowledgement  [varuint 120][encoded state vector: the rest of the frame]
 *     durableQuery     [varuint 121][varuint n][n × varuint client id]
 *
 * An acknowledgement says: of these clients, everything below these clocks is on the server's disk. It names the
 * clients whose changes this connection sent since the last acknowledgement, or asked about by a durable query.
 */
export const MESSAGE = {
  sync: 0,
  awareness: 1,
  auth: 2,
  queryAwareness: 3,
  acknowledgement: 120,
  durableQuery: 121,
} as const;

/** Second number of a sync frame. */
export const SYNC_STEP = { stateVector: 0, missing: 1, update: 2 } as const;

/** Most client ids one durable query may name. */
export const DURABLE_QUERY_MAX = 4096;
