import { isLoopback } from "../api/client-address.ts";

export interface GateBounds {
  readonly connections: number;
  readonly boardConnections: number;
  readonly addressConnections: number;
}

/** Counts connections before anything is read for them. */
export interface ConnectionGate {
  /** Answers what to call when the connection is gone; null when there are too many. */
  enter(address: string, document: string): (() => void) | null;
}

/** Connections of this machine are counted by board and in all, not by address: they may be a proxy's. */
export const createConnectionGate = (bounds: GateBounds): ConnectionGate => {
  let all = 0;
  const byAddress = new Map<string, number>();
  const byDocument = new Map<string, number>();

  const change = (counts: Map<string, number>, key: string, by: number): void => {
    const count = (counts.get(key) ?? 0) + by;
    if (count > 0) counts.set(key, count);
    else counts.delete(key);
  };

  return {
    enter(address, document) {
      const full =
        all >= bounds.connections ||
        (byDocument.get(document) ?? 0) >= bounds.boardConnections ||
        (!isLoopback(address) && (byAddress.get(address) ?? 0) >= bounds.addressConnections);
      if (full) return null;
      const count = (by: number): void => {
        all += by;
        change(byAddress, address, by);
        change(byDocument, document, by);
      };
      count(1);
      let inside = true;
      return () => {
        if (inside) count(-1);
        inside = false;
      };
    },
  };
};
