/** Runs what has one key one after another, in the order of the calls; other keys go their own way. */
export type InTurn = <T>(key: string, run: () => Promise<T>) => Promise<T>;

export const createInTurn = (): InTurn => {
  const last = new Map<string, Promise<unknown>>();
  return (key, run) => {
    const mine = (last.get(key) ?? Promise.resolve()).then(run, run);
    const settled = mine
      .catch(() => undefined)
      .then(() => {
        if (last.get(key) === settled) last.delete(key);
      });
    last.set(key, settled);
    return mine;
  };
};
