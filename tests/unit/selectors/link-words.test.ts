import { expect, test } from "vitest";
import { linkMessage, linkState, linkUses, onlyHere } from "#shared/selectors/link-words.ts";

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

test("a personal link's message names its person and does not ask for a name", () => {
  const text = linkMessage({ ...BAND, role: "member", lastDay: null, person: "Lucía Borrasco" });
  expect(text).toContain("For Lucía Borrasco: open it on your phone and mark");
  expect(text).not.toContain("pick your name");
});

test("a dep's message speaks of the gig and of what they can say", () => {
  const text = linkMessage({ ...BAND, role: "dep", lastDay: "2026-04-04", person: "Karim Belhossat" });
  expect(text.split("\n")[1]).toBe(BAND.address);
  expect(text).toMatch(/^Karim Belhossat, here is your gig with Six Spare Fuses:/);
  expect(text).toMatch(/Got it.*until 4 April\.$/);
});

test("a link is open until the moment it ends or its uses are gone, and withdrawn for good", () => {
  const any = { maxUses: null, uses: 7 };
  expect(linkState({ revokedAt: null, expiresAt: null, ...any }, 5)).toBe("open");
  expect(linkState({ revokedAt: null, expiresAt: 6, ...any }, 5)).toBe("open");
  expect(linkState({ revokedAt: null, expiresAt: 5, ...any }, 5)).toBe("expired");
  expect(linkState({ revokedAt: 1, expiresAt: 6, ...any }, 5)).toBe("withdrawn");
  expect(linkState({ revokedAt: null, expiresAt: 6, maxUses: 2, uses: 1 }, 5)).toBe("open");
  expect(linkState({ revokedAt: null, expiresAt: 6, maxUses: 2, uses: 2 }, 5)).toBe("used up");
});

test.each([
  [5, 2, "used 2 of 5"],
  [null, 0, "not used yet"],
  [null, 1, "used once"],
  [null, 3, "used 3 times"],
  [1, 0, "for one device, not used yet"],
  [1, 1, "for one device, used"],
])("a link for %s devices that %s came in by is %s", (maxUses, uses, words) => {
  expect(linkUses({ maxUses, uses })).toBe(words);
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
