import type { NetworkInterfaceInfo } from "node:os";

export interface Addresses {
  /** Origin for a browser on this machine. */
  readonly here: string;
  /** Origins for devices in the same network, likeliest first; empty when the server keeps to this machine. */
  readonly network: readonly string[];
}

type Interfaces = Readonly<Record<string, readonly NetworkInterfaceInfo[] | undefined>>;

/**
 * Where people find a server that listens on `host`:`port`. A public origin stands for all. `interfaces` is what the
 * system's networkInterfaces() answers.
 */
export const addressesOf = (
  host: string,
  port: number,
  publicUrl: string | null,
  interfaces: Interfaces,
): Addresses => {
  if (publicUrl !== null) return { here: publicUrl, network: [publicUrl] };
  if (isLoopback(host)) return { here: `http://${bracketed(host)}:${port}`, network: [] };
  if (!isWildcard(host))
    return { here: `http://${bracketed(host)}:${port}`, network: [`http://${bracketed(host)}:${port}`] };
  const found = Object.values(interfaces)
    .flatMap((addresses) => addresses ?? [])
    .filter(({ family, internal, address }) => family === "IPv4" && !internal && !isLinkLocal(address))
    .map(({ address }) => address)
    .sort((a, b) => Number(isPrivate(b)) - Number(isPrivate(a)));
  return { here: `http://localhost:${port}`, network: found.map((address) => `http://${address}:${port}`) };
};

const isWildcard = (host: string): boolean => host === "0.0.0.0" || host === "::" || host === "";

const isLoopback = (host: string): boolean =>
  host === "localhost" || host === "::1" || host.startsWith("127.");

const bracketed = (host: string): string => (host.includes(":") ? `[${host}]` : host);

/** Private use, RFC 1918: what a router hands out at home and in a rehearsal room. */
const isPrivate = (address: string): boolean => /^(10\.|192\.168\.|172\.(1[6-9]|2\d|3[01])\.)/.test(address);

/** RFC 3927: an address a machine gave itself because nobody else did. */
const isLinkLocal = (address: string): boolean => address.startsWith("169.254.");
