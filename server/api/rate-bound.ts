import { isIPv6 } from "node:net";
import { createSteadyClock } from "../steady-clock.ts";

const MINUTE_MS = 60_000;

/** True when whoever this names, an address or a token's hash, may try once more now. */
export type RateBound = (who: string) => boolean;

/** At most `perMinute` tries of one address (or name) within a minute that begins with its first try. */
export const createRateBound = (perMinute: number, clock: () => number): RateBound => {
  const tries = new Map<string, { readonly since: number; count: number }>();
  // On a clock that is set back by a year, everybody's minute would last a year.
  const elapsed = createSteadyClock(clock);
  let sweptAt = elapsed();

  const sweep = (now: number): void => {
    if (now - sweptAt < MINUTE_MS) return;
    sweptAt = now;
    for (const [address, { since }] of tries) if (now - since >= MINUTE_MS) tries.delete(address);
  };

  return (who) => {
    const address = neighbourhood(who);
    const now = elapsed();
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

/**
 * Who counts as one: an IPv6 host can take any address of its network's last 64 bits (RFC 4291, section 2.5.1), so the
 * first 64 count. An IPv4 address in IPv6 form (`::ffff:192.0.2.1`) stays itself.
 */
export const neighbourhood = (address: string): string => {
  if (!isIPv6(address) || address.includes(".")) return address;
  const [head = "", tail] = address.split("%", 1)[0]?.split("::") ?? [];
  const groups = (text: string): string[] => (text === "" ? [] : text.split(":"));
  const [before, after] = [groups(head), groups(tail ?? "")];
  const zeros = tail === undefined ? 0 : 8 - before.length - after.length;
  const all = [...before, ...Array<string>(zeros).fill("0"), ...after];
  return `${all
    .slice(0, 4)
    .map((group) => Number.parseInt(group, 16).toString(16))
    .join(":")}::/64`;
};
