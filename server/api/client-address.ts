import type { IncomingMessage } from "node:http";

/** Which header of a proxy on this machine is believed: one only, as it passes on what a caller puts in the other. */
export const TRUSTED_HEADERS = ["off", "forwarded", "x-forwarded-for"] as const;

export type TrustedHeader = (typeof TRUSTED_HEADERS)[number];

/** The caller's network address as bounds count it: an IPv4 address, or the first half of an IPv6 address. */
export type AddressOf = (request: IncomingMessage) => string;

/**
 * Behind a proxy on this machine every socket comes from loopback, and the header's last entry, which that proxy wrote,
 * names the caller: `Forwarded` (RFC 7239, section 5.2) or `X-Forwarded-For` (common practice, no published source).
 */
export const createAddressOf =
  (trusted: TrustedHeader): AddressOf =>
  (request) => {
    const remote = plain(request.socket.remoteAddress ?? "unknown");
    if (trusted === "off" || !isLoopback(remote)) return counted(remote);
    const named = trusted === "forwarded" ? lastFor(request) : lastOf(request.headers["x-forwarded-for"]);
    return named === null ? remote : counted(plain(named));
  };

export const isLoopback = (address: string): boolean => address === "::1" || address.startsWith("127.");

/** True when a request comes from this machine, and no proxy says that it passes it on for somebody else. */
export const isFromHere = ({ socket, headers }: IncomingMessage): boolean =>
  isLoopback(plain(socket.remoteAddress ?? "")) &&
  headers.forwarded === undefined &&
  headers["x-forwarded-for"] === undefined &&
  headers.via === undefined;

const LONGEST = 64;

const lastOf = (header: string | string[] | undefined): string | null => {
  const last = (Array.isArray(header) ? header.join(",") : (header ?? "")).split(",").at(-1)?.trim() ?? "";
  return last === "" ? null : last.slice(0, LONGEST);
};

const lastFor = ({ headers }: IncomingMessage): string | null => {
  const last = lastOf(headers.forwarded);
  return (
    /(?:^|;)\s*for\s*=\s*(?:"([^"]*)"|([^;\s]*))/i
      .exec(last ?? "")
      ?.slice(1)
      .find(Boolean) ?? null
  );
};

/** Without port, brackets and the prefix of IPv4 addresses written as IPv6 (RFC 4291, section 2.5.5.2). */
const plain = (address: string): string =>
  address
    .toLowerCase()
    .replace(/^\[([^\]]*)\](?::\d+)?$/, "$1")
    .replace(/^(\d+\.\d+\.\d+\.\d+):\d+$/, "$1")
    .replace(/^::ffff:(?=\d+\.)/, "");

/** A household or phone has the whole second half of an IPv6 address to choose from (RFC 4291, section 2.5.4). */
const counted = (address: string): string => {
  if (!address.includes(":") || isLoopback(address)) return address;
  const [before = "", after] = address.split("::");
  const groups = before === "" ? [] : before.split(":");
  const rest = after === undefined || after === "" ? [] : after.split(":");
  const gap = after === undefined ? 0 : Math.max(0, 8 - groups.length - rest.length);
  return [...groups, ...new Array<string>(gap).fill("0"), ...rest].slice(0, 4).join(":");
};
