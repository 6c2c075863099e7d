/** Which Yjs client id this device writes a board's changes under: in the browser's local storage, because that is written at once. */
import type { Id } from "#shared/board/ids.ts";
import type { ClientClaim } from "./client-id.ts";

/** A Yjs client and its clock right after the last change this device made under it. */
export interface KnownClient {
  readonly client: number;
  readonly clock: number;
}

export interface ClientMemory {
  readonly read: () => KnownClient | null;
  /** Remembers before it returns, or forgets: an old clock would be worse than none. */
  readonly write: (known: KnownClient) => void;
  readonly forget: () => void;
}

const keyOf = (board: Id): string => `tightrow.client.${board}`;

const isCount = (value: unknown, most: number): value is number =>
  Number.isInteger(value) && (value as number) >= 0 && (value as number) <= most;

/** Yjs draws its client ids from 32 bits. */
const CLIENT_MAX = 0xffff_ffff;

const parse = (text: string | null): KnownClient | null => {
  try {
    const [client, clock]: unknown[] = JSON.parse(text ?? "[]");
    return isCount(client, CLIENT_MAX) && isCount(clock, Number.MAX_SAFE_INTEGER) ? { client, clock } : null;
  } catch {
    return null;
  }
};

/** A board's memory in a storage. Nothing here throws: what cannot be kept is not remembered. */
export const clientMemoryIn = (storage: Storage, board: Id): ClientMemory => {
  const key = keyOf(board);
  const forget = (): void => {
    try {
      storage.removeItem(key);
    } catch {
      // Closed to this page by now. The document's own clock then tells that the memory is old.
    }
  };
  return {
    read: () => {
      try {
        return parse(storage.getItem(key));
      } catch {
        return null;
      }
    },
    write: ({ client, clock }) => {
      try {
        storage.setItem(key, JSON.stringify([client, clock]));
      } catch {
        forget();
      }
    },
    forget,
  };
};

/** Forgets a board's client id together with its local copy. */
export const forgetClient = (board: Id): void => {
  try {
    globalThis.localStorage?.removeItem(keyOf(board));
  } catch {
    // Nothing can be kept where storage is forbidden.
  }
};

/** What this browser has for a board; null where it can promise neither a memory nor that other tabs keep out. */
export const browserClaim = (board: Id): ClientClaim | null => {
  try {
    const storage = globalThis.localStorage;
    const locks = globalThis.navigator?.locks;
    if (!storage || !locks) return null;
    return { memory: clientMemoryIn(storage, board), takeLock: () => takeLock(locks, keyOf(board)) };
  } catch {
    return null;
  }
};

const takeLock = (locks: LockManager, name: string): Promise<(() => void) | null> =>
  new Promise((resolve) => {
    locks
      .request(name, { ifAvailable: true }, (lock) =>
        lock === null ? resolve(null) : new Promise<void>((release) => resolve(release)),
      )
      .catch(() => resolve(null));
  });
