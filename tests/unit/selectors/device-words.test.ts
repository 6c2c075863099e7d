import { expect, test } from "vitest";
import type { DeviceInfo, Link } from "#shared/protocol/api.ts";
import { cameIn, deviceName, devicesByPerson, lastHere } from "#shared/selectors/device-words.ts";

const NOW = Date.UTC(2026, 2, 5, 12);
const HOUR = 3_600_000;
const ZONE = "Europe/Lisbon";

const device = (fields: Partial<DeviceInfo>): DeviceInfo => ({
  id: "d",
  role: "member",
  memberId: null,
  name: "Phone, Firefox",
  createdAt: NOW - 48 * HOUR,
  lastSeenAt: null,
  expiresAt: null,
  link: null,
  confirmed: false,
  own: false,
  here: false,
  ...fields,
});

const link: Link = {
  id: "l",
  role: "member",
  label: "for the band",
  createdAt: 0,
  expiresAt: null,
  revokedAt: null,
  maxUses: null,
  uses: 1,
  memberId: null,
  gig: null,
};

test("when a device was last there is said as one says it", () => {
  expect(lastHere(device({ here: true, lastSeenAt: NOW }), NOW, ZONE)).toBe("here now");
  expect(lastHere(device({ lastSeenAt: NOW - HOUR }), NOW, ZONE)).toBe("last here today at 11:00");
  expect(lastHere(device({ lastSeenAt: NOW - 24 * HOUR }), NOW, ZONE)).toBe("last here yesterday at 12:00");
  expect(lastHere(device({ lastSeenAt: NOW - 72 * HOUR }), NOW, ZONE)).toBe("last here on 2 March");
  expect(lastHere(device({}), NOW, ZONE)).toBe("not here yet");
});

test("the link it came in by is named where it is known", () => {
  expect(cameIn(device({ link: "l" }), [link], NOW, ZONE)).toBe(
    "came in on 3 March by: Joining link, for the band",
  );
  expect(cameIn(device({ link: "l" }), [], NOW, ZONE)).toBe("came in on 3 March");
});

test("devices stand with their person in the order of the people, those of nobody last, the latest first", () => {
  const people = new Map([
    ["b", { name: "Bo" }],
    ["a", { name: "Al" }],
  ]);
  const groups = devicesByPerson(
    [
      device({ id: "1" }),
      device({ id: "2", memberId: "a" }),
      device({ id: "3", memberId: "gone" }),
      device({ id: "6", memberId: "gone too" }),
      device({ id: "4", memberId: "b" }),
      device({ id: "5", memberId: "a" }),
    ],
    people,
  );
  expect(groups.map(({ name, devices }) => [name, devices.map(({ id }) => id).join()])).toEqual([
    ["Bo", "4"],
    ["Al", "5,2"],
    ["Somebody who is not on the board any more", "6,3"],
    ["Nobody has picked a name on these", "1"],
  ]);
});

test("a device without a name has words of its own", () => {
  expect(deviceName(device({ name: " " }))).toBe("A device without a name");
});
