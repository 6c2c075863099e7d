/** Listeners by key; each is called once per notification, in the order of subscription. */
export interface Listeners<K extends string> {
  readonly subscribe: (key: K, listener: () => void) => () => void;
  readonly notify: (keys: readonly K[]) => void;
}

export const createListeners = <K extends string>(): Listeners<K> => {
  const byKey = new Map<K, Set<() => void>>();
  return {
    subscribe: (key, listener) => {
      const set = byKey.get(key) ?? new Set();
      byKey.set(key, set.add(listener));
      return () => {
        set.delete(listener);
        if (set.size === 0 && byKey.get(key) === set) byKey.delete(key);
      };
    },
    notify: (keys) => {
      const due = new Set<() => void>();
      for (const key of keys) for (const listener of byKey.get(key) ?? []) due.add(listener);
      for (const listener of due) listener();
    },
  };
};
