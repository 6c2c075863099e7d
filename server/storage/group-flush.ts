/**
 * Shares one costly flush among all who ask while another one runs.
 * Whoever asks gets a flush that *begins* after the question: one that runs already may have missed their rows.
 */
export const createGroupFlush = (run: () => Promise<void>): (() => Promise<void>) => {
  let running: Promise<void> | null = null;
  let next: Promise<void> | null = null;

  const begin = (): Promise<void> => {
    const mine = run().finally(() => {
      if (running === mine) running = null;
    });
    running = mine;
    return mine;
  };

  return () => {
    if (running === null) return begin();
    next ??= running
      .catch(() => undefined)
      .then(() => {
        next = null;
        return begin();
      });
    return next;
  };
};
