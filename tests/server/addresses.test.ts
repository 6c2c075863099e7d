import type { NetworkInterfaceInfo } from "node:os";
import { expect, test } from "vitest";
import { addressesOf } from "#server/start/addresses.ts";
import { greeting } from "#server/start/greeting.ts";

const at = (address: string, internal = false): NetworkInterfaceInfo =>
  ({
    address,
    internal,
    family: address.includes(":") ? "IPv6" : "IPv4",
    netmask: "255.255.255.0",
    mac: "00:00:5e:00:53:01",
    cidr: null,
    ...(address.includes(":") ? { scopeid: 0 } : {}),
  }) as NetworkInterfaceInfo;

// RFC 5737 and RFC 1918: addresses for documentation, and for private networks.
const INTERFACES = {
  lo: [at("127.0.0.1", true), at("::1", true)],
  uplink: [at("203.0.113.9"), at("fe80::1")],
  wifi: [at("192.168.1.20"), at("169.254.7.7")],
};

const LINK = { id: "l", board: "b1", secret: "s3cret", role: "member" } as const;
const LINKS = { leader: { ...LINK, role: "leader", secret: "l3ader" }, member: LINK } as const;

test("a server open to the network names this machine first, then what phones can reach, private networks before others", () => {
  expect(addressesOf("0.0.0.0", 4400, null, INTERFACES)).toEqual({
    here: "http://localhost:4400",
    network: ["http://192.168.1.20:4400", "http://203.0.113.9:4400"],
  });
});

test("a server that keeps to this machine names no network", () => {
  for (const host of ["127.0.0.1", "localhost", "::1"])
    expect(addressesOf(host, 4400, null, INTERFACES).network).toEqual([]);
  expect(addressesOf("::1", 4400, null, INTERFACES).here).toBe("http://[::1]:4400");
});

test("a public origin stands for all addresses", () => {
  const origin = "https://board.example.org";
  expect(addressesOf("0.0.0.0", 4400, origin, INTERFACES)).toEqual({ here: origin, network: [origin] });
});

test("the greeting has both links, the phone's one also as a code, and says who can reach the server", () => {
  const text = greeting(addressesOf("0.0.0.0", 4400, null, INTERFACES), LINKS);
  expect(text).toContain("http://localhost:4400/#/join/b1/l3ader");
  expect(text).toContain("http://192.168.1.20:4400/#/join/b1/s3cret");
  expect(text).toContain("Everybody in this network can reach it");
  // ISO/IEC 18004: 41 bytes fit into version 3 at level L (53 bytes), which has 29 modules; with a quiet zone of 4.
  const code = text.split("\n").filter((line) => /^[█▀▄ ]{30,}$/.test(line));
  expect(code[0]).toHaveLength(29 + 8);
  expect(code).toHaveLength(Math.ceil((29 + 8) / 2));
});

test("the greeting prints no link where there is no demo", () => {
  const text = greeting(addressesOf("127.0.0.1", 4400, null, INTERFACES), null);
  expect(text).not.toContain("#/join");
  expect(text).toContain("http://127.0.0.1:4400");
  expect(text).toContain("TIGHTROW_HOST=0.0.0.0");
});
