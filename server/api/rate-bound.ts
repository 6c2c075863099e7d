const MINUTE_MS = 60_000;

/** True when the address may try once more now. */
export type RateBound = (address: string) => boolean;

/** At most `perMinute` tries of one address within a minute that begins with its first try. */
export const createRateBound = (perMinute: number, clock: () => number): RateBound => {
  const tries = new Map<string, { readonly since: number; count: number }>();
  let sweptAt = clock();

  const sweep = (now: number): void => {
    if (now - sweptAt < MINUTE_MS) return;
    sweptAt = now;
    for (const [address, { since }] of tries) if (now - since >= MINUTE_MS) tries.delete(address);
  };

  return (address) => {
    const now = clock();
    sweep(now);
    const known = tries.get(address);
    if (known === undefined || now - known.since >= MINUTE_MS) {
      tries.set(address, { since: now, count: 1 });
      return true;
    }
    known.count += 1;
    return known.count <= perMinute;
  };
};
