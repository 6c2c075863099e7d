import { expect, test } from "vitest";
import { linkMessage, linkState, onlyHere } from "#shared/selectors/link-words.ts";

const BAND = { name: "Six Spare Fuses", address: "https://board.example/#/join/b/s" };

test("the message carries the address on a line of its own and says until when it lets people in", () => {
  const lines = linkMessage({ ...BAND, role: "member", lastDay: "2026-04-04" }).split("\n");
  expect(lines[1]).toBe(BAND.address);
  expect(lines[2]).toMatch(/pick your name.*The link works until 4 April\.$/);
  expect(linkMessage({ ...BAND, role: "member", lastDay: null })).not.toContain("until");
});

test("whoever only looks is not asked to pick a name", () => {
  expect(linkMessage({ ...BAND, role: "guest", lastDay: null })).not.toContain("name");
});

test("a link is open until the moment it ends, and withdrawn for good", () => {
  expect(linkState({ revokedAt: null, expiresAt: null }, 5)).toBe("open");
  expect(linkState({ revokedAt: null, expiresAt: 6 }, 5)).toBe("open");
  expect(linkState({ revokedAt: null, expiresAt: 5 }, 5)).toBe("expired");
  expect(linkState({ revokedAt: 1, expiresAt: 6 }, 5)).toBe("withdrawn");
});

// Loopback names and addresses: RFC 6761, section 6.3; RFC 1122, section 3.2.1.3 (127.0.0.0/8); RFC 4291, section 2.5.3 (::1).
test.each([
  ["http://localhost:4400", true],
  ["http://127.0.0.1:4400", true],
  ["http://127.8.4.2", true],
  ["http://[::1]:4400", true],
  ["http://192.168.1.20:4400", false],
  ["https://board.example", false],
  ["https://localhost.example", false],
])("%s opens on this device only: %s", (origin, only) => {
  expect(onlyHere(origin)).toBe(only);
});
