/** The little of IndexedDB we need, as promises. */

/** How long (ms) a browser may take to open a database; some never answer. */
const OPEN_MS = 5000;

/** The browser took too long: nothing is known to be broken. */
export class NoAnswer extends Error {
  override readonly name = "NoAnswer";
}

/** Settles with `work`, or rejects with NoAnswer after `ms`. */
export const within = async <T>(ms: number, work: Promise<T>): Promise<T> => {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new NoAnswer(`No answer within ${ms} ms`)), ms);
  });
  try {
    return await Promise.race([work, late]);
  } finally {
    clearTimeout(timer);
  }
};

export const settled = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });

/**
 * Opens a database whose first version `create` lays out. Rejects where the browser forbids or breaks it; with NoAnswer
 * where it takes too long.
 */
export const openDatabase = (name: string, create: (db: IDBDatabase) => void): Promise<IDBDatabase> => {
  const opened = new Promise<IDBDatabase>((resolve, reject) => {
    const request = indexedDB.open(name, 1);
    request.onupgradeneeded = () => create(request.result);
    request.onsuccess = () => {
      // Otherwise this tab would keep another from deleting the database.
      request.result.onversionchange = () => request.result.close();
      resolve(request.result);
    };
    request.onerror = () => reject(request.error);
  });
  return within(OPEN_MS, opened);
};

/** Calls back when the browser, or another page, takes this database away while it is open. */
export const onTakenAway = (db: IDBDatabase, listener: () => void): void => {
  db.addEventListener("versionchange", listener);
  db.addEventListener("close", listener);
};

export const deleteDatabase = (name: string): Promise<unknown> =>
  within(OPEN_MS, settled(indexedDB.deleteDatabase(name)));

/** Runs `work` in one writing transaction; resolves when it is stored. */
export const store = (
  db: IDBDatabase,
  name: string,
  work: (objects: IDBObjectStore) => void,
): Promise<void> =>
  new Promise((resolve, reject) => {
    const transaction = db.transaction(name, "readwrite");
    transaction.oncomplete = () => resolve();
    transaction.onabort = () => reject(transaction.error);
    transaction.onerror = () => reject(transaction.error);
    work(transaction.objectStore(name));
  });
