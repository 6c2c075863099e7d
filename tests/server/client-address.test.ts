import type { IncomingMessage } from "node:http";
import { expect, test } from "vitest";
import { createAddressOf, isFromHere, type TrustedHeader } from "#server/api/client-address.ts";

const request = (remoteAddress: string | undefined, headers: Record<string, string> = {}): IncomingMessage =>
  ({ socket: { remoteAddress }, headers }) as unknown as IncomingMessage;

const addressOf = (trusted: TrustedHeader, remote: string, headers: Record<string, string> = {}): string =>
  createAddressOf(trusted)(request(remote, headers));

test("without a trusted proxy the socket's address counts, whatever headers say", () => {
  const headers = { "x-forwarded-for": "203.0.113.9", forwarded: "for=203.0.113.9" };
  expect(addressOf("off", "127.0.0.1", headers)).toBe("127.0.0.1");
  expect(addressOf("off", "::ffff:192.0.2.7", headers)).toBe("192.0.2.7");
});

test("[SRV-6] a proxy on this machine is believed by its last entry in the one header that was chosen", () => {
  const headers = { "x-forwarded-for": "198.51.100.1, 203.0.113.9", forwarded: "for=192.0.2.60" };
  expect(addressOf("x-forwarded-for", "127.0.0.1", headers)).toBe("203.0.113.9");
  expect(addressOf("x-forwarded-for", "::1", headers)).toBe("203.0.113.9");
  expect(addressOf("forwarded", "::ffff:127.0.0.1", headers)).toBe("192.0.2.60");
});

test("[SRV-6] nobody but a proxy on this machine is believed", () => {
  const headers = { "x-forwarded-for": "203.0.113.9", forwarded: "for=203.0.113.9" };
  expect(addressOf("x-forwarded-for", "198.51.100.1", headers)).toBe("198.51.100.1");
  expect(addressOf("forwarded", "198.51.100.1", headers)).toBe("198.51.100.1");
});

test("the forms of RFC 7239 (sections 4 and 6) are read", () => {
  const named = (forwarded: string): string => addressOf("forwarded", "127.0.0.1", { forwarded });
  // The RFC's own examples.
  expect(named('for="_gazonk"')).toBe("_gazonk");
  expect(named('For="[2001:db8:cafe::17]:4711"')).toBe("2001:db8:cafe:0");
  expect(named("for=192.0.2.60;proto=http;by=203.0.113.43")).toBe("192.0.2.60");
  expect(named("for=192.0.2.43, for=198.51.100.17")).toBe("198.51.100.17");
  expect(named('for="192.0.2.43:47011"')).toBe("192.0.2.43");
  expect(named("proto=https;for=192.0.2.60")).toBe("192.0.2.60");
  expect(named("proto=https")).toBe("127.0.0.1");
  expect(named("")).toBe("127.0.0.1");
});

test("an IPv6 address counts by its first half, which is what one household has", () => {
  const half = (address: string): string => addressOf("off", address);
  expect(half("2001:db8:1:2:aaaa:bbbb:cccc:dddd")).toBe("2001:db8:1:2");
  expect(half("2001:db8:1:2::1")).toBe("2001:db8:1:2");
  expect(half("2001:db8::1")).toBe("2001:db8:0:0");
  expect(half("::1")).toBe("::1");
});

test("a request counts as this machine's own only when no proxy passed it on", () => {
  expect(isFromHere(request("127.0.0.1"))).toBe(true);
  expect(isFromHere(request("::ffff:127.0.0.1"))).toBe(true);
  expect(isFromHere(request("192.0.2.7"))).toBe(false);
  expect(isFromHere(request(undefined))).toBe(false);
  for (const header of ["forwarded", "x-forwarded-for", "via"])
    expect(isFromHere(request("127.0.0.1", { [header]: "for=192.0.2.7" }))).toBe(false);
});
