/** How each peer wants to be spoken to; everything else is y-protocols' sync. */
import { offeredSubprotocols } from "#shared/protocol/version.ts";

export interface Dialect {
  /** Where a client of this board connects; `origin` is `ws://host:port`. */
  readonly address: (origin: string, board: string) => string;
  readonly subprotocols: readonly string[];
  /** Every frame begins with the board's name, and the first one carries a token. */
  readonly named: boolean;
  /** False = frames are only passed on: clients must bring the board along. */
  readonly keepsDocuments: boolean;
  /** What says that a change is safe: a state vector, one frame for each change in order, or nothing. */
  readonly acknowledges: "state-vector" | "in-order" | "never";
}

const plain = {
  address: (origin: string, board: string) => `${origin}/${board}`,
  subprotocols: [],
  named: false,
} as const;

export const FLOOR: Dialect = { ...plain, keepsDocuments: false, acknowledges: "never" };
export const PLAIN: Dialect = { ...plain, keepsDocuments: true, acknowledges: "never" };
export const NAMED: Dialect = {
  ...plain,
  address: (origin) => origin,
  named: true,
  keepsDocuments: true,
  acknowledges: "in-order",
};
export const TIGHTROW: Dialect = {
  ...plain,
  address: (origin, board) => `${origin}/sync/${board}`,
  subprotocols: offeredSubprotocols("leader"),
  keepsDocuments: true,
  acknowledges: "state-vector",
};
